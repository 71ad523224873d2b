import type { Posture } from '../assess/access/reach/types';
import type { TaskVerdict } from '../assess/access/task-verdict';
import type { Vec3 } from '../base/vec';
import type { SourceRef } from './finding';
import type { Judged } from './judge';

/** What a service task of a thing comes to. */
export interface ServiceFact {
  /** Its id among the services of the thing, or the word that alternatives share. */
  readonly instance: string;
  /** Words for it, else its kind. */
  readonly task: string;
  readonly verdict: TaskVerdict;
  readonly reason: string;
  readonly posture: Posture | null;
  /** Opening that is worked through, and whether a place to stand is drawn for it. */
  readonly through: string | null;
  readonly hasStanding: boolean;
  /** The measure that the verdict hangs on. */
  readonly deciding: Judged | null;
  readonly blockers: readonly string[];
  /** What is moved or taken off first: records, or the words of `moveFirst`. */
  readonly removals: readonly string[];
  readonly shortByM: number | null;
  readonly tried: number;
  /** Room that the task asks for by itself. */
  readonly asksForRoom: boolean;
  readonly at: Vec3;
  readonly sources: readonly SourceRef[];
}

/** What rules may ask about service tasks. */
export interface ServiceFacts {
  /** Tasks of a thing, by the reach of whoever works aboard; nothing while it is not placed. */
  readonly serviceTasks: (thingId: string) => readonly ServiceFact[];
}
