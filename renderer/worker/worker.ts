import { serveEngine, type WorkerChannel } from './engine';

/** Entry of the worker. Turns are messages to itself: unlike timers they are not held back. */
const turns = new MessageChannel();
let next: (() => void) | null = null;
turns.port1.onmessage = () => {
  const turn = next;
  next = null;
  turn?.();
};

serveEngine(self as unknown as WorkerChannel, (turn) => {
  next = turn;
  turns.port2.postMessage(null);
});
