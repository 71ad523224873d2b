import * as portable from '../../../base/portable';
import { radians, type Vec3 } from '../../../base/vec';
import type { ArmPose, BodySizes } from './types';

/** Bend of the elbow, of the hand against the forearm, and of the upper arm about the middle of what a shoulder can do. From memory. */
const ELBOW_DEG = 145;
const WRIST_DEG = 60;
const SHOULDER_DEG = 110;
/** The middle of the hand box lies this share of the hand behind the middle of the grip. */
const BEHIND_GRIP = 0.25;
/** Thickness of a tool's shank, half. */
const TOOL_RADIUS_M = 0.008;
/** Nothing gets thinner than this, however much is shaved. */
const THINNEST_M = 0.002;

/** Two links and a hand with their joints: what the search moves. Lengths in metres, joints as cosines. */
export interface Arm {
  readonly upperM: number;
  readonly foreM: number;
  readonly handM: number;
  readonly upperRadiusM: number;
  readonly foreRadiusM: number;
  readonly toolRadiusM: number;
  /** Half sides of the hand box along the hand, across the palm, thick. */
  readonly halfM: Vec3;
  readonly behindM: number;
  readonly cosElbow: number;
  readonly cosWrist: number;
  readonly wristDeg: number;
  /** How much more than people's the joints and the cone of the hand may do, degrees. */
  readonly freerDeg: number;
  readonly cosShoulder: number;
}

/** The arm of a body, thicker by `thickerM` all round (negative: shaved), its joints freer by so many degrees. */
export function armOf(body: BodySizes, thickerM: number, freerDeg = 0): Arm {
  const thick = (m: number): number => Math.max(THINNEST_M, m + thickerM);
  const [along, across, thickness] = body.handBoxM;
  return {
    upperM: body.upperArmM,
    foreM: body.forearmM,
    handM: body.handM,
    upperRadiusM: thick(body.upperArmRadiusM),
    foreRadiusM: thick(body.forearmRadiusM),
    toolRadiusM: thick(TOOL_RADIUS_M),
    halfM: [thick(along / 2), thick(across / 2), thick(thickness / 2)],
    behindM: BEHIND_GRIP * body.handM,
    cosElbow: portable.cos(radians(ELBOW_DEG + freerDeg)),
    cosWrist: portable.cos(radians(WRIST_DEG + freerDeg)),
    wristDeg: WRIST_DEG + freerDeg,
    freerDeg,
    cosShoulder: portable.cos(radians(SHOULDER_DEG + freerDeg)),
  };
}

/**
 * Where the joints of a pose stand in its 15 numbers: shoulder, elbow, wrist, unit vector of the hand (wrist to grip), unit vector of the
 * palm's width.
 */
export const SHOULDER = 0;
export const ELBOW = 3;
export const WRIST = 6;
export const HAND = 9;
export const PALM = 12;
export const POSE_NUMBERS = 15;
export type FlatPose = Float64Array;

const vectorAt = (pose: FlatPose, k: number): Vec3 => [pose[k] as number, pose[k + 1] as number, pose[k + 2] as number];

/** Axes of the hand box of a pose: along the hand, along the palm, square to both; nine numbers of `into` from `at` on. */
export function handAxes(pose: FlatPose, into: Float64Array, at: number): Float64Array {
  const ux = pose[HAND] as number;
  const uy = pose[HAND + 1] as number;
  const uz = pose[HAND + 2] as number;
  const px = pose[PALM] as number;
  const py = pose[PALM + 1] as number;
  const pz = pose[PALM + 2] as number;
  into[at] = ux;
  into[at + 1] = uy;
  into[at + 2] = uz;
  into[at + 3] = px;
  into[at + 4] = py;
  into[at + 5] = pz;
  into[at + 6] = uy * pz - uz * py;
  into[at + 7] = uz * px - ux * pz;
  into[at + 8] = ux * py - uy * px;
  return into;
}

export function toArmPose(pose: FlatPose, arm: Arm): ArmPose {
  const [wrist, hand] = [vectorAt(pose, WRIST), vectorAt(pose, HAND)];
  return {
    shoulder: vectorAt(pose, SHOULDER),
    elbow: vectorAt(pose, ELBOW),
    wrist,
    grip: [wrist[0] + hand[0] * arm.handM, wrist[1] + hand[1] * arm.handM, wrist[2] + hand[2] * arm.handM],
    palm: vectorAt(pose, PALM),
  };
}

export function fromArmPose({ shoulder, elbow, wrist, grip, palm }: ArmPose, arm: Arm): FlatPose {
  return Float64Array.of(
    ...shoulder,
    ...elbow,
    ...wrist,
    (grip[0] - wrist[0]) / arm.handM,
    (grip[1] - wrist[1]) / arm.handM,
    (grip[2] - wrist[2]) / arm.handM,
    ...palm,
  );
}
