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

/** Distance from a point to the skin, all triangles tried; those whose bounds are farther than the best are passed over. */
export function skinDistance(mesh: HullMesh, p: P3): number {
  let best = Number.POSITIVE_INFINITY;
  const { vertices: v, triangles: t } = mesh;
  for (let k = 0; k < t.length; k += 3) {
    const [a, b, c] = [3 * (t[k] as number), 3 * (t[k + 1] as number), 3 * (t[k + 2] as number)];
    let out = false;
    for (let j = 0; j < 3 && !out; j++) {
      const [x, y, z] = [v[a + j] as number, v[b + j] as number, v[c + j] as number];
      const q = p[j] as number;
      out = Math.min(x, y, z) - q > best || q - Math.max(x, y, z) > best;
    }
    if (!out) best = Math.min(best, distanceToTriangle(p, corner(mesh, k), corner(mesh, k + 1), corner(mesh, k + 2)));
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
