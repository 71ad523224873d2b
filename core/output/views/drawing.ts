import type { Vec2, Vec3 } from '../../base/vec';
import { dot } from '../../base/vec';

/**
 * Line work in boat metres: what a view shows, with ids and roles, and nothing of how thick or in which colour.
 * The board draws it in pixels, a sheet in millimetres.
 */
export type ViewName = 'profile' | 'plan' | 'section';

/** Directions of paper in the boat: right and up on the sheet, and out of the sheet to the eye. */
export interface ViewFrame {
  readonly name: ViewName;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toViewer: Vec3;
}

/** Seen from starboard, bow to the right. */
export const PROFILE: ViewFrame = { name: 'profile', right: [1, 0, 0], up: [0, 0, 1], toViewer: [0, -1, 0] };
/** Seen from above, bow to the right, port up. */
export const PLAN: ViewFrame = { name: 'plan', right: [1, 0, 0], up: [0, 1, 0], toViewer: [0, 0, 1] };
/** Looking forward: port on the left. */
export const SECTION: ViewFrame = { name: 'section', right: [0, -1, 0], up: [0, 0, 1], toViewer: [-1, 0, 0] };

export const FRAMES: Readonly<Record<ViewName, ViewFrame>> = { profile: PROFILE, plan: PLAN, section: SECTION };

/** Point on paper of a point in the boat. */
export const project = (frame: ViewFrame, p: Vec3): Vec2 => [dot(frame.right, p), dot(frame.up, p)];
/** Distance towards the eye. */
export const depthOf = (frame: ViewFrame, p: Vec3): number => dot(frame.toViewer, p);
/** The point in the boat that lies at `uv` on paper and at `depth` towards the eye. */
export const lift = (frame: ViewFrame, uv: Vec2, depth: number): Vec3 => [
  frame.right[0] * uv[0] + frame.up[0] * uv[1] + frame.toViewer[0] * depth,
  frame.right[1] * uv[0] + frame.up[1] * uv[1] + frame.toViewer[1] * depth,
  frame.right[2] * uv[0] + frame.up[2] * uv[1] + frame.toViewer[2] * depth,
];
/** Boat axis across which a view looks: 1 for profile, 2 for plan, 0 for section. */
export const depthAxis = (frame: ViewFrame): 0 | 1 | 2 =>
  frame.toViewer[0] !== 0 ? 0 : frame.toViewer[1] !== 0 ? 1 : 2;
/** Boat axes of right and up on paper. */
export const paperAxes = (frame: ViewFrame): readonly [0 | 1 | 2, 0 | 1 | 2] => [axisOf(frame.right), axisOf(frame.up)];
const axisOf = (v: Vec3): 0 | 1 | 2 => (v[0] !== 0 ? 0 : v[1] !== 0 ? 1 : 2);

/** What a line is. Weights and dashes follow from it, on the board in pixels and on sheets in millimetres. */
export type Role =
  | 'hullOutline'
  | 'sheer'
  | 'innerSkin'
  | 'poche'
  | 'hullInside'
  | 'station'
  | 'centreLine'
  | 'waterline'
  | 'waterlineHull'
  | 'heeledNear'
  | 'heeledFar'
  | 'sea'
  | 'compartment'
  | 'compartmentCut'
  | 'panelCut'
  | 'opening'
  | 'openingSwing'
  | 'fixture'
  | 'part'
  | 'joinery'
  | 'symbol'
  | 'symbolThin'
  | 'symbolPlus'
  | 'symbolSolid'
  | 'sweep'
  | 'service'
  | 'run'
  | 'runCut'
  | 'runMissing'
  | 'holeExisting'
  | 'holeNew'
  | 'cutMark'
  | 'person'
  | 'personOver'
  | 'personEye'
  | 'arm'
  | 'armLink'
  | 'armJoint'
  | 'ray'
  | 'rayStopped'
  | 'sweptSpace'
  | 'dripWay';

interface Drawn {
  /** Unique within a drawing. */
  readonly id: string;
  /** Id of the thing, line, compartment, panel, opening or station that it draws; 'hull' or 'water' for those. */
  readonly subject: string;
  readonly role: Role;
}
export interface Stroke extends Drawn {
  readonly kind: 'stroke';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
}
/** Filled by the even-odd rule. */
export interface Area extends Drawn {
  readonly kind: 'area';
  readonly rings: readonly (readonly Vec2[])[];
}
export type Primitive = Stroke | Area;

export interface Drawing {
  readonly frame: ViewFrame;
  readonly primitives: readonly Primitive[];
}

export const stroke = (id: string, subject: string, role: Role, points: readonly Vec2[], closed = false): Stroke => ({
  kind: 'stroke',
  id,
  subject,
  role,
  points,
  closed,
});
export const area = (id: string, subject: string, role: Role, rings: readonly (readonly Vec2[])[]): Area => ({
  kind: 'area',
  id,
  subject,
  role,
  rings,
});

export interface Bounds2 {
  readonly low: Vec2;
  readonly high: Vec2;
}
/** Bounds of points on paper; null without points. */
export function boundsOf(points: Iterable<Vec2>): Bounds2 | null {
  let u0 = Number.POSITIVE_INFINITY;
  let v0 = u0;
  let u1 = Number.NEGATIVE_INFINITY;
  let v1 = u1;
  for (const [u, v] of points) {
    if (u < u0) u0 = u;
    if (u > u1) u1 = u;
    if (v < v0) v0 = v;
    if (v > v1) v1 = v;
  }
  return u0 <= u1 ? { low: [u0, v0], high: [u1, v1] } : null;
}
