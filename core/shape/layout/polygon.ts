import { signedArea } from '../../base/ring';
import { cross, dot, scale, subtract, UP, unit, type Vec2, type Vec3 } from '../../base/vec';

/** A plane with two axes in it; u x v = normal. */
export interface PlaneFrame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly normal: Vec3;
}

/** v is the most upright direction in the plane; in a level plane it points forward. */
export function frameOf(normal: Vec3, origin: Vec3): PlaneFrame {
  const n = unit(normal);
  const level = Math.abs(n[2]) > 0.999;
  const towards: Vec3 = level ? [1, 0, 0] : UP;
  const v = unit(subtract(towards, scale(n, dot(towards, n))));
  return { origin, u: cross(v, n), v, normal: n };
}

/** Coordinates in the plane of a point's foot in it. */
export const onPlane = (frame: PlaneFrame, p: Vec3): Vec2 => {
  const d = subtract(p, frame.origin);
  return [dot(d, frame.u), dot(d, frame.v)];
};
/** The point of the boat that has these coordinates in the plane. */
export const fromPlane = (frame: PlaneFrame, q: Vec2): Vec3 => [
  frame.origin[0] + frame.u[0] * q[0] + frame.v[0] * q[1],
  frame.origin[1] + frame.u[1] * q[0] + frame.v[1] * q[1],
  frame.origin[2] + frame.u[2] * q[0] + frame.v[2] * q[1],
];

/** Keeps the part of a convex polygon where a x + b y <= c. */
export function clipHalfPlane(polygon: readonly Vec2[], a: number, b: number, c: number): Vec2[] {
  const out: Vec2[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i] as Vec2;
    const q = polygon[(i + 1) % polygon.length] as Vec2;
    const dp = a * p[0] + b * p[1] - c;
    const dq = a * q[0] + b * q[1] - c;
    if (dp <= 0) out.push(p);
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) {
      const t = dp / (dp - dq);
      out.push([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]);
    }
  }
  return out;
}

/** Half-plane a x + b y <= c, with (a, b) of length 1. */
export type Side = readonly [a: number, b: number, c: number];
/** Outward half-planes of the sides of a counter-clockwise convex polygon. */
const sidesOf = (polygon: readonly Vec2[]): Side[] => {
  const out: Side[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const p = polygon[i] as Vec2;
    const q = polygon[(i + 1) % polygon.length] as Vec2;
    const length = Math.sqrt((q[0] - p[0]) ** 2 + (q[1] - p[1]) ** 2);
    if (length < 1e-9) continue;
    const a = (q[1] - p[1]) / length;
    const b = -(q[0] - p[0]) / length;
    out.push([a, b, a * p[0] + b * p[1]]);
  }
  return out;
};

/** Intersection of two convex counter-clockwise polygons; empty when they do not overlap. */
export function intersectConvex(one: readonly Vec2[], other: readonly Vec2[]): Vec2[] {
  let out: Vec2[] = [...one];
  for (const [a, b, c] of sidesOf(other)) {
    if (out.length < 3) return [];
    out = clipHalfPlane(out, a, b, c);
  }
  return out.length < 3 ? [] : withoutDust(out);
}

/** What is left of a convex polygon outside another, as convex pieces that do not overlap; `order`: in which the sides of the hole cut. */
export function subtractConvex(
  from: readonly Vec2[],
  hole: readonly Vec2[],
  order?: (p: Side, q: Side) => number,
): Vec2[][] {
  if (signedArea(intersectConvex(from, hole)) < 1e-9) return [[...from]];
  const out: Vec2[][] = [];
  let rest: Vec2[] = [...from];
  const sides = sidesOf(hole);
  if (order) sides.sort(order);
  for (const [a, b, c] of sides) {
    if (rest.length < 3) break;
    const outside = withoutDust(clipHalfPlane(rest, -a, -b, -c));
    if (signedArea(outside) > 1e-9) out.push(outside);
    rest = clipHalfPlane(rest, a, b, c);
  }
  return out;
}

