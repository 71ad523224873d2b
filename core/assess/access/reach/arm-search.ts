import type { HullSurface } from '../../../shape/hull/types';
import { boundsOf } from '../../../shape/space/kernel';
import { ELBOW, type FlatPose, SHOULDER, toArmPose } from './arm';
import { ArmMotion } from './arm-motion';
import { Person } from './person';
import { type Fineness, PoseSearch, type Searched } from './pose-search';
import type { PostureRegion } from './posture-region';
import { Surroundings } from './surroundings';
import { graspIn, obstructionIn, originForHull, regionIn, type TaskFrame } from './task-frame';
import { Trail } from './trail';
import type { ArmAnswer, ArmPose, BodySizes, Grasp, Obstruction } from './types';
import { plainWayOut } from './ways-out';

/** Poses that stand for one another, for plain ways and for trees: elbows and shoulders are nearer than this together, metres. */
const SAME_WAY_M = 0.04;
const SAME_POSE_M = 0.09;
/** Things that far from the point, beyond the length of the arm, meet neither arm nor body: the hips hang that far from the shoulder. */
const BODY_ROOM_M = 0.85;

/** What is asked of an arm about one grasp in one posture. */
export interface ArmTask {
  readonly grasp: Grasp;
  readonly body: BodySizes;
  readonly posture: PostureRegion;
  readonly around: readonly Obstruction[];
  readonly hull: HullSurface | null;
  readonly grownM?: number;
}

/** The same in the frame of the task; the things that are about as they are in the boat. */
export interface FramedTask extends ArmTask {
  readonly frame: TaskFrame;
}

export const framed = <T extends ArmTask>(task: T, frame: TaskFrame): T & FramedTask => ({
  ...task,
  grasp: graspIn(frame, task.grasp),
  posture: regionIn(frame, task.posture),
  frame,
});

interface KnownWorld {
  readonly hull: HullSurface | null;
  readonly own: string;
  readonly key: string;
  readonly world: Surroundings;
}
/** What is about the last task in these surroundings: postures and levels are asked one after another. */
const KNOWN = new WeakMap<readonly Obstruction[], KnownWorld>();

function worldOf({ grasp, body, around, hull, frame }: FramedTask): Surroundings {
  const reachM = body.upperArmM + body.forearmM + body.handM * 3 + BODY_ROOM_M;
  const key = `${frame.point.join(' ')} ${frame.isMirrored} ${reachM}`;
  const known = KNOWN.get(around);
  if (known && known.hull === hull && known.own === grasp.own && known.key === key) return known.world;
  const near = nearTo(frame.point, reachM, around).map((one) => obstructionIn(frame, one));
  const world = new Surroundings(near, hull, originForHull(frame), grasp.own);
  KNOWN.set(around, { hull, own: grasp.own, key, world });
  return world;
}

export const motionOf = (task: FramedTask): ArmMotion => motionIn(worldOf(task), task);

export function motionIn(world: Surroundings, task: ArmTask): ArmMotion {
  const person = new Person(task.body, task.posture, world);
  return new ArmMotion(world, task.grasp, task.body, task.posture, person, task.grownM ?? 0);
}

/** A way from the work outwards, with the stance of the body. */
export interface FoundWay {
  readonly trail: readonly FlatPose[];
  readonly stance: number;
}

/** A pose that is free, with the stance of the body. */
export interface FreePose {
  readonly pose: FlatPose;
  readonly stance: number;
}

/** How much of a search for a way is done: poses looked at, poses whose plain ways out are tried, poses kept for trees. */
export interface Effort {
  readonly fine: Fineness;
  readonly poses: number;
  readonly ways: number;
  readonly kept: number;
}

/**
 * Poses with the first way out by plain motions that is accepted; where there is none, a few poses that differ. Ways are tried from poses
 * that differ alone: what stands in the way of one stands in the way of its neighbours.
 */
export function search(
  motion: ArmMotion,
  { fine, poses, ways, kept }: Effort,
  accept: (way: FoundWay) => boolean = () => true,
): {
  readonly found: FoundWay | null;
  readonly poses: readonly FreePose[];
  readonly searched: Searched;
} {
  const tried: FreePose[] = [];
  const free: FreePose[] = [];
  let found: FoundWay | null = null;
  let left = poses;
  const walked = new Trail();
  const { world, grasp, region, arm, person, thickerM } = motion;
  const searched = new PoseSearch(world, grasp, region, arm, person, thickerM, fine).run((offered, stance) => {
    left -= 1;
    if (tried.some((one) => !differ(one.pose, offered, SAME_WAY_M))) return left <= 0;
    const pose = Float64Array.from(offered);
    tried.push({ pose, stance });
    motion.holdTool(pose);
    walked.restart(pose);
    const isOut = plainWayOut(motion, walked, stance);
    const way = isOut ? { trail: walked.posesFrom(0), stance } : null;
    if (way && accept(way)) {
      found = way;
      return true;
    }
    if (!isOut && free.length < kept && free.every((one) => differ(one.pose, pose, SAME_POSE_M)))
      free.push({ pose, stance });
    return left <= 0 || tried.length >= ways;
  });
  return { found, poses: free, searched };
}

/** Whether elbow and shoulder of two poses are farther apart together. */
function differ(a: FlatPose, b: FlatPose, byM: number): boolean {
  let sum = 0;
  for (const k of [SHOULDER, ELBOW]) {
    const dx = (a[k] as number) - (b[k] as number);
    const dy = (a[k + 1] as number) - (b[k + 1] as number);
    const dz = (a[k + 2] as number) - (b[k + 2] as number);
    sum += Math.sqrt(dx * dx + dy * dy + dz * dz);
  }
  return sum > byM;
}

export function reached(motion: ArmMotion, trail: readonly FlatPose[], stance: number, tried: number): ArmAnswer {
  const { arm, person } = motion;
  const way = trail.map((pose) => toArmPose(pose, arm)).reverse();
  const pose = way[way.length - 1] as ArmPose;
  return {
    outcome: 'reached',
    side: person.sideOf(stance),
    pose,
    body: person.placeOf(stance, pose.shoulder),
    way,
    spareM: motion.spareOn(trail),
    tried,
  };
}

/** What is near enough to a point to meet arm or body. */
function nearTo(point: Grasp['point'], reachM: number, around: readonly Obstruction[]): readonly Obstruction[] {
  return around.filter(({ solid }) => {
    const bounds = boundsOf(solid);
    let squared = 0;
    for (let i = 0; i < 3; i += 1) {
      const at = point[i] as number;
      squared += Math.max(0, (bounds[i] as number) - at, at - (bounds[3 + i] as number)) ** 2;
    }
    return squared <= reachM * reachM;
  });
}
