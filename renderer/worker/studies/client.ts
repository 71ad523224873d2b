import type { Progress } from '@core/engine/in-slices';
import type { StudyPort, Told } from '../../store/connections';
import type { FromStudies, Partly, StudyKind, ToStudies } from './protocol';

/** The part of a MessagePort or Worker that is needed; a test gives one end of a MessageChannel. */
export interface StudyChannel {
  postMessage(message: ToStudies): void;
  onmessage: ((event: MessageEvent<FromStudies>) => void) | null;
  /** Of a worker: its program was not found, or fell. */
  onerror?: ((event: ErrorEvent) => void) | null;
}

/** A channel to a worker that is made when the first question is asked: at the start others have more to do. */
export function onFirstUse(make: () => StudyChannel): StudyChannel {
  let made: StudyChannel | null = null;
  const channel: StudyChannel = {
    postMessage(message) {
      if (made === null) {
        made = make();
        made.onmessage = (event) => channel.onmessage?.(event);
        made.onerror = (event) => channel.onerror?.(event);
      }
      made.postMessage(message);
    },
    onmessage: null,
    onerror: null,
  };
  return channel;
}

interface Waiting {
  readonly kind: StudyKind;
  readonly told: (told: Told<StudyKind>) => void;
  readonly going?: ((progress: Progress, partial?: Partly<StudyKind>) => void) | undefined;
}

/** The window's end of the channel. Of each kind the newest question counts: it takes back the one before. */
export function studiesOver(channel: StudyChannel): StudyPort {
  const waiting = new Map<number, Waiting>();
  let asked = 0;
  const tell = (ask: number, told: Told<StudyKind>): void => {
    const question = waiting.get(ask);
    waiting.delete(ask);
    question?.told(told);
  };
  const drop = (ask: number): void => {
    if (waiting.delete(ask)) channel.postMessage({ type: 'drop', ask });
  };
  channel.onmessage = ({ data }) => {
    if (data.type === 'studying') waiting.get(data.ask)?.going?.(data.progress, data.partial);
    else
      tell(data.ask, data.type === 'studied' ? { ok: true, gives: data.gives } : { ok: false, message: data.message });
  };
  channel.onerror = ({ message }) => {
    for (const ask of [...waiting.keys()]) tell(ask, { ok: false, message: message || 'the worker did not start' });
  };
  return {
    study(kind, from, told, going) {
      for (const [ask, question] of waiting) if (question.kind === kind) drop(ask);
      asked += 1;
      const ask = asked;
      // The channel knows questions by their count alone: what comes back for this one is of its kind.
      waiting.set(ask, { kind, told: told as Waiting['told'], going: going as Waiting['going'] });
      try {
        channel.postMessage({ type: 'study', ask, kind, from } as ToStudies);
      } catch (error) {
        // Not plain data: a fault of the program like any other.
        tell(ask, { ok: false, message: error instanceof Error ? error.message : String(error) });
      }
      return () => drop(ask);
    },
  };
}
