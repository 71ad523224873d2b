import type { SourceKey } from '../../base/bibliography';
import { gmFromRollPeriod, ROLL_RADIUS_SHARE } from '../../base/formulas/roll-period';
import * as portable from '../../base/portable';
import { add, degrees, scale, type Vec3 } from '../../base/vec';
import { poseOf } from '../../boat/edits';
import type { Boat, Thing } from '../../boat/schema/boat';
import { waterDensityOf } from '../../boat/sea-water';
import { hydrostatics } from '../../shape/hull/hydrostatics';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';

/** A mass at a place. */
export interface Weight {
  readonly id: string;
  readonly name: string;
  /** With what a new tank holds. */
  readonly massKg: number;
  readonly at: Vec3;
}

/** A figure, or what must be entered before it can be told. */
export type Told<T> = ({ readonly known: true } & T) | { readonly known: false; readonly enterNext: string };

export interface Stability {
  readonly gmM: number;
  /** Between these; both are gmM when it follows from a centre of gravity. */
  readonly leastM: number;
  readonly greatestM: number;
  readonly from: 'centreOfGravity' | 'rollPeriod';
  readonly source: SourceKey;
}

export interface List {
  /** + to starboard, degrees. */
  readonly listDeg: number;
  /** Between these, by the bounds of GM. */
  readonly leastDeg: number;
  readonly greatestDeg: number;
  /** Beyond this the metacentre no longer stands still, and the figure is a first guess. */
  readonly isLarge: boolean;
}

export interface Trim {
  /** + bow down, degrees. */
  readonly trimDeg: number;
  /** Difference of draughts over the waterline's length, + bow down, metres. */
  readonly trimM: number;
}

/** What some weights do to the boat as she lies without them. */
export interface Effect {
  readonly massKg: number;
  /** Their common centre; null without mass. */
  readonly centre: Vec3 | null;
  readonly sinkage: Told<{ readonly sinkageM: number }>;
  readonly trim: Told<Trim>;
  readonly list: Told<List>;
}

export interface Afloat {
  /** Parts that the arrangement has placed, new tanks full. */
  readonly weights: readonly Weight[];
  /** Parts of the boat file that are not placed, and placed ones without a mass. */
  readonly unplaced: readonly string[];
  readonly massless: readonly string[];
  readonly stability: Told<Stability>;
  /** All of them together, against the boat as bought. */
  readonly placed: Effect;
  /** What each tank does from empty to full, old tanks and new. */
  readonly tanks: readonly { readonly id: string; readonly name: string; readonly effect: Effect }[];
}

/** One litre of what a tank holds, kilograms: water, what was water, diesel oil. Common practice. */
const LITRE_KG: Partial<Record<Thing['kind'], number>> = { waterTank: 1, holdingTank: 1, fuelTank: 0.85 };
/** Small angles end about here. */
const LARGE_DEG = 7;

const ENTER = {
  hull: 'The hull by its stations.',
  displacement: 'The displacement (weights.displacementKg), or the hull by its stations.',
  stability:
    'The height of the centre of gravity (weights.kgM), or the roll period (weights.rollPeriodS): heel the boat by the shrouds at her berth, let go, and time ten rolls over and back.',
  hullForStability: 'The hull by its stations: the metacentre follows from its water plane.',
  gravityOfTwoHulls: 'The height of the centre of gravity (weights.kgM): for two hulls a roll period tells nothing.',
  unstable: 'A lower centre of gravity: with weights.kgM as entered she would not stay upright.',
} as const;

/**
 * List, trim and sinkage by what is placed. The boat as bought is what floats in the reference attitude; the weights are added to
 * her: list by tan(list) = moment across / (M GM + m (height of the water - height of the weights)), trim by the longitudinal
 * metacentre, sinkage by the water plane. Small angles, still water, no free surfaces.
 */
export function afloat(
  boat: Pick<Boat, 'parts' | 'fixtures' | 'arrangements' | 'weights'>,
  arrangementId: string | null,
  hull: { readonly surface: HullSurface; readonly water: WaterPlane } | null,
): Afloat {
  const whole = boat as Boat;
  const ids = Object.keys(boat.parts).sort();
  const placed = ids.flatMap((id): Weight[] => {
    const at = poseOf(whole, arrangementId, id)?.at;
    const part = boat.parts[id];
    return at && part ? [{ id, name: part.name, massKg: massFull(part), at }] : [];
  });
  const float = floating(boat.weights, hull);
  const stability = stabilityOf(boat.weights, hull, float);
  const effectOf = (weights: readonly Weight[]): Effect => effect(weights, float, stability);
  const tanks = [...Object.entries(boat.fixtures), ...Object.entries(boat.parts)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([id, thing]) => {
      const at = poseOf(whole, arrangementId, id)?.at;
      const massKg = liquidKg(thing);
      return at && massKg > 0
        ? [{ id, name: thing.name, effect: effectOf([{ id, name: thing.name, massKg, at }]) }]
        : [];
    });
  return {
    weights: placed.filter(({ massKg }) => massKg > 0),
    unplaced: ids.filter((id) => !placed.some((weight) => weight.id === id)),
    massless: placed.filter(({ massKg }) => !(massKg > 0)).map(({ id }) => id),
    stability,
    placed: effectOf(placed),
    tanks,
  };
}