function withoutDust(polygon: readonly Vec2[]): Vec2[] {
  const out = polygon.filter((p, i) => {
    const before = polygon[(i + polygon.length - 1) % polygon.length] as Vec2;
    return (p[0] - before[0]) ** 2 + (p[1] - before[1]) ** 2 > 1e-16;
  });
  return out.length < 3 ? [] : out;
}

/** Centroid of the area; the mean of the corners of a polygon without area. */
export function centroidOf(polygon: readonly Vec2[]): Vec2 {
  const first = polygon[0] ?? [0, 0];
  let twice = 0;
  let x = 0;
  let y = 0;
  for (let i = 1; i + 1 < polygon.length; i++) {
    const p = polygon[i] as Vec2;
    const q = polygon[i + 1] as Vec2;
    const w = (p[0] - first[0]) * (q[1] - first[1]) - (p[1] - first[1]) * (q[0] - first[0]);
    twice += w;
    x += (w * (p[0] + q[0] - 2 * first[0])) / 3;
    y += (w * (p[1] + q[1] - 2 * first[1])) / 3;
  }
  if (Math.abs(twice) < 1e-15) {
    const n = Math.max(1, polygon.length);
    return [polygon.reduce((s, p) => s + p[0], 0) / n, polygon.reduce((s, p) => s + p[1], 0) / n];
  }
  return [first[0] + x / twice, first[1] + y / twice];
}

/** Least width of a convex polygon over all directions, metres. */
export function widthOf(polygon: readonly Vec2[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [a, b, c] of sidesOf(polygon)) {
    let deepest = 0;
    for (const p of polygon) deepest = Math.max(deepest, c - a * p[0] - b * p[1]);
    least = Math.min(least, deepest);
  }
  return Number.isFinite(least) ? least : 0;
}

/** Nearest point of a convex planar polygon, counter-clockwise seen from the tip of `normal`. */
export function nearestOnPolygon(polygon: readonly Vec3[], normal: Vec3, p: Vec3): Vec3 {
  // Written out by coordinate: bounds and distances call this by the hundred thousand.
  const [nx, ny, nz] = normal;
  const first = polygon[0] as Vec3;
  const h = nx * (first[0] - p[0]) + ny * (first[1] - p[1]) + nz * (first[2] - p[2]);
  const [fx, fy, fz] = [p[0] + nx * h, p[1] + ny * h, p[2] + nz * h];
  let isInside = true;
  let bestSquared = Number.POSITIVE_INFINITY;
  let bestSide = 0;
  let bestT = 0;
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i] as Vec3;
    const b = polygon[i + 1 === polygon.length ? 0 : i + 1] as Vec3;
    const [sx, sy, sz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const [wx, wy, wz] = [fx - a[0], fy - a[1], fz - a[2]];
    const turn = (sy * wz - sz * wy) * nx + (sz * wx - sx * wz) * ny + (sx * wy - sy * wx) * nz;
    if (turn < 0) isInside = false;
    const length = sx * sx + sy * sy + sz * sz;
    const t = length > 0 ? Math.min(1, Math.max(0, (wx * sx + wy * sy + wz * sz) / length)) : 0;
    const [ex, ey, ez] = [wx - sx * t, wy - sy * t, wz - sz * t];
    const far = ex * ex + ey * ey + ez * ez;
    if (far < bestSquared) {
      bestSquared = far;
      bestSide = i;
      bestT = t;
    }
  }
  if (isInside) return [fx, fy, fz];
  const a = polygon[bestSide] as Vec3;
  const b = polygon[bestSide + 1 === polygon.length ? 0 : bestSide + 1] as Vec3;
  return [a[0] + (b[0] - a[0]) * bestT, a[1] + (b[1] - a[1]) * bestT, a[2] + (b[2] - a[2]) * bestT];
}
