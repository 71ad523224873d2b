import { dot, unit, type Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { floatAt, hydrostatics } from './hydrostatics';
import type { HullSurface, WaterPlane } from './types';

/** Steps of the search for a trim, and what it may still be off when it ends: lever in metres. */
const TRIM_STEPS = 40;
const LEVER_PRECISION_M = 1e-7;
/** A boat that would lie more steeply than this is not afloat as entered: slope of the waterline. */
const GREATEST_SLOPE = 0.2;

/**
 * How the hull floats with the mass entered, and with its centre of gravity at lcgM where that is known: displaced mass equals the
 * mass, and the centre of buoyancy is plumb under the centre of gravity. Without kgM the centre of gravity counts as no higher
 * than the centre of buoyancy, which leaves the trim of a cruising boat a few per cent too small. Null without a mass, when the
 * hull cannot carry it, or when no trim under a slope of 0.2 balances it.
 */
export function floatByWeights(surface: HullSurface, weights: NonNullable<Boat['weights']>): WaterPlane | null {
  const { displacementKg, lcgM, kgM, waterDensityKgM3 } = weights;
  if (displacementKg === undefined || !(displacementKg > 0)) return null;
  const volumeM3 = displacementKg / waterDensityKgM3;
  const atSlope = (slope: number): { water: WaterPlane; leverM: number; radiusM: number } | null => {
    const up = unit([0 - slope, 0, 1]);
    const levelM = floatAt(surface, { volumeM3, up });
    if (levelM === null) return null;
    const water = { up, levelM };
    const { buoyancy, longitudinalRadiusM } = hydrostatics(surface, water);
    const forward: Vec3 = [up[2], 0, -up[0]];
    const gravity: Vec3 = [lcgM ?? buoyancy[0], 0, kgM ?? buoyancy[2]];
    return { water, leverM: dot(forward, gravity) - dot(forward, buoyancy), radiusM: longitudinalRadiusM };
  };
  let state = atSlope(0);
  if (!state || lcgM === undefined) return state?.water ?? null;
  // The bow goes down while the lever is positive: the root lies between two slopes whose levers differ in sign.
  let low = -GREATEST_SLOPE;
  let high = GREATEST_SLOPE;
  let slope = 0;
  for (let step = 0; step < TRIM_STEPS && Math.abs(state.leverM) > LEVER_PRECISION_M; step += 1) {
    if (state.leverM > 0) low = slope;
    else high = slope;
    let next: number = slope + state.leverM / Math.max(1e-3, state.radiusM);
    if (!(next > low && next < high)) next = (low + high) / 2;
    slope = next;
    state = atSlope(slope);
    if (!state) return null;
  }
  return Math.abs(slope) < GREATEST_SLOPE * 0.999 ? state.water : null;
}
