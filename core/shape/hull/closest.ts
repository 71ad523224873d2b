/**
 * Closest points of points, segments and triangles, on bare coordinates: they stand in the innermost loop of clearance, where an
 * object for each vector would cost more than the arithmetic, and so would a boxed number for each coordinate. Corners are
 * therefore read from a list, each by the place of its x.
 */

/** Lesser of `best` and the distance of a point from a triangle (closest point by Voronoi region, Ericson). */
export function nearer(
  best: number,
  x: number,
  y: number,
  z: number,
  corners: Float64Array,
  p: number,
  q: number,
  r: number,
): number {
  const px = corners[p] as number;
  const py = corners[p + 1] as number;
  const pz = corners[p + 2] as number;
  const qx = corners[q] as number;
  const qy = corners[q + 1] as number;
  const qz = corners[q + 2] as number;
  const rx = corners[r] as number;
  const ry = corners[r + 1] as number;
  const rz = corners[r + 2] as number;
  const ux = qx - px;
  const uy = qy - py;
  const uz = qz - pz;
  const vx = rx - px;
  const vy = ry - py;
  const vz = rz - pz;
  let wx = x - px;
  let wy = y - py;
  let wz = z - pz;
  const d1 = ux * wx + uy * wy + uz * wz;
  const d2 = vx * wx + vy * wy + vz * wz;
  let s = 0;
  let t = 0;
  if (!(d1 <= 0 && d2 <= 0)) {
    const ex = x - qx;
    const ey = y - qy;
    const ez = z - qz;
    const d3 = ux * ex + uy * ey + uz * ez;
    const d4 = vx * ex + vy * ey + vz * ez;
    const gx = x - rx;
    const gy = y - ry;
    const gz = z - rz;
    const d5 = ux * gx + uy * gy + uz * gz;
    const d6 = vx * gx + vy * gy + vz * gz;
    const vc = d1 * d4 - d3 * d2;
    const vb = d5 * d2 - d1 * d6;
    const va = d3 * d6 - d5 * d4;
    if (d3 >= 0 && d4 <= d3) s = 1;
    else if (d6 >= 0 && d5 <= d6) t = 1;
    else if (vc <= 0 && d1 >= 0 && d3 <= 0) s = d1 / (d1 - d3);
    else if (vb <= 0 && d2 >= 0 && d6 <= 0) t = d2 / (d2 - d6);
    else if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
      t = (d4 - d3) / (d4 - d3 + (d5 - d6));
      s = 1 - t;
    } else {
      const sum = va + vb + vc;
      s = vb / sum;
      t = vc / sum;
    }
  }
  wx -= s * ux + t * vx;
  wy -= s * uy + t * vy;
  wz -= s * uz + t * vz;
  const squared = wx * wx + wy * wy + wz * wz;
  return squared < best * best ? Math.sqrt(squared) : best;
}

/**
 * Lesser of `best` and the distance between two segments (clamped closest points, Ericson). The second must have length: of one that
 * has none the distance is not a number, and `best` stands. `space/kernel.ts` has the kind for segments that may be points.
 */
export function nearerEdge(
  best: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  corners: Float64Array,
  c: number,
  e: number,
): number {
  const cx = corners[c] as number;
  const cy = corners[c + 1] as number;
  const cz = corners[c + 2] as number;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = (corners[e] as number) - cx;
  const vy = (corners[e + 1] as number) - cy;
  const vz = (corners[e + 2] as number) - cz;
  let wx = ax - cx;
  let wy = ay - cy;
  let wz = az - cz;
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const uw = ux * wx + uy * wy + uz * wz;
  const vw = vx * wx + vy * wy + vz * wz;
  const determinant = uu * vv - uv * uv;
  let s = determinant > 1e-14 * uu * vv ? (uv * vw - vv * uw) / determinant : 0;
  s = s < 0 ? 0 : Math.min(s, 1);
  let t = (uv * s + vw) / vv;
  if (t < 0 || t > 1) {
    t = t < 0 ? 0 : 1;
    s = uu > 0 ? (uv * t - uw) / uu : 0;
    s = s < 0 ? 0 : Math.min(s, 1);
  }
  wx += s * ux - t * vx;
  wy += s * uy - t * vy;
  wz += s * uz - t * vz;
  const squared = wx * wx + wy * wy + wz * wz;
  return squared < best * best ? Math.sqrt(squared) : best;
}

/** Whether a point of the triangle's plane lies in the triangle, its edges included; `n` is the place of the normal. */
export function inTriangle(
  x: number,
  y: number,
  z: number,
  corners: Float64Array,
  n: number,
  p: number,
  q: number,
  r: number,
): boolean {
  return leftOf(x, y, z, corners, n, p, q) && leftOf(x, y, z, corners, n, q, r) && leftOf(x, y, z, corners, n, r, p);
}

function leftOf(x: number, y: number, z: number, corners: Float64Array, n: number, p: number, q: number): boolean {
  const px = corners[p] as number;
  const py = corners[p + 1] as number;
  const pz = corners[p + 2] as number;
  const ux = (corners[q] as number) - px;
  const uy = (corners[q + 1] as number) - py;
  const uz = (corners[q + 2] as number) - pz;
  const wx = x - px;
  const wy = y - py;
  const wz = z - pz;
  const turn =
    (corners[n] as number) * (uy * wz - uz * wy) +
    (corners[n + 1] as number) * (uz * wx - ux * wz) +
    (corners[n + 2] as number) * (ux * wy - uy * wx);
  return turn >= -1e-12;
}