/** What a full tank holds; other things are weighed as they stand aboard. */
const liquidKg = (thing: Thing): number => (thing.liquidL ?? 0) * (LITRE_KG[thing.kind] ?? 0);

/** A tank whose mass is less than that of its contents was weighed empty. */
const massFull = (thing: Thing): number => thing.massKg + (thing.massKg < liquidKg(thing) ? liquidKg(thing) : 0);

/** The boat as she floats without the weights. */
interface Floating {
  readonly massKg: number;
  readonly hull: {
    readonly state: ReturnType<typeof hydrostatics>;
    readonly waterDensityKgM3: number;
    readonly beamM: number;
    readonly isTwin: boolean;
  } | null;
}

function floating(
  weights: Boat['weights'],
  hull: { readonly surface: HullSurface; readonly water: WaterPlane } | null,
): Floating | null {
  const waterDensityKgM3 = waterDensityOf({ weights });
  const state = hull && hydrostatics(hull.surface, hull.water);
  if (!hull || !state || !(state.volumeM3 > 0)) {
    const massKg = weights?.displacementKg ?? 0;
    return massKg > 0 ? { massKg, hull: null } : null;
  }
  return {
    massKg: state.volumeM3 * waterDensityKgM3,
    hull: { state, waterDensityKgM3, beamM: state.waterlineBeamM, isTwin: hull.surface.offsetM !== 0 },
  };
}

function stabilityOf(weights: Boat['weights'], hull: unknown, float: Floating | null): Told<Stability> {
  const afloat = float?.hull;
  const unknown = (enterNext: string): Told<Stability> => ({ known: false, enterNext });
  if (weights?.kgM === undefined && weights?.rollPeriodS === undefined) return unknown(ENTER.stability);
  if (!hull || !afloat) return unknown(ENTER.hullForStability);
  if (weights.kgM !== undefined) {
    const gmM = afloat.state.buoyancy[2] + afloat.state.transverseRadiusM - weights.kgM;
    if (!(gmM > 0)) return unknown(ENTER.unstable);
    return { known: true, gmM, leastM: gmM, greatestM: gmM, from: 'centreOfGravity', source: 'geometry' };
  }
  const periodS = weights.rollPeriodS ?? 0;
  if (!(periodS > 0)) return unknown(ENTER.stability);
  if (afloat.isTwin) return unknown(ENTER.gravityOfTwoHulls);
  const gm = (radiusShare: number): number => gmFromRollPeriod({ beamM: afloat.beamM, periodS, radiusShare });
  const { usual, least, greatest, source } = ROLL_RADIUS_SHARE;
  return {
    known: true,
    gmM: gm(usual),
    leastM: gm(least),
    greatestM: gm(greatest),
    from: 'rollPeriod',
    source,
  };
}

function effect(weights: readonly Weight[], float: Floating | null, stability: Told<Stability>): Effect {
  const massKg = weights.reduce((sum, weight) => sum + weight.massKg, 0);
  const moment = weights.reduce<Vec3>((sum, weight) => add(sum, scale(weight.at, weight.massKg)), [0, 0, 0]);
  const centre = massKg > 0 ? scale(moment, 1 / massKg) : null;
  return {
    massKg,
    centre,
    sinkage: sinkageOf(massKg, float),
    trim: trimOf(massKg, centre, float),
    list: listOf(massKg, centre, float, stability),
  };
}

function sinkageOf(massKg: number, float: Floating | null): Effect['sinkage'] {
  if (!float?.hull) return { known: false, enterNext: ENTER.hull };
  const { state, waterDensityKgM3 } = float.hull;
  return { known: true, sinkageM: massKg / (waterDensityKgM3 * state.waterplaneM2) };
}

function trimOf(massKg: number, centre: Vec3 | null, float: Floating | null): Effect['trim'] {
  if (!float?.hull) return { known: false, enterNext: ENTER.hull };
  const { state } = float.hull;
  const momentKgM = centre ? massKg * (centre[0] - state.flotation[0]) : 0;
  const slope = momentKgM / (float.massKg * state.longitudinalRadiusM);
  return { known: true, trimDeg: degrees(portable.atan(slope)), trimM: slope * state.waterlineLengthM };
}

function listOf(
  massKg: number,
  centre: Vec3 | null,
  float: Floating | null,
  stability: Told<Stability>,
): Effect['list'] {
  if (!stability.known) return stability;
  if (!float?.hull) return { known: false, enterNext: ENTER.displacement };
  const { state } = float.hull;
  const at = (gmM: number): number => {
    if (!centre) return 0;
    // Rights her with the weights aboard: her own moment, and that of the layer they sink, at the water, over the weights themselves.
    const righting = float.massKg * gmM + massKg * (state.flotation[2] - centre[2]);
    return degrees(portable.atan2(-massKg * centre[1], Math.max(1e-9, righting))) + 0;
  };
  const bounds = [at(stability.leastM), at(stability.greatestM)];
  const listDeg = at(stability.gmM);
  return {
    known: true,
    listDeg,
    leastDeg: Math.min(...bounds),
    greatestDeg: Math.max(...bounds),
    isLarge: Math.abs(listDeg) > LARGE_DEG,
  };
}
