import { distanceToSegment } from '@core/base/segment';
import type { Vec2, Vec3 } from '@core/base/vec';
import { type DrawnFace, type FaceKey, facesOf } from '@core/boat/interior/faces';
import { drawnPoint, intoBoat, type Prismatic } from '@core/boat/interior/placing';
import { depthOf, project, type ViewFrame } from '@core/output/views/drawing';
import type { SnapLine } from './point-snap';

/** A face of a compartment that a view shows edge on, on paper. */
export interface FaceGrip {
  readonly kind: 'face';
  readonly key: FaceKey;
  readonly a: Vec2;
  readonly b: Vec2;
  /** Outwards, unit. */
  readonly normal: Vec2;
  readonly face: DrawnFace;
}

/** A corner of the outline, in the view in which it is drawn. */
export interface CornerGrip {
  readonly kind: 'corner';
  readonly corner: number;
  readonly at: Vec2;
}

export type Grip = FaceGrip | CornerGrip;

/** Sine of the angle by which a face may lean and still count as edge on. */
const EDGE_ON = 0.02;

export function faceGrips(prism: Prismatic, frame: ViewFrame): readonly FaceGrip[] {
  return facesOf(prism).flatMap((face): FaceGrip[] => {
    if (Math.abs(depthOf(frame, face.normal)) > EDGE_ON) return [];
    const normal = project(frame, face.normal);
    const points = face.polygon.map((p) => project(frame, p));
    const along = (p: Vec2): number => p[1] * normal[0] - p[0] * normal[1];
    const sorted = [...points].sort((p, q) => along(p) - along(q));
    return [{ kind: 'face', key: face.key, a: sorted[0] as Vec2, b: sorted[sorted.length - 1] as Vec2, normal, face }];
  });
}

export function cornerGrips(prism: Prismatic, frame: ViewFrame): readonly CornerGrip[] {
  if (prism.view !== frame.name) return [];
  return prism.outline.map((_, corner) => ({ kind: 'corner', corner, at: project(frame, cornerAt(prism, corner)) }));
}

/** The corner of the outline in the boat, at the low end of the range. */
export const cornerAt = (prism: Prismatic, corner: number): Vec3 =>
  intoBoat(prism, drawnPoint(prism.view, prism.outline[corner] as Vec2, Math.min(...prism.rangeM)));

export const snapLinesOf = (prism: Prismatic, frame: ViewFrame, subject: string): readonly SnapLine[] =>
  faceGrips(prism, frame).map(({ a, b, normal }) => ({ a, b, solid: normal, subject }));

/** The face that looks at the eye, for what is drawn from the front. */
export const frontFace = (prism: Prismatic, frame: ViewFrame): DrawnFace | null =>
  facesOf(prism).find((face) => depthOf(frame, face.normal) > 0.99) ?? null;

/** Corners win within this way of the pointer, faces within that, pixels. */
const CORNER_PX = 9;
const FACE_PX = 7;

/** The grip under a point of the paper; `scale` in pixels a metre. */
export function gripAt(prism: Prismatic, frame: ViewFrame, at: Vec2, scale: number): Grip | null {
  let best: { grip: Grip; far: number } | null = null;
  for (const grip of cornerGrips(prism, frame)) {
    const far = Math.hypot(grip.at[0] - at[0], grip.at[1] - at[1]) * scale;
    if (far <= CORNER_PX && (!best || far < best.far)) best = { grip, far };
  }
  if (best) return best.grip;
  for (const grip of faceGrips(prism, frame)) {
    const far = distanceToSegment(at, grip.a, grip.b) * scale;
    if (far <= FACE_PX && (!best || far < best.far)) best = { grip, far };
  }
  return best?.grip ?? null;
}
