import type { Pose, Vec3 } from '../base/vec';
import type { Arrangement, Boat, Line, LineKind, Opening, RunState, Thing } from '../boat/schema/boat';
import type { Circuit } from '../runs/circuit/circuit';
import type { Crossing, RoutingLine, RunOutcome } from '../runs/routing/types';
import type { RunWishes } from '../runs/routing/wishes/wishes';
import type { WishZone } from '../runs/routing/wishes/zones';
import type { Attitude, HullSurface, WaterPlane } from '../shape/hull/types';
import type { Layout } from '../shape/layout/types';
import type { Solid } from '../shape/space/solids';
import type { CarryFacts } from './carry-facts';
import type { GradeShare } from './finding';
import type { FloodFacts } from './flood-facts';
import type { PowerFacts } from './power-facts';
import type { ServiceFacts } from './service-facts';

export type PracticeProfile = 'isoSmallCraft' | 'usVoluntary';

/** A place where the run of a line passes a panel. */
export interface LineCrossing extends Crossing {
  readonly line: string;
}

/** A water plane in which the set is run, or for which through-hulls are judged. */
export interface HeeledWater {
  readonly id: string;
  readonly name: string;
  readonly heelDeg: number;
  readonly down: 'upright' | 'port' | 'starboard';
  /** Bow down beyond the reference attitude, degrees. */
  readonly trimDeg: number;
  readonly water: WaterPlane;
}

/**
 * What a rule may know. Every call is a recorded read, so a verdict is redone exactly when something that it asked for has changed:
 * a rule asks for the little that it needs, and never keeps what it got.
 */
export interface Facts extends PowerFacts, FloodFacts, CarryFacts, ServiceFacts {
  readonly profile: () => PracticeProfile;
  /** Ids of fixtures and parts, sorted. */
  readonly thingIds: () => readonly string[];
  readonly thing: (id: string) => Thing | null;
  /** Whether the thing is a part to be placed (false: a fixture, aboard already). */
  readonly isPart: (id: string) => boolean;
  /** Null when a part is not placed. */
  readonly pose: (id: string) => Pose | null;
  /** Compartment that holds the centre of the thing. */
  readonly compartmentOf: (id: string) => string | null;
  /** Envelope and sweeps of one thing in the boat. */
  readonly solidsOf: (id: string) => readonly Solid[];
  /** Things (their envelopes and sweeps) whose bounds meet the box, sorted by id; runs are not among them. */
  readonly solidsIn: (low: Vec3, high: Vec3) => readonly Solid[];
  /** The same for what is aboard already: no move of a part touches it. */
  readonly fixedSolidsIn: (low: Vec3, high: Vec3) => readonly Solid[];
  readonly compartmentName: (id: string) => string;
  readonly compartmentKind: (id: string) => string | null;
  readonly openings: () => Readonly<Record<string, Opening>>;
  readonly wayIn: (partId: string) => readonly string[] | null;
  /** Surface that a placed part is said to be screwed to. */
  readonly mountedOn: (partId: string) => string | null;
  readonly mountingSurfaces: () => Boat['mountingSurfaces'];
  readonly standingPlaces: () => Boat['standingPlaces'];
  /** Compartments that somebody sleeps in or on, each with where heads lie, as far as that is known. */
  readonly berths: () => Readonly<Record<string, readonly Vec3[]>>;
  /** Records of panels as entered; `layout` has them bound. */
  readonly panelRecords: () => Boat['panels'];
  /** Holes that the arrangement has decided on, by id. */
  readonly newHoles: () => Arrangement['newHoles'];
  /** Year in which the job is to be done, where it is known. */
  readonly plannedYear: () => number | null;
  /** Whether the owner insists on that. */
  readonly isDemanded: (kind: NonNullable<Boat['demands']>[string]['kind']) => boolean;
  readonly layout: () => Layout;
  readonly hull: () => HullSurface | null;
  readonly attitude: () => Attitude;
  readonly lineIds: () => readonly string[];
  readonly line: (id: string) => Line | null;
  readonly lineKind: (id: string) => LineKind | null;
  readonly run: (lineId: string) => RunOutcome | null;
  /** How far an end of a routed line may slip, and along what axis the least; null where the tape cannot bring that about. */
  readonly runSlack: (lineId: string) => { readonly slackM: number; readonly grade: readonly GradeShare[] } | null;
  /** True for sea water that is drawn, not pushed. */
  readonly isSuction: (lineId: string) => boolean;
  /** Points at which the owner clips a line. */
  readonly clipPoints: (lineId: string) => readonly Vec3[];
  /** Compartments that the owner keeps a line out of. */
  readonly forbidden: (lineId: string) => readonly string[];
  /** What the router is asked for a line, null where it cannot be asked. */
  readonly routingLine: (lineId: string) => RoutingLine | null;
  /** What a line should keep where it can, whether or not its run was led by that. */
  readonly wishesOf: (lineId: string) => RunWishes | null;
  /** Places to keep away from in the cells that its run passes, sorted by id. */
  readonly zonesAlong: (lineId: string) => readonly WishZone[];
  /** Spaces of service tasks in the cells that its run passes, sorted by id. */
  readonly servicesAlong: (lineId: string) => readonly Solid[];
  readonly circuit: () => Circuit;
  /** Where runs pass a panel, by line in the order of ids. */
  readonly crossingsOf: (panelId: string) => readonly LineCrossing[];
  /** Lines whose runs come into a box, in the order of ids. */
  readonly runsIn: (low: Vec3, high: Vec3) => readonly string[];
  /** The surface that a placed part is screwed to, as it says or as it lies; null where there is none. */
  readonly surfaceOf: (partId: string) => string | null;
  readonly runStates: () => Readonly<Record<string, RunState>>;
  /** How valves stand and which pumps run, by id. */
  readonly operatingStates: () => Boat['operatingStates'];
  /** Waters of the states in which the set is run: upright, and with the sides down that they ask for. */
  readonly runningWaters: () => readonly HeeledWater[];
  /** Waters at the boat's greatest heel with either side down, and upright. */
  readonly greatestHeelWaters: () => readonly HeeledWater[];
  /**
   * Accuracy (two standard deviations, metres) of a record or of one of its values: things, compartments, openings, freeboards, 'hull'.
   * Whatever grade the boat file gives the value itself counts before that of its record. Zero for what is chosen, not measured.
   */
  readonly gradeOf: (id: string, value?: string) => GradeShare;
  /**
   * The same of where a side of a thing is along a direction: of a fixture by its place, of a part by its size, since the place of
   * a part is chosen.
   */
  readonly gradesAlong: (id: string, direction: Vec3) => readonly GradeShare[];
  /** The same of heights above the water. */
  readonly gradeOfWater: () => GradeShare;
  /** The same of the place of a wall: the better known of the sides that it stands between. */
  readonly gradeOfWall: (wallId: string) => GradeShare;
  /** The same of the hull about a place. */
  readonly gradeOfHull: (at: Vec3) => GradeShare;
}
