import type { ArmPose, Posture } from '../../assess/access/reach/types';
import type { TaskVerdict } from '../../assess/access/task-verdict';
import type { Vec3 } from '../../base/vec';
import type { SERVICE_TASKS } from '../../boat/schema/services';
import type { CloseCall, SourceRef } from '../../rules/finding';
import type { Solid } from '../../shape/space/solids';

export { TASK_VERDICTS, type TaskVerdict } from '../../assess/access/task-verdict';

export type ServiceTask = (typeof SERVICE_TASKS)[number];

/** One thing that a task was measured against: how far the arm goes, how wide the opening is, what share of the rays arrive. */
export interface TaskMeasure {
  readonly what:
    | 'reach'
    | 'opening'
    | 'handRoom'
    | 'twoHands'
    | 'clearFront'
    | 'withdrawal'
    | 'swing'
    | 'seenShare'
    | 'seenDistance'
    | 'seenAngle'
    | 'below'
    | 'lift';
  readonly value: number;
  readonly limit: number;
  readonly bound: 'atMost' | 'atLeast';
  readonly unit: 'm' | 'deg' | 'share' | 'kg' | 'count';
  readonly met: boolean;
  readonly closeCall: CloseCall | null;
  readonly sources: readonly SourceRef[];
}

/** What has to be moved or taken apart first. */
export interface Removal {
  /** Record of openings, things or lines, or the words of `moveFirst`. */
  readonly what: string;
  readonly kind: 'opening' | 'loose' | 'thing' | 'line';
  readonly minutes: number;
}

/** A lift by the NIOSH equation: level from the ankles and up to the hands, metres. */
export interface TaskLift {
  readonly massKg: number;
  /** Mass over what the equation recommends. */
  readonly index: number;
  readonly recommendedKg: number;
  readonly outM: number;
  readonly upM: number;
  /** Out of the range of the equation, which recommends to lift nothing there: told as at the edge of the range. */
  readonly isBeyond: boolean;
}

export interface TaskBlocker {
  readonly owner: string;
  readonly label: string;
  /** What is missing there, metres; null where it is no length. */
  readonly shortByM: number | null;
}

/** One step of the rehearsal, with what is drawn of it. */
export interface RehearsalStep {
  readonly kind:
    | 'go'
    | 'move'
    | 'open'
    | 'takeOff'
    | 'look'
    | 'reach'
    | 'turn'
    | 'withdraw'
    | 'catch'
    | 'work'
    | 'close';
  readonly minutes: number;
  /** Opening, thing or line that it is about. */
  readonly subject: string | null;
  /** Feet, knees or hips of the person, and how. */
  readonly person: { readonly at: Vec3; readonly posture: Posture; readonly eye: Vec3; readonly shoulder: Vec3 } | null;
  /** Arms as they are at the end of the step. */
  readonly arms: readonly ArmPose[];
  readonly rays: readonly { readonly from: Vec3; readonly to: Vec3; readonly isFree: boolean }[];
  /** Spaces that something moves through in this step: a lid, a lever, a bowl, an element. */
  readonly swept: readonly Solid[];
  /** Way of what is spilled, down to where it ends. */
  readonly drip: readonly Vec3[];
}

export interface TaskReport {
  /** thing/service, as in the boat file. */
  readonly key: string;
  readonly thing: string;
  readonly isPart: boolean;
  readonly service: string;
  readonly task: ServiceTask;
  readonly verdict: TaskVerdict;
  readonly closeCall: CloseCall | null;
  /** A demand of the owner that this verdict breaks. */
  readonly breaksDemand: 'noDismantling' | 'seenFrom' | null;
  /** Why, as a key of the texts; what it names is in the other fields. */
  readonly reason: string;
  readonly enterNext: string | null;
  readonly posture: Posture | null;
  /** Standing place, record of the boat; null: beside the thing, or nowhere. */
  readonly standing: string | null;
  /** In the order in which they are opened. */
  readonly openings: readonly string[];
  readonly hands: 'left' | 'right' | 'either' | 'both' | null;
  /** From the shoulder to the grip along the arm against what the arm has, metres. */
  readonly reach: { readonly valueM: number; readonly limitM: number; readonly marginM: number } | null;
  readonly measures: readonly TaskMeasure[];
  readonly removals: readonly Removal[];
  readonly blockers: readonly TaskBlocker[];
  readonly shortByM: number | null;
  /** Ways that were tried, counted. */
  readonly tried: number;
  /** The same task on the boat as bought; null of a part. */
  readonly before: TaskVerdict | null;
  readonly isWorse: boolean;
  /** Tasks of which one is enough, and that go no better than this one: what each comes to, and why. */
  readonly alternatives: readonly Pick<
    TaskReport,
    'service' | 'task' | 'verdict' | 'reason' | 'blockers' | 'shortByM'
  >[];
  /** Of what is heavy in the hands, from the standing place; it never stops the task. Null of what is light. */
  readonly lift: TaskLift | null;
  readonly minutes: {
    readonly access: number;
    readonly work: number;
    /** Null where no interval is known. */
    readonly timesAYear: number | null;
    readonly aYear: number | null;
  };
  readonly tools: readonly string[];
  readonly spillL: number;
  readonly at: Vec3;
  readonly sources: readonly SourceRef[];
  readonly cannotSee: readonly string[];
}

export interface ServiceReport {
  readonly engineVersion: string;
  readonly boat: string;
  readonly arrangement: string | null;
  /** Whose reach counted: a record of people, or null for a middling adult. */
  readonly person: { readonly id: string | null; readonly name: string; readonly isInterpolated: boolean };
  /** What the arrangement makes worse first, then by verdict from the worst, then by key. */
  readonly tasks: readonly TaskReport[];
  readonly burden: {
    readonly aYear: number;
    readonly accessAYear: number;
    readonly byThing: readonly { readonly thing: string; readonly aYear: number; readonly accessAYear: number }[];
    /** Tasks without an interval are not in the sum. */
    readonly leftOut: number;
  };
}
