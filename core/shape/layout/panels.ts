import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import { add, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../../base/vec';
import {
  centroidOf,
  clipHalfPlane,
  frameOf,
  fromPlane,
  intersectConvex,
  onPlane,
  type PlaneFrame,
  subtractConvex,
  widthOf,
} from './polygon';
import { bounds, type Face, type Prism, type PrismPiece, withoutMinusZero } from './prism';

/** Faces count as anti-parallel within one degree. */
const ANTIPARALLEL = -0.99985;
/**
 * Metres by which two outlines may run into each other, or stand apart, and still share a panel: the slip of a tape, and the
 * thickest bulkhead with its linings. Common practice, no source.
 */
export const DRAWN_TO_TOUCH_M = 0.004;
export const GREATEST_GAP_M = 0.06;
/** Narrower strips are no panels: nothing can be led through them. */
const LEAST_WIDTH = 0.02;
/** Middle planes of one pair within this are one panel's. */
const COPLANAR = 0.001;

/** The part of a panel between one convex piece of each compartment. */
export interface Patch {
  /** Convex, in the middle plane, counter-clockwise seen from the tip of the normal. */
  readonly polygon: readonly Vec3[];
  readonly faces: readonly [Face, Face];
  /** Convex piece of each prism. */
  readonly pieces: readonly [number, number];
}

/** Two compartments' shared face before any data is bound to it. */
export interface SharedFace {
  readonly between: readonly [string, string];
  readonly frame: PlaneFrame;
  readonly gapM: number;
  readonly patches: readonly Patch[];
  /** True outline without the seams between patches. */
  readonly edges: readonly (readonly [Vec3, Vec3])[];
  readonly centre: Vec3;
  readonly areaM2: number;
}

interface Match {
  readonly frame: PlaneFrame;
  readonly gapM: number;
  readonly patches: readonly { readonly polygon: readonly Vec2[]; readonly patch: Omit<Patch, 'polygon'> }[];
}

/** Shared faces of two prisms, `one` before `other` by id, ordered by position. `others` may lie in the gap between. */
export function sharedFaces(one: Prism, other: Prism, others: readonly Prism[]): SharedFace[] {
  const matches: Match[] = [];
  for (const a of one.faces)
    for (const b of other.faces) {
      if (!boundsMeet(a, b)) continue;
      const match = matchFaces(a, b, others);
      if (match) matches.push(match);
    }
  const planes: { frame: PlaneFrame; matches: Match[] }[] = [];
  for (const match of matches) {
    const same = planes.find(
      ({ frame }) =>
        dot(frame.normal, match.frame.normal) > -ANTIPARALLEL &&
        Math.abs(dot(subtract(match.frame.origin, frame.origin), frame.normal)) < COPLANAR,
    );
    if (same) same.matches.push(match);
    else planes.push({ frame: match.frame, matches: [match] });
  }
  return planes
    .flatMap(({ frame, matches: list }) => {
      const shared = join([one.compartment, other.compartment], frame, list);
      return shared ? [shared] : [];
    })
    .sort((p, q) => comparePoints(p.centre, q.centre));
}

/** By x, then z, then y, equal within a millimetre. */
function comparePoints(p: Vec3, q: Vec3): number {
  for (const k of [0, 2, 1] as const) {
    const d = Math.round(p[k] * 1000) - Math.round(q[k] * 1000);
    if (d !== 0) return d;
  }
  return 0;
}

const boundsMeet = (a: Face, b: Face): boolean =>
  a.low[0] <= b.high[0] + GREATEST_GAP_M &&
  b.low[0] <= a.high[0] + GREATEST_GAP_M &&
  a.low[1] <= b.high[1] + GREATEST_GAP_M &&
  b.low[1] <= a.high[1] + GREATEST_GAP_M &&
  a.low[2] <= b.high[2] + GREATEST_GAP_M &&
  b.low[2] <= a.high[2] + GREATEST_GAP_M;

function matchFaces(a: Face, b: Face, others: readonly Prism[]): Match | null {
  if (dot(a.plane.normal, b.plane.normal) > ANTIPARALLEL) return null;
  const someGap = distanceTo(b, a);
  // A tilt of one degree moves a 3 m face by 52 mm: a coarse reject that never loses a match.
  if (someGap < -0.25 || someGap > 0.25) return null;

  const normal = withoutMinusZero(unit(subtract(a.plane.normal, b.plane.normal)));
  const flat = frameOf(normal, (a.pieces[0] as { polygon: readonly Vec3[] }).polygon[0] as Vec3);
  const inFlat = (polygon: readonly Vec3[]): Vec2[] => polygon.map((p) => onPlane(flat, p));
  const found: { polygon: readonly Vec2[]; patch: Omit<Patch, 'polygon'> }[] = [];
  for (const pa of a.pieces)
    for (const pb of b.pieces) {
      const polygon = intersectConvex(inFlat(pa.polygon), inFlat(pb.polygon).reverse());
      if (signedArea(polygon) > 1e-7) found.push({ polygon, patch: { faces: [a, b], pieces: [pa.piece, pb.piece] } });
    }
  if (found.length === 0) return null;

  const centre = fromPlane(flat, weightedCentre(found.map((f) => f.polygon)));
  const toA = (a.plane.offset - dot(a.plane.normal, centre)) / dot(a.plane.normal, normal);
  const toB = (b.plane.offset - dot(b.plane.normal, centre)) / dot(b.plane.normal, normal);
  const gapM = toB - toA;
  if (gapM < -DRAWN_TO_TOUCH_M - 1e-9 || gapM > GREATEST_GAP_M + 1e-9) return null;
  const frame: PlaneFrame = { ...flat, origin: add(flat.origin, scale(normal, (toA + toB) / 2)) };
  const patches = gapM > 0.001 ? found.flatMap((f) => outsideOf(f, frame, others)) : found;
  return patches.length > 0 ? { frame, gapM, patches } : null;
}

const distanceTo = (b: Face, a: Face): number =>
  dot(a.plane.normal, (b.pieces[0] as { polygon: readonly Vec3[] }).polygon[0] as Vec3) - a.plane.offset;

function weightedCentre(polygons: readonly (readonly Vec2[])[]): Vec2 {
  let area = 0;
  let x = 0;
  let y = 0;
  for (const polygon of polygons) {
    const w = signedArea(polygon);
    const c = centroidOf(polygon);
    area += w;
    x += w * c[0];
    y += w * c[1];
  }
  return [x / area, y / area];
}

/** A thin third compartment between the two faces takes its part of the gap away from them. */
function outsideOf(
  found: { polygon: readonly Vec2[]; patch: Omit<Patch, 'polygon'> },
  frame: PlaneFrame,
  others: readonly Prism[],
): { polygon: readonly Vec2[]; patch: Omit<Patch, 'polygon'> }[] {
  let rest: (readonly Vec2[])[] = [found.polygon];
  const [low, high] = bounds(found.polygon.map((q) => fromPlane(frame, q)));
  for (const prism of others)
    for (const piece of prism.pieces) {
      if (piece.low.some((value, k) => value >= (high[k] as number) || (piece.high[k] as number) <= (low[k] as number)))
        continue;
      rest = rest.flatMap((polygon) => {
        const cut = cutByPlane(piece, frame, polygon);
        return cut.length < 3 ? [polygon] : subtractConvex(polygon, cut);
      });
    }
  return rest.filter((polygon) => signedArea(polygon) > 1e-7).map((polygon) => ({ polygon, patch: found.patch }));
}

/** The part of `within`, a polygon in the plane, that lies inside the piece. */
function cutByPlane(piece: PrismPiece, frame: PlaneFrame, within: readonly Vec2[]): Vec2[] {
  let out: Vec2[] = [...within];
  for (const { normal, offset } of piece.planes) {
    const a = dot(normal, frame.u);
    const b = dot(normal, frame.v);
    const c = offset - dot(normal, frame.origin);
    if (Math.abs(a) < 1e-9 && Math.abs(b) < 1e-9) {
      if (c < 0) return [];
      continue;
    }
    out = clipHalfPlane(out, a, b, c);
    if (out.length < 3) return [];
  }
  return out;
}

function join(between: readonly [string, string], frame: PlaneFrame, matches: readonly Match[]): SharedFace | null {
  const flat = matches.flatMap((match) =>
    match.patches.map(({ polygon, patch }) => ({
      patch,
      polygon: match.frame === frame ? polygon : polygon.map((q) => onPlane(frame, fromPlane(match.frame, q))),
    })),
  );
  const kept = connectedGroups(flat.map((f) => f.polygon))
    .filter((group) => isWide(group.map((i) => (flat[i] as { polygon: readonly Vec2[] }).polygon)))
    .flat()
    .sort((i, j) => i - j)
    .map((i) => flat[i] as (typeof flat)[number]);
  if (kept.length === 0) return null;
  const polygons = kept.map((f) => f.polygon);
  const inSpace = (q: Vec2): Vec3 => fromPlane(frame, q);
  const total = matches.reduce((s, m) => s + m.patches.reduce((t, p) => t + signedArea(p.polygon), 0), 0);
  const gap =
    matches.reduce((s, m) => s + m.gapM * m.patches.reduce((t, p) => t + signedArea(p.polygon), 0), 0) / total;
  return {
    between,
    frame,
    gapM: gap,
    patches: kept.map(({ polygon, patch }) => ({ ...patch, polygon: polygon.map(inSpace) })),
    edges: outerEdges(polygons).map(([p, q]) => [inSpace(p), inSpace(q)] as const),
    centre: inSpace(weightedCentre(polygons)),
    areaM2: polygons.reduce((s, p) => s + signedArea(p), 0),
  };
}

/** A group is wide enough when one piece is, or when its area spread over its length is. */
function isWide(polygons: readonly (readonly Vec2[])[]): boolean {
  if (polygons.some((p) => widthOf(p) >= LEAST_WIDTH - 1e-9)) return true;
  const corners = polygons.flat();
  let longest = 0;
  for (const p of corners)
    for (const q of corners) longest = Math.max(longest, portable.hypot(p[0] - q[0], p[1] - q[1]));
  return polygons.reduce((s, p) => s + signedArea(p), 0) >= LEAST_WIDTH * longest;
}

type Segment2 = readonly [Vec2, Vec2];
const sidesAround = (polygon: readonly Vec2[]): Segment2[] =>
  polygon.map((p, i) => [p, polygon[(i + 1) % polygon.length] as Vec2] as const);

/** Stretch [t0, t1] of `side` that `other` covers walking the other way, within 0.1 mm; null without one. */
function covered([p, q]: Segment2, [r, s]: Segment2): readonly [number, number] | null {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length < 1e-7) return null;
  const off = (c: Vec2): number => Math.abs((c[0] - p[0]) * dy - (c[1] - p[1]) * dx) / length;
  if (off(r) > 1e-4 || off(s) > 1e-4) return null;
  const at = (c: Vec2): number => ((c[0] - p[0]) * dx + (c[1] - p[1]) * dy) / (length * length);
  const t0 = Math.max(0, at(s));
  const t1 = Math.min(1, at(r));
  return (t1 - t0) * length > 1e-6 ? [t0, t1] : null;
}

