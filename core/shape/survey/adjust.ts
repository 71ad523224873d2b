import * as portable from '../../base/portable';
import type { Vec3 } from '../../base/vec';
import type { End, Observation } from './network';
import { dampedStep, inverseOf, normalOf, type Row, type Square, shared } from './normal';

/** Places after an adjustment, and what it knows of them. Coordinate c of free point p is unknown 3 p + c. */
export interface Adjusted {
  readonly places: readonly Vec3[];
  /** Readings less what the places give, metres, in the order of the observations. */
  readonly residuals: readonly number[];
  /** Share of a reading's error that shows in its residual: 0 where nothing else checks it, near 1 where much does. */
  readonly redundancy: readonly number[];
  /** Rows of the weighted design: the reading's slope on every unknown over its standard deviation. */
  readonly design: readonly Row[];
  /** Covariance of the unknowns, m2; what the readings leave loose is left out. */
  readonly covariance: Square;
  /** Directions in which the readings leave the places loose: unit vectors over the unknowns. */
  readonly loose: readonly (readonly number[])[];
  /** Sum of the squared residuals, each over its standard deviation. */
  readonly chiSquare: number;
  /** Readings more than needed. */
  readonly degrees: number;
}

const MOST_STEPS = 80;
const STILL_M = 1e-9;
/** Below this a line has no direction to speak of, metres. */
const SHORTEST_M = 1e-6;

const placeOf = (end: End, places: readonly Vec3[]): Vec3 => ('at' in end ? end.at : (places[end.free] as Vec3));

/** What a reading would be at these places, metres. */
export function computed(
  { from, to, model }: Pick<Observation, 'from' | 'to' | 'model'>,
  places: readonly Vec3[],
): number {
  const [a, b] = [placeOf(from, places), placeOf(to, places)];
  if (model.type === 'length') return portable.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  const step = b[model.axis] - a[model.axis];
  return model.type === 'gap' ? Math.abs(step) : model.sign * step;
}

/** Slope of a reading on the unknowns, over its standard deviation. */
export function rowOf({ from, to, model, sigmaM }: Omit<Observation, 'id' | 'valueM'>, places: readonly Vec3[]): Row {
  const [a, b] = [placeOf(from, places), placeOf(to, places)];
  const step = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  let slope: number[];
  if (model.type === 'length') {
    const length = portable.hypot(...step);
    slope = length > SHORTEST_M ? step.map((part) => part / length) : [1, 0, 0];
  } else {
    slope = [0, 0, 0];
    const side = model.type === 'gap' ? ((step[model.axis] ?? 0) < 0 ? -1 : 1) : model.sign;
    slope[model.axis] = side;
  }
  const row: [number, number][] = [];
  slope.forEach((part, axis) => {
    if (part === 0) return;
    if ('free' in to) row.push([3 * to.free + axis, part / sigmaM]);
    if ('free' in from) row.push([3 * from.free + axis, -part / sigmaM]);
  });
  return row;
}

/**
 * Places that make the sum of the squared weighted residuals least, from a start: Gauss-Newton steps, damped as by Levenberg and
 * Marquardt where a full step does not help. What no reading fixes stays where it started.
 */
export function adjusted(observations: readonly Observation[], start: readonly Vec3[]): Adjusted {
  const { places } = settled(observations, start);
  const unknowns = 3 * places.length;
  const design = observations.map((observation) => rowOf(observation, places));
  const residuals = observations.map((observation) => observation.valueM - computed(observation, places));
  const { covariance, loose } = inverseOf(normalOf(design, unknowns));
  const redundancy = design.map((row) => Math.min(1, Math.max(0, 1 - shared(row, row, covariance))));
  const chiSquare = observations.reduce((sum, { sigmaM }, i) => sum + ((residuals[i] ?? 0) / sigmaM) ** 2, 0);
  const degrees = observations.length - (unknowns - loose.length);
  return { places, residuals, redundancy, design, covariance, loose, chiSquare, degrees };
}

/** The same search without its account: places and the sum that was made least. */
export function settled(
  observations: readonly Observation[],
  start: readonly Vec3[],
): { readonly places: readonly Vec3[]; readonly chiSquare: number } {
  const unknowns = 3 * start.length;
  let places = start;
  let misfit = misfitOf(observations, places);
  if (unknowns === 0 || observations.length === 0) return { places, chiSquare: misfit };
  let damping = 1e-6;
  for (let step = 0; step < MOST_STEPS; step++) {
    const design = observations.map((observation) => rowOf(observation, places));
    const normal = normalOf(design, unknowns);
    const gradient = new Float64Array(unknowns);
    observations.forEach((observation, i) => {
      const miss = (observation.valueM - computed(observation, places)) / observation.sigmaM;
      for (const [unknown, slope] of design[i] ?? []) gradient[unknown] = (gradient[unknown] ?? 0) + slope * miss;
    });
    let largest = 0;
    for (let i = 0; i < unknowns; i++) largest = Math.max(largest, normal.at[i * unknowns + i] ?? 0);
    if (largest === 0) break;
    let moved = Number.POSITIVE_INFINITY;
    let better = false;
    while (damping < 1e6) {
      const change = dampedStep(normal, gradient, damping * largest);
      const next = places.map(
        (at, p): Vec3 => [
          at[0] + (change[3 * p] ?? 0),
          at[1] + (change[3 * p + 1] ?? 0),
          at[2] + (change[3 * p + 2] ?? 0),
        ],
      );
      const nextMisfit = misfitOf(observations, next);
      if (nextMisfit <= misfit) {
        moved = change.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
        better = true;
        places = next;
        misfit = nextMisfit;
        damping = Math.max(1e-12, damping / 10);
        break;
      }
      damping *= 10;
    }
    if (!better || moved < STILL_M) break;
  }
  return { places, chiSquare: misfit };
}

/** Weighted sum of squares that the places leave. */
const misfitOf = (observations: readonly Observation[], places: readonly Vec3[]): number =>
  observations.reduce((sum, one) => sum + ((one.valueM - computed(one, places)) / one.sigmaM) ** 2, 0);
