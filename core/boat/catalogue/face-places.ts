import * as portable from '../../base/portable';
import type { Vec3 } from '../../base/vec';
import type { Shape } from '../schema/boat';

/**
 * Places as data sheets give them: on a face of the envelope, so far from two of its edges. Own axes of the thing: x forward, y to
 * port, z up; lengths in metres.
 */
export const FACES = ['+x', '-x', '+y', '-y', '+z', '-z'] as const;
export type Face = (typeof FACES)[number];

export type EdgeName = 'after' | 'starboard' | 'bottom';

/** The two edges that a place on a face is measured from, in order. */
export const EDGES: Readonly<Record<Face, readonly [EdgeName, EdgeName]>> = {
  '+x': ['starboard', 'bottom'],
  '-x': ['starboard', 'bottom'],
  '+y': ['after', 'bottom'],
  '-y': ['after', 'bottom'],
  '+z': ['after', 'starboard'],
  '-z': ['after', 'starboard'],
};

const AXIS: Readonly<Record<EdgeName, 0 | 1 | 2>> = { after: 0, starboard: 1, bottom: 2 };
const axisOf = (face: Face): 0 | 1 | 2 => (face[1] === 'x' ? 0 : face[1] === 'y' ? 1 : 2);
const signOf = (face: Face): 1 | -1 => (face[0] === '+' ? 1 : -1);
/** A place counts as on a face within so much. */
const ON_FACE_M = 1e-4;

/** Half sides of a thing's envelope along its own axes, metres. */
export function halfOf(shape: Shape): Vec3 {
  if (shape.type === 'box') return [shape.sizeM[0] / 2, shape.sizeM[1] / 2, shape.sizeM[2] / 2];
  const r = shape.diameterM / 2;
  const h = shape.lengthM / 2;
  return shape.axis === 'x' ? [h, r, r] : shape.axis === 'y' ? [r, h, r] : [r, r, h];
}

/** Unit vector out of a face, along an own axis of the thing. */
export function outOf(face: Face): [number, number, number] {
  const way: [number, number, number] = [0, 0, 0];
  way[axisOf(face)] = signOf(face);
  return way;
}

/** The place on a face of an envelope with these half sides, by its distances from the two edges of `EDGES`. */
export function placeOnFace(half: Vec3, face: Face, fromEdges: readonly [number, number]): [number, number, number] {
  const at: [number, number, number] = [0, 0, 0];
  at[axisOf(face)] = signOf(face) * half[axisOf(face)];
  EDGES[face].forEach((edge, k) => {
    at[AXIS[edge]] = (fromEdges[k] ?? 0) - half[AXIS[edge]];
  });
  return at;
}

/** Distances of a place from the two edges of a face. */
export const edgesAt = (half: Vec3, at: Vec3, face: Face): [number, number] => {
  const [first, second] = EDGES[face];
  return [at[AXIS[first]] + half[AXIS[first]], at[AXIS[second]] + half[AXIS[second]]];
};

/** The face that a place lies on and that its direction leaves square; null for a slanting one or one inside. */
export function faceOf(half: Vec3, at: Vec3, direction: Vec3): Face | null {
  const length = portable.hypot(...direction);
  const face = FACES.find(
    (one) => outOf(one).reduce((sum, part, k) => sum + part * (direction[k] ?? 0), 0) > 0.999 * length,
  );
  if (!face) return null;
  const axis = axisOf(face);
  return Math.abs(at[axis] - signOf(face) * half[axis]) < ON_FACE_M ? face : null;
}

/** Half sides of the envelope that the places on its faces keep by when it grows: each stays as far from its edges as it was. */
export function carriedOnFace(before: Vec3, after: Vec3, at: Vec3, direction: Vec3): [number, number, number] {
  const face = faceOf(before, at, direction);
  return face ? placeOnFace(after, face, edgesAt(before, at, face)) : [at[0], at[1], at[2]];
}

/** Width and height that a face has, along its two edges. */
export const faceSize = (half: Vec3, face: Face): [number, number] => {
  const [first, second] = EDGES[face];
  return [2 * half[AXIS[first]], 2 * half[AXIS[second]]];
};
