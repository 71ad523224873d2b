import { angleBetween, degrees, distance, subtract, type Vec2, type Vec3 } from '@core/base/vec';
import type { ViewName } from '@core/output/views/drawing';
import type { Ring } from '@core/output/views/polygons';
import type { SnapField } from './point-snap';

/** A way from point to point that was measured in a view, metres in the boat. */
export interface Measure {
  readonly view: ViewName;
  readonly points: readonly Vec3[];
}

export interface Reading {
  /** Of its legs, in order. */
  readonly legsM: readonly number[];
  readonly totalM: number;
  /** Between the last leg and the one before it, 180 where they go straight on; null with one leg. */
  readonly angleDeg: number | null;
  /** Of the last leg along the axes of the boat, without sign. */
  readonly alongM: Vec3;
}

export function readingOf(points: readonly Vec3[]): Reading | null {
  const legs = points.slice(1).map((to, i) => [points[i] as Vec3, to] as const);
  const last = legs.at(-1);
  if (!last) return null;
  const legsM = legs.map(([from, to]) => distance(from, to));
  const [from, to] = last;
  return {
    legsM,
    totalM: legsM.reduce((sum, leg) => sum + leg, 0),
    angleDeg: legs.length < 2 ? null : cornerDeg(points.at(-3) as Vec3, from, to),
    alongM: [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1]), Math.abs(to[2] - from[2])],
  };
}

/** Angle at a corner of a measured way, degrees. */
export const cornerDeg = (before: Vec3, corner: Vec3, after: Vec3): number =>
  degrees(angleBetween(subtract(before, corner), subtract(after, corner)));

/** Nearer than this a point lies on the line itself, metres. */
const ON_IT_M = 1e-4;
const WAYS: readonly Vec2[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
];

/** Where rays to the right, left, up and down of the paper first meet what is drawn there; fewer where nothing is met. */
export function facesAround(p: Vec2, { lines, curves }: SnapField): readonly Vec2[] {
  const edges = [...lines.map(({ a, b }) => [a, b] as const), ...curves.flatMap(edgesOf)];
  return WAYS.flatMap((way) => {
    const hits = edges.flatMap(([a, b]) => hitOf(p, way, a, b) ?? []);
    const near = Math.min(...hits.filter((far) => far > ON_IT_M));
    return Number.isFinite(near) ? [[p[0] + way[0] * near, p[1] + way[1] * near] as const] : [];
  });
}

const edgesOf = (ring: Ring): (readonly [Vec2, Vec2])[] =>
  ring.map((a, i) => [a, ring[(i + 1) % ring.length] as Vec2] as const);

/** How far along a ray it meets a stretch; null where it does not, or runs along it. */
function hitOf(p: Vec2, way: Vec2, a: Vec2, b: Vec2): number | null {
  const [du, dv] = [b[0] - a[0], b[1] - a[1]];
  const det = way[0] * dv - way[1] * du;
  if (Math.abs(det) < 1e-12) return null;
  const [wu, wv] = [a[0] - p[0], a[1] - p[1]];
  const far = (wu * dv - wv * du) / det;
  const share = (wu * way[1] - wv * way[0]) / det;
  return far >= 0 && share >= 0 && share <= 1 ? far : null;
}
