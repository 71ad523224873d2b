import * as portable from '../../../base/portable';
import { dot, norm, scale, squareTo, subtract, unit, type Vec3 } from '../../../base/vec';
import { type Arm, ELBOW, type FlatPose, HAND, PALM, POSE_NUMBERS, SHOULDER, WRIST } from './arm';
import type { ArmMotion } from './arm-motion';
import type { Trail } from './trail';

/** Farther than this nothing is drawn straight out, metres. */
const LONGEST_SLIDE_M = 1.3;
const FIRST_STEP_M = 0.0075;
/** First steps of turning, radians, and of running a wrist along its forearm, as a share. */
const FIRST_TURN = 0.02;
const FIRST_SHARE = 0.02;
/** A hand is this far off its work before the arm folds, and this far from the shoulder the wrist is then, metres. */
const FREED_M = 0.15;
const FOLDED_M = 0.2;
/** Directions this alike lead nowhere else. */
const ALIKE = 0.995;

/** A way out by one of the plain motions, added to a trail that stands at the pose; false, and the trail as it was, where none comes out. */
export function plainWayOut(motion: ArmMotion, trail: Trail, stance: number): boolean {
  if (!motion.region.gate) return foldBack(motion, trail, stance);
  return slideOut(motion, trail, stance) || unbendOut(motion, trail, stance) || ladderOut(motion, trail, stance);
}

/** What is tried from each new place of a search: the straight ways, or where nothing is between, the fold. */
export const straightOut = (motion: ArmMotion, trail: Trail, stance: number): boolean =>
  motion.region.gate ? slideOut(motion, trail, stance) : foldFrom(motion, trail, stance);

/** Where nothing is between person and thing: draws the hand back to the shoulder, at once or after some way straight off the work. */
function foldBack(motion: ArmMotion, trail: Trail, stance: number): boolean {
  if (foldFrom(motion, trail, stance)) return true;
  const first = trail.count;
  const start = trail.lastPose();
  for (const way of [
    scale(vectorOf(start, HAND), -1),
    direction(start, WRIST, ELBOW, motion.arm.foreM),
    direction(start, ELBOW, SHOULDER, motion.arm.upperM),
  ]) {
    from.set(start);
    slideAlong(motion, trail, stance, way, FREED_M);
    if (trail.count > first && foldFrom(motion, trail, stance)) return true;
    trail.cut(first);
  }
  return false;
}

/** The wrist goes straight towards the shoulder, the elbow bends in the plane in which it is, the hand keeps its angle to the forearm. */
function foldFrom(motion: ArmMotion, trail: Trail, stance: number): boolean {
  const first = trail.count;
  const start = trail.lastPose();
  const { arm } = motion;
  const shoulder = vectorOf(start, SHOULDER);
  const way = direction(start, SHOULDER, WRIST, 1);
  const lengthM = norm(way);
  if (lengthM < FOLDED_M) return motion.isOut(start);
  const towards = scale(way, 1 / lengthM);
  const upper = direction(start, SHOULDER, ELBOW, arm.upperM);
  const square = subtract(upper, scale(towards, dot(upper, towards)));
  const out = norm(square) > 1e-6 ? unit(square) : squareTo(towards);
  const fore = direction(start, ELBOW, WRIST, arm.foreM);
  const hand = vectorOf(start, HAND);
  const palm = vectorOf(start, PALM);
  const folded = (t: number, into: FlatPose): void => {
    const left = lengthM + (FOLDED_M - lengthM) * t;
    // Of the triangle shoulder, elbow, wrist all sides are known.
    const along = (left * left + arm.upperM ** 2 - arm.foreM ** 2) / (2 * left);
    const off = Math.sqrt(Math.max(0, arm.upperM ** 2 - along * along));
    into.set(start);
    for (let i = 0; i < 3; i += 1) {
      into[ELBOW + i] = (shoulder[i] as number) + (towards[i] as number) * along + (out[i] as number) * off;
      into[WRIST + i] = (shoulder[i] as number) + (towards[i] as number) * left;
    }
    const turn = turnBetween(fore, direction(into, ELBOW, WRIST, arm.foreM));
    if (turn) setHand(into, turned(hand, turn.axis, turn.angle), turned(palm, turn.axis, turn.angle));
  };
  if (motion.follow(trail, stance, 1, FIRST_SHARE, folded) === 'out') return true;
  trail.cut(first);
  return false;
}

const from = new Float64Array(POSE_NUMBERS);

/** Draws the arm out as it is: back along the hand, back along the forearm, straight out of the opening, or from point to shoulder. */
function slideOut(motion: ArmMotion, trail: Trail, stance: number): boolean {
  const start = trail.count;
  trail.readLast(from);
  const tried: Vec3[] = [];
  for (const way of slideDirections(motion, from)) {
    if (tried.some((one) => one[0] * way[0] + one[1] * way[1] + one[2] * way[2] > ALIKE)) continue;
    tried.push(way);
    if (slideAlong(motion, trail, stance, way)) return true;
    trail.cut(start);
  }
  return false;
}

function slideAlong(motion: ArmMotion, trail: Trail, stance: number, way: Vec3, longestM = LONGEST_SLIDE_M): boolean {
  const slid = (t: number, into: FlatPose): void => {
    into.set(from);
    for (let k = SHOULDER; k <= WRIST; k += 3) {
      into[k] = (from[k] as number) + way[0] * t;
      into[k + 1] = (from[k + 1] as number) + way[1] * t;
      into[k + 2] = (from[k + 2] as number) + way[2] * t;
    }
  };
  return motion.follow(trail, stance, longestM, FIRST_STEP_M, slid) === 'out';
}

