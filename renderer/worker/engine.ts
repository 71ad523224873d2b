import { type Patch, poseOf } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { InSlices } from '@core/engine/in-slices';
import type { Report, RunReport } from '@core/engine/report';
import { Session } from '@core/engine/session';
import type { NextReading } from '@core/rules/next-reading';
import { changeBetween, type FromWorker, type ToWorker } from './protocol';

/** The worker's end of the channel; a test gives one end of a MessageChannel. */
export interface WorkerChannel {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
}

/** Steps of a what-if that nobody sees, right after opening: the first real drag then finds the code compiled. */
const WARMING_STEPS = 4;

/**
 * Owns the boat. Messages are only noted when they come; the work is done in turns between them, so that of several steps of
 * a drag that wait only the newest is answered. One turn is one settled answer or one piece of news.
 */
export function serveEngine(channel: WorkerChannel, nextTurn: (turn: () => void) => void): void {
  let session: Session | null = null;
  /** Judged ahead of being opened. */
  let foreseen: Session | null = null;
  let last: Report | null = null;
  /** A settled answer is owed for this count of what was sent. */
  let owed: number | null = null;
  /** The count that was answered last. What deeper tries find of that boat is told as another answer to the same count. */
  let answered = 0;
  let deepening = false;
  let wished: Extract<ToWorker, { type: 'whatIf' }> | null = null;
  let afterTrial = false;
  let trial: Extract<ToWorker, { type: 'trial' }> | null = null;
  /** The work begins once the checks are settled: it builds on them. */
  let asked: { readonly ask: number; readonly most: number; work: InSlices<readonly NextReading[]> | null } | null =
    null;
  let dragging = false;
  /** From the first step of a drag to its end: deeper tries would end it. */
  let inHand = false;
  let warmed = false;
  let planned = false;

  const plan = (): void => {
    if (planned) return;
    planned = true;
    nextTurn(() => {
      planned = false;
      guarded(turn);
    });
  };

  const guarded = (work: () => void): void => {
    try {
      work();
    } catch (error) {
      dragging = false;
      deepening = false;
      asked = null;
      channel.postMessage({ type: 'crashed', message: error instanceof Error ? error.message : String(error) });
    }
  };

  const turn = (): void => {
    if (!session) return;
    if (owed !== null) {
      const sent = owed;
      owed = null;
      dragging = false;
      inHand = false;
      answered = sent;
      const report = session.settled();
      const known = session.deepen(0);
      deepening = !known.done;
      told(known.report ?? report);
      if (known.done) channel.postMessage({ type: 'rests', sent: answered });
    } else if (trial) {
      const { trial: number, lineId, patches } = trial;
      trial = null;
      inHand = false;
      channel.postMessage({ type: 'tried', trial: number, run: runAfter(session, lineId, patches) });
      // Nothing is looked up of the boat as it was before it is known which of the two stands: the edit, or `endWhatIf`.
      deepening = false;
      afterTrial = true;
    } else if (wished) {
      const { seq, places, pulled } = wished;
      wished = null;
      dragging = true;
      inHand = true;
      session.whatIf({ seq, places, ...pulled });
      tell(session);
    } else if (dragging) tell(session);
    else if (!warmed) {
      warmed = true;
      warm(session);
    } else if (asked) answer(asked, session);
    else if (deepening && !inHand) {
      const { done, report } = session.deepen();
      deepening = !done;
      if (report) told(report);
      if (done) channel.postMessage({ type: 'rests', sent: answered });
    }
    if (owed !== null || trial || wished || dragging || !warmed || asked || (deepening && !inHand)) plan();
  };

  const told = (report: Report): void => {
    const change = changeBetween(last, report);
    last = report;
    channel.postMessage({ type: 'report', sent: answered, change });
  };

  const answer = (question: NonNullable<typeof asked>, of: Session): void => {
    question.work ??= of.nextReadings(question.most);
    const { ask, work } = question;
    const step = work.step();
    if ('progress' in step) {
      channel.postMessage({ type: 'asking', ask, progress: step.progress });
      return;
    }
    asked = null;
    channel.postMessage({ type: 'answer', ask, readings: step.answer });
  };

  const tell = (of: Session): void => {
    const delta = of.step();
    if (!delta) {
      dragging = false;
      return;
    }
    const { seq, runs, findings, gone } = delta;
    channel.postMessage({ type: 'delta', seq, delta: { runs, findings, gone } });
  };

  const receive = (message: ToWorker): void => {
    switch (message.type) {
      case 'foresee': {
        const read = session ? null : readBoat(message.text);
        if (!read?.ok) break;
        foreseen = new Session(read.boat);
        foreseen.settled();
        break;
      }
      case 'open':
        session = foreseen ?? new Session(message.boat);
        // What is the same in the boat that was foreseen is not worked out again.
        if (foreseen) session.open(message.boat);
        foreseen = null;
        last = null;
        owed = message.sent;
        trial = null;
        afterTrial = false;
        wished = null;
        dragging = false;
        warmed = false;
        deepening = false;
        asked = null;
        break;
      case 'edit':
        if (!session) throw new Error('an edit came before a boat');
        session.edit(message.patches);
        owed = message.sent;
        trial = null;
        deepening = false;
        wished = null;
        asked = null;
        break;
      case 'whatIf':
        wished = message;
        break;
      case 'trial':
        if (!session) throw new Error('a trial came before a boat');
        trial = message;
        wished = null;
        dragging = false;
        break;
      case 'endWhatIf':
        wished = null;
        dragging = false;
        inHand = false;
        session?.endWhatIf();
        deepening ||= afterTrial;
        afterTrial = false;
        break;
      case 'ask':
        if (!session) throw new Error('a question came before a boat');
        asked = { ask: message.ask, most: message.question.most, work: null };
        break;
      case 'dropAsk':
        asked = null;
        break;
    }
    plan();
  };

  channel.onmessage = ({ data }) => guarded(() => receive(data));
}

/** The run of a line after an edit that is not made; the answer at rest of that boat, so that making it costs little more. */
function runAfter(session: Session, lineId: string, patches: readonly Patch[]): RunReport | null {
  const { boat } = session;
  try {
    session.edit(patches);
    return session.settled().runs.find((run) => run.lineId === lineId) ?? null;
  } finally {
    session.open(boat);
  }
}

/** A step that is taken back: nothing is told, nothing changes. */
function warm(session: Session): void {
  const { boat } = session;
  const arrangementId = session.settled().arrangement;
  const thingId = Object.keys(boat.parts).find((id) => poseOf(boat, arrangementId, id) !== null);
  const pose = thingId === undefined ? null : poseOf(boat, arrangementId, thingId);
  if (thingId === undefined || !pose) return;
  session.whatIf({ seq: 0, places: { [thingId]: { ...pose, at: [pose.at[0] + 0.001, pose.at[1], pose.at[2]] } } });
  for (let step = 0; step < WARMING_STEPS; step++) if (!session.step()) break;
  session.endWhatIf();
}
