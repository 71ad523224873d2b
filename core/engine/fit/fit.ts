import { signedArea } from '../../base/ring';
import { turnOf } from '../../base/turning';
import { distance, dot, type Rotation, rotationOf, subtract, type Turn, type Vec3 } from '../../base/vec';
import type { Part } from '../../boat/schema/boat';
import { convexHull } from '../../shape/layout/outline';
import { frameOf, onPlane } from '../../shape/layout/polygon';
import type { Cell, Plane } from '../../shape/layout/types';
import { girthOf, sidesFor, sidesForPart } from './body';
import { type Largest, largestBetween } from './largest';
import { AXIS_TURNS, bestTilt, singleTilts, standsUpright, tiltStarts } from './turns';

/** A convex room: a piece of a compartment, or a locker. */
export type ConvexRoom = Pick<Cell, 'planes' | 'corners'>;

/** Spare below this is rounding (metres). */
export const FIT_DUST_M = 1e-7;

/** One way round, with what it leaves. */
export interface WayRound {
  readonly turn: Turn;
  readonly isTilted: boolean;
  /** Every side of the part could be longer by this; negative: shorter. */
  readonly spareM: number;
  /** Where its centre has most room. */
  readonly at: Vec3;
  /** Planes that decide the spare, by their index in the room. */
  readonly tight: readonly number[];
}

/** Why no turn and no place can do. */
export interface NoFitProof {
  readonly proof: 'thickness' | 'length' | 'shadow' | 'volume';
  /** What the part needs at least, and what the room has at most: metres, or square or cubic metres for shadow and volume. */
  readonly needs: number;
  readonly has: number;
}

export interface Fit {
  /** Ways round in which it fits, the roomiest first; square ones before tilted ones. */
  readonly ways: readonly WayRound[];
  /** The way that comes nearest, whether it fits or not; null when none is allowed. */
  readonly best: WayRound | null;
  readonly proof: NoFitProof | null;
  readonly tried: { readonly square: number; readonly tilts: number };
}

/** How a part stands in a convex room: square in up to 24 ways, and tilted where no square way does. */
export function fitInside(part: Part, room: ConvexRoom): Fit {
  const { planes } = room;
  const upright = part.mounting?.upright === true;
  const tiltDeg = part.mounting?.tiltDeg ?? 0;
  const isAllowed = (axes: Rotation): boolean => !upright || standsUpright(axes, tiltDeg);
  const allowed = AXIS_TURNS.filter((turn) => isAllowed(rotationOf(turn)));
  const square = allowed.flatMap((turn) => wayOf(part, turn, planes, false)).sort((a, b) => b.spareM - a.spareM);
  const standing = square.filter(({ spareM }) => spareM >= -FIT_DUST_M);
  const count = { square: allowed.length, tilts: 0 };
  if (standing.length > 0) return { ways: standing, best: standing[0] ?? null, proof: null, tried: count };
  const proof = proofAgainst(part, room);
  if (proof) return { ways: [], best: square[0] ?? null, proof, tried: count };
  const growthOf = (axes: Rotation): number | null =>
    isAllowed(axes) ? (largestBetween(sidesFor(part.shape, axes, planes))?.growthM ?? null) : null;
  const single = singleTilts(
    AXIS_TURNS.map((turn) => rotationOf(turn)),
    growthOf,
  );
  let tilted = single.best.flatMap(({ axes }) => wayOf(part, turnOf(axes), planes, true));
  let tilts = single.tried;
  if (!tilted.some(({ spareM }) => spareM >= -FIT_DUST_M)) {
    const search = bestTilt(tiltStarts(room.corners, longestAxisOf(part)), growthOf);
    if (search.best) tilted = [...tilted, ...wayOf(part, turnOf(search.best.axes), planes, true)];
    tilts += search.tried;
  }
  const ranked = [...tilted, ...square].sort((a, b) => b.spareM - a.spareM);
  return {
    ways: ranked.filter(({ spareM }) => spareM >= -FIT_DUST_M),
    best: ranked[0] ?? null,
    proof: null,
    tried: { square: allowed.length, tilts },
  };
}

/** What one way round leaves in a room; nothing when the room is open. */
function wayOf(part: Part, turn: Turn, planes: readonly Plane[], isTilted: boolean): WayRound[] {
  const found = largestFor(part, turn, planes);
  if (!found) return [];
  const tight = found.weights.flatMap((weight, i) => (weight > 0 ? [i] : []));
  return [{ turn, isTilted, spareM: found.growthM, at: found.centre, tight }];
}

export const largestFor = (part: Part, turn: Turn, planes: readonly Plane[]): Largest | null =>
  largestBetween(sidesForPart(part, turn, rotationOf(turn), planes));

function longestAxisOf({ shape }: Part): 0 | 1 | 2 {
  if (shape.type === 'cylinder') return shape.axis === 'x' ? 0 : shape.axis === 'y' ? 1 : 2;
  const [x, y, z] = shape.sizeM;
  return x >= y && x >= z ? 0 : y >= z ? 1 : 2;
}

/**
 * A part inside a room casts its shadow inside the room's, along every direction; it is no wider than the room across any direction, no longer
 * than the room's longest line, no larger than the room. Whatever breaks one of these fits in no turn and no place.
 */
export function proofAgainst(part: Part, room: ConvexRoom): NoFitProof | null {
  const girth = girthOf(part.shape);
  const { planes, corners } = room;
  const longestM = Math.max(...corners.flatMap((p) => corners.map((q) => distance(p, q))));
  if (girth.longestM > longestM + FIT_DUST_M) return { proof: 'length', needs: girth.longestM, has: longestM };
  const narrow = Math.min(...planes.map(({ normal }) => widthAlong(corners, normal)));
  if (girth.leastSideM > narrow + FIT_DUST_M) return { proof: 'thickness', needs: girth.leastSideM, has: narrow };
  const shadowM2 = Math.min(...planes.map(({ normal }) => shadowAlong(corners, normal)));
  if (girth.shadowM2 > shadowM2 * (1 + FIT_DUST_M)) return { proof: 'shadow', needs: girth.shadowM2, has: shadowM2 };
  const volumeM3 = volumeOf(room);
  if (girth.volumeM3 > volumeM3 * (1 + FIT_DUST_M)) return { proof: 'volume', needs: girth.volumeM3, has: volumeM3 };
  return null;
}

function widthAlong(corners: readonly Vec3[], normal: Vec3): number {
  const heights = corners.map((p) => dot(p, normal));
  return Math.max(...heights) - Math.min(...heights);
}

function shadowAlong(corners: readonly Vec3[], normal: Vec3): number {
  const frame = frameOf(normal, corners[0] as Vec3);
  return Math.abs(signedArea(convexHull(corners.map((p) => onPlane(frame, p)))));
}

/** Pyramids from one corner over every face. */
function volumeOf({ planes, corners }: ConvexRoom): number {
  const apex = corners[0] as Vec3;
  return planes.reduce((sum, { normal, offset }) => {
    const face = corners.filter((p) => Math.abs(dot(p, normal) - offset) < 1e-6);
    if (face.length < 3) return sum;
    const frame = frameOf(normal, face[0] as Vec3);
    const area = Math.abs(signedArea(convexHull(face.map((p) => onPlane(frame, p)))));
    return sum + (area * Math.abs(dot(subtract(face[0] as Vec3, apex), normal))) / 3;
  }, 0);
}
