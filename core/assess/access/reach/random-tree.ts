import * as portable from '../../../base/portable';
import { ORIGIN, type Vec3 } from '../../../base/vec';
import { ELBOW, type FlatPose, HAND, PALM, SHOULDER, WRIST } from './arm';
import type { ArmMotion, Trail } from './arm-motion';
import { direction, posed, slideOut } from './ways-out';

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

interface Node {
  readonly pose: FlatPose;
  readonly parent: number;
  /** Poses between the parent and this one, both left out. */
  readonly between: readonly FlatPose[];
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
): Trail | null {
  const nodes: Node[] = [{ pose: start, parent: -1, between: [] }];
  for (let count = 0; count < growths; count += 1) {
    const choice = random();
    const from = choice < DRAW_SHARE + STRETCH_SHARE ? pickLate(nodes.length, random) : -1;
    const target =
      choice < DRAW_SHARE
        ? drawn(motion, (nodes[from] as Node).pose, random)
        : choice < DRAW_SHARE + STRETCH_SHARE
          ? stretched(motion, (nodes[from] as Node).pose, random)
          : shaken(motion, (nodes[Math.floor(random() * nodes.length)] as Node).pose, random);
    if (!target) continue;
    const parent = from >= 0 ? from : nearest(nodes, target);
    const trail: Trail = [(nodes[parent] as Node).pose];
    const end = motion.follow(trail, stance, 1, 0.05, blend(motion, (nodes[parent] as Node).pose, target));
    if (trail.length < LEAST_POSES) continue;
    const pose = trail[trail.length - 1] as FlatPose;
    nodes.push({ pose, parent, between: trail.slice(1, -1) });
    const way = end === 'out' ? [pose] : slideOut(motion, [pose], stance);
    if (way) return [...backTo(nodes, nodes.length - 1), ...way.slice(1)];
  }
  return null;
}

/** One of the nodes, later ones more often: they are farther out. */
const pickLate = (count: number, random: () => number): number =>
  Math.min(count - 1, Math.floor(Math.sqrt(random()) * count));

/** Every pose from the root to a node. */
function backTo(nodes: readonly Node[], index: number): Trail {
  const parts: FlatPose[][] = [];
  for (let k = index; k >= 0; k = (nodes[k] as Node).parent) {
    const { between, pose } = nodes[k] as Node;
    parts.push([...between, pose]);
  }
  return parts.reverse().flat();
}

const centred = (random: () => number): number => 2 * random() - 1;
const about = (v: Vec3, by: number, random: () => number): Vec3 | null => {
  const shaken: Vec3 = [v[0] + by * centred(random), v[1] + by * centred(random), v[2] + by * centred(random)];
  const long = portable.hypot(...shaken);
  return long > 0.05 ? [shaken[0] / long, shaken[1] / long, shaken[2] / long] : null;
};

const at = (pose: FlatPose, k: number): Vec3 => [pose[k] as number, pose[k + 1] as number, pose[k + 2] as number];

/** The way outwards where the arm is: out of the opening, or back to the shoulder. */
const outwards = (motion: ArmMotion, pose: FlatPose): Vec3 => {
  const { gate } = motion.region;
  if (gate) return gate.out;
  const back = direction(pose, WRIST, SHOULDER, 1);
  const long = Math.max(1e-6, portable.hypot(...back));
  return [back[0] / long, back[1] / long, back[2] / long];
};

/** The same arm moved outwards along one of its links. */
function drawn(motion: ArmMotion, pose: FlatPose, random: () => number): FlatPose | null {
  const { arm } = motion;
  const ways: readonly Vec3[] = [
    outwards(motion, pose),
    direction(pose, ELBOW, SHOULDER, arm.upperM),
    direction(pose, WRIST, ELBOW, arm.foreM),
  ];
  const way = about(ways[Math.floor(random() * ways.length)] ?? ORIGIN, 0.4, random);
  if (!way) return null;
  const far = LONGEST_M * random();
  const target = Float64Array.from(pose);
  for (const k of [SHOULDER, ELBOW, WRIST])
    for (let i = 0; i < 3; i += 1) target[k + i] = (pose[k + i] as number) + (way[i] as number) * far;
  return target;
}

/** The arm stretched along its upper arm and moved out along it. */
function stretched(motion: ArmMotion, pose: FlatPose, random: () => number): FlatPose | null {
  const { arm } = motion;
  const upper = about(direction(pose, SHOULDER, ELBOW, arm.upperM), 0.3, random);
  if (!upper) return null;
  const fore = about(upper, 0.3, random);
  const hand = fore && about(fore, 0.3, random);
  if (!fore || !hand) return null;
  const far = LONGEST_M * random();
  const shoulder = at(pose, SHOULDER);
  const moved: Vec3 = [shoulder[0] - upper[0] * far, shoulder[1] - upper[1] * far, shoulder[2] - upper[2] * far];
  return posed(arm, moved, upper, fore, hand, at(pose, PALM));
}

/** Every joint somewhere else about where it is. */
function shaken(motion: ArmMotion, pose: FlatPose, random: () => number): FlatPose | null {
  const { arm } = motion;
  const upper = about(direction(pose, SHOULDER, ELBOW, arm.upperM), TURN, random);
  const fore = about(direction(pose, ELBOW, WRIST, arm.foreM), TURN, random);
  const hand = about(at(pose, HAND), TURN, random);
  const palm = about(at(pose, PALM), TURN, random);
  if (!upper || !fore || !hand || !palm) return null;
  const way = outwards(motion, pose);
  const out = SHIFT_M * random();
  const moved = at(pose, SHOULDER).map(
    (s, i) => s + (way[i] as number) * out + SHIFT_M * centred(random),
  ) as unknown as Vec3;
  return posed(arm, moved, upper, fore, hand, palm);
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
  const links = (pose: FlatPose): readonly Vec3[] => [
    direction(pose, SHOULDER, ELBOW, arm.upperM),
    direction(pose, ELBOW, WRIST, arm.foreM),
    at(pose, HAND),
    at(pose, PALM),
  ];
  const [first, last] = [links(from), links(to)];
  const [start, end] = [at(from, SHOULDER), at(to, SHOULDER)];
  return (t, into) => {
    const mixed = first.map((a, k) => unitBetween(a, last[k] as Vec3, t));
    const shoulder: Vec3 = [
      start[0] + (end[0] - start[0]) * t,
      start[1] + (end[1] - start[1]) * t,
      start[2] + (end[2] - start[2]) * t,
    ];
    const [upper, fore, hand, palm] = mixed as [Vec3, Vec3, Vec3, Vec3];
    const pose = posed(arm, shoulder, upper, fore, hand, palm);
    // A palm that turns into the hand's own direction has no pose: it stays where it was, and the growth ends there.
    if (pose) into.set(pose);
    else into.set(from);
  };
}

function unitBetween(a: Vec3, b: Vec3, t: number): Vec3 {
  const mixed: Vec3 = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
  const long = portable.hypot(...mixed);
  return long > 1e-6 ? [mixed[0] / long, mixed[1] / long, mixed[2] / long] : a;
}
