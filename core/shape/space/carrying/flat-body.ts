import * as portable from '../../../base/portable';
import { add, cross, dot, norm, type Rotation, scale, squareTo, subtract, unit, type Vec3 } from '../../../base/vec';
import type { PlateSolid } from '../kernel';

/** A convex body of flat faces, by corners, face directions and edge directions; numbers in a row, since these are asked for by the million. */
export interface FlatBody {
  readonly corners: Float64Array;
  /** Direction, least and greatest along it: five numbers each. */
  readonly faces: Float64Array;
  readonly edges: Float64Array;
}

export function boxCorners(centre: Vec3, half: Vec3, axes: Rotation): Vec3[] {
  const out: Vec3[] = [];
  for (const i of [-1, 1])
    for (const j of [-1, 1])
      for (const k of [-1, 1])
        out.push(
          add(add(centre, scale(axes[0], i * half[0])), add(scale(axes[1], j * half[1]), scale(axes[2], k * half[2]))),
        );
  return out;
}

/** Parallel directions count once. */
function different(ways: readonly Vec3[]): Vec3[] {
  const out: Vec3[] = [];
  for (const way of ways) if (!out.some((known) => norm(cross(known, way)) < 1e-9)) out.push(way);
  return out;
}

export function flatBody(corners: readonly Vec3[], faces: readonly Vec3[], edges: readonly Vec3[]): FlatBody {
  const along = (d: Vec3): [number, number] => {
    const heights = corners.map((p) => dot(p, d));
    return [Math.min(...heights), Math.max(...heights)];
  };
  return {
    corners: Float64Array.from(corners.flat()),
    faces: Float64Array.from(different(faces).flatMap((d) => [...d, ...along(d)])),
    edges: Float64Array.from(different(edges).flat()),
  };
}

export function plateBody({ polygon, normal, thicknessM }: PlateSolid): FlatBody {
  const n = unit(normal);
  const half = thicknessM / 2;
  const sides = polygon
    .map((p, i) => subtract(polygon[(i + 1) % polygon.length] as Vec3, p))
    .filter((side) => norm(side) > 1e-9)
    .map(unit);
  const corners = half > 0 ? polygon.flatMap((p) => [add(p, scale(n, half)), add(p, scale(n, -half))]) : polygon;
  const outward = sides.map((side) => unit(cross(side, n)));
  return flatBody(corners, [n, ...outward], half > 0 ? [n, ...sides] : sides);
}

/** Lines along the side of a round body, and chords of its two rims, spread evenly. */
export function linesAlong(from: Vec3, to: Vec3, radius: number, count: number): (readonly [Vec3, Vec3])[] {
  const axis = unit(subtract(to, from));
  const u = squareTo(axis);
  const v = cross(axis, u);
  return Array.from({ length: count }, (_, k) => {
    const angle = (2 * Math.PI * k) / count;
    const off = add(scale(u, radius * portable.cos(angle)), scale(v, radius * portable.sin(angle)));
    return [add(from, off), add(to, off)] as const;
  });
}
