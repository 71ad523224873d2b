import { seededRandom } from '../../../base/seeded-random';
import { distance, type Vec3 } from '../../../base/vec';
import { armOf, type FlatPose, fromArmPose } from './arm';
import type { ArmMotion } from './arm-motion';
import {
  type ArmTask,
  type Effort,
  type FoundWay,
  type FramedTask,
  type FreePose,
  framed,
  motionOf,
  reached,
  search,
} from './arm-search';
import { hasNoRoomForHand } from './no-room-for-hand';
import { Person } from './person';
import { COARSE, FINE, type Fineness, PoseSearch, type Searched } from './pose-search';
import type { PostureRegion } from './posture-region';
import { treeWayOut } from './random-tree';
import { hasRoomForBody } from './room-for-body';
import { type Shaved, shavedTo, wayShavedTo } from './shaving';
import { answerInBoat, frameOf, poseIn } from './task-frame';
import type { ArmAnswer, ArmPose, ArmStage, Grasp } from './types';

export type ReachLevel = 'kept' | 'quick' | 'full';

export interface ReachAsk extends ArmTask {
  /** kept: a way known from before, else nothing; quick: plain motions out and a few random trees; full (default): finer poses too. */
  readonly level?: ReachLevel;
  /** Whether what has no room is named, by shaving the arm; default true. */
  readonly explain?: boolean;
  /** A way known from before, from outside to the pose: it is tried first. */
  readonly kept?: readonly ArmPose[];
  /** Trees of random poses start from this: the task, the posture and the opening. */
  readonly seed: string;
}

/** Efforts of the search, one after the other. */
const FIRST: Effort = { fine: COARSE, poses: 120, ways: 8, kept: 3 };
const SECOND: Effort = { fine: FINE, poses: 400, ways: 12, kept: 8 };
/** Where no direction of the hand was free: a hand may fit in one way alone. */
const THIRD: Effort = { ...SECOND, fine: { ...FINE, handDeg: 5, rolls: 20 } };
/** Growths of a tree from each pose in the first two rounds; of the last so many together, and from no pose more than the most. */
const FIRST_GROWTHS = 40;
const MORE_GROWTHS = 120;
const LAST_GROWTHS = { together: 1500, most: 600 };

/** An arm that is thinner all round, with freer joints and a larger region for its shoulder: where not even that has a pose nobody has. */
interface Proof {
  readonly thinnerM: number;
  readonly freerDeg: number;
  readonly fine: Fineness;
  /** Whether the person needs room for trunk and head, as much thinner. */
  readonly withBody: boolean;
}
const PROOF: Proof = {
  thinnerM: 0.012,
  freerDeg: 10,
  fine: { handDeg: 20, rolls: 6, elbowDeg: 14, elbowM: 0.025, shoulderM: 0.035, places: 400, perElbow: 1 },
  withBody: false,
};
/** Asked last: closer to the arm and as much finer; and with the body. */
const LAST_PROOFS: readonly Proof[] = [
  {
    thinnerM: 0.006,
    freerDeg: 6,
    fine: { handDeg: 10, rolls: 12, elbowDeg: 8, elbowM: 0.015, shoulderM: 0.025, places: 400, perElbow: 1 },
    withBody: false,
  },
  {
    thinnerM: 0.012,
    freerDeg: 10,
    fine: { handDeg: 20, rolls: 6, elbowDeg: 14, elbowM: 0.025, shoulderM: 0.025, places: 1600, perElbow: 1 },
    withBody: true,
  },
];
const PROOF_ROOM_M = 0.03;

/**
 * Whether a hand gets to a point in one posture, and how. `reached` carries a way on which nothing is met; `cannot`: not even a thinner arm
 * with freer joints has a pose, by a search fine enough that a true pose would show; everything between is `notFound`.
 */
export function reachThrough(ask: ReachAsk): ArmAnswer {
  const frame = frameOf(ask.grasp, ask.posture, ask.around);
  return answerInBoat(
    frame,
    reachInFrame({ ...framed(ask, frame), kept: ask.kept?.map((pose) => poseIn(frame, pose)) ?? [] }),
  );
}

