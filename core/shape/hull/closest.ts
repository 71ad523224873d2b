/**
 * Closest points of points, segments and triangles, on bare coordinates: they stand in the innermost loop of clearance, where an
 * object for each vector would cost more than the arithmetic.
 */

/** Lesser of `best` and the distance of a point from a triangle (closest point by Voronoi region, Ericson). */
export function nearer(
  best: number,
  x: number,
  y: number,
  z: number,
  px: number,
  py: number,
  pz: number,
  qx: number,
  qy: number,
  qz: number,
  rx: number,
  ry: number,
  rz: number,
): number {
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

/** Lesser of `best` and the distance between two segments. */
export function nearerEdge(
  best: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  cx: number,
  cy: number,
  cz: number,
  ex: number,
  ey: number,
  ez: number,
): number {
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = ex - cx;
  const vy = ey - cy;
  const vz = ez - cz;
  let wx = ax - cx;
  let wy = ay - cy;
  let wz = az - cz;
  const a = ux * ux + uy * uy + uz * uz;
  const b = ux * vx + uy * vy + uz * vz;
  const c = vx * vx + vy * vy + vz * vz;
  const d = ux * wx + uy * wy + uz * wz;
  const e = vx * wx + vy * wy + vz * wz;
  const determinant = a * c - b * b;
  let s = determinant > 1e-14 * a * c ? (b * e - c * d) / determinant : 0;
  s = s < 0 ? 0 : Math.min(s, 1);
  let t = (b * s + e) / c;
  if (t < 0 || t > 1) {
    t = t < 0 ? 0 : 1;
    s = a > 0 ? (b * t - d) / a : 0;
    s = s < 0 ? 0 : Math.min(s, 1);
  }
  wx += s * ux - t * vx;
  wy += s * uy - t * vy;
  wz += s * uz - t * vz;
  const squared = wx * wx + wy * wy + wz * wz;
  return squared < best * best ? Math.sqrt(squared) : best;
}

/** Whether a point of the triangle's plane lies in the triangle, its edges included. */
export function inTriangle(
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  px: number,
  py: number,
  pz: number,
  qx: number,
  qy: number,
  qz: number,
  rx: number,
  ry: number,
  rz: number,
): boolean {
  return (
    leftOf(x, y, z, nx, ny, nz, px, py, pz, qx, qy, qz) &&
    leftOf(x, y, z, nx, ny, nz, qx, qy, qz, rx, ry, rz) &&
    leftOf(x, y, z, nx, ny, nz, rx, ry, rz, px, py, pz)
  );
}

function leftOf(
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  px: number,
  py: number,
  pz: number,
  qx: number,
  qy: number,
  qz: number,
): boolean {
  const ux = qx - px;
  const uy = qy - py;
  const uz = qz - pz;
  const wx = x - px;
  const wy = y - py;
  const wz = z - pz;
  return nx * (uy * wz - uz * wy) + ny * (uz * wx - ux * wz) + nz * (ux * wy - uy * wx) >= -1e-12;
}
