import * as portable from '../../../base/portable';
import type { Vec3 } from '../../../base/vec';
import { type Arm, ELBOW, type FlatPose, HAND, PALM, POSE_NUMBERS, SHOULDER, WRIST } from './arm';
import type { ArmMotion, Trail } from './arm-motion';

/** Farther than this nothing is drawn straight out, metres. */
const LONGEST_SLIDE_M = 1.3;
const FIRST_STEP_M = 0.0075;
/** First steps of turning, radians, and of running a wrist along its forearm, as a share. */
const FIRST_TURN = 0.02;
const FIRST_SHARE = 0.02;
/** Directions this alike lead nowhere else. */
const ALIKE = 0.995;

/** A way out by one of the plain motions, from the work outwards; null where none of them comes out. */
export function plainWayOut(motion: ArmMotion, pose: FlatPose, stance: number): Trail | null {
  return slideOut(motion, [pose], stance) ?? unbendOut(motion, pose, stance) ?? ladderOut(motion, pose, stance);
}

/** Draws the arm out as it is: back along the hand, back along the forearm, straight out of the opening, or from point to shoulder. */
export function slideOut(motion: ArmMotion, trail: Trail, stance: number): Trail | null {
  const pose = trail[trail.length - 1] as FlatPose;
  const tried: Vec3[] = [];
  for (const way of slideDirections(motion, pose)) {
    if (tried.some((one) => one[0] * way[0] + one[1] * way[1] + one[2] * way[2] > ALIKE)) continue;
    tried.push(way);
    const found = slideAlong(motion, trail, stance, way);
    if (found) return found;
  }
  return null;
}

function slideAlong(motion: ArmMotion, trail: Trail, stance: number, way: Vec3): Trail | null {
  const longer = [...trail];
  const from = trail[trail.length - 1] as FlatPose;
  const slid = (t: number, into: FlatPose): void => {
    into.set(from);
    for (const k of [SHOULDER, ELBOW, WRIST])
      for (let i = 0; i < 3; i += 1) into[k + i] = (from[k + i] as number) + (way[i] as number) * t;
  };
  return motion.follow(longer, stance, LONGEST_SLIDE_M, FIRST_STEP_M, slid) === 'out' ? longer : null;
}

function slideDirections({ arm, region, grasp }: ArmMotion, pose: FlatPose): Vec3[] {
  const along = (to: number, from: number, lengthM: number): Vec3 => [
    ((pose[to] as number) - (pose[from] as number)) / lengthM,
    ((pose[to + 1] as number) - (pose[from + 1] as number)) / lengthM,
    ((pose[to + 2] as number) - (pose[from + 2] as number)) / lengthM,
  ];
  const shoulder: Vec3 = [pose[SHOULDER] as number, pose[SHOULDER + 1] as number, pose[SHOULDER + 2] as number];
  const back: Vec3 = [shoulder[0] - grasp.point[0], shoulder[1] - grasp.point[1], shoulder[2] - grasp.point[2]];
  const length = portable.hypot(...back);
  const ways: Vec3[] = [[-(pose[HAND] as number), -(pose[HAND + 1] as number), -(pose[HAND + 2] as number)]];
  ways.push(along(ELBOW, WRIST, arm.foreM), along(SHOULDER, ELBOW, arm.upperM));
  if (region.gate) ways.push(region.gate.out);
  if (length > 1e-6) ways.push([back[0] / length, back[1] / length, back[2] / length]);
  const { gate } = region;
  return gate ? ways.filter((way) => way[0] * gate.out[0] + way[1] * gate.out[1] + way[2] * gate.out[2] > 0.05) : ways;
}

/** Straightens the wrist, then unbends about the elbow as far as it goes, then draws the arm out. */
function unbendOut(motion: ArmMotion, pose: FlatPose, stance: number): Trail | null {
  const trail = straightened(motion, pose, stance);
  if (!trail) return null;
  const from = trail[trail.length - 1] as FlatPose;
  const { arm } = motion;
  const fore = direction(from, ELBOW, WRIST, arm.foreM);
  const upper = direction(from, SHOULDER, ELBOW, arm.upperM);
  const turn = turnBetween(fore, upper);
  if (turn) {
    const palm: Vec3 = [from[PALM] as number, from[PALM + 1] as number, from[PALM + 2] as number];
    const bent = (t: number, into: FlatPose): void => {
      into.set(from);
      const way = turned(fore, turn.axis, t);
      for (let i = 0; i < 3; i += 1) into[WRIST + i] = (from[ELBOW + i] as number) + (way[i] as number) * arm.foreM;
      setHand(into, way, turned(palm, turn.axis, t));
    };
    const end = motion.follow(trail, stance, turn.angle, FIRST_TURN, bent);
    if (end === 'out') return trail;
  }
  return slideOut(motion, trail, stance);
}

