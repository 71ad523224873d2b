import { ORIGIN, unit, type Vec3 } from '../../../base/vec';
import { ELBOW, type FlatPose, HAND, PALM, POSE_NUMBERS, SHOULDER, WRIST } from './arm';
import type { ArmMotion } from './arm-motion';
import { Trail } from './trail';
import { direction, posed, straightOut, vectorOf } from './ways-out';

/** Of what is tried, shares that draw an arm outwards as it is, and that stretch it on the way out. */
const DRAW_SHARE = 0.3;
const STRETCH_SHARE = 0.15;
/** How far random targets are from where they start: metres of the shoulder, and of unit vectors. */
const SHIFT_M = 0.25;
const TURN = 0.9;
/** One growth goes no farther than this along each joint, metres. */
const LONGEST_M = 0.25;
/** A growth shorter than this is no new place. */
const LEAST_POSES = 2;
/** First step of a growth, as a share of it. */
const FIRST_STEP = 0.05;

interface Node {
  readonly pose: FlatPose;
  readonly parent: number;
  /** Poses from the parent, itself left out, to this one. */
  readonly way: readonly FlatPose[];
}

/**
 * A tree of poses grown from the work outwards, by chance but from a seed: so many counted growths, each a motion whose steps nothing can
 * slip through, and from each new place a straight way out is tried. Null where none came out.
 */
export function treeWayOut(
  motion: ArmMotion,
  start: FlatPose,
  stance: number,
  growths: number,
  random: () => number,
): readonly FlatPose[] | null {
  const nodes: Node[] = [{ pose: start, parent: -1, way: [start] }];
  const target = new Float64Array(POSE_NUMBERS);
  const trail = new Trail();
  for (let count = 0; count < growths; count += 1) {
    const choice = random();
    const draws = choice < DRAW_SHARE + STRETCH_SHARE;
    const from = draws ? pickLate(nodes.length, random) : Math.floor(random() * nodes.length);
    const { pose } = nodes[from] as Node;
    const isPosed =
      choice < DRAW_SHARE
        ? drawn(motion, pose, random, target)
        : draws
          ? stretched(motion, pose, random, target)
          : shaken(motion, pose, random, target);
    if (!isPosed) continue;
    const parent = draws ? from : nearest(nodes, target);
    trail.restart((nodes[parent] as Node).pose);
    const end = motion.follow(trail, stance, 1, FIRST_STEP, blend(motion, (nodes[parent] as Node).pose, target));
    if (trail.count < LEAST_POSES) continue;
    nodes.push({ pose: trail.lastPose(), parent, way: trail.posesFrom(1) });
    const grown = trail.count;
    if (end === 'out' || straightOut(motion, trail, stance))
      return [...backTo(nodes, nodes.length - 1), ...trail.posesFrom(grown)];
  }
  return null;
}

/** One of the nodes, later ones more often: they are farther out. */
const pickLate = (count: number, random: () => number): number =>
  Math.min(count - 1, Math.floor(Math.sqrt(random()) * count));

/** Every pose from the root to a node. */
function backTo(nodes: readonly Node[], index: number): readonly FlatPose[] {
  const parts: (readonly FlatPose[])[] = [];
  for (let k = index; k >= 0; k = (nodes[k] as Node).parent) parts.push((nodes[k] as Node).way);
  return parts.reverse().flat();
}

const centred = (random: () => number): number => 2 * random() - 1;
const about = (v: Vec3, by: number, random: () => number): Vec3 | null => {
  const x = v[0] + by * centred(random);
  const y = v[1] + by * centred(random);
  const z = v[2] + by * centred(random);
  const long = Math.sqrt(x * x + y * y + z * z);
  return long > 0.05 ? [x / long, y / long, z / long] : null;
};

/** The way outwards where the arm is: out of the opening, or back to the shoulder. */
const outwards = (motion: ArmMotion, pose: FlatPose): Vec3 => {
  const { gate } = motion.region;
  if (gate) return gate.out;
  return unit(direction(pose, WRIST, SHOULDER, 1));
};

/** The same arm moved outwards along one of its links. */
function drawn(motion: ArmMotion, pose: FlatPose, random: () => number, into: FlatPose): boolean {
  const { arm } = motion;
  const ways: readonly Vec3[] = [
    outwards(motion, pose),
    direction(pose, ELBOW, SHOULDER, arm.upperM),
    direction(pose, WRIST, ELBOW, arm.foreM),
  ];
  const way = about(ways[Math.floor(random() * ways.length)] ?? ORIGIN, 0.4, random);
  if (!way) return false;
  const far = LONGEST_M * random();
  into.set(pose);
  for (let k = SHOULDER; k <= WRIST; k += 3)
    for (let i = 0; i < 3; i += 1) into[k + i] = (pose[k + i] as number) + (way[i] as number) * far;
  return true;
}

