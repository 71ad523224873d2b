import type { FromStudies, ToStudies } from './protocol';
import { studyWork } from './work';

/** The worker's end of the channel; a test gives one end of a MessageChannel. */
export interface StudyChannel {
  postMessage(message: FromStudies): void;
  onmessage: ((event: MessageEvent<ToStudies>) => void) | null;
}

type Asked = Extract<ToStudies, { type: 'study' }>;

/** Works on all questions that are open, a slice of each in turn: a long one holds up no short one. */
export function serveStudies(channel: StudyChannel, nextTurn: (turn: () => void) => void): void {
  const workOn = studyWork();
  /** In the order in which they are taken up next. */
  const open = new Map<number, ReturnType<typeof workOn>>();
  let planned = false;

  const plan = (): void => {
    if (planned || open.size === 0) return;
    planned = true;
    nextTurn(() => {
      planned = false;
      const [first] = open;
      if (first) slice(...first);
      plan();
    });
  };

  const slice = (ask: number, work: ReturnType<typeof workOn>): void => {
    open.delete(ask);
    try {
      const step = work.next();
      if (step.done) channel.postMessage({ type: 'studied', ask, gives: step.value });
      else {
        open.set(ask, work);
        if (step.value) channel.postMessage({ type: 'studying', ask, ...step.value });
      }
    } catch (error) {
      channel.postMessage({ type: 'failed', ask, message: error instanceof Error ? error.message : String(error) });
    }
  };

  const take = (message: Asked): void => {
    open.set(message.ask, workOn(message));
    plan();
  };

  channel.onmessage = ({ data }) => {
    if (data.type === 'study') take(data);
    else open.delete(data.ask);
  };
}