/** The wrist runs back on the forearm's line while the elbow runs out on the upper arm's: a corner is taken as on a ladder. */
function ladderOut(motion: ArmMotion, pose: FlatPose, stance: number): Trail | null {
  const trail = straightened(motion, pose, stance);
  if (!trail) return null;
  const from = trail[trail.length - 1] as FlatPose;
  const { arm } = motion;
  const fore = direction(from, ELBOW, WRIST, arm.foreM);
  const upper = direction(from, SHOULDER, ELBOW, arm.upperM);
  const corner: Vec3 = [from[ELBOW] as number, from[ELBOW + 1] as number, from[ELBOW + 2] as number];
  const palm: Vec3 = [from[PALM] as number, from[PALM + 1] as number, from[PALM + 2] as number];
  // Of the triangle corner, wrist, elbow two sides are known and the angle at the corner.
  const cosine = -(fore[0] * upper[0] + fore[1] * upper[1] + fore[2] * upper[2]);
  const ran = (t: number, into: FlatPose): void => {
    const left = arm.foreM * (1 - t);
    const run = left * cosine + Math.sqrt(Math.max(0, arm.foreM ** 2 - left ** 2 * (1 - cosine ** 2)));
    into.set(from);
    for (let i = 0; i < 3; i += 1) {
      const elbow = (corner[i] as number) - (upper[i] as number) * run;
      into[ELBOW + i] = elbow;
      into[SHOULDER + i] = elbow - (upper[i] as number) * arm.upperM;
      into[WRIST + i] = (corner[i] as number) + (fore[i] as number) * left;
    }
    const way = direction(into, ELBOW, WRIST, arm.foreM);
    const turn = turnBetween(fore, way);
    setHand(into, way, turn ? turned(palm, turn.axis, turn.angle) : palm);
  };
  const end = motion.follow(trail, stance, 1, FIRST_SHARE, ran);
  return end === 'out' ? trail : end === 'end' ? slideOut(motion, trail, stance) : null;
}

/** The pose with the hand turned into line with the forearm, where that is free; also where the hand cannot turn all the way. */
function straightened(motion: ArmMotion, pose: FlatPose, stance: number): Trail | null {
  const trail: Trail = [pose];
  const { arm } = motion;
  const hand: Vec3 = [pose[HAND] as number, pose[HAND + 1] as number, pose[HAND + 2] as number];
  const turn = turnBetween(hand, direction(pose, ELBOW, WRIST, arm.foreM));
  if (!turn) return trail;
  const palm: Vec3 = [pose[PALM] as number, pose[PALM + 1] as number, pose[PALM + 2] as number];
  const bent = (t: number, into: FlatPose): void => {
    into.set(pose);
    setHand(into, turned(hand, turn.axis, t), turned(palm, turn.axis, t));
  };
  return motion.follow(trail, stance, turn.angle, FIRST_TURN, bent) === 'met' ? null : trail;
}

export const direction = (pose: FlatPose, from: number, to: number, lengthM: number): Vec3 => [
  ((pose[to] as number) - (pose[from] as number)) / lengthM,
  ((pose[to + 1] as number) - (pose[from + 1] as number)) / lengthM,
  ((pose[to + 2] as number) - (pose[from + 2] as number)) / lengthM,
];

function setHand(pose: FlatPose, hand: Vec3, palm: Vec3): void {
  for (let i = 0; i < 3; i += 1) {
    pose[HAND + i] = hand[i] as number;
    pose[PALM + i] = palm[i] as number;
  }
}

/** Axis and angle of the short turn from one unit vector to another; null where they point the same way, or opposite ways. */
function turnBetween(a: Vec3, b: Vec3): { readonly axis: Vec3; readonly angle: number } | null {
  const x = a[1] * b[2] - a[2] * b[1];
  const y = a[2] * b[0] - a[0] * b[2];
  const z = a[0] * b[1] - a[1] * b[0];
  const sine = Math.sqrt(x * x + y * y + z * z);
  if (sine < 1e-9) return null;
  return {
    axis: [x / sine, y / sine, z / sine],
    angle: portable.atan2(sine, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]),
  };
}

/** A vector turned about a unit axis (Rodrigues). */
function turned(v: Vec3, k: Vec3, angle: number): Vec3 {
  const [c, s] = [portable.cos(angle), portable.sin(angle)];
  const along = (k[0] * v[0] + k[1] * v[1] + k[2] * v[2]) * (1 - c);
  return [
    v[0] * c + (k[1] * v[2] - k[2] * v[1]) * s + k[0] * along,
    v[1] * c + (k[2] * v[0] - k[0] * v[2]) * s + k[1] * along,
    v[2] * c + (k[0] * v[1] - k[1] * v[0]) * s + k[2] * along,
  ];
}

/** The pose whose links point along three directions from a shoulder; `palm` need not be square to the hand. */
export function posed(arm: Arm, shoulder: Vec3, upper: Vec3, fore: Vec3, hand: Vec3, palm: Vec3): FlatPose | null {
  const pose = new Float64Array(POSE_NUMBERS);
  const lean = palm[0] * hand[0] + palm[1] * hand[1] + palm[2] * hand[2];
  const flat: Vec3 = [palm[0] - hand[0] * lean, palm[1] - hand[1] * lean, palm[2] - hand[2] * lean];
  const long = portable.hypot(...flat);
  if (long < 0.1) return null;
  for (let i = 0; i < 3; i += 1) {
    const elbow = (shoulder[i] as number) + (upper[i] as number) * arm.upperM;
    pose[SHOULDER + i] = shoulder[i] as number;
    pose[ELBOW + i] = elbow;
    pose[WRIST + i] = elbow + (fore[i] as number) * arm.foreM;
    pose[HAND + i] = hand[i] as number;
    pose[PALM + i] = (flat[i] as number) / long;
  }
  return pose;
}
