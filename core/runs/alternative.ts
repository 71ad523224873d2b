import type { Vec3 } from '../base/vec';
import type { Patch } from '../boat/edits';
import type { Prim } from './routing/types';
import type { RunCosts } from './routing/wishes/wishes';

/** What tells a run from the one that the line has: plain values for its words. */
export interface Difference {
  /** Metres of hose and holes more than the present run has; negative: less. */
  readonly longerM: number;
  readonly moreHoles: number;
  /** In metres of hose. */
  readonly dearerM: number;
  /** Panels that only this run passes, and only the present one. */
  readonly through: readonly string[];
  readonly notThrough: readonly string[];
  /** Compartments that only this run enters, and only the present one. */
  readonly into: readonly string[];
  readonly notInto: readonly string[];
  /** What most of the difference in cost is paid for, by its name among the costs; null where they cost the same. */
  readonly paidFor: keyof RunCosts | null;
}

/** Another run of a line, with the edit after which the router gives it. Plain data. */
export interface Alternative {
  readonly id: string;
  /** The run that the line has; it needs no edit. */
  readonly isCurrent: boolean;
  readonly prims: readonly Prim[];
  readonly holes: readonly {
    readonly panelId: string;
    readonly at: Vec3;
    readonly diameterM: number;
    readonly existing: boolean;
  }[];
  readonly lengthM: number;
  readonly costM: number;
  readonly costs: RunCosts;
  readonly difference: Difference;
  /** Clip points and holes that make the router lead the line so. */
  readonly patches: readonly Patch[];
}
