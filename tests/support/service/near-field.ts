import type { Solid } from '@core/shape/space/solids';
import { pointGap } from '../convex-gap';
import type { P3 } from '../geometry-oracle';

/** Spacing of the nodes: one cell. */
export const CELL_M = 0.01;
/** Nothing is farther from the nearest node than this. */
const NODE_M = (CELL_M * Math.sqrt(3)) / 2;
/** Distances are kept up to this. */
const FAR_M = 0.11;

/** Distance to the nearest solid at the nodes of a lattice about a place, up to a cut-off; 0 within a solid. */
export class NearField {
  private readonly counts: P3;
  private readonly values: Float32Array;

  constructor(
    private readonly low: P3,
    high: P3,
    solids: readonly Solid[],
    base?: NearField,
  ) {
    const count = (k: 0 | 1 | 2): number => Math.max(1, Math.ceil((high[k] - low[k]) / CELL_M) + 1);
    this.counts = [count(0), count(1), count(2)];
    const [n, m, l] = this.counts;
    this.values = base ? base.values.slice() : new Float32Array(n * m * l).fill(FAR_M);
    for (const solid of solids) this.stamp(solid);
  }

  /** At the node that is nearest to a place; the cut-off outside. */
  at(x: number, y: number, z: number): number {
    const { counts, low } = this;
    const i = Math.floor((x - low[0]) / CELL_M + 0.5);
    const j = Math.floor((y - low[1]) / CELL_M + 0.5);
    const k = Math.floor((z - low[2]) / CELL_M + 0.5);
    if (i < 0 || j < 0 || k < 0 || i >= counts[0] || j >= counts[1] || k >= counts[2]) return FAR_M;
    return this.values[(i * counts[1] + j) * counts[2] + k] as number;
  }

  /** True where a ball of that radius about the place surely overlaps something. */
  hits(x: number, y: number, z: number, radius: number): boolean {
    return this.at(x, y, z) < radius - NODE_M;
  }

  /** True where a capsule surely does: places along its axis a cell apart, from the middle outwards, where most of them meet the wall. */
  capsuleHits(a: P3, b: P3, radius: number): boolean {
    const [ax, ay, az] = a;
    const dx = b[0] - ax;
    const dy = b[1] - ay;
    const dz = b[2] - az;
    const steps = Math.max(1, Math.ceil(Math.sqrt(dx * dx + dy * dy + dz * dz) / CELL_M));
    const within = radius - NODE_M;
    const half = steps >> 1;
    for (let n = 0; n <= steps; n += 1) {
      const t = (half + (n % 2 === 0 ? n >> 1 : -((n + 1) >> 1))) / steps;
      if (t >= 0 && t <= 1 && this.at(ax + dx * t, ay + dy * t, az + dz * t) < within) return true;
    }
    return false;
  }

  private stamp(solid: Solid): void {
    const { low, high } = boundsOf(solid);
    const [, m, l] = this.counts;
    const range = (axis: 0 | 1 | 2): [number, number] => [
      Math.max(0, Math.ceil((low[axis] - FAR_M - this.low[axis]) / CELL_M)),
      Math.min(this.counts[axis] - 1, Math.floor((high[axis] + FAR_M - this.low[axis]) / CELL_M)),
    ];
    const [[i0, i1], [j0, j1], [k0, k1]] = [range(0), range(1), range(2)];
    const { values } = this;
    const near =
      solid.type === 'box' ? nearBox(solid) : (x: number, y: number, z: number) => pointGap(solid, [x, y, z]);
    for (let i = i0; i <= i1; i += 1)
      for (let j = j0; j <= j1; j += 1)
        for (let k = k0; k <= k1; k += 1) {
          const node = (i * m + j) * l + k;
          if (values[node] === 0) continue;
          const d = near(this.low[0] + i * CELL_M, this.low[1] + j * CELL_M, this.low[2] + k * CELL_M);
          if (d < (values[node] as number)) values[node] = d;
        }
  }
}

/** As pointGap of a box, in plain numbers: nearly all the nodes are asked of boxes. */
function nearBox({ centre, half, axes }: Extract<Solid, { type: 'box' }>): (x: number, y: number, z: number) => number {
  const [cx, cy, cz] = centre;
  const [u, v, w] = axes;
  return (x, y, z) => {
    const [px, py, pz] = [x - cx, y - cy, z - cz];
    const a = Math.max(0, Math.abs(px * u[0] + py * u[1] + pz * u[2]) - half[0]);
    const b = Math.max(0, Math.abs(px * v[0] + py * v[1] + pz * v[2]) - half[1]);
    const c = Math.max(0, Math.abs(px * w[0] + py * w[1] + pz * w[2]) - half[2]);
    return Math.sqrt(a * a + b * b + c * c);
  };
}

function boundsOf(solid: Solid): { low: P3; high: P3 } {
  if (solid.type !== 'box') {
    const { from, to, radius } = solid;
    return {
      low: [Math.min(from[0], to[0]) - radius, Math.min(from[1], to[1]) - radius, Math.min(from[2], to[2]) - radius],
      high: [Math.max(from[0], to[0]) + radius, Math.max(from[1], to[1]) + radius, Math.max(from[2], to[2]) + radius],
    };
  }
  const { centre, half, axes } = solid;
  const reach = ([0, 1, 2] as const).map((k) =>
    axes.reduce((sum, axis, i) => sum + Math.abs(axis[k]) * (half[i] ?? 0), 0),
  );
  const [x, y, z] = reach as unknown as P3;
  return {
    low: [centre[0] - x, centre[1] - y, centre[2] - z],
    high: [centre[0] + x, centre[1] + y, centre[2] + z],
  };
}
