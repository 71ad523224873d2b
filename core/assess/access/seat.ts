import * as portable from '../../base/portable';
import { add, degrees, directionInBoat, dot, type Pose, rotationOf, scale, subtract, type Vec3 } from '../../base/vec';
import { FACES, type Face, outOf } from '../../boat/catalogue/face-places';
import type { MountingSurface, Shape } from '../../boat/schema/boat';
import { openingFrame } from '../../shape/space/ways-in';

/** How a part lies on a surface that it is screwed to. */
export interface Seat {
  /** Middle of the face of its envelope that looks at the surface. */
  readonly at: Vec3;
  /** How far that face stands off the surface; negative where it stands in it. */
  readonly gapM: number;
  /** How far that face reaches beyond the edge of the surface, at most; negative within it. */
  readonly overhangM: number;
  /** Angle between the two faces. */
  readonly aslantDeg: number;
  /** Half sides of the face along `across` and `up` of the surface. */
  readonly halfM: readonly [number, number];
  readonly across: Vec3;
  readonly up: Vec3;
}

/** Where the face that a part is fixed by lies against a surface; without a face named, the one that looks at it most. */
export function seatOn(shape: Shape, pose: Pose, face: Face | undefined, surface: MountingSurface): Seat {
  const { out: normal, up, across } = openingFrame({ normal: surface.normal });
  const towards = (local: Vec3): number => -dot(directionInBoat(pose, local), normal);
  const local = face
    ? outOf(face)
    : FACES.map(outOf).reduce((best, one) => (towards(one) > towards(best) + 1e-9 ? one : best));
  const half = halfSides(shape);
  const depthM = Math.abs(dot(half, local));
  const at = add(pose.at, directionInBoat(pose, scale(local, depthM)));
  const turn = rotationOf(pose);
  const reach = (way: Vec3): number =>
    turn.reduce(
      (sum, axis, k) => sum + (Math.abs(local[k] ?? 0) > 0.5 ? 0 : Math.abs(dot(axis, way)) * (half[k] ?? 0)),
      0,
    );
  const off = subtract(at, surface.at);
  const halfM = [reach(across), reach(up)] as const;
  const beyond = (widthM: number, heightM: number): number =>
    Math.max(Math.abs(dot(off, across)) + halfM[0] - widthM / 2, Math.abs(dot(off, up)) + halfM[1] - heightM / 2);
  // Of a face that looks up or down people may take either side for its width.
  const isFlat = Math.abs(normal[2]) > 0.9;
  const overhangM = Math.min(
    beyond(surface.widthM, surface.heightM),
    isFlat ? beyond(surface.heightM, surface.widthM) : Number.POSITIVE_INFINITY,
  );
  const cosine = Math.max(-1, Math.min(1, towards(local)));
  return {
    at,
    gapM: dot(off, normal),
    overhangM,
    aslantDeg: degrees(portable.acos(cosine)),
    halfM,
    across,
    up,
  };
}

function halfSides(shape: Shape): Vec3 {
  if (shape.type === 'box') return scale(shape.sizeM, 0.5);
  const [length, radius] = [shape.lengthM / 2, shape.diameterM / 2];
  return [
    shape.axis === 'x' ? length : radius,
    shape.axis === 'y' ? length : radius,
    shape.axis === 'z' ? length : radius,
  ];
}
