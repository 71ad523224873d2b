import * as portable from '../../base/portable';
import {
  add,
  along,
  cross,
  distance,
  dot,
  norm,
  scale,
  squareTo,
  subtract,
  unit,
  type Vec2,
  type Vec3,
} from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { clipHalfPlane, frameOf, fromPlane, onPlane } from '../layout/polygon';
import type { Layout, Wall } from '../layout/types';
import { boundsApart, type Convex, convexOf, wallBody } from './convex';
import { nearestPoints } from './convex-distance';
import type { Solid } from './solids';

/** Bodies that share less than this touch (metres). */
const TOUCH_M = 1e-6;
/** The search among round bodies stops when no better direction can save more than this (metres). */
const ROUND_TOLERANCE_M = 2e-5;
/** Sides of the prism that stands for a round body where only the place is asked. */
const PLACE_SIDES = 32;
/** Counted limit of that search; it converges in tens of steps. */
const ROUND_STEPS = 400;
/** Depths outside the hull are found to this (metres). */
const HULL_TOLERANCE_M = 1e-4;
/** Lines laid over the faces of a solid to meet what juts out of the hull are no further apart. */
const HULL_LINE_M = 0.1;

export interface Overlap {
  /** Least shift that parts the two. */
  readonly depthM: number;
  /** Unit: the first body moved this way by the depth is clear. */
  readonly way: Vec3;
  /** Middle of what they share. */
  readonly at: Vec3;
}

/**
 * How deep two solids overlap and where; null when they touch or are apart. Exact for boxes (separating axes); where one is
 * round within 0.02 mm, never less than the true depth.
 */
export const overlap = (a: Solid, b: Solid): Overlap | null => overlapOfBodies(convexOf(a), convexOf(b));

/** Free distance of two solids and where they are nearest; negative by the depth of their overlap. */
export function gapBetween(a: Solid, b: Solid): { readonly gapM: number; readonly at: Vec3 } {
  const shared = overlap(a, b);
  if (shared) return { gapM: -shared.depthM, at: shared.at };
  const { distanceM, onFirst, onSecond } = nearestPoints(convexOf(a), convexOf(b));
  return { gapM: distanceM, at: scale(add(onFirst, onSecond), 0.5) };
}

/** How deep a solid stands in a wall plate, panels counting as the gap between the two drawn outlines. */
export const overlapWithWall = (a: Solid, wall: Wall, panels: Layout['panels']): Overlap | null =>
  overlapOfBodies(convexOf(a), wallBody(wall, panels));

function overlapOfBodies(a: Convex, b: Convex): Overlap | null {
  if (boundsApart(a, b)) return null;
  const best = { depthM: Number.POSITIVE_INFINITY, way: a.centre };
  /** Overlap of the two shadows along d, moving the first body backwards along it. */
  const shift = (d: Vec3): number => dot(a.support(d), d) - dot(b.support(scale(d, -1)), d);
  const tryWay = (d: Vec3): boolean => {
    for (const way of [d, scale(d, -1)]) {
      const depthM = shift(way);
      if (depthM < best.depthM - 1e-12) {
        best.depthM = depthM;
        best.way = [-way[0] + 0, -way[1] + 0, -way[2] + 0];
      }
    }
    return best.depthM > TOUCH_M;
  };
  for (const d of [...a.normals, ...b.normals]) if (!tryWay(d)) return null;
  for (const p of a.edges)
    for (const q of b.edges) {
      const d = cross(p, q);
      if (norm(d) > 1e-9 && !tryWay(unit(d))) return null;
    }
  if (!(a.isPolytope && b.isPolytope)) {
    for (const round of [a, b]) for (const d of towards(round, round === a ? b : a)) if (!tryWay(d)) return null;
    if (!searchRound((d) => subtract(a.support(d), b.support(scale(d, -1))), tryWay, best)) return null;
  }
  const shared = sharedCorners(a, b);
  const at =
    shared.length > 0
      ? scale(
          shared.reduce((s, p) => add(s, p)),
          1 / shared.length,
        )
      : along(a.support(scale(best.way, -1)), best.way, best.depthM / 2);
  return { depthM: best.depthM, way: best.way, at };
}

/** First guesses for a round body: from its axis to the other's middle. */
function towards(round: Convex, other: Convex): Vec3[] {
  const axis = round.isPolytope ? undefined : round.edges[0];
  if (!axis) return [];
  const d = subtract(other.centre, round.centre);
  const off = along(d, axis, -dot(d, axis));
  return norm(off) > 1e-9 ? [unit(off)] : [squareTo(axis)];
}

interface HullFace {
  readonly corners: readonly [number, number, number];
  readonly normal: Vec3;
  readonly offset: number;
}

/**
 * Least support of a convex body about the origin over all directions: grows a polyhedron inside the body at the face that
 * is nearest to the origin (expanding polytope, van den Bergen 2001), asking the body how far it goes there. The nearest face
 * bounds the answer from below, every direction tried bounds it from above. False as soon as a direction parts the bodies.
 */
