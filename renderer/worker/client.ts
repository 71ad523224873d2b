import type { Progress } from '@core/engine/in-slices';
import type { Report } from '@core/engine/report';
import type { NextReading } from '@core/rules/next-reading';
import type { EnginePort, QuestionPort, RunPort, Tried } from '../store/connections';
import { changed, type Delta, type FromWorker, type ToWorker } from './protocol';

export interface EngineListener {
  report(sent: number, report: Report): void;
  rests(sent: number): void;
  delta(seq: number, delta: Delta): void;
  progress(ask: number, progress: Progress): void;
  answer(ask: number, readings: readonly NextReading[]): void;
  crashed(message: string): void;
}

/** The part of a MessagePort or Worker that is needed; a test gives one end of a MessageChannel. */
export interface Channel {
  postMessage(message: ToWorker): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
}

/** The window's end of the channel. The last report is kept, since every report is told as a change of the one before. */
export function engineOver(channel: Channel, listener: EngineListener): EnginePort & QuestionPort & RunPort {
  let last: Report | null = null;
  let trials = 0;
  let trying: ((run: Tried) => void) | null = null;
  channel.onmessage = ({ data }) => {
    switch (data.type) {
      case 'report':
        last = changed(last, data.change);
        listener.report(data.sent, last);
        break;
      case 'rests':
        listener.rests(data.sent);
        break;
      case 'delta':
        listener.delta(data.seq, data.delta);
        break;
      case 'asking':
        listener.progress(data.ask, data.progress);
        break;
      case 'answer':
        listener.answer(data.ask, data.readings);
        break;
      case 'tried': {
        const told = data.trial === trials ? trying : null;
        if (told) trying = null;
        told?.(data.run);
        break;
      }
      case 'crashed':
        trying?.('failed');
        trying = null;
        listener.crashed(data.message);
        break;
    }
  };
  return {
    open: (sent, boat) => channel.postMessage({ type: 'open', sent, boat }),
    edit: (sent, patches) => channel.postMessage({ type: 'edit', sent, patches }),
    whatIf: (seq, places, pulled = {}) => channel.postMessage({ type: 'whatIf', seq, places, pulled }),
    trial(lineId, patches, told) {
      trials += 1;
      trying = told;
      channel.postMessage({ type: 'trial', trial: trials, lineId, patches });
    },
    endWhatIf: () => channel.postMessage({ type: 'endWhatIf' }),
    ask: (ask, most) => channel.postMessage({ type: 'ask', ask, question: { kind: 'nextReadings', most } }),
    dropAsk: () => channel.postMessage({ type: 'dropAsk' }),
  };
}
