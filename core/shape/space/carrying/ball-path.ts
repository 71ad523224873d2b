import type { Vec3 } from '../../../base/vec';
import type { ClearRoom } from './clear-room';

/** Size of the cells of the flood, and how many it may take (metres). */
const CELL_M = 0.03;
const MOST_CELLS = 24_000;
/** Half the diagonal of a cell: no point of it is farther from its middle. */
const IN_CELL_M = (CELL_M * Math.sqrt(3)) / 2;

/**
 * Whether a ball can be led from a point to beyond the plane of the opening, or out of the box; false is a proof that it cannot. Cells of
 * 30 mm in which a ball might have its middle are flooded: where the middle of a cell is nearer to something than the radius less half the
 * cell's diagonal, no ball has its middle in it. Everything holds a ball of half its smallest side.
 */
export function ballMayPass(
  room: ClearRoom,
  radiusM: number,
  from: Vec3,
  { low, high }: { readonly low: Vec3; readonly high: Vec3 },
): boolean {
  const counts = [0, 1, 2].map((k) => Math.max(1, Math.ceil(((high[k] as number) - (low[k] as number)) / CELL_M)));
  const [nu, nv, nw] = counts as [number, number, number];
  const cellOf = (k: 0 | 1 | 2): number => Math.floor((from[k] - low[k]) / CELL_M);
  const start: Vec3 = [cellOf(0), cellOf(1), cellOf(2)];
  if (start.some((c, k) => c < 0 || c >= (counts[k] as number))) return true;
  const needM = radiusM - IN_CELL_M;
  if (needM <= 0) return true;
  const known = new Set<number>();
  const indexOf = ([i, j, k]: Vec3): number => (i * nv + j) * nw + k;
  const queue: Vec3[] = [start];
  known.add(indexOf(start));
  for (let n = 0; n < queue.length; n += 1) {
    if (n > MOST_CELLS) return true;
    const [i, j, k] = queue[n] as Vec3;
    for (const [a, b, c] of BESIDE) {
      const next: Vec3 = [i + a, j + b, k + c];
      if (next[0] < 0 || next[1] < 0 || next[2] < 0 || next[0] >= nu || next[1] >= nv || next[2] >= nw) return true;
      const index = indexOf(next);
      if (known.has(index)) continue;
      known.add(index);
      const middle: Vec3 = [
        low[0] + (next[0] + 0.5) * CELL_M,
        low[1] + (next[1] + 0.5) * CELL_M,
        low[2] + (next[2] + 0.5) * CELL_M,
      ];
      if (room.aboutPoint(middle, needM) < needM) continue;
      if (middle[2] > radiusM + CELL_M) return true;
      queue.push(next);
    }
  }
  return false;
}

const BESIDE: readonly Vec3[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];
