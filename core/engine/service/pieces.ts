import type { ArmPose, Obstruction, Side } from '../../assess/access/reach/types';
import type { BodySizes } from '../../base/formulas/body-sizes';
import type { Vec3 } from '../../base/vec';
import type { GradeShare, SourceRef } from '../../rules/finding';
import { type Judged, judge } from '../../rules/judge';
import type { HullSurface } from '../../shape/hull/types';
import type { Blocker } from '../../shape/space/free-depth';
import type { Solid } from '../../shape/space/solids';
import type { CarriedOut } from './carried-out';
import type { RehearsalStep, TaskBlocker, TaskMeasure } from './service-report';

/** What is about a task on one of the ways to it. */
export interface TaskScene {
  /** For arms: lines on the thing itself, which give way beside it, count as part of it there. */
  readonly arms: readonly Obstruction[];
  /** For eyes: everything, the thing itself too. */
  readonly all: readonly Obstruction[];
  /** For what is drawn out or turned: all but the thing itself. */
  readonly others: readonly Obstruction[];
  readonly hull: HullSurface | null;
  readonly body: BodySizes;
  /** The arm of whoever has the use of one; null: both. */
  readonly onlyArm: Side | 'either' | null;
  /** How the whole thing is carried out of its compartment; null where that is no question. */
  readonly carriedOut: () => CarriedOut | null;
  /** Accuracy of the room along a direction between the thing and others. */
  readonly gradesBetween: (way: Vec3, owners: readonly string[]) => readonly GradeShare[];
}

/** One thing that was measured, with what the tape makes of it. */
export interface Measure {
  readonly what: TaskMeasure['what'];
  readonly judged: Judged;
  readonly sources: readonly SourceRef[];
}

/** What one thing that a task asks for comes to. mirror: it goes, seen in a mirror. */
export type PieceOutcome = 'yes' | 'mirror' | 'notFound' | 'no';

export interface Piece {
  readonly kind: 'see' | 'mirror' | 'hand' | 'turn' | 'withdraw' | 'below';
  readonly outcome: PieceOutcome;
  /** Key of the texts. */
  readonly reason: string;
  readonly measures: readonly Measure[];
  readonly blockers: readonly TaskBlocker[];
  readonly shortByM: number | null;
  readonly tried: number;
  readonly shown: Shown;
  /** Where a hand must hold the mirror in which it is seen. */
  readonly mirrorAt?: Vec3;
}

/** What is drawn of it in the rehearsal. */
export interface Shown {
  readonly arms: readonly ShownArm[];
  readonly body: { readonly neck: Vec3; readonly hips: Vec3; readonly head: Vec3 } | null;
  readonly eye: Vec3 | null;
  readonly rays: RehearsalStep['rays'];
  readonly swept: readonly Solid[];
}

/** An arm at its place, and its way there from outside. */
export interface ShownArm {
  readonly side: Side;
  readonly pose: ArmPose;
  readonly way: readonly ArmPose[];
}

export const NOTHING_SHOWN: Shown = { arms: [], body: null, eye: null, rays: [], swept: [] };

const WORSE: Readonly<Record<PieceOutcome, number>> = { yes: 0, mirror: 1, notFound: 2, no: 3 };
export const worseOutcome = (a: PieceOutcome, b: PieceOutcome): PieceOutcome => (WORSE[b] > WORSE[a] ? b : a);
export const isDone = (outcome: PieceOutcome): boolean => outcome === 'yes' || outcome === 'mirror';

export const PRACTICE: readonly SourceRef[] = [{ key: 'practice', standing: 'commonPractice' }];
export const GEOMETRY: readonly SourceRef[] = [{ key: 'geometry', standing: 'derived' }];
export const FROM_FILE: readonly SourceRef[] = [{ key: 'boat-file', standing: 'boatFile' }];
export const FROM_MEMORY: readonly SourceRef[] = [{ key: 'mil-std-1472', standing: 'fromMemory' }];
/** What a task usually asks for, where its record does not say. */
export const AS_USUAL: readonly SourceRef[] = [{ key: 'practice', standing: 'fromMemory' }];

export const measureOf = (
  what: TaskMeasure['what'],
  input: Parameters<typeof judge>[0],
  sources: readonly SourceRef[],
): Measure => ({ what, judged: judge(input), sources });

/** What stopped something, as a blocker of the task. */
export const blockerOf = (blocker: Pick<Blocker, 'owner' | 'label'>, shortByM: number | null): TaskBlocker => ({
  owner: blocker.owner,
  label: blocker.label,
  shortByM,
});
