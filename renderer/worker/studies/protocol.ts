import type { HoleRanking } from '@core/assess/water/which-hole';
import type { Boat, Part } from '@core/boat/schema/boat';
import type { FirstBoat, FirstBoatInput, Shell, ShellInput } from '@core/engine/first-boat/first-boat';
import type { PlacedSet, SetOrder } from '@core/engine/first-boat/set-into-boat';
import type { Locker } from '@core/engine/fit/locker';
import type { LockerAnswers } from '@core/engine/fit/one-locker';
import type { Progress } from '@core/engine/in-slices';
import type { PlaceReport } from '@core/engine/placement/place-report';
import type { StowageReport } from '@core/engine/placement/stowage';
import type { ServiceUnderway } from '@core/engine/service/service';
import type { RehearsalStep, ServiceReport } from '@core/engine/service/service-report';
import type { Remedy } from '@core/rules/remedy';
import type { Alternative } from '@core/runs/alternative';
import type { LayoutInput } from '@core/shape/layout/derive';
import type { UndrawnSpace } from '@core/shape/layout/undrawn';
import type { NetVolume } from '@core/shape/space/net-volume';
import type { Views } from '../../doors/ten-minutes/views';

/**
 * Studies: questions that carry all that their answer rests on. They are worked on apart from the open boat, so that none
 * waits for its checks and none disturbs them. Both halves are plain data.
 */
export interface Studies {
  /** Hull and interior of the ten-minute door as it is typed, with the lines that are drawn of them in place of the surface. */
  readonly shell: { readonly from: ShellInput; readonly gives: PlainShell };
  readonly firstBoat: { readonly from: FirstBoatInput; readonly gives: FirstBoat };
  /** A generic set placed in the boat as it is drawn. */
  readonly wholeSet: { readonly from: SetOrder; readonly gives: PlacedSet };
  /** Expects readings that make a locker. */
  readonly locker: {
    readonly from: { readonly locker: Locker; readonly parts: Readonly<Record<string, Part>> };
    readonly gives: LockerAnswers;
  };
  /** `year`: the year that it is, for the age of fittings. */
  readonly holes: { readonly from: { readonly boat: Boat; readonly year: number }; readonly gives: HoleRanking };
  /** What would mend the failing run of a line: edits that were routed before they are told, the cheapest first. */
  readonly remedies: { readonly from: OfRun; readonly gives: readonly Remedy[] };
  /** What would mend the failed finding of a key: edits that were applied and judged before they are told, the cheapest first. */
  readonly mends: { readonly from: { readonly boat: Boat; readonly key: string }; readonly gives: readonly Remedy[] };
  /** The run of a line and truly different ones, the cheapest first. */
  readonly alternatives: { readonly from: OfRun; readonly gives: readonly Alternative[] };
  /** Where some parts may go: compartments ranked, each with the best place found there. The first bounds are told before. */
  readonly places: {
    readonly from: { readonly boat: Boat; readonly parts: readonly string[] };
    readonly gives: PlaceReport;
  };
  /** Every service task with its verdict, by the reach of a record of people; what ways of before say of it is told at once. */
  readonly service: {
    readonly from: OfPerson;
    readonly gives: ServiceReport;
    readonly tells: ServiceUnderway;
  };
  /** The steps of one task, by its key in the service report. */
  readonly rehearsal: {
    readonly from: OfPerson & { readonly key: string };
    readonly gives: readonly RehearsalStep[];
  };
  /** What the plan takes of each compartment, and where boxes that must be stowed find room. */
  readonly stowage: { readonly from: { readonly boat: Boat }; readonly gives: StowageReport };
  readonly undrawn: {
    readonly from: { readonly interior: LayoutInput; readonly hull: NonNullable<Boat['hull']> };
    readonly gives: UndrawnSpace;
  };
  /** Volumes of the named compartments. */
  readonly volumes: {
    readonly from: Pick<Boat, 'hull' | 'fixtures'> & {
      readonly ids: readonly string[];
      readonly interior: LayoutInput;
    };
    readonly gives: Readonly<Record<string, NetVolume>>;
  };
}

interface OfPerson {
  readonly boat: Boat;
  /** Null: who is usual. */
  readonly person: string | null;
}

interface OfRun {
  readonly boat: Boat;
  readonly lineId: string;
}

export type PlainShell =
  | Extract<Shell, { ok: false }>
  | (Omit<Extract<Shell, { ok: true }>, 'surface'> & { readonly views: Views });

export type StudyKind = keyof Studies;

/** What long work tells of its answer before it is whole: where nothing else is said, the answer as far as it has come. */
export type Partly<K extends StudyKind> = K extends StudyKind
  ? Studies[K] extends { readonly tells: infer T }
    ? T
    : Studies[K]['gives']
  : never;

/** `ask` counts the questions; the answer carries the count of its question. */
export type ToStudies =
  | {
      readonly [K in StudyKind]: {
        readonly type: 'study';
        readonly ask: number;
        readonly kind: K;
        readonly from: Studies[K]['from'];
      };
    }[StudyKind]
  | { readonly type: 'drop'; readonly ask: number };

export type FromStudies =
  | { readonly type: 'studied'; readonly ask: number; readonly gives: Studies[StudyKind]['gives'] }
  /** How far long work has come, and what it can tell of its answer already. */
  | {
      readonly type: 'studying';
      readonly ask: number;
      readonly progress: Progress;
      readonly partial?: Partly<StudyKind>;
    }
  /** The work threw: a fault of the program, or readings that it does not take. */
  | { readonly type: 'failed'; readonly ask: number; readonly message: string };
