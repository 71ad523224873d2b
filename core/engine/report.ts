import type { Vec3 } from '../base/vec';
import type { TakeoffRow } from '../output/takeoff/row';
import type { Finding } from '../rules/finding';
import type { ForcedCrest } from '../runs/forced-crest';
import type { BlockReason, Effort, Prim, Proof } from '../runs/routing/types';
import type { RunCosts } from '../runs/routing/wishes/wishes';
import type { Spare } from '../runs/spare/spare';
import type { Attitude } from '../shape/hull/types';

export { ENGINE_VERSION } from '../base/engine-version';
export type { TakeoffRow } from '../output/takeoff/row';

export interface PlaceReport {
  readonly at: Vec3;
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly rollDeg: number;
  readonly compartment: string | null;
}

export interface HoleReport {
  readonly panelId: string;
  readonly at: Vec3;
  readonly diameterM: number;
  /** Whether the hole is there already. */
  readonly existing: boolean;
  /** Of a line with a crimped end: the end that stays at its port while the other is drawn through. */
  readonly fedFrom?: 'from' | 'to';
  /** Id among the arrangement's new holes, of a hole that it has decided on. */
  readonly newHoleId?: string;
}

export interface RunReport {
  readonly lineId: string;
  readonly status: 'routed' | 'blocked';
  readonly proved?: boolean;
  /** Of a blocked line: what the proof rests on, or how hard it was tried. */
  readonly proof?: Proof;
  readonly effort?: Effort;
  readonly lengthM: number | null;
  readonly lowerBoundM: number;
  readonly costM?: number;
  readonly costBoundM?: number;
  /** What costM is made of. */
  readonly costs?: RunCosts;
  readonly prims: readonly Prim[];
  readonly holes: readonly HoleReport[];
  readonly minClearanceM: number | null;
  readonly bends?: number;
  readonly leastRadiusM?: number | null;
  readonly reason?: BlockReason;
  /** Set where the run is pinned as built. */
  readonly pinned?: true;
  /** Of a supplied hose: where the length goes that its run does not need. Missing of a run that is not at rest. */
  readonly spare?: Spare;
  /** What the run reads: [length along it, height above the water] of its extremes. */
  readonly crestM?: number;
  /** Of a suction line: trapped height that the ports force on every run, upright as floating, and the end that does. Missing: none. */
  readonly forcedCrest?: ForcedCrest;
}

export interface Report {
  readonly engineVersion: string;
  readonly boat: string;
  readonly arrangement: string | null;
  readonly attitude: Attitude;
  readonly places: Readonly<Record<string, PlaceReport>>;
  readonly runs: readonly RunReport[];
  readonly findings: readonly Finding[];
  readonly takeoff: readonly TakeoffRow[];
  readonly summary: {
    readonly danger: number;
    readonly fault: number;
    readonly advice: number;
    readonly cannotTell: number;
    readonly pass: number;
    readonly closeCalls: number;
    readonly routed: number;
    readonly blocked: number;
    readonly hoseM: number;
    readonly newHoles: number;
  };
}
