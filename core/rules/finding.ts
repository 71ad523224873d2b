import type { SourceKey } from '../base/bibliography';
import type { Vec3 } from '../base/vec';
import type { Hazard } from './hazard';

/** Verdict of one check on one subject. Plain data: text is rendered last, from the catalogue. */
export type Severity = 'danger' | 'fault' | 'advice';
export type Cause = 'existing' | 'arrangement';
export type MeasureUnit =
  | 'm'
  | 'm2'
  | 'mm2'
  | 'L'
  | 'LMin'
  | 'LDay'
  | 'V'
  | 'A'
  | 'Ah'
  | 'Wh'
  | 'bar'
  | 'kg'
  | 'deg'
  | 'C'
  | 'K'
  | 'count'
  | 'share';

export interface Measured {
  readonly value: number;
  readonly unit: MeasureUnit;
}
export interface Limit extends Measured {
  readonly bound: 'atMost' | 'atLeast';
}
/** Where a limit comes from, and how sure that is. */
export interface SourceRef {
  readonly key: SourceKey;
  readonly clause?: string;
  readonly standing: 'published' | 'quoted' | 'derived' | 'commonPractice' | 'fromMemory' | 'boatFile';
}
export interface CloseCall {
  /** Two standard deviations of what the verdict hangs on: mostly measured minus limit. */
  readonly gradeM: number;
  /** Unit of the grade, where it is not that of the limit: whether there is a run at all hangs on metres. */
  readonly unit?: MeasureUnit;
  /** Set where the verdict itself is sure, and the run that it speaks of is not: whether it lies as drawn hangs on where its ends are. */
  readonly hangsOn?: 'run';
  /** Chance that the limit is really met. */
  readonly passProbability: readonly [number, number];
}

/** What one measured value adds to the accuracy of a verdict. */
export interface GradeShare {
  /** Path of the value in the boat file, or of its record: `openings.lid.widthM`, `fixtures.tank`. */
  readonly path: string;
  /** Two standard deviations that it adds, in the unit of what was measured. */
  readonly gradeM: number;
}

export interface FindingBase {
  /** rule|subject|instance */
  readonly key: string;
  readonly rule: string;
  readonly subject: string;
  readonly related: readonly string[];
  readonly at: Vec3 | null;
  readonly cause: Cause;
  readonly profile: 'isoSmallCraft' | 'usVoluntary';
  readonly sources: readonly SourceRef[];
  readonly cannotSee: readonly string[];
  /** Dangers for whoever acts on it. */
  readonly hazards: readonly Hazard[];
  readonly accepted?: { readonly by: string; readonly why: string; readonly on: string };
  /** Values that the words of this finding need. */
  readonly data: Readonly<Record<string, string | number | boolean | null>>;
}

/** What a check found: the part of a finding that the rule itself says. */
export type Outcome =
  | (Compared & { readonly outcome: 'fail'; readonly severity: Severity; readonly reason: string })
  | (Compared & { readonly outcome: 'pass' })
  | {
      readonly outcome: 'cannotTell';
      readonly reason: string;
      readonly enterNext: string;
      readonly missing?: MissingValue;
    }
  | { readonly outcome: 'notApplicable'; readonly reason: string };

interface Compared {
  readonly measured: Measured;
  readonly limit: Limit;
  readonly closeCall?: CloseCall;
  /** What the accuracy of `measured` minus `limit` is made of; empty or absent where nothing measured goes in. */
  readonly gradeFrom?: readonly GradeShare[];
}

export type Finding = FindingBase & Outcome;

/** The one value that a verdict lacks, where it is one. */
export interface MissingValue {
  readonly path: string;
  readonly unit: 'A' | 'mm2' | 'micron' | 'LMin';
}
