import type { Pose } from '@core/base/vec';
import type { Patch } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { Progress } from '@core/engine/in-slices';
import type { RunReport } from '@core/engine/report';
import type { PulledRuns } from '../worker/protocol';
import type { Partly, Studies, StudyKind } from '../worker/studies/protocol';

/** What the stores talk to outside themselves. Replaced in tests by recorders; until connected nothing is sent. */
export interface EnginePort {
  open(revision: number, boat: Boat): void;
  edit(revision: number, patches: readonly Patch[]): void;
  whatIf(seq: number, places: Readonly<Record<string, Pose>>, pulled?: PulledRuns): void;
  endWhatIf(): void;
}

/** Questions that take their time. */
export interface QuestionPort {
  /** The readings that would settle most, at most so many. The count comes back with the answer. */
  ask(ask: number, most: number): void;
  dropAsk(): void;
}

/** What a study came to. */
export type Told<K extends StudyKind> =
  | { readonly ok: true; readonly gives: Studies[K]['gives'] }
  /** It threw: a fault of the program. */
  | { readonly ok: false; readonly message: string };

/** Questions that carry all that they need: answered apart from the open boat. */
export interface StudyPort {
  /**
   * Takes back the question of the same kind that waits. Gives what takes this one back: then nothing is told. `going` hears how
   * far long work has come, and what it can tell of its answer already.
   */
  study<K extends StudyKind>(
    kind: K,
    from: Studies[K]['from'],
    told: (told: Told<K>) => void,
    going?: (progress: Progress, partial?: Partly<K>) => void,
  ): () => void;
}

/** The run that a line would have, null where nothing is known of it, `failed` where working it out threw. */
export type Tried = RunReport | null | 'failed';

/** Edits that are looked at before they are made. */
export interface RunPort {
  /** Tells the run that the line would have after the edit; a newer trial overtakes it. */
  trial(lineId: string, patches: readonly Patch[], told: (run: Tried) => void): void;
}

export interface JournalPort {
  append(patches: readonly Patch[]): void;
}

const NO_ENGINE: EnginePort = { open() {}, edit() {}, whatIf() {}, endWhatIf() {} };
const NO_QUESTIONS: QuestionPort = { ask() {}, dropAsk() {} };
const NO_STUDIES: StudyPort = { study: () => () => {} };
/** Without an engine every edit is made as it is. */
const NO_RUNS: RunPort = { trial: (_, __, told) => told(null) };
const NO_JOURNAL: JournalPort = { append() {} };

let engine: EnginePort = NO_ENGINE;
let questions: QuestionPort = NO_QUESTIONS;
let studies: StudyPort = NO_STUDIES;
let runs: RunPort = NO_RUNS;
let journal: JournalPort = NO_JOURNAL;

export const engineNow = (): EnginePort => engine;
export const questionsNow = (): QuestionPort => questions;
export const studiesNow = (): StudyPort => studies;
export const runsNow = (): RunPort => runs;
export const journalNow = (): JournalPort => journal;
export const connectEngine = (port: EnginePort | null): void => {
  engine = port ?? NO_ENGINE;
};
export const connectQuestions = (port: QuestionPort | null): void => {
  questions = port ?? NO_QUESTIONS;
};
export const connectStudies = (port: StudyPort | null): void => {
  studies = port ?? NO_STUDIES;
};
export const connectRuns = (port: RunPort | null): void => {
  runs = port ?? NO_RUNS;
};
export const connectJournal = (port: JournalPort | null): void => {
  journal = port ?? NO_JOURNAL;
};
