import type { Vec3 } from '../../../base/vec';

export type { BodySizes } from '../../../base/formulas/body-sizes';

/** How somebody gets at what lies behind an opening. */
export const POSTURES = ['free', 'lean', 'headIn', 'climbIn', 'lie'] as const;
/**
 * free: nothing is opened, the thing stands in the space where the person is; lean: an arm through the opening; headIn: head and one shoulder
 * in; climbIn: the person kneels inside; lie: on the sole or a berth, an arm down through an opening in it.
 */
export type Posture = (typeof POSTURES)[number];

/** What an arm, an eye or a tool may meet: solids, and walls with the opened openings cut out of them. */
export type { Obstruction } from '../../../shape/space/opened-walls';

export type Side = 'left' | 'right';

/** One pose of an arm: shoulder, elbow, wrist, middle of the grip; `palm`: unit vector of the hand box's width. */
export interface ArmPose {
  readonly shoulder: Vec3;
  readonly elbow: Vec3;
  readonly wrist: Vec3;
  readonly grip: Vec3;
  readonly palm: Vec3;
}

/** What the hand is to do, boat frame. */
export interface Grasp {
  /** Point to be worked at, and the unit vector out of its surface; null: from any side. */
  readonly point: Vec3;
  readonly normal: Vec3 | null;
  /** Middle of the grip off the surface, metres. */
  readonly standOffM: number;
  /** Greatest angle of the hand off the normal, degrees. */
  readonly coneDeg: number;
  /** Length of the tool between grip and surface, metres; 0: by hand. */
  readonly toolM: number;
  /** Thing that the hand may touch within the stand-off. */
  readonly own: string;
}

/** Which part of the arm has no room. */
export type ArmStage = 'hand' | 'forearm' | 'upperArm' | 'wayIn';

export interface ArmBlocker {
  readonly owner: string;
  readonly label: string;
  /** How deep it stands in the arm in the pose that needs the least to be shaved off, metres. */
  readonly depthM: number;
}

export type ArmAnswer =
  | {
      readonly outcome: 'reached';
      readonly side: Side;
      readonly pose: ArmPose;
      /** Where trunk and head are in that pose: ends of the trunk's axis, middle of the head. */
      readonly body: { readonly neck: Vec3; readonly hips: Vec3; readonly head: Vec3 };
      /** From outside to the pose, closely enough that nothing is met between two of them. */
      readonly way: readonly ArmPose[];
      /** Least distance of arm and hand from what is about them over the whole way, metres. */
      readonly spareM: number;
      readonly tried: number;
    }
  /** Proved: not even a thinner arm with freer joints finds a pose. */
  | {
      readonly outcome: 'cannot';
      readonly stage: ArmStage;
      readonly shortByM: number | null;
      readonly blockers: readonly ArmBlocker[];
      readonly tried: number;
    }
  /** No way was found, and none is disproved. */
  | {
      readonly outcome: 'notFound';
      readonly stage: ArmStage;
      readonly shortByM: number | null;
      readonly blockers: readonly ArmBlocker[];
      readonly tried: number;
    };
