import type { Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import type { Layout } from '../../shape/layout/types';
import type { CapsuleSolid, Solid } from '../../shape/space/solids';
import type { RunCosts, RunWishes } from './wishes/wishes';
import type { WishZone } from './wishes/zones';

/** One end of a line, in the boat frame. */
export interface Lead {
  readonly thing: string;
  readonly port: string;
  readonly at: Vec3;
  /** Unit, out of the thing. */
  readonly direction: Vec3;
  /** Of an elbow: its port. `at` is then its corner, where the hose begins. */
  readonly portAt?: Vec3;
  /** Of an elbow: the directions that it may be turned to; `direction` is the first, or the one chosen. */
  readonly turns?: readonly Vec3[];
  /** Rigid end plus straight length asked by the kind and by the port: nothing bends before. */
  readonly rigidM: number;
  /** The rigid end alone; default `rigidM`. */
  readonly fittingM?: number;
  /** Radius of the end fitting over its rigid length. */
  readonly fittingRadiusM: number;
  readonly swivel: boolean;
  readonly crimped: boolean;
}

/** How a line is drawn in through its holes: the end that leads passes them, the other stays at its port. */
export interface Feed {
  /** The end that stays: from its side the other is drawn in. */
  readonly fedFrom: 'from' | 'to';
  /** Radius of the holes that the leading end asks for. */
  readonly holeRadiusM: number;
  /** Rigid length and radius of the leading end where it is crimped on; zero where the hose passes bare. */
  readonly rigidM: number;
  readonly radiusM: number;
}

export interface RoutingLine {
  readonly id: string;
  readonly label: string;
  readonly radiusM: number;
  /** Least radius of the centre line. */
  readonly bendRadiusM: number;
  readonly from: Lead;
  readonly to: Lead;
  /** Radius that every hole must pass: the larger of hose and ends that pass it. */
  readonly holeRadiusM: number;
  /** Where an end is crimped on: how it is drawn in, and the other way where it is not worse in all. */
  readonly feed?: Feed;
  readonly otherFeed?: Feed;
  /** Sea water drawn: crests cost. */
  readonly suction: boolean;
  /** Ordered points that the run must pass. */
  readonly clipPoints: readonly Vec3[];
  /** How far beside each of them it may pass, since other lines hang in the same clip; missing where none do. */
  readonly clipAsideM?: readonly number[];
  readonly forbiddenCompartments: readonly string[];
  /** Diameters that lines for which a hole is planned need in it, by the hole's id among the new holes and by line. */
  readonly keptInHoles?: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** What the run should keep where it can; absent: nothing. */
  readonly wishes?: RunWishes;
  /** Length that may be used, when a supplied hose binds. */
  readonly lengthLimitM?: number;
  /** Places that the search goes round where another way costs less: to find other ways than one that is known. */
  readonly dear?: readonly DearPlace[];
}

export interface DearPlace {
  readonly at: Vec3;
  readonly radiusM: number;
  /** At its middle, in metres of hose; the run itself does not pay it. */
  readonly costM: number;
}

/**
 * What the router may look at. The engine records every read, so an answer is redone exactly when something it read has changed.
 * `structure` is fixed for a layout; solids come per cell.
 */
export interface RoutingView {
  readonly layout: Layout;
  /** Within its ribs, where it has any. */
  readonly hull: HullSurface | null;
  /** The hull without its ribs; default `hull`. Ends of a line may stand between them. */
  readonly skin?: HullSurface | null;
  /** Up of the water plane in the reference attitude: the only attitude that routing knows. */
  readonly up: Vec3;
  /** Things, sweeps and service keep-outs that touch the cell, sorted by id. */
  thingsIn(cell: number): readonly Solid[];
  /** Runs of earlier rank that touch the cell, sorted by id. */
  runsIn(cell: number): readonly CapsuleSolid[];
  /** Places that touch the cell and that runs keep away from where they can, sorted by id; absent: none. */
  zonesIn?(cell: number): readonly WishZone[];
  /** Height of the water along `up`, metres; absent: 0. */
  readonly waterLevelM?: number;
}

export type Prim =
  | { readonly kind: 'line'; readonly from: Vec3; readonly to: Vec3 }
  | {
      readonly kind: 'arc';
      readonly centre: Vec3;
      readonly radius: number;
      readonly from: Vec3;
      readonly to: Vec3;
      readonly normal: Vec3;
    };

/** A crossing of a panel. `at` is where the run passes the middle plane. */
export interface Crossing {
  readonly panelId: string;
  readonly at: Vec3;
  /** Centre of the hole, where the run passes it beside its middle. */
  readonly holeAt?: Vec3;
  readonly diameterM: number;
  /** Id of the existing hole that it uses, or null: to be drilled. Open panels give no crossing. */
  readonly holeId: string | null;
  /** Of a hole that the arrangement has decided on: its id among the new holes. */
  readonly newHoleId?: string;
  /** Of a line with an end crimped on: the end that stays at its port while the other is drawn through. */
  readonly fedFrom?: 'from' | 'to';
  /** Unit, the way the run passes. */
  readonly along?: Vec3;
  /** Half the thickness of the panel. */
  readonly alongM?: number;
}

export interface Routed {
  readonly status: 'routed';
  readonly prims: readonly Prim[];
  readonly crossings: readonly Crossing[];
  /** Along the centre line, from port to port. */
  readonly lengthM: number;
  /** Length plus hole costs and preferences. */
  readonly costM: number;
  /** The same by what it is paid for. */
  readonly costs: RunCosts;
  /** Certified: no run of this line is shorter. */
  readonly lowerBoundM: number;
  /** Certified bound of length plus hole costs. */
  readonly costBoundM: number;
  /** Least distance between the hose's surface and anything it must clear, ports excepted. */
  readonly minClearanceM: number;
  readonly bends: number;
  /** Least bend radius used, null without a bend. */
  readonly leastRadiusM: number | null;
  /** Vertices and portals of the tangent polygon, to start a warm run from. */
  readonly seed: unknown;
  /** Which of the turns of the elbows at `from` and `to` it takes; missing for straight ends. */
  readonly turns?: readonly [number, number];
  /** True where it is drawn in the line's other way. */
  readonly isOtherFeed?: true;
  /** Of a run that was pinned as built, and by that alone: what it breaks. */
  readonly pinned?: readonly PinFault[];
}

/**
 * endOff, endTurned: an end does not meet its port. lead: it bends before its rigid end is over. bend: tighter than its kind may.
 * hole: not wide enough, or beside it. noDrill: through a panel without a hole. outside: in no compartment, or in a forbidden one.
 */
export interface PinFault {
  readonly kind: 'endOff' | 'endTurned' | 'lead' | 'bend' | 'clearance' | 'outside' | 'hole' | 'noDrill';
  readonly at: Vec3;
  /** How much is missing, metres; null where it is no length. */
  readonly byM: number | null;
  /** Of a bend its radius, of a lead its straight: as built, metres; it lacks `byM` of what is needed. */
  readonly builtM?: number;
  /** Thing, panel or hull. */
  readonly blocker: string | null;
  readonly end?: 'from' | 'to';
}

export interface Blocked {
  readonly status: 'blocked';
  /** True only with proof. */
  readonly proved: boolean;
  readonly reason: BlockReason;
  readonly lowerBoundM: number;
  /** What the proof rests on; with `proved` only. */
  readonly proof?: Proof;
  /** How hard it was tried; without `proved` only. */
  readonly effort?: Effort;
}

/**
 * noPassage: no chain of panels and holes joins the ends at this diameter. noRoomAtEnd: even the rigid end has no room.
 * tooFar: no run is as short as the supplied hose. noPort: an end is not there.
 */
export type Proof = 'noPassage' | 'noRoomAtEnd' | 'tooFar' | 'noPort';

export interface BlockReason {
  readonly kind:
    | 'notPlaced'
    | 'noSuchPort'
    | 'portOutside'
    | 'disconnected'
    | 'clearance'
    | 'bend'
    | 'hole'
    | 'lead'
    | 'feed'
    | 'turn'
    | 'reach'
    | 'notFound';
  readonly at: Vec3 | null;
  /** Thing, panel or hull in the way. */
  readonly blocker: string | null;
  /** How much is missing, metres. */
  readonly shortByM: number | null;
  /** What would do, metres, where it is one size: the diameter of a hole. What there is is less by `shortByM`. */
  readonly neededM?: number;
  readonly tries: number;
}

export type RunOutcome = Routed | Blocked;

export type Effort = 'fast' | 'deep';