/** The arm stretched along its upper arm and moved out along it. */
function stretched(motion: ArmMotion, pose: FlatPose, random: () => number, into: FlatPose): boolean {
  const { arm } = motion;
  const upper = about(direction(pose, SHOULDER, ELBOW, arm.upperM), 0.3, random);
  if (!upper) return false;
  const fore = about(upper, 0.3, random);
  const hand = fore && about(fore, 0.3, random);
  if (!fore || !hand) return false;
  const far = LONGEST_M * random();
  const shoulder = vectorOf(pose, SHOULDER);
  const moved: Vec3 = [shoulder[0] - upper[0] * far, shoulder[1] - upper[1] * far, shoulder[2] - upper[2] * far];
  return posed(arm, moved, upper, fore, hand, vectorOf(pose, PALM), into);
}

/** Every joint somewhere else about where it is. */
function shaken(motion: ArmMotion, pose: FlatPose, random: () => number, into: FlatPose): boolean {
  const { arm } = motion;
  const upper = about(direction(pose, SHOULDER, ELBOW, arm.upperM), TURN, random);
  const fore = about(direction(pose, ELBOW, WRIST, arm.foreM), TURN, random);
  const hand = about(vectorOf(pose, HAND), TURN, random);
  const palm = about(vectorOf(pose, PALM), TURN, random);
  if (!upper || !fore || !hand || !palm) return false;
  const way = outwards(motion, pose);
  const out = SHIFT_M * random();
  const moved: Vec3 = [
    (pose[SHOULDER] as number) + way[0] * out + SHIFT_M * centred(random),
    (pose[SHOULDER + 1] as number) + way[1] * out + SHIFT_M * centred(random),
    (pose[SHOULDER + 2] as number) + way[2] * out + SHIFT_M * centred(random),
  ];
  return posed(arm, moved, upper, fore, hand, palm, into);
}

/** The node whose joints are nearest to those of a pose. */
function nearest(nodes: readonly Node[], target: FlatPose): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  nodes.forEach(({ pose }, k) => {
    let squared = 0;
    for (let i = 0; i < 9; i += 1) squared += ((pose[i] as number) - (target[i] as number)) ** 2;
    for (let i = 9; i < 12; i += 1) squared += (0.1 * ((pose[i] as number) - (target[i] as number))) ** 2;
    if (squared < least) {
      least = squared;
      best = k;
    }
  });
  return best;
}

/** Poses between two: the shoulder goes straight, every link turns the short way. */
function blend(motion: ArmMotion, from: FlatPose, to: FlatPose): (t: number, into: FlatPose) => void {
  const { arm } = motion;
  const upper = [direction(from, SHOULDER, ELBOW, arm.upperM), direction(to, SHOULDER, ELBOW, arm.upperM)] as const;
  const fore = [direction(from, ELBOW, WRIST, arm.foreM), direction(to, ELBOW, WRIST, arm.foreM)] as const;
  const hand = [vectorOf(from, HAND), vectorOf(to, HAND)] as const;
  const palm = [vectorOf(from, PALM), vectorOf(to, PALM)] as const;
  const [start, end] = [vectorOf(from, SHOULDER), vectorOf(to, SHOULDER)];
  return (t, into) => {
    const shoulder: Vec3 = [
      start[0] + (end[0] - start[0]) * t,
      start[1] + (end[1] - start[1]) * t,
      start[2] + (end[2] - start[2]) * t,
    ];
    // A palm that turns into the hand's own direction has no pose: it stays where it was, and the growth ends there.
    if (!posed(arm, shoulder, between(upper, t), between(fore, t), between(hand, t), between(palm, t), into))
      into.set(from);
  };
}

function between([a, b]: readonly [Vec3, Vec3], t: number): Vec3 {
  const x = a[0] + (b[0] - a[0]) * t;
  const y = a[1] + (b[1] - a[1]) * t;
  const z = a[2] + (b[2] - a[2]) * t;
  const long = Math.sqrt(x * x + y * y + z * z);
  return long > 1e-6 ? [x / long, y / long, z / long] : a;
}
