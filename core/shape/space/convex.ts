import * as portable from '../../base/portable';
import { add, along, cross, dot, norm, scale, squareTo, subtract, unit, type Vec3 } from '../../base/vec';
import type { Layout, Wall } from '../layout/types';
import type { AnySolid } from './kernel';

/** Touching outlines leave their panel no thickness: the drawn room counts as free up to the outline. */
const TOUCHING = 0.001;

export interface ConvexFace {
  readonly polygon: readonly Vec3[];
  readonly normal: Vec3;
}

/** A convex body by what the queries ask of it. */
export interface Convex {
  /** Farthest point along d. */
  support(d: Vec3): Vec3;
  readonly centre: Vec3;
  readonly low: Vec3;
  readonly high: Vec3;
  /** Directions of its flat faces, one of each opposite pair. */
  readonly normals: readonly Vec3[];
  /** Directions of its straight edges. */
  readonly edges: readonly Vec3[];
  /** True when faces and edges say everything: no round side. */
  readonly isPolytope: boolean;
  /** Its faces; round ones by the prism of so many sides around them. */
  faces(roundSides: number): readonly ConvexFace[];
}

/** Bounds once, faces when first asked for. */
const withBounds = (body: Omit<Convex, 'low' | 'high'>): Convex => {
  const known = new Map<number, readonly ConvexFace[]>();
  const faces = (sides: number): readonly ConvexFace[] => {
    const key = body.isPolytope ? 0 : sides;
    const list = known.get(key) ?? body.faces(sides);
    known.set(key, list);
    return list;
  };
  const tip = (k: 0 | 1 | 2, sign: 1 | -1): number =>
    body.support([k === 0 ? sign : 0, k === 1 ? sign : 0, k === 2 ? sign : 0])[k];
  return { ...body, faces, low: [tip(0, -1), tip(1, -1), tip(2, -1)], high: [tip(0, 1), tip(1, 1), tip(2, 1)] };
};

/** Bodies of solids and walls already asked for: both are values that never change. */
const bodyOfSolid = new WeakMap<AnySolid, Convex>();
const bodyOfWall = new WeakMap<Wall, Convex>();

export function convexOf(solid: AnySolid): Convex {
  const known = bodyOfSolid.get(solid);
  if (known) return known;
  const body =
    solid.type === 'box'
      ? boxBody(solid.centre, solid.half, solid.axes)
      : solid.type === 'plate'
        ? plateBody(solid.polygon, unit(solid.normal), solid.thicknessM)
        : roundBody(solid.from, solid.to, solid.radius, solid.type === 'capsule');
  bodyOfSolid.set(solid, body);
  return body;
}

function boxBody(centre: Vec3, half: Vec3, axes: readonly [Vec3, Vec3, Vec3]): Convex {
  const [u, v, w] = axes;
  const reach = [scale(u, half[0]), scale(v, half[1]), scale(w, half[2])] as const;
  const corner = (a: number, b: number, c: number): Vec3 =>
    along(along(along(centre, reach[0], a), reach[1], b), reach[2], c);
  return withBounds({
    centre,
    normals: axes,
    edges: axes,
    isPolytope: true,
    support: (d) => corner(dot(d, u) >= 0 ? 1 : -1, dot(d, v) >= 0 ? 1 : -1, dot(d, w) >= 0 ? 1 : -1),
    faces: () =>
      ([1, -1] as const).flatMap((s): ConvexFace[] => [
        {
          normal: scale(u, s),
          polygon: ring(s, corner(s, -1, -1), corner(s, 1, -1), corner(s, 1, 1), corner(s, -1, 1)),
        },
        {
          normal: scale(v, s),
          polygon: ring(s, corner(-1, s, -1), corner(-1, s, 1), corner(1, s, 1), corner(1, s, -1)),
        },
        {
          normal: scale(w, s),
          polygon: ring(s, corner(-1, -1, s), corner(1, -1, s), corner(1, 1, s), corner(-1, 1, s)),
        },
      ]),
  });
}

const ring = (sign: 1 | -1, ...corners: Vec3[]): Vec3[] => (sign === 1 ? corners : corners.reverse());

