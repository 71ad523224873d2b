import { ringContains, signedArea } from '../../base/ring';
import { distanceToSegment } from '../../base/segment';
import { along, cross, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../../base/vec';

import type { Compartment } from '../schema/boat';
import { directionInBoat, drawnPoint, intoBoat, type Prismatic } from './placing';

/** `side2` starts at corner 2 of the outline; `low` and `high` are the ends of the range. */
export type FaceKey = 'low' | 'high' | `side${number}`;

/** A flat face of a compartment as drawn, not cut by the hull. */
export interface DrawnFace {
  readonly key: FaceKey;
  /** Out of the compartment. */
  readonly normal: Vec3;
  /** dot(normal, p) of its points. */
  readonly offset: number;
  /** Corners in the boat, in the order of the outline. */
  readonly polygon: readonly Vec3[];
  readonly centre: Vec3;
}

const isFaceKey = (key: string): key is FaceKey => key === 'low' || key === 'high' || /^side\d+$/.test(key);

/** The corner that a side starts from; null for the ends of the range. */
export const sideOf = (key: FaceKey): number | null =>
  key === 'low' || key === 'high' ? null : Number(key.slice('side'.length));

export function facesOf(prism: Prismatic): readonly DrawnFace[] {
  const { view, outline } = prism;
  const [from, to] = [Math.min(...prism.rangeM), Math.max(...prism.rangeM)];
  const at = (corner: number, w: number): Vec3 =>
    intoBoat(prism, drawnPoint(view, outline[corner % outline.length] as Vec2, w));
  const axis = directionInBoat(prism, drawnPoint(view, [0, 0], 1));
  // In profile the range runs against the outline's right-handed normal.
  const turns = signedArea(outline) * (view === 'profile' ? -1 : 1) > 0 ? 1 : -1;
  const ends = (['low', 'high'] as const).map((key): DrawnFace => {
    const polygon = outline.map((_, i) => at(i, key === 'low' ? from : to));
    return faceOf(key, scale(axis, key === 'low' ? -1 : 1), polygon);
  });
  const sides = outline.map((_, i): DrawnFace => {
    const [a, b] = [at(i, from), at(i + 1, from)];
    const outward = scale(unit(cross(subtract(b, a), subtract(at(i, to), a))), turns);
    return faceOf(`side${i}`, outward, [a, b, at(i + 1, to), at(i, to)]);
  });
  return [...sides, ...ends];
}

function faceOf(key: FaceKey, normal: Vec3, polygon: readonly Vec3[]): DrawnFace {
  const n = polygon.length;
  const sum = polygon.reduce<Vec3>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  const clean: Vec3 = [normal[0] + 0, normal[1] + 0, normal[2] + 0];
  return { key, normal: clean, offset: dot(clean, polygon[0] as Vec3), polygon, centre: scale(sum, 1 / n) };
}

export const faceOfKey = (prism: Prismatic, key: string): DrawnFace | null =>
  isFaceKey(key) ? (facesOf(prism).find((face) => face.key === key) ?? null) : null;

/** Two directions in the plane of a face: level, and as upright as it goes; of a level face to starboard and forward. */
export function axesIn(normal: Vec3): readonly [Vec3, Vec3] {
  const level = Math.abs(normal[2]) > 0.999;
  const towards: Vec3 = level ? [1, 0, 0] : [0, 0, 1];
  const v = unit(along(towards, normal, -dot(towards, normal)));
  return [cross(v, normal), v];
}

/** Coordinates of a point's foot in the plane of a face, along axesIn, from its centre. */
export function inFace(face: DrawnFace, p: Vec3): Vec2 {
  const [u, v] = axesIn(face.normal);
  const d = subtract(p, face.centre);
  return [dot(d, u), dot(d, v)];
}

export function onFace(face: DrawnFace, [a, b]: Vec2): Vec3 {
  const [u, v] = axesIn(face.normal);
  return along(along(face.centre, u, a), v, b);
}

/** Bounds of a face along axesIn, from its centre. */
export function extentIn(face: DrawnFace): { readonly low: Vec2; readonly high: Vec2 } {
  const flat = face.polygon.map((p) => inFace(face, p));
  const us = flat.map((p) => p[0]);
  const vs = flat.map((p) => p[1]);
  return { low: [Math.min(...us), Math.min(...vs)], high: [Math.max(...us), Math.max(...vs)] };
}

/** Whether the foot of a point lies on the face, or no further beside it than the margin; metres. */
export function liesOn(face: DrawnFace, p: Vec3, margin: number): boolean {
  const flat = face.polygon.map((q) => inFace(face, q));
  const at = inFace(face, p);
  const isBeside = flat.some((a, i) => distanceToSegment(at, a, flat[(i + 1) % flat.length] as Vec2) <= margin);
  return isBeside || ringContains(flat, at);
}

/** Distance in front of a face, metres; negative behind it, towards the compartment. */
export const beyond = (face: DrawnFace, p: Vec3): number => dot(face.normal, p) - face.offset;

/** Faces of two compartments that look at each other: within one degree, no further apart than `reach`, and overlapping. */
export function facingFace(
  face: DrawnFace,
  theirs: readonly DrawnFace[],
  reach: number,
): { readonly face: DrawnFace; readonly gapM: number } | null {
  let best: { face: DrawnFace; gapM: number } | null = null;
  for (const their of theirs) {
    if (dot(face.normal, their.normal) > -0.99985) continue;
    const gapM = beyond(face, their.centre);
    if (Math.abs(gapM) > reach || !overlapInPlane(face, their)) continue;
    if (!best || Math.abs(gapM) < Math.abs(best.gapM)) best = { face: their, gapM };
  }
  return best;
}

/** Whether the shadows of two parallel faces share more than a strip of 2 cm in their common plane, by their bounds. */
function overlapInPlane(face: DrawnFace, their: DrawnFace): boolean {
  const own = extentIn(face);
  const flat = their.polygon.map((p) => inFace(face, p));
  return ([0, 1] as const).every((k) => {
    const low = Math.max(own.low[k], Math.min(...flat.map((p) => p[k])));
    const high = Math.min(own.high[k], Math.max(...flat.map((p) => p[k])));
    return high - low > 0.02;
  });
}

/** Neighbours whose faces stand against this one: the other side of a bulkhead, as far as a panel reaches. */
export function facesAgainst(
  compartments: Readonly<Record<string, Compartment>>,
  id: string,
  key: string,
  reach = 0.06,
): readonly { readonly id: string; readonly key: FaceKey; readonly gapM: number }[] {
  const own = compartments[id];
  const face = own ? faceOfKey(own, key) : null;
  if (!face) return [];
  return Object.keys(compartments)
    .sort()
    .flatMap((otherId) => {
      const found = otherId === id ? null : facingFace(face, facesOf(compartments[otherId] as Compartment), reach);
      return found ? [{ id: otherId, key: found.face.key, gapM: found.gapM }] : [];
    });
}

/** What people call the side of a compartment that looks along `normal`. */
export function sideWord(normal: Vec3): string {
  const [x, y, z] = normal;
  if (Math.abs(z) >= Math.max(Math.abs(x), Math.abs(y))) return z > 0 ? 'top' : 'bottom';
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? 'forward end' : 'after end';
  return y > 0 ? 'port side' : 'starboard side';
}