/** Indices of polygons that hang together along their sides. */
function connectedGroups(polygons: readonly (readonly Vec2[])[]): number[][] {
  const group = polygons.map((_, i) => i);
  const find = (i: number): number => (group[i] === i ? i : find(group[i] as number));
  for (let i = 0; i < polygons.length; i++)
    for (let j = i + 1; j < polygons.length; j++) {
      if (find(i) === find(j)) continue;
      const touch = sidesAround(polygons[i] as readonly Vec2[]).some((side) =>
        sidesAround(polygons[j] as readonly Vec2[]).some((other) => covered(side, other) !== null),
      );
      if (touch) group[find(j)] = find(i);
    }
  const groups = new Map<number, number[]>();
  polygons.forEach((_, i) => {
    const root = find(i);
    groups.set(root, [...(groups.get(root) ?? []), i]);
  });
  return [...groups.values()];
}

/** Sides of all polygons without the stretches that two of them share. */
function outerEdges(polygons: readonly (readonly Vec2[])[]): Segment2[] {
  const out: Segment2[] = [];
  polygons.forEach((polygon, i) => {
    for (const side of sidesAround(polygon)) {
      let free: (readonly [number, number])[] = [[0, 1]];
      polygons.forEach((other, j) => {
        if (i === j) return;
        for (const otherSide of sidesAround(other)) {
          const c = covered(side, otherSide);
          if (c) free = free.flatMap((f) => withoutStretch(f, c));
        }
      });
      const at = (t: number): Vec2 => [
        side[0][0] + (side[1][0] - side[0][0]) * t,
        side[0][1] + (side[1][1] - side[0][1]) * t,
      ];
      const length = portable.hypot(side[1][0] - side[0][0], side[1][1] - side[0][1]);
      for (const [t0, t1] of free) if ((t1 - t0) * length > 1e-6) out.push([at(t0), at(t1)]);
    }
  });
  return out;
}

const withoutStretch = (
  [a, b]: readonly [number, number],
  [c, d]: readonly [number, number],
): (readonly [number, number])[] => {
  const out: (readonly [number, number])[] = [];
  if (c > a) out.push([a, Math.min(b, c)]);
  if (d < b) out.push([Math.max(a, d), b]);
  return out.filter(([s, t]) => t > s);
};