/** A cylinder with flat or, as a capsule, round ends. */
function roundBody(from: Vec3, to: Vec3, radius: number, isCapsule: boolean): Convex {
  const span = subtract(to, from);
  const axis = norm(span) > 1e-12 ? unit(span) : ([0, 0, 1] as const);
  const u = squareTo(axis);
  const v = cross(axis, u);
  return withBounds({
    centre: scale(add(from, to), 0.5),
    normals: isCapsule ? [] : [axis],
    edges: [axis],
    isPolytope: false,
    support: (d) => {
      const end = dot(d, span) >= 0 ? to : from;
      if (isCapsule) return norm(d) > 1e-12 ? along(end, unit(d), radius) : end;
      const off = along(d, axis, -dot(d, axis));
      return norm(off) > Math.max(1e-12, 1e-9 * norm(d)) ? along(end, unit(off), radius) : end;
    },
    faces: (sides) => {
      const out = radius / portable.cos(Math.PI / sides);
      // A capsule's round ends stand inside the longer prism.
      const [a, b] = isCapsule ? [along(from, axis, -radius), along(to, axis, radius)] : [from, to];
      const at = (end: Vec3, k: number): Vec3 => {
        const angle = (2 * Math.PI * k) / sides;
        return along(along(end, u, out * portable.cos(angle)), v, out * portable.sin(angle));
      };
      const rim = Array.from({ length: sides }, (_, k) => k);
      return [
        { normal: axis, polygon: rim.map((k) => at(b, k)) },
        { normal: scale(axis, -1), polygon: rim.map((k) => at(a, k)).reverse() },
        ...rim.map((k): ConvexFace => {
          const angle = (2 * Math.PI * (k + 0.5)) / sides;
          return {
            normal: along(scale(u, portable.cos(angle)), v, portable.sin(angle)),
            polygon: [at(a, k), at(a, k + 1), at(b, k + 1), at(b, k)],
          };
        }),
      ];
    },
  });
}

/** A convex polygon with a thickness about it; without thickness it is a sheet. */
function plateBody(polygon: readonly Vec3[], normal: Vec3, thicknessM: number): Convex {
  const half = thicknessM / 2;
  const sides = polygon.map((p, i) => subtract(polygon[(i + 1) % polygon.length] as Vec3, p));
  const corners = polygon.flatMap((p) => [along(p, normal, half), along(p, normal, -half)]);
  const outward = sides.filter((s) => norm(s) > 1e-9).map((s) => unit(cross(s, normal)));
  return withBounds({
    centre: scale(
      polygon.reduce<Vec3>((s, p) => add(s, p), [0, 0, 0]),
      1 / polygon.length,
    ),
    normals: [normal, ...outward],
    edges: [normal, ...sides.filter((s) => norm(s) > 1e-9).map(unit)],
    isPolytope: true,
    support: (d) => {
      let best = corners[0] as Vec3;
      let most = Number.NEGATIVE_INFINITY;
      for (const p of corners) {
        const reach = dot(p, d);
        if (reach > most) {
          most = reach;
          best = p;
        }
      }
      return best;
    },
    faces: () => {
      const top: ConvexFace = { normal, polygon: polygon.map((p) => along(p, normal, half)) };
      if (half < 1e-9) return [top];
      const bottom: ConvexFace = {
        normal: scale(normal, -1),
        polygon: polygon.map((p) => along(p, normal, -half)).reverse(),
      };
      const around = polygon.map((p, i): ConvexFace => {
        const q = polygon[(i + 1) % polygon.length] as Vec3;
        const side = sides[i] as Vec3;
        return {
          normal: norm(side) > 1e-9 ? unit(cross(side, normal)) : normal,
          polygon: [along(p, normal, -half), along(q, normal, -half), along(q, normal, half), along(p, normal, half)],
        };
      });
      return [top, bottom, ...around];
    },
  });
}

/**
 * The plate with which a wall bounds room. A panel fills the gap between the two drawn outlines and takes nothing of either
 * compartment, however thick its record says it is; towards undrawn space the drawn face itself is the bound, so that a wall
 * takes nothing of a neighbour that stands aslant to it.
 */
export function roomPlate(
  wall: Wall,
  panels: Layout['panels'],
): { readonly polygon: readonly Vec3[]; readonly thicknessM: number } {
  const panel = wall.panelId === undefined ? undefined : panels[wall.panelId];
  if (panel)
    return {
      polygon: wall.polygon,
      thicknessM: panel.gapM < TOUCHING ? 0 : Math.min(panel.gapM, wall.thicknessM),
    };
  return { polygon: wall.polygon.map((p) => along(p, wall.normal, -wall.thicknessM / 2)), thicknessM: 0 };
}

export function wallBody(wall: Wall, panels: Layout['panels']): Convex {
  const known = bodyOfWall.get(wall);
  if (known) return known;
  const { polygon, thicknessM } = roomPlate(wall, panels);
  const body = plateBody(polygon, wall.normal, thicknessM);
  bodyOfWall.set(wall, body);
  return body;
}

export const boundsApart = (a: Convex, b: Convex): boolean =>
  a.low[0] > b.high[0] ||
  b.low[0] > a.high[0] ||
  a.low[1] > b.high[1] ||
  b.low[1] > a.high[1] ||
  a.low[2] > b.high[2] ||
  b.low[2] > a.high[2];