function slideDirections({ arm, region, grasp }: ArmMotion, pose: FlatPose): Vec3[] {
  const shoulder = vectorOf(pose, SHOULDER);
  const back: Vec3 = [shoulder[0] - grasp.point[0], shoulder[1] - grasp.point[1], shoulder[2] - grasp.point[2]];
  const length = norm(back);
  const ways: Vec3[] = [[-(pose[HAND] as number), -(pose[HAND + 1] as number), -(pose[HAND + 2] as number)]];
  ways.push(direction(pose, WRIST, ELBOW, arm.foreM), direction(pose, ELBOW, SHOULDER, arm.upperM));
  if (region.gate) ways.push(region.gate.out);
  if (length > 1e-6) ways.push([back[0] / length, back[1] / length, back[2] / length]);
  const { gate } = region;
  return gate ? ways.filter((way) => way[0] * gate.out[0] + way[1] * gate.out[1] + way[2] * gate.out[2] > 0.05) : ways;
}

/** Straightens the wrist, then unbends about the elbow as far as it goes, then draws the arm out. */
function unbendOut(motion: ArmMotion, trail: Trail, stance: number): boolean {
  const first = trail.count;
  if (!straighten(motion, trail, stance)) return false;
  const start = trail.lastPose();
  const { arm } = motion;
  const fore = direction(start, ELBOW, WRIST, arm.foreM);
  const upper = direction(start, SHOULDER, ELBOW, arm.upperM);
  const turn = turnBetween(fore, upper);
  if (turn) {
    const palm = vectorOf(start, PALM);
    const bent = (t: number, into: FlatPose): void => {
      into.set(start);
      const way = turned(fore, turn.axis, t);
      for (let i = 0; i < 3; i += 1) into[WRIST + i] = (start[ELBOW + i] as number) + (way[i] as number) * arm.foreM;
      setHand(into, way, turned(palm, turn.axis, t));
    };
    if (motion.follow(trail, stance, turn.angle, FIRST_TURN, bent) === 'out') return true;
  }
  if (slideOut(motion, trail, stance)) return true;
  trail.cut(first);
  return false;
}

/** The wrist runs back on the forearm's line while the elbow runs out on the upper arm's: a corner is taken as on a ladder. */
function ladderOut(motion: ArmMotion, trail: Trail, stance: number): boolean {
  const first = trail.count;
  if (!straighten(motion, trail, stance)) return false;
  const start = trail.lastPose();
  const { arm } = motion;
  const fore = direction(start, ELBOW, WRIST, arm.foreM);
  const upper = direction(start, SHOULDER, ELBOW, arm.upperM);
  const corner = vectorOf(start, ELBOW);
  const palm = vectorOf(start, PALM);
  // Of the triangle corner, wrist, elbow two sides are known and the angle at the corner.
  const cosine = -(fore[0] * upper[0] + fore[1] * upper[1] + fore[2] * upper[2]);
  const ran = (t: number, into: FlatPose): void => {
    const left = arm.foreM * (1 - t);
    const run = left * cosine + Math.sqrt(Math.max(0, arm.foreM ** 2 - left ** 2 * (1 - cosine ** 2)));
    into.set(start);
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
  if (end === 'out' || (end === 'end' && slideOut(motion, trail, stance))) return true;
  trail.cut(first);
  return false;
}

/** Turns the hand into line with the forearm; false, and the trail as it was, where that does not go all the way. */
function straighten(motion: ArmMotion, trail: Trail, stance: number): boolean {
  const first = trail.count;
  const start = trail.lastPose();
  const hand = vectorOf(start, HAND);
  const turn = turnBetween(hand, direction(start, ELBOW, WRIST, motion.arm.foreM));
  if (!turn) return true;
  const palm = vectorOf(start, PALM);
  const bent = (t: number, into: FlatPose): void => {
    into.set(start);
    setHand(into, turned(hand, turn.axis, t), turned(palm, turn.axis, t));
  };
  if (motion.follow(trail, stance, turn.angle, FIRST_TURN, bent) !== 'met') return true;
  trail.cut(first);
  return false;
}

export const vectorOf = (pose: FlatPose, k: number): Vec3 => [
  pose[k] as number,
  pose[k + 1] as number,
  pose[k + 2] as number,
];

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

/** Puts a pose whose links point along three directions from a shoulder; false where the palm, which need not be square, is the hand's. */
export function posed(
  arm: Arm,
  shoulder: Vec3,
  upper: Vec3,
  fore: Vec3,
  hand: Vec3,
  palm: Vec3,
  into: FlatPose,
): boolean {
  const lean = palm[0] * hand[0] + palm[1] * hand[1] + palm[2] * hand[2];
  const px = palm[0] - hand[0] * lean;
  const py = palm[1] - hand[1] * lean;
  const pz = palm[2] - hand[2] * lean;
  const long = Math.sqrt(px * px + py * py + pz * pz);
  if (long < LEAST_PALM) return false;
  for (let i = 0; i < 3; i += 1) {
    const elbow = (shoulder[i] as number) + (upper[i] as number) * arm.upperM;
    into[SHOULDER + i] = shoulder[i] as number;
    into[ELBOW + i] = elbow;
    into[WRIST + i] = elbow + (fore[i] as number) * arm.foreM;
    into[HAND + i] = hand[i] as number;
  }
  into[PALM] = px / long;
  into[PALM + 1] = py / long;
  into[PALM + 2] = pz / long;
  return true;
}
/** A palm nearer to the hand's own direction than this (sine) has no direction across it. */
const LEAST_PALM = 0.1;
