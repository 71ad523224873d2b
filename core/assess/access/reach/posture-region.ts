import type { Rotation, Vec3 } from '../../../base/vec';
import type { Posture } from './types';

/** A box in its own axes: something may be anywhere in it. */
export interface Region {
  readonly centre: Vec3;
  readonly half: Vec3;
  readonly axes: Rotation;
}

/** How a body may be turned: unit vectors from the hips to the neck, and from the working shoulder to the other one, square to it. */
export interface Attitude {
  readonly spine: Vec3;
  readonly across: Vec3;
}

/** The opening that an arm goes through. */
export interface Gate {
  readonly at: Vec3;
  /** Unit, towards the person. */
  readonly out: Vec3;
  readonly across: Vec3;
  readonly up: Vec3;
  readonly widthM: number;
  readonly heightM: number;
  /** From `at` along `out` to the outer face of what the opening is cut into. */
  readonly outerM: number;
}

/** Where the feet, knees or hips are, and how far from there the shoulders can be. */
export interface Footing {
  readonly at: Vec3;
  /** Level distance of a shoulder from there, at most. */
  readonly farM: number;
  /** Heights of a shoulder, boat frame. */
  readonly lowM: number;
  readonly highM: number;
  /** Heights of the hips over the feet: what stands between them is in the way of the body; absent: not asked. */
  readonly hipsM?: readonly [number, number];
}

/** One way to stand, kneel or lie at a task: where the working shoulder, the body and the eyes can be. */
export interface PostureRegion {
  readonly posture: Posture;
  /** Record of openings that the arm or the person goes through; null where nothing is between. */
  readonly opening: string | null;
  readonly gate: Gate | null;
  /** The shoulder joint of the working arm is in one of these. */
  readonly shoulders: readonly Region[];
  readonly footing: Footing | null;
  /** Turns that the body may have; the trunk hangs from the middle between the shoulders. */
  readonly attitudes: readonly Attitude[];
  /** The eyes are in one of these; none: nothing is seen in this posture. */
  readonly eyes: readonly Region[];
}
