import * as portable from '../../base/portable';
import { unit, type Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { waterDensityOf } from '../../boat/sea-water';
import { heeled, referenceAttitude } from './attitude';
import { floatAt, hydrostatics, immersionPerCm, lowestSheer } from './hydrostatics';
import { hullSurface } from './surface';
import type { Attitude, HullSurface, WaterPlane } from './types';

/**
 * Hydrostatics by draught and heel, about a reference attitude.
 *
 * Heel turns the water about the line in which it meets the centre plane; the trim of the reference attitude is kept (the hull is
 * not let free to trim as it heels). Draught, KB and sinkage are measured on the centre plane, square to the reference waterline,
 * and turn with the boat: a heeled row has the draught at which its water cuts the centre plane.
 */
export interface HydrostaticRow {
  /** From the lowest point of the hull in the reference trim to the water, on the centre plane square to the reference waterline. */
  readonly draughtM: number;
  /** From the reference attitude, + starboard side down. */
  readonly heelDeg: number;
  readonly displacementKg: number;
  readonly volumeM3: number;
  readonly waterplaneAreaM2: number;
  /** x of the centre of buoyancy, boat frame. */
  readonly lcbM: number;
  /** x of the centre of flotation, boat frame. */
  readonly lcfM: number;
  /** Height of the centre of buoyancy over the lowest point of the hull, measured as the draught is. */
  readonly kbM: number;
  /** Metacentre over centre of buoyancy, I / V, in this water; transverse, then longitudinal. */
  readonly bmM: number;
  readonly bmlM: number;
  /** Skin under water, transom included. */
  readonly wettedSurfaceM2: number;
  readonly immersionKgPerCm: number;
  /** rho g I / (100 L) with the waterline's own length L: GM taken as BM lengthwise, as is usual. */
  readonly momentToTrimNmPerCm: number;
  /** This draught less that of the reference attitude: + deeper. */
  readonly sinkageM: number;
  /** y and z of the centre of buoyancy, boat frame: the axes of the boat, heeled with it. */
  readonly yBM: number;
  readonly zBM: number;
}

/** Standard gravity, m/s2. */
const GRAVITY = 9.80665;
/** Steps of draught that people read easily; the table takes the one that gives about this many rows. */
const STEPS_M = [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5];
const ROWS = 12;
/** Draughts are one when they differ by less. */
const SAME_DRAUGHT_M = 1e-6;

/** How draughts are measured on a hull that floats as `reference` says. */
export interface DraughtScale {
  readonly referenceM: number;
  /** Draught at which the upright water comes to the lowest point of the sheer. */
  readonly sheerM: number;
  /** Of a water with the trim of the reference. */
  draughtOf(water: WaterPlane): number;
  /** Height of a point over the lowest point of the hull, as draughts are measured. */
  overLowest(point: Vec3): number;
  /** The water at a draught on the centre plane, with heel to starboard. */
  waterAt(draughtM: number, heelDeg: number): WaterPlane;
}

export function draughtScale(surface: HullSurface, reference: WaterPlane): DraughtScale {
  const up = unit(reference.up);
  // Square to the waterline, in the centre plane; a list is no part of it.
  const upright: Vec3 = unit([up[0], 0, up[2]]);
  let lowest = Number.POSITIVE_INFINITY;
  const { vertices } = surface;
  for (let v = 0; v < vertices.length; v += 3)
    lowest = Math.min(lowest, upright[0] * (vertices[v] as number) + upright[2] * (vertices[v + 2] as number));
  return {
    referenceM: crossing(reference) - lowest,
    sheerM: lowestSheer(surface, upright) - lowest,
    draughtOf: (water) => crossing(water) - lowest,
    overLowest: ([x, , z]) => upright[0] * x + upright[2] * z - lowest,
    waterAt: (draughtM, heelDeg) =>
      heeledTo({ up, levelM: (draughtM + lowest) * portable.hypot(up[0], up[2]) }, heelDeg),
  };
}

/** How far along the upright of the centre plane a water crosses it. Trim being kept, its trace there is square to that upright. */
const crossing = ({ up, levelM }: WaterPlane): number => levelM / portable.hypot(up[0], up[2]);

const heeledTo = (water: WaterPlane, heelDeg: number, surface?: HullSurface): WaterPlane =>
  heeled(water, Math.abs(heelDeg), heelDeg < 0 ? 'port' : 'starboard', surface);

/** Round draughts from near the keel to the sheer, and that of the reference attitude among them. */
export function draughtSeries({ referenceM, sheerM }: DraughtScale): readonly number[] {
  const step = STEPS_M.find((size) => sheerM / size <= ROWS) ?? sheerM / ROWS;
  const series = referenceM > 0 ? [referenceM] : [];
  for (let k = 1; k * step <= sheerM + SAME_DRAUGHT_M; k += 1) {
    const draught = Math.round(k * step * 1e6) / 1e6;
    if (Math.abs(draught - referenceM) > SAME_DRAUGHT_M) series.push(draught);
  }
  return series.sort((a, b) => a - b);
}

export interface TableOptions {
  readonly waterDensityKgM3: number;
  /** Draughts on the centre plane; without them the one that keeps the displacement of the reference attitude. */
  readonly draughtsM?: readonly number[];
  /** + starboard side down; default 0. */
  readonly heelDeg?: number;
}

/** One row a draught, in their order. Rows of a dry hull are all zeros but for draught, heel and sinkage. */
export function hydrostaticTable(
  surface: HullSurface,
  reference: WaterPlane,
  { waterDensityKgM3, draughtsM, heelDeg = 0 }: TableOptions,
): readonly HydrostaticRow[] {
  const scale = draughtScale(surface, reference);
  const waters = draughtsM
    ? draughtsM.map((draughtM) => scale.waterAt(draughtM, heelDeg))
    : [heeledTo(reference, heelDeg, surface)];
  return waters.map((water, k) =>
    rowOf(surface, scale, { water, draughtM: draughtsM?.[k] ?? scale.draughtOf(water), heelDeg, waterDensityKgM3 }),
  );
}

function rowOf(
  surface: HullSurface,
  scale: DraughtScale,
  at: { water: WaterPlane; draughtM: number; heelDeg: number; waterDensityKgM3: number },
): HydrostaticRow {
  const { water, draughtM, heelDeg, waterDensityKgM3 } = at;
  const state = hydrostatics(surface, water);
  const [x, y, z] = state.buoyancy;
  const isWet = state.volumeM3 > 0;
  return {
    draughtM,
    heelDeg,
    displacementKg: state.volumeM3 * waterDensityKgM3,
    volumeM3: state.volumeM3,
    waterplaneAreaM2: state.waterplaneM2,
    lcbM: x,
    lcfM: isWet ? state.flotation[0] : 0,
    kbM: isWet ? scale.overLowest(state.buoyancy) : 0,
    bmM: state.transverseRadiusM,
    bmlM: state.longitudinalRadiusM,
    wettedSurfaceM2: state.wettedM2,
    immersionKgPerCm: immersionPerCm(state, waterDensityKgM3),
    momentToTrimNmPerCm:
      state.waterlineLengthM > 0
        ? (waterDensityKgM3 * GRAVITY * state.longitudinalM4) / (100 * state.waterlineLengthM)
        : 0,
    sinkageM: draughtM - scale.referenceM,
    yBM: y,
    zBM: z,
  };
}

export interface Asked {
  readonly draughtM?: number;
  readonly heelDeg?: number;
}

/** Why there is no table. */
export type NoTable =
  | { readonly kind: 'noHull' }
  | { readonly kind: 'cannotFloat'; readonly displacementKg: number; readonly greatestKg: number }
  | { readonly kind: 'cannotBalance'; readonly lcgM: number; readonly lcbM: number }
  /** The reference water lies under the whole hull. */
  | { readonly kind: 'dry'; readonly belowKeelM: number }
  | { readonly kind: 'draughtTooGreat'; readonly draughtM: number; readonly greatestM: number };

export type BoatTable =
  | {
      readonly ok: true;
      readonly rows: readonly HydrostaticRow[];
      readonly attitude: Attitude;
      /** How deep the sheer lies under the water of the last row, 0 when it is dry: there the hull counts as closed flat at the sheer. */
      readonly sheerUnderM: number;
    }
  | { readonly ok: false; readonly why: NoTable };

/**
 * The table of a boat: without a draught and a heel, upright rows from keel to sheer with the reference attitude among them; with a
 * draught, that one, as it stands; with a heel alone, the row that keeps the displacement of the reference attitude.
 */
export function tableOfBoat(boat: Boat, { draughtM, heelDeg }: Asked): BoatTable {
  if (!boat.hull) return { ok: false, why: { kind: 'noHull' } };
  const surface = hullSurface(boat.hull);
  const attitude = referenceAttitude(boat, surface);
  const waterDensityKgM3 = waterDensityOf(boat);
  const mass = attitude.source === 'frame' ? boat.weights?.displacementKg : undefined;
  if (mass !== undefined && mass > 0) return { ok: false, why: notFloating(surface, boat, mass / waterDensityKgM3) };
  const scale = draughtScale(surface, attitude);
  if (!(hydrostatics(surface, attitude).volumeM3 > 0))
    return { ok: false, why: { kind: 'dry', belowKeelM: Math.max(0, -scale.referenceM) } };
  if (draughtM !== undefined && draughtM > scale.sheerM + SAME_DRAUGHT_M)
    return { ok: false, why: { kind: 'draughtTooGreat', draughtM, greatestM: scale.sheerM } };
  const draughtsM = draughtM === undefined ? (heelDeg === undefined ? draughtSeries(scale) : undefined) : [draughtM];
  const rows = hydrostaticTable(surface, attitude, {
    waterDensityKgM3,
    ...(draughtsM ? { draughtsM } : {}),
    ...(heelDeg === undefined ? {} : { heelDeg }),
  });
  const last = rows[rows.length - 1];
  const deepest = last ? scale.waterAt(last.draughtM, last.heelDeg) : attitude;
  const underM = deepest.levelM - lowestSheer(surface, deepest.up);
  return { ok: true, rows, attitude, sheerUnderM: underM > SAME_DRAUGHT_M ? underM : 0 };
}

function notFloating(surface: HullSurface, boat: Boat, volumeM3: number): NoTable {
  const density = waterDensityOf(boat);
  const level = floatAt(surface, { volumeM3, up: [0, 0, 1] });
  if (level !== null) {
    const lcbM = hydrostatics(surface, { up: [0, 0, 1], levelM: level }).buoyancy[0];
    return { kind: 'cannotBalance', lcgM: boat.weights?.lcgM ?? lcbM, lcbM };
  }
  let highest = Number.NEGATIVE_INFINITY;
  for (let v = 2; v < surface.vertices.length; v += 3) highest = Math.max(highest, surface.vertices[v] as number);
  const whole = hydrostatics(surface, { up: [0, 0, 1], levelM: highest }).volumeM3;
  return { kind: 'cannotFloat', displacementKg: volumeM3 * density, greatestKg: whole * density };
}