function searchRound(
  support: (d: Vec3) => Vec3,
  tryWay: (d: Vec3) => boolean,
  best: { readonly depthM: number },
): boolean {
  const points = firstTetrahedron(support);
  if (!points) return false;
  const middle = scale(
    points.reduce((s, p) => add(s, p)),
    0.25,
  );
  const faceOf = (i: number, j: number, k: number): HullFace | null => {
    const [p, q, r] = [points[i], points[j], points[k]] as [Vec3, Vec3, Vec3];
    const n = cross(subtract(q, p), subtract(r, p));
    const length = norm(n);
    if (length < 1e-16) return null;
    const normal = scale(n, 1 / length);
    return dot(normal, subtract(middle, p)) > 0
      ? { corners: [i, k, j], normal: scale(normal, -1), offset: -dot(normal, p) }
      : { corners: [i, j, k], normal, offset: dot(normal, p) };
  };
  let faces = [faceOf(0, 1, 2), faceOf(0, 1, 3), faceOf(0, 2, 3), faceOf(1, 2, 3)].filter((f) => f !== null);
  for (let step = 0; step < ROUND_STEPS; step++) {
    const nearest = faces.reduce((m, f) => (f.offset < m.offset ? f : m));
    if (nearest.offset > best.depthM - ROUND_TOLERANCE_M) return true;
    if (!tryWay(nearest.normal)) return false;
    const p = support(nearest.normal);
    if (dot(p, nearest.normal) - nearest.offset < ROUND_TOLERANCE_M / 2) return true;
    const isSeen = (f: HullFace): boolean => dot(f.normal, p) > f.offset + 1e-12;
    const rim = new Map<string, readonly [number, number]>();
    for (const { corners } of faces.filter(isSeen))
      corners.forEach((i, n) => {
        const j = corners[(n + 1) % 3] as number;
        if (!rim.delete(`${j}-${i}`)) rim.set(`${i}-${j}`, [i, j]);
      });
    points.push(p);
    const fresh = [...rim.values()].map(([i, j]) => faceOf(i, j, points.length - 1)).filter((f) => f !== null);
    faces = [...faces.filter((f) => !isSeen(f)), ...fresh];
    if (faces.length === 0) return true;
  }
  return true;
}

/** Four support points that span a volume; null when the body is flat. */
function firstTetrahedron(support: (d: Vec3) => Vec3): Vec3[] | null {
  const p = support([1, 0, 0]);
  const q = support([-1, 0, 0]);
  if (distance(p, q) < 1e-9) return null;
  const side = squareTo(unit(subtract(q, p)));
  const farther = (d: Vec3, from: Vec3): Vec3 => {
    const [one, other] = [support(d), support(scale(d, -1))];
    return Math.abs(dot(subtract(one, from), d)) >= Math.abs(dot(subtract(other, from), d)) ? one : other;
  };
  const r = farther(side, p);
  const normal = cross(subtract(q, p), subtract(r, p));
  if (norm(normal) < 1e-12) return null;
  const s = farther(unit(normal), p);
  return Math.abs(dot(subtract(s, p), unit(normal))) < 1e-9 ? null : [p, q, r, s];
}

/** Corners of the faces of each body inside the other. */
function sharedCorners(a: Convex, b: Convex): Vec3[] {
  const [facesA, facesB] = [a.faces(PLACE_SIDES), b.faces(PLACE_SIDES)];
  const inside = (faces: typeof facesA, within: typeof facesA): Vec3[] =>
    faces.flatMap(({ polygon, normal }) => {
      const frame = frameOf(normal, polygon[0] as Vec3);
      let rest: Vec2[] = polygon.map((p) => onPlane(frame, p));
      for (const plane of within) {
        const offset = dot(plane.normal, subtract(plane.polygon[0] as Vec3, frame.origin));
        rest = clipHalfPlane(rest, dot(plane.normal, frame.u), dot(plane.normal, frame.v), offset);
        if (rest.length < 3) return [];
      }
      return rest.map((q) => fromPlane(frame, q));
    });
  // A sheet has one face and no inside.
  return [...(facesB.length > 1 ? inside(facesA, facesB) : []), ...(facesA.length > 1 ? inside(facesB, facesA) : [])];
}

/**
 * How far the deepest point of a solid stands outside the hull's free interior (skin less shell and lining); null inside.
 * Where the interior is convex the deepest point is a corner or on a rim, so the answer is exact to 0.1 mm; what juts inwards
 * (a keel's hollow) is met by lines 100 mm apart over the faces.
 */
