/** Turns of a worker, one at a time: messages to itself, which unlike timers are not held back. */
export function turns(): (turn: () => void) => void {
  const { port1, port2 } = new MessageChannel();
  let next: (() => void) | null = null;
  port1.onmessage = () => {
    const turn = next;
    next = null;
    turn?.();
  };
  return (turn) => {
    next = turn;
    port2.postMessage(null);
  };
}
