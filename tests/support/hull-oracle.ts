import { above, distance2, distanceToTriangle, type Frame, onto, type P2, type P3 } from './geometry-oracle';

/** The skin as data: every query goes through all its triangles. */
export interface HullMesh {
  readonly vertices: Float64Array;
  readonly triangles: Uint32Array;
  readonly insetM: number;
}

const corner = (mesh: HullMesh, k: number): P3 => {
  const i = 3 * (mesh.triangles[k] as number);
  return [mesh.vertices[i] as number, mesh.vertices[i + 1] as number, mesh.vertices[i + 2] as number];
};

/** Bounds of 32 triangles after another: what lies farther than the best so far is passed over, the rest is tried one by one. */
interface Block {
  readonly first: number;
  readonly last: number;
  readonly low: P3;
  readonly high: P3;
}
const BLOCK = 32;
const blocks = new WeakMap<Uint32Array, readonly Block[]>();

function blocksOf(mesh: HullMesh): readonly Block[] {
  const known = blocks.get(mesh.triangles);
  if (known) return known;
  const made: Block[] = [];
  for (let first = 0; first < mesh.triangles.length; first += 3 * BLOCK) {
    const last = Math.min(mesh.triangles.length, first + 3 * BLOCK);
    const low: [number, number, number] = [Infinity, Infinity, Infinity];
    const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
    for (let k = first; k < last; k++)
      corner(mesh, k).forEach((v, axis) => {
        low[axis] = Math.min(low[axis] as number, v);
        high[axis] = Math.max(high[axis] as number, v);
      });
    made.push({ first, last, low, high });
  }
  blocks.set(mesh.triangles, made);
  return made;
}

const boundsGap = (p: P3, low: P3, high: P3): number =>
  Math.hypot(
    Math.max(0, low[0] - p[0], p[0] - high[0]),
    Math.max(0, low[1] - p[1], p[1] - high[1]),
    Math.max(0, low[2] - p[2], p[2] - high[2]),
  );

/** Distance from a point to the skin. */
export function skinDistance(mesh: HullMesh, p: P3): number {
  let best = Number.POSITIVE_INFINITY;
  const near = blocksOf(mesh)
    .map((block) => ({ block, gap: boundsGap(p, block.low, block.high) }))
    .sort((a, b) => a.gap - b.gap);
  for (const { block, gap } of near) {
    if (gap > best) break;
    for (let k = block.first; k < block.last; k += 3)
      best = Math.min(best, distanceToTriangle(p, corner(mesh, k), corner(mesh, k + 1), corner(mesh, k + 2)));
  }
  return best;
}

/** Within the skin, or above its open top: a ray to one side or straight down meets it an odd number of times. */
export function withinHull(mesh: HullMesh, p: P3): boolean {
  return crossings(mesh, p, 1) % 2 === 1 || crossings(mesh, p, 2) % 2 === 1;
}

function crossings(mesh: HullMesh, p: P3, axis: 1 | 2): number {
  // A hair off the point, so that a ray does not run along the edges of a regular net.
  const [i, j] = axis === 1 ? [0, 2] : [0, 1];
  const sign = axis === 1 ? 1 : -1;
  const q: P2 = [(p[i] as number) + 1.3e-6, (p[j] as number) + 0.7e-6];
  let count = 0;
  for (let k = 0; k < mesh.triangles.length; k += 3) {
    const three = [corner(mesh, k), corner(mesh, k + 1), corner(mesh, k + 2)] as const;
    const [a, b, c] = three.map((r) => [r[i] as number, r[j] as number] as P2) as unknown as readonly [P2, P2, P2];
    const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    if (Math.abs(area) < 1e-18) continue;
    const wb = ((q[0] - a[0]) * (c[1] - a[1]) - (q[1] - a[1]) * (c[0] - a[0])) / area;
    const wc = ((b[0] - a[0]) * (q[1] - a[1]) - (b[1] - a[1]) * (q[0] - a[0])) / area;
    if (wb < 0 || wc < 0 || wb + wc > 1) continue;
    const h =
      (three[0][axis] as number) * (1 - wb - wc) + (three[1][axis] as number) * wb + (three[2][axis] as number) * wc;
    if ((h - (p[axis] as number)) * sign > 0) count += 1;
  }
  return count;
}

/** Distance within a plane from a point of it to where the skin cuts it; infinite when the skin does not. */
export function skinDistanceInPlane(mesh: HullMesh, frame: Frame, p: P3): number {
  const q = onto(frame, p);
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < mesh.triangles.length; k += 3) {
    const three = [corner(mesh, k), corner(mesh, k + 1), corner(mesh, k + 2)];
    const h = three.map((r) => above(frame, r));
    if (Math.min(...h) > 0 || Math.max(...h) < 0) continue;
    const cut: P2[] = [];
    three.forEach((a, n) => {
      const b = three[(n + 1) % 3] as P3;
      const [ha, hb] = [h[n] as number, h[(n + 1) % 3] as number];
      if (ha === hb || ha * hb > 0) return;
      const t = ha / (ha - hb);
      cut.push(onto(frame, [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]));
    });
    const [first, second] = cut;
    if (first && second) best = Math.min(best, distance2(q, first, second));
    if (first && cut[2]) best = Math.min(best, distance2(q, first, cut[2]));
  }
  return best;
}