export function overlapWithHull(solid: Solid, hull: HullSurface): Overlap | null {
  const { from, to, radius } = capsuleAround(solid);
  if (hull.clearance(from, to, radius) >= radius) return null;
  let deepest = 0;
  let at: Vec3 | null = null;
  const look = (p: Vec3): number => {
    const free = hull.clearance(p, p, 1);
    if (free < deepest) {
      deepest = free;
      at = p;
    }
    return free;
  };
  for (const [a, b] of linesOver(solid)) {
    // A positive answer is exact for the whole segment: nothing of it is outside.
    if (hull.clearance(a, b, TOUCH_M) >= 0) continue;
    look(a);
    look(b);
    // The distance changes by no more than the way along the line: halves that cannot beat the deepest point are left.
    const search = (p: Vec3, q: Vec3): void => {
      const length = distance(p, q);
      const middle = scale(add(p, q), 0.5);
      if (look(middle) - length / 2 >= deepest - HULL_TOLERANCE_M) return;
      search(p, middle);
      search(middle, q);
    };
    search(a, b);
  }
  if (at === null || deepest > -TOUCH_M) return null;
  return { depthM: -deepest, way: inwards(hull, at), at };
}

/** A segment with a radius that holds the solid. */
function capsuleAround(solid: Solid): { readonly from: Vec3; readonly to: Vec3; readonly radius: number } {
  if (solid.type !== 'box') return solid;
  const [a, b, c] = solid.half;
  const k = a >= b && a >= c ? 0 : b >= c ? 1 : 2;
  const others = [a, b, c].filter((_, i) => i !== k);
  return {
    from: along(solid.centre, solid.axes[k], -solid.half[k]),
    to: along(solid.centre, solid.axes[k], solid.half[k]),
    radius: portable.hypot(...others),
  };
}

/** Direction in which the free distance grows fastest. */
function inwards(hull: HullSurface, p: Vec3): Vec3 {
  const h = 1e-3;
  const slope = ([0, 1, 2] as const).map((k) => {
    const step: Vec3 = [k === 0 ? h : 0, k === 1 ? h : 0, k === 2 ? h : 0];
    const [q, r] = [add(p, step), subtract(p, step)];
    return hull.clearance(q, q, 1) - hull.clearance(r, r, 1);
  }) as unknown as Vec3;
  return norm(slope) > 1e-12 ? unit(slope) : [0, 0, 1];
}

/** Lines that cover the surface of a solid: edges, and lines over its faces. */
export function linesOver(solid: Solid): (readonly [Vec3, Vec3])[] {
  if (solid.type === 'box') {
    const [u, v, w] = solid.axes;
    const along3 = (p: Vec3, q: Vec3, r: Vec3, hp: number, hq: number, hr: number): (readonly [Vec3, Vec3])[] => {
      // Lines along p, spread over the four faces that contain p.
      const spread = (h: number): number[] => {
        const n = Math.max(1, Math.ceil((2 * h) / HULL_LINE_M));
        return Array.from({ length: n + 1 }, (_, i) => -h + (2 * h * i) / n);
      };
      const places = [
        ...spread(hq).flatMap((s) => [[s, -hr] as const, [s, hr] as const]),
        ...spread(hr)
          .slice(1, -1)
          .flatMap((s) => [[-hq, s] as const, [hq, s] as const]),
      ];
      return places.map(([s, t]) => {
        const base = along(along(solid.centre, q, s), r, t);
        return [along(base, p, -hp), along(base, p, hp)] as const;
      });
    };
    const [a, b, c] = solid.half;
    return [...along3(u, v, w, a, b, c), ...along3(v, w, u, b, c, a), ...along3(w, u, v, c, a, b)];
  }
  const span = subtract(solid.to, solid.from);
  const axis = norm(span) > 1e-12 ? unit(span) : ([0, 0, 1] as const);
  const u = squareTo(axis);
  const v = cross(axis, u);
  const sides = 64;
  const rim = (end: Vec3, k: number): Vec3 => {
    const angle = (2 * Math.PI * k) / sides;
    return along(along(end, u, solid.radius * portable.cos(angle)), v, solid.radius * portable.sin(angle));
  };
  const out: (readonly [Vec3, Vec3])[] = [];
  for (let k = 0; k < sides; k++) {
    out.push([rim(solid.from, k), rim(solid.to, k)]);
    if (solid.type === 'cylinder') {
      out.push([rim(solid.from, k), rim(solid.from, k + 1)], [rim(solid.to, k), rim(solid.to, k + 1)]);
      if (k < sides / 2)
        out.push(
          [rim(solid.from, k), rim(solid.from, k + sides / 2)],
          [rim(solid.to, k), rim(solid.to, k + sides / 2)],
        );
    }
  }
  if (solid.type === 'capsule')
    for (const end of [solid.from, solid.to])
      for (let i = 1; i < sides / 2; i++)
        for (let k = 0; k < sides; k++) {
          const lift = (Math.PI * (i - sides / 4)) / (sides / 2);
          const angle = (2 * Math.PI * k) / sides;
          const d = along(
            scale(axis, portable.sin(lift)),
            along(scale(u, portable.cos(angle)), v, portable.sin(angle)),
            portable.cos(lift),
          );
          const p = along(end, d, solid.radius);
          out.push([p, p]);
        }
  return out;
}
