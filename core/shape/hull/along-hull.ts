import * as portable from '../../base/portable';
import { type Facets, partsFor } from './facets';
import { at, fairSlopes, hermite, limitReach, limitToPositive } from './interpolant';
import { type RoundEnd, roundEnd } from './round-end';

/**
 * The refined half of a hull, from its centre: columns of constant x from aft forward, rows from keel to sheer.
 * Node (i, j) is at [x[i], y[i * rows + j], z[i * rows + j]] with y >= 0 and z never falling along a column.
 */
export interface HalfGrid {
  readonly columns: number;
  readonly rows: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

/** Gaps that the gap at a rounded end is cut into at least, the shorter ones nearer to the end. */
const GAPS_AT_ROUND_END = 8;
/** Less of a round end than this is drawn on the common columns. */
const LEAST_ROUND = 0.02;

/** Mean distance of chords from their curve below which the curve is straight. */
const STRAIGHT_M = 1e-12;

/** One row of the surface over its stations: breadth or height. */
interface Row {
  readonly values: Float64Array;
  readonly slopes: Float64Array;
  readonly aft: RoundEnd | null;
  readonly forward: RoundEnd | null;
}

/** Where the columns of one gap between stations stand: fractions of it, from 0 to 1. */
interface Gap {
  readonly fractions: readonly number[];
  /** Share of what the chords leave out that each node within carries. */
  readonly shares: readonly number[];
}

/** Interpolates every row along x and keeps what the rest relies on: no negative breadth, no falling z. */
export function alongHull(
  knots: Float64Array,
  stationY: readonly number[][],
  stationZ: readonly number[][],
  facets: Facets,
): HalfGrid {
  const rows = stationY[0]?.length ?? 0;
  const n = knots.length;
  const aft = knots[0] ?? 0;
  const lengthM = (knots[n - 1] ?? 0) - aft;
  const pointed = [stationY[0], stationY[n - 1]].map((column) => (column ?? []).every((y) => y === 0)) as [
    boolean,
    boolean,
  ];
  const rowsOf = (stations: readonly number[][], isBreadth: boolean): Row[] =>
    Array.from({ length: rows }, (_, j) =>
      rowOf(
        knots,
        Float64Array.from(stations, (column) => at(column, j)),
        pointed,
        isBreadth,
      ),
    );
  const breadths = rowsOf(stationY, true);
  const heights = rowsOf(stationZ, false);

  const isRound = (end: 'aft' | 'forward'): boolean =>
    [...breadths, ...heights].some((row) => (row[end]?.weight ?? 0) > LEAST_ROUND);
  const gaps = Array.from(knots.subarray(1), (to, g): Gap => {
    const width = to - at(knots, g);
    const parts = partsFor((width * facets.leastAlong) / lengthM, sagIn(g, width, [breadths, heights]), facets);
    const aftRound = g === 0 && isRound('aft');
    const forwardRound = g === n - 2 && isRound('forward');
    const many = aftRound || forwardRound ? Math.max(parts, GAPS_AT_ROUND_END, facets.most) : parts;
    return gapWith(many, aftRound, forwardRound);
  });

  const xs: number[] = [aft];
  gaps.forEach(({ fractions }, g) => {
    const from = at(knots, g);
    const width = at(knots, g + 1) - from;
    for (const t of fractions.slice(1)) xs.push(t === 1 ? at(knots, g + 1) : from + width * t);
  });
  const y = new Float64Array(xs.length * rows);
  const z = new Float64Array(xs.length * rows);
  for (let j = 0; j < rows; j += 1) {
    fill(y, j, rows, knots, breadths[j] as Row, gaps);
    fill(z, j, rows, knots, heights[j] as Row, gaps);
  }
  for (let k = 0; k < y.length; k += 1) y[k] = Math.max(0, at(y, k));
  for (let i = 0; i < xs.length; i += 1)
    for (let j = 1; j < rows; j += 1) z[i * rows + j] = Math.max(at(z, i * rows + j), at(z, i * rows + j - 1));
  return { columns: xs.length, rows, x: Float64Array.from(xs), y, z };
}

/** How far the rows stray from one chord over a gap, by their bend at both of its ends. */
function sagIn(gap: number, width: number, sides: readonly (readonly Row[])[]): number {
  let bend = 0;
  for (const rows of sides)
    for (const { values, slopes } of rows) {
      // A cubic bends most at one of its ends: 6 chord - 4 slope - 2 slope, by the width.
      const chord = ((values[gap + 1] as number) - (values[gap] as number)) / width;
      const from = 6 * chord - 4 * (slopes[gap] as number) - 2 * (slopes[gap + 1] as number);
      const to = 2 * (slopes[gap] as number) + 4 * (slopes[gap + 1] as number) - 6 * chord;
      bend = Math.max(bend, Math.abs(from), Math.abs(to));
    }
  return (bend * width) / 8;
}

function rowOf(
  knots: Float64Array,
  values: Float64Array,
  [aftPointed, forwardPointed]: readonly [boolean, boolean],
  isBreadth: boolean,
): Row {
  const slopes = fairSlopes(knots, values);
  limitReach(knots, values, slopes);
  if (isBreadth) limitToPositive(knots, values, slopes);
  const aft = aftPointed ? roundEnd(knots, values, slopes, 'first') : null;
  const forward = forwardPointed ? roundEnd(knots, values, slopes, 'last') : null;
  return { values, slopes, aft, forward };
}

function gapWith(parts: number, aftRound: boolean, forwardRound: boolean): Gap {
  const fractions = Array.from({ length: parts + 1 }, (_, p) => {
    const t = p / parts;
    if (aftRound && forwardRound) return (1 - portable.cos(Math.PI * t)) / 2;
    if (aftRound) return t * t;
    return forwardRound ? 1 - (1 - t) ** 2 : t;
  });
  // A chord over h leaves out h^3 / 12 of the bend; each node within carries half of that on either side, and what the ends would.
  const weights = fractions.map((t, p) => {
    if (p === 0 || p === parts) return 0;
    const before = t - at(fractions, p - 1);
    const after = at(fractions, p + 1) - t;
    return (before ** 3 + after ** 3) / (before + after);
  });
  let whole = 0;
  weights.forEach((weight, p) => {
    if (weight > 0) whole += (weight * (at(fractions, p + 1) - at(fractions, p - 1))) / 2;
  });
  return { fractions, shares: weights.map((weight) => (whole > 0 ? weight / whole : 0)) };
}

/**
 * Writes one row at every column. What the chords of a gap between stations leave out is put onto its nodes within, so that the
 * row encloses as much as its curve does; at the stations it keeps the values entered.
 */
function fill(
  out: Float64Array,
  j: number,
  rows: number,
  knots: Float64Array,
  { values, slopes, aft, forward }: Row,
  gaps: readonly Gap[],
): void {
  let column = 0;
  out[j] = values[0] as number;
  gaps.forEach(({ fractions, shares }, g) => {
    const parts = fractions.length - 1;
    const end = g === 0 && aft ? aft : g === gaps.length - 1 && forward ? forward : null;
    const valueAt = (t: number): number => {
      const plain = hermite(knots, values, slopes, g, t);
      return end ? plain + end.weight * (end.valueAt(t) - plain) : plain;
    };
    const width = (knots[g + 1] as number) - (knots[g] as number);
    // Exact for the cubic: (f(0) + f(1)) / 2 - (f'(1) - f'(0)) / 12.
    let area =
      ((values[g] as number) + (values[g + 1] as number)) / 2 -
      (((slopes[g + 1] as number) - (slopes[g] as number)) * width) / 12;
    if (end) area += end.weight * (end.area - area);
    const first = column + 1;
    let chords = 0;
    let before = values[g] as number;
    for (let p = 1; p <= parts; p += 1) {
      const here = p === parts ? (values[g + 1] as number) : valueAt(fractions[p] as number);
      chords += ((before + here) / 2) * ((fractions[p] as number) - (fractions[p - 1] as number));
      column += 1;
      out[column * rows + j] = here;
      before = here;
    }
    // A straight gap leaves nothing out but rounding, and stays straight.
    const missing = Math.abs(area - chords) < STRAIGHT_M ? 0 : area - chords;
    for (let p = 1; p < parts && missing !== 0; p += 1) {
      const k = (first + p - 1) * rows + j;
      out[k] = (out[k] as number) + missing * (shares[p] as number);
    }
  });
}
