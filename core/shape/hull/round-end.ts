import { at, fairSlopes, limitToPositive } from './interpolant';

/**
 * A row that comes to an end of the hull square to the length (the waterline at a rounded bow, the keel line at a forefoot) rises
 * like a root of the distance from the end: its square is smooth where the row itself is not. Whether it does is read from the next three
 * stations: the parabola through their values, or the one through their squares, comes nearer to the end.
 */
export interface RoundEnd {
  /** 0: the row is drawn as it is; 1: by its square. */
  readonly weight: number;
  /** By the square, at a fraction of the gap from aft forward. */
  valueAt(t: number): number;
  /** Mean of those values over the gap. */
  readonly area: number;
}

const STATIONS = 4;
/** A row within this of its end value is straight there. */
const FLAT_M = 1e-6;
/** Misses of both parabolas below this share of the first rise are rounding: neither is needed. */
const ROUNDING = 1e-6;
/** Abscissas and weights of Gauss's rule of five points on 0..1. */
const GAUSS: readonly (readonly [number, number])[] = [
  [0.5, 0.5688888888888889 / 2],
  [(1 - 0.5384693101056831) / 2, 0.4786286704993665 / 2],
  [(1 + 0.5384693101056831) / 2, 0.4786286704993665 / 2],
  [(1 - 0.906179845938664) / 2, 0.2369268850561891 / 2],
  [(1 + 0.906179845938664) / 2, 0.2369268850561891 / 2],
];

/** Reads one end of a row. Adapts the slopes at the stations next to it, as far as the row is drawn by its square. */
export function roundEnd(
  knots: Float64Array,
  values: Float64Array,
  slopes: Float64Array,
  which: 'first' | 'last',
): RoundEnd | null {
  const n = knots.length;
  if (n < STATIONS + 1) return null;
  const place = (k: number): number => (which === 'first' ? k : n - 1 - k);
  const end = at(values, place(0));
  // As many stations as go on in the same sense: beyond the widest place the square says nothing.
  const rises: number[] = [0];
  const distances: number[] = [0];
  const sense = Math.sign(at(values, place(1)) - end);
  for (let k = 1; k < n; k += 1) {
    const rise = sense * (at(values, place(k)) - end);
    if (!(rise > FLAT_M) || rise < at(rises, k - 1)) break;
    rises.push(rise);
    distances.push(Math.abs(at(knots, place(k)) - at(knots, place(0))));
  }
  if (rises.length < STATIONS) return null;
  const squares = rises.map((rise) => rise * rise);
  const plainMiss = Math.abs(extrapolated(distances, rises)) / at(rises, 1);
  const squareMiss = Math.abs(extrapolated(distances, squares)) / at(squares, 1);
  const weight = plainMiss ** 2 / (plainMiss ** 2 + squareMiss ** 2 + ROUNDING);
  if (!(weight > 1e-3)) return null;

  const squareSlopes = fairSlopes(distances, squares);
  limitToPositive(distances, squares, squareSlopes);
  const forward = which === 'first' ? 1 : -1;
  const reach = Math.min(STATIONS, rises.length - 1);
  for (let k = 1; k < reach; k += 1) {
    const slope = (sense * forward * at(squareSlopes, k)) / (2 * at(rises, k));
    slopes[place(k)] = at(slopes, place(k)) + weight * (slope - at(slopes, place(k)));
  }
  const first = at(distances, 1);
  const squareAt = (share: number): number => {
    const rise = at(squares, 1);
    const departFrom = at(squareSlopes, 0) * first;
    const departTo = at(squareSlopes, 1) * first;
    const s = 1 - share;
    return Math.max(0, rise * share + s * share * (s * (departFrom - rise) - share * (departTo - rise)));
  };
  const fromEnd = (share: number): number => end + sense * Math.sqrt(squareAt(share));
  // Over the root of the share the curve is smooth up to the end.
  const area = GAUSS.reduce((sum, [r, w]) => sum + w * 2 * r * fromEnd(r * r), 0);
  return { weight, valueAt: (t) => fromEnd(which === 'first' ? t : 1 - t), area };
}

/** Value at 0 of the parabola through the three places after the first. */
function extrapolated(distances: readonly number[], values: readonly number[]): number {
  const [, a = 0, b = 0, c = 0] = distances;
  const [, f = 0, g = 0, h = 0] = values;
  return (f * b * c) / ((a - b) * (a - c)) + (g * a * c) / ((b - a) * (b - c)) + (h * a * b) / ((c - a) * (c - b));
}