/** The same in the frame of the task, the answer too. */
export function reachInFrame(ask: ReachAsk & FramedTask): ArmAnswer {
  const { seed, kept, posture, level = 'full' } = ask;
  const motion = motionOf(ask);
  const random = seededRandom(seed);
  let looked = 0;
  const yes = ({ trail, stance }: FoundWay): ArmAnswer => reached(motion, trail, stance, looked + motion.looked);
  const no = (outcome: 'cannot' | 'notFound', stage: ArmStage): ArmAnswer => {
    const shaved = (ask.explain ?? true) ? shavedIn(ask, motion, stage) : null;
    const { shortByM = null, blockers = [] } = shaved ?? {};
    return { outcome, stage, shortByM, blockers, tried: looked + motion.looked };
  };
  const isDisproved = (proof: Proof): boolean => {
    const { searched, isFound } = thinPose(ask, motion, proof);
    looked += searched.tried;
    return !isFound;
  };

  const keptWay = kept && kept.length > 0 ? stillFree(motion, kept) : null;
  if (keptWay) return yes(keptWay);
  if (level === 'kept') return no('notFound', 'wayIn');
  if (posture.footing?.hipsM && !hasRoomForBody(motion.person, posture, motion.thickerM))
    return no('notFound', 'upperArm');
  const first = search(motion, FIRST);
  looked += first.searched.tried;
  if (first.found) return yes(first.found);
  const stage = first.searched.stage ?? 'wayIn';
  if (first.poses.length === 0 && isDisproved(PROOF)) return no('cannot', stage);
  const early = byTrees(motion, first.poses, FIRST_GROWTHS, random);
  if (early) return yes(early);
  if (level === 'quick') return no('notFound', first.poses.length > 0 ? 'wayIn' : stage);

  const later = byTrees(motion, first.poses, MORE_GROWTHS, random);
  if (later) return yes(later);
  let finer = search(motion, SECOND);
  looked += finer.searched.tried;
  if (finer.searched.stage === 'hand') {
    finer = search(motion, THIRD);
    looked += finer.searched.tried;
  }
  const { together, most } = LAST_GROWTHS;
  const last =
    finer.found ??
    byTrees(motion, finer.poses, FIRST_GROWTHS, random) ??
    byTrees(motion, finer.poses, Math.min(most, Math.ceil(together / Math.max(1, finer.poses.length))), random);
  if (last) return yes(last);
  if (first.poses.length + finer.poses.length > 0) return no('notFound', 'wayIn');
  const finerStage = finer.searched.stage ?? stage;
  return no(
    LAST_PROOFS.some(isDisproved) || isHandDisproved(ask, motion, finerStage) ? 'cannot' : 'notFound',
    finerStage,
  );
}

function byTrees(
  motion: ArmMotion,
  poses: readonly FreePose[],
  growths: number,
  random: () => number,
): FoundWay | null {
  for (const { pose, stance } of poses) {
    motion.holdTool(pose);
    const trail = treeWayOut(motion, pose, stance, growths, random);
    if (trail) return { trail, stance };
  }
  return null;
}

const isHandDisproved = ({ grasp, body, grownM = 0 }: ReachAsk, { world }: ArmMotion, stage: ArmStage): boolean =>
  stage === 'hand' && hasNoRoomForHand(world, grasp, body, grownM);

const shavedIn = (ask: ReachAsk, motion: ArmMotion, stage: ArmStage): Shaved =>
  stage === 'wayIn'
    ? wayShavedTo(ask, motion)
    : shavedTo(motion.world, ask.grasp, ask.body, ask.posture, ask.grownM ?? 0);

/** Whether arm and body of a proof, as much thinner, have any pose, whatever the way in. */
function thinPose(
  { grasp, body, posture, grownM = 0 }: ReachAsk,
  { world }: ArmMotion,
  { thinnerM, freerDeg, fine, withBody }: Proof,
): { readonly searched: Searched; readonly isFound: boolean } {
  const thin = armOf(body, grownM - thinnerM, freerDeg);
  const region = roomier(posture);
  const person = withBody ? new Person(body, region, world) : null;
  let isFound = false;
  const searched = new PoseSearch(world, grasp, region, thin, person, grownM - thinnerM, fine).run(() => {
    isFound = true;
    return true;
  });
  return { searched, isFound };
}

const ROOMIER = new WeakMap<PostureRegion, PostureRegion>();

function roomier(region: PostureRegion): PostureRegion {
  const known = ROOMIER.get(region);
  if (known) return known;
  const { footing } = region;
  const made: PostureRegion = {
    ...region,
    shoulders: region.shoulders.map((one) => ({
      ...one,
      half: [one.half[0] + PROOF_ROOM_M, one.half[1] + PROOF_ROOM_M, one.half[2] + PROOF_ROOM_M],
    })),
    footing: footing && {
      ...footing,
      farM: footing.farM + PROOF_ROOM_M,
      lowM: footing.lowM - PROOF_ROOM_M,
      highM: footing.highM + PROOF_ROOM_M,
    },
  };
  ROOMIER.set(region, made);
  return made;
}

/** A way from before, where each of its poses is still free and its end still holds the point; from the work outwards. */
function stillFree(motion: ArmMotion, kept: readonly ArmPose[]): FoundWay | null {
  const { arm, grasp, person, thickerM } = motion;
  const last = kept[kept.length - 1] as ArmPose;
  const trail = kept.map((pose) => fromArmPose(pose, arm)).reverse();
  const pose = trail[0] as FlatPose;
  if (!holdsPoint(last, grasp)) return null;
  motion.holdTool(pose);
  const stance = person.stanceFor(pose, arm, thickerM);
  if (stance < 0 || !motion.isOut(trail[trail.length - 1] as FlatPose)) return null;
  return trail.every((one) => motion.isFree(one, stance)) ? { trail, stance } : null;
}

/** Nearer than this a hand is where it was, metres. */
const SAME_GRIP_M = 1e-6;

function holdsPoint({ wrist, grip }: ArmPose, { point, normal, standOffM, toolM }: Grasp): boolean {
  const off = toolM > 0 ? toolM : standOffM;
  const lengthM = distance(wrist, grip);
  const back: Vec3 = normal ?? [
    (wrist[0] - grip[0]) / lengthM,
    (wrist[1] - grip[1]) / lengthM,
    (wrist[2] - grip[2]) / lengthM,
  ];
  return distance(grip, [point[0] + back[0] * off, point[1] + back[1] * off, point[2] + back[2] * off]) < SAME_GRIP_M;
}
