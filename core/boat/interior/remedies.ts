import { signedArea } from '../../base/ring';
import { add, along, dot, scale, type Vec3 } from '../../base/vec';
import { outlineFault } from '../outline';
import type { Compartment } from '../schema/boat';
import { beyond, type DrawnFace, extentIn, type FaceKey, facesOf, facingFace, inFace, onFace } from './faces';
import { holds, redrawn } from './placing';
import { type FaceMove, withFaceMoved } from './shaping';

type Shape = Pick<Compartment, 'outline' | 'rangeM'>;
type Compartments = Readonly<Record<string, Compartment>>;

/** Faces stand apart further than a panel reaches, and nearer than anyone leaves a space: somebody's tape slipped. Metres. */
const GAP_FROM_M = 0.06;
const GAP_TO_M = 0.2;

/** Two compartments that nearly meet. */
export interface Gap {
  readonly between: readonly [string, string];
  readonly keys: readonly [FaceKey, FaceKey];
  readonly gapM: number;
  readonly at: Vec3;
  /** Of the space between the two faces. */
  readonly corners: readonly Vec3[];
}

/** Gaps between faces that look at each other, too wide for a panel and too narrow for a space; widest first. */
export function gapsBetween(compartments: Compartments): readonly Gap[] {
  const ids = Object.keys(compartments).sort();
  const drawn = ids.map((id) => {
    const faces = facesOf(compartments[id] as Compartment);
    return { id, faces, box: boundsOf(faces) };
  });
  const found: Gap[] = [];
  for (const [i, { id, faces, box }] of drawn.entries()) {
    const near = drawn.slice(i + 1).filter((other) => comeNear(box, other.box));
    for (const face of faces) {
      for (const { id: otherId, faces: theirs } of near) {
        const facing = facingFace(face, theirs, GAP_TO_M);
        if (!facing || facing.gapM <= GAP_FROM_M) continue;
        if (isFilled(compartments, face, facing.face)) continue;
        const corners = spaceBetween(face, facing.face);
        const at = scale(
          corners.reduce((sum, p) => add(sum, p)),
          1 / corners.length,
        );
        found.push({ between: [id, otherId], keys: [face.key, facing.face.key], gapM: facing.gapM, at, corners });
      }
    }
  }
  return found.sort((a, b) => b.gapM - a.gapM || (a.between.join() < b.between.join() ? -1 : 1));
}

interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

function boundsOf(faces: readonly DrawnFace[]): Box {
  const points = faces.flatMap((face) => face.polygon);
  const fold = (pick: (...values: number[]) => number): Vec3 => [
    pick(...points.map((p) => p[0])),
    pick(...points.map((p) => p[1])),
    pick(...points.map((p) => p[2])),
  ];
  return { low: fold(Math.min), high: fold(Math.max) };
}

const comeNear = (a: Box, b: Box): boolean =>
  ([0, 1, 2] as const).every((k) => a.low[k] <= b.high[k] + GAP_TO_M && b.low[k] <= a.high[k] + GAP_TO_M);

/** The part of two parallel faces that lies before both, in the axes of the first; low and high by axis. */
function sharedExtent(
  face: DrawnFace,
  their: DrawnFace,
): readonly [readonly [number, number], readonly [number, number]] {
  const own = extentIn(face);
  const flat = their.polygon.map((p) => inFace(face, p));
  const shared = (k: 0 | 1): readonly [number, number] => {
    const values = flat.map((p) => p[k]);
    return [Math.max(own.low[k], Math.min(...values)), Math.min(own.high[k], Math.max(...values))];
  };
  return [shared(0), shared(1)];
}

/** Corners of the space between two faces. */
function spaceBetween(face: DrawnFace, their: DrawnFace): readonly Vec3[] {
  const [us, vs] = sharedExtent(face, their);
  const deep = beyond(face, their.centre);
  return [0, deep].flatMap((d) => us.flatMap((u) => vs.map((v) => along(onFace(face, [u, v]), face.normal, d))));
}

/** Whether most of the space between two faces belongs to other compartments: then it is no gap. */
function isFilled(compartments: Compartments, face: DrawnFace, their: DrawnFace): boolean {
  const [us, vs] = sharedExtent(face, their);
  const half = beyond(face, their.centre) / 2;
  const at = ([low, high]: readonly [number, number], share: number): number => low + (high - low) * share;
  const probes = [
    [0.5, 0.5],
    [0.25, 0.25],
    [0.75, 0.25],
    [0.75, 0.75],
    [0.25, 0.75],
  ].map(([u = 0, v = 0]) => along(onFace(face, [at(us, u), at(vs, v)]), face.normal, half));
  const filled = probes.filter((p) => Object.values(compartments).some((one) => holds(one, p))).length;
  return filled * 2 > probes.length;
}

/** The move that takes one compartment's face to the other's. */
export const gapClosed = (gap: Gap, side: 0 | 1): FaceMove => ({
  id: gap.between[side],
  key: gap.keys[side],
  by: gap.gapM,
});

/**
 * The least move of one face of a compartment that takes all of it out of another; null where the shape would not survive it.
 */
export function overlapCut(compartments: Compartments, id: string, otherId: string): FaceMove | null {
  const own = compartments[id];
  const other = compartments[otherId];
  if (!own || !other) return null;
  const corners = facesOf(other).flatMap((face) => face.polygon);
  const moves = facesOf(own)
    .map((face): FaceMove => {
      const deepest = Math.min(...corners.map((p) => dot(face.normal, p)));
      return { id, key: face.key, by: deepest - face.offset };
    })
    .filter(({ by }) => by < 0)
    .sort((a, b) => b.by - a.by || (a.key < b.key ? -1 : 1));
  return moves.find((move) => survives(own, move)) ?? null;
}

/** Whether a compartment is still one after a face has moved. */
export function survives(own: Compartment, { key, by }: FaceMove): boolean {
  return staysSound(own, redrawn(own, withFaceMoved(own, key, by)));
}

/** Whether a new shape is still a compartment, and not the old one turned inside out. */
export function staysSound(own: Shape, next: Shape): boolean {
  const keepsDepth = next.rangeM[1] - next.rangeM[0] > 0.01;
  // A face that went through the one across turns the outline the other way round.
  const keepsSense = signedArea(own.outline) * signedArea(next.outline) > 0;
  return keepsDepth && keepsSense && outlineFault(next.outline) === null;
}
