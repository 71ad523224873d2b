import * as portable from '../../base/portable';
import { dot, type Vec3 } from '../../base/vec';

/** One side of a room as a body meets it: dot(normal, centre) + gain growth <= room. */
export interface Side {
  readonly normal: Vec3;
  /** How fast the body comes nearer as it grows. */
  readonly gain: number;
  /** Offset of the plane less the reach of the body about its centre. */
  readonly roomM: number;
}

export interface Largest {
  /** The body may be larger by this in every side; negative: it must be smaller. */
  readonly growthM: number;
  readonly centre: Vec3;
  /** By side: how much the growth follows its room. Zero: it does not bind. */
  readonly weights: readonly number[];
}

const DUST = 1e-9;

/**
 * The largest growth with which a body of one orientation still stands between the sides, and where: a linear programme in four unknowns,
 * solved by its corners, of which a locker has a few dozen. Null when the sides do not enclose a room.
 */
export function largestBetween(sides: readonly Side[]): Largest | null {
  const n = sides.length;
  for (let a = 0; a < n; a++)
    for (let b = a + 1; b < n; b++)
      for (let c = b + 1; c < n; c++)
        for (let d = c + 1; d < n; d++) {
          const four = [a, b, c, d];
          const rows = four.map((i) => rowOf(sides[i] as Side));
          // Optimal where the objective is a sum of the four sides with no negative share, and the corner breaks no other side.
          const shares = solved(transposed(rows), [0, 0, 0, 1]);
          if (!shares || shares.some((share) => share < -DUST)) continue;
          const corner = solved(
            rows,
            four.map((i) => (sides[i] as Side).roomM),
          );
          if (!corner) continue;
          const [x = 0, y = 0, z = 0, growthM = 0] = corner;
          const centre: Vec3 = [x, y, z];
          if (sides.some((side) => dot(side.normal, centre) + side.gain * growthM > side.roomM + DUST)) continue;
          const weights = sides.map((_, i) => {
            const share = shares[four.indexOf(i)];
            return share === undefined || share < 1e-6 ? 0 : share;
          });
          return { growthM, centre, weights };
        }
  return null;
}

const rowOf = ({ normal, gain }: Side): number[] => [...normal, gain];
const transposed = (rows: readonly (readonly number[])[]): number[][] =>
  rows.map((_, j) => rows.map((row) => row[j] as number));

/** Solves a square system by elimination with pivots; null when it is singular. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, right[i] as number]);
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(entry(rows, i, k)) > Math.abs(entry(rows, pivot, k))) pivot = i;
    if (Math.abs(entry(rows, pivot, k)) < 1e-10) return null;
    [rows[k], rows[pivot]] = [rows[pivot] as number[], rows[k] as number[]];
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = entry(rows, i, k) / entry(rows, k, k);
      if (factor === 0) continue;
      for (let j = k; j <= n; j++) (rows[i] as number[])[j] = entry(rows, i, j) - factor * entry(rows, k, j);
    }
  }
  return rows.map((row, k) => (row[n] as number) / (row[k] as number));
}

const entry = (rows: readonly (readonly number[])[], i: number, j: number): number =>
  (rows[i] as readonly number[])[j] as number;

/** Corners of the region where a centre may stand between the sides without growth: every three sides that meet, each corner once. */
export function cornersBetween(sides: readonly Side[]): readonly Vec3[] {
  const found: Vec3[] = [];
  const n = sides.length;
  for (let a = 0; a < n; a++)
    for (let b = a + 1; b < n; b++)
      for (let c = b + 1; c < n; c++) {
        const three = [a, b, c].map((i) => sides[i] as Side);
        const corner = solved(
          three.map((side) => [...side.normal]),
          three.map((side) => side.roomM),
        );
        if (!corner) continue;
        const p = corner as unknown as Vec3;
        if (sides.some((side) => dot(side.normal, p) > side.roomM + 1e-7)) continue;
        if (!found.some((q) => portable.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]) < 1e-6)) found.push(p);
      }
  return found;
}
