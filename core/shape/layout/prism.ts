import { signedArea } from '../../base/ring';
import { add, cosSin, cross, distance, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../../base/vec';
import type { Compartment } from '../../boat/schema/boat';
import { cleanOutline, convexHull, convexPieces, crossesItself } from './outline';
import type { Plane } from './types';

/** One convex patch of a face, counter-clockwise seen from outside. */
export interface FacePiece {
  /** Index of the convex piece of the prism behind it. */
  readonly piece: number;
  readonly polygon: readonly Vec3[];
}

/** A flat face of a compartment's prism. */
export interface Face {
  readonly compartment: string;
  /** side0, side1 ... along the outline, low, high. */
  readonly key: string;
  readonly plane: Plane;
  readonly pieces: readonly FacePiece[];
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface PrismPiece {
  readonly planes: readonly Plane[];
  readonly corners: readonly Vec3[];
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface Prism {
  readonly compartment: string;
  readonly pieces: readonly PrismPiece[];
  readonly faces: readonly Face[];
  /** Cuts inside the prism: convex, normal from pieces[0] into pieces[1]. */
  readonly cuts: readonly {
    readonly pieces: readonly [number, number];
    readonly polygon: readonly Vec3[];
    readonly normal: Vec3;
  }[];
  readonly rings: readonly [readonly Vec3[], readonly Vec3[]];
  readonly low: Vec3;
  readonly high: Vec3;
  readonly volumeM3: number;
  readonly flaw: 'crossesItself' | null;
}

/** Axes of the three views: along the outline's two values and, square to both and right-handed, the range. */
const AXES: Readonly<Record<Compartment['view'], { u: Vec3; v: Vec3; w: Vec3 }>> = {
  plan: { u: [1, 0, 0], v: [0, 1, 0], w: [0, 0, 1] },
  profile: { u: [1, 0, 0], v: [0, 0, 1], w: [0, -1, 0] },
  section: { u: [0, 1, 0], v: [0, 0, 1], w: [1, 0, 0] },
};

/** The solid that a compartment's outline and range span; null when it has no volume. A crossing outline counts as its hull. */
export function prismOf(id: string, compartment: Compartment): Prism | null {
  let clean = cleanOutline(compartment.outline);
  const crosses = clean.corners.length > 3 && crossesItself(clean.corners);
  if (crosses) clean = cleanOutline(convexHull(compartment.outline));
  const { corners: outline, rank, isReversed } = clean;
  const area = signedArea(outline);
  const [from, to] = rangeAlongAxis(compartment);
  if (outline.length < 3 || area < 1e-8 || to - from < 1e-6) return null;

  const place = placer(compartment, outline, [from, to]);
  const ring = (w: number): Vec3[] => outline.map((p) => place([p[0], p[1], w]));
  const rings: readonly [Vec3[], Vec3[]] = [ring(from), ring(to)];
  const [low, high] = bounds([...rings[0], ...rings[1]]);
  const axis = unit(subtract(rings[1][0] as Vec3, rings[0][0] as Vec3));
  const { pieces: rows, cuts } = convexPieces(outline, rank);

  const corner = (level: 0 | 1, i: number): Vec3 => rings[level][i] as Vec3;
  const wall = (i: number, j: number): Vec3[] => [corner(0, i), corner(0, j), corner(1, j), corner(1, i)];
  const outward = (i: number, j: number): Vec3 => unit(cross(subtract(corner(0, j), corner(0, i)), axis));
  const lowPlane = planeThrough(scale(axis, -1), corner(0, 0));
  const highPlane = planeThrough(axis, corner(1, 0));

  const pieces = rows.map((row): PrismPiece => {
    const corners = [...row.map((i) => corner(0, i)), ...row.map((i) => corner(1, i))];
    const [pieceLow, pieceHigh] = bounds(corners);
    const sides = row.map((i, k) => {
      const j = row[(k + 1) % row.length] as number;
      return planeThrough(outward(i, j), corner(0, i));
    });
    return { planes: [...withoutTwins(sides), lowPlane, highPlane], corners, low: pieceLow, high: pieceHigh };
  });
  const n = outline.length;
  const sideFaces = outline.map((_, i): Face => {
    const j = (i + 1) % n;
    const piece = rows.findIndex((row) => row.some((p, k) => p === i && row[(k + 1) % row.length] === j));
    const polygon = wall(i, j);
    const [faceLow, faceHigh] = bounds(polygon);
    return {
      compartment: id,
      key: `side${rank[isReversed ? j : i]}`,
      plane: planeThrough(outward(i, j), corner(0, i)),
      pieces: [{ piece, polygon }],
      low: faceLow,
      high: faceHigh,
    };
  });
  const capBounds = rings.map((corners) => bounds(corners));
  const cap = (key: string, plane: Plane, level: 0 | 1): Face => ({
    low: (capBounds[level] as readonly [Vec3, Vec3])[0],
    high: (capBounds[level] as readonly [Vec3, Vec3])[1],
    compartment: id,
    key,
    plane,
    pieces: rows.map((row, piece) => {
      const polygon = row.map((i) => corner(level, i));
      return { piece, polygon: level === 1 ? polygon : polygon.reverse() };
    }),
  });
  return {
    compartment: id,
    pieces,
    faces: [...sideFaces, cap('low', lowPlane, 0), cap('high', highPlane, 1)],
    cuts: cuts.map((cut) => ({
      pieces: cut.pieces,
      polygon: wall(cut.from, cut.to),
      normal: outward(cut.from, cut.to),
    })),
    rings,
    low,
    high,
    volumeM3: area * (to - from),
    flaw: crosses ? 'crossesItself' : null,
  };
}

/** The range along the right-handed third axis, which in profile points to starboard. */
function rangeAlongAxis(compartment: Compartment): readonly [number, number] {
  const [a, b] = compartment.rangeM;
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  return compartment.view === 'profile' ? [-high, -low] : [low, high];
}

/** Outline values and range to the boat's frame, turned about the vertical through the middle of the bounds. */
function placer(
  compartment: Compartment,
  outline: readonly Vec2[],
  range: readonly [number, number],
): (p: Vec3) => Vec3 {
  const { u, v, w } = AXES[compartment.view];
  const straight = (p: Vec3): Vec3 => add(add(scale(u, p[0]), scale(v, p[1])), scale(w, p[2]));
  const [cos, sin] = cosSin(compartment.yawDeg);
  if (cos === 1) return straight;
  const [low, high] = bounds(range.flatMap((r) => outline.map((p) => straight([p[0], p[1], r]))));
  const cx = (low[0] + high[0]) / 2;
  const cy = (low[1] + high[1]) / 2;
  return (p) => {
    const [x, y, z] = straight(p);
    return [cx + (x - cx) * cos - (y - cy) * sin, cy + (x - cx) * sin + (y - cy) * cos, z];
  };
}

/** The plane through a point, square to a unit normal. */
const planeThrough = (normal: Vec3, point: Vec3): Plane => ({
  normal: withoutMinusZero(normal),
  offset: dot(normal, point),
});

/** -0 and 0 are the same direction and must compare so. */
export const withoutMinusZero = (a: Vec3): Vec3 => [a[0] + 0, a[1] + 0, a[2] + 0];

const withoutTwins = (planes: readonly Plane[]): Plane[] =>
  planes.filter(
    (p, i) =>
      !planes.slice(0, i).some((q) => distance(p.normal, q.normal) < 1e-9 && Math.abs(p.offset - q.offset) < 1e-9),
  );

/** Least and greatest coordinates of some points; infinite and reversed for none. */
export function bounds(points: readonly Vec3[]): readonly [Vec3, Vec3] {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const p of points)
    for (let k = 0; k < 3; k++) {
      const value = p[k] as number;
      if (value < (low[k] as number)) low[k] = value;
      if (value > (high[k] as number)) high[k] = value;
    }
  return [low, high];
}
