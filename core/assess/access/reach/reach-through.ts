import { seededRandom } from '../../../base/seeded-random';
import { distance, type Vec3 } from '../../../base/vec';
import { armOf, type FlatPose, fromArmPose } from './arm';
import type { ArmMotion } from './arm-motion';
import { type ArmTask, type Effort, type FoundWay, type FreePose, motionOf, reached, search } from './arm-search';
import {
  isJudgedMirrored,
  mirroredAnswer,
  mirroredGrasp,
  mirroredPose,
  mirroredRegion,
  mirroredSurroundings,
} from './mirror';
import { hasNoRoomForHand } from './no-room-for-hand';
import { COARSE, FINE, type Fineness, PoseSearch, type Searched } from './pose-search';
import type { PostureRegion } from './posture-region';
import { treeWayOut } from './random-tree';
import { type Shaved, shavedTo } from './shaving';
import type { ArmAnswer, ArmPose, Grasp } from './types';

export interface ReachAsk extends ArmTask {
  /** quick: plain motions out only; full (default): random trees and finer poses too. */
  readonly level?: 'quick' | 'full';
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
/** Growths of a tree from each of the kept poses; then from each again, with more of them. */
const FIRST_TREES = [40] as const;
const MORE_TREES = [120] as const;
const SECOND_TREES = [60, 300] as const;
/** The arm of the proof that nobody gets there: thinner all round, its joints freer, its shoulder in a larger region. */
const PROOF_THINNER_M = 0.012;
const PROOF_FREER_DEG = 10;
const PROOF_ROOM_M = 0.03;
const PROOF: Fineness = { handDeg: 20, rolls: 6, elbowDeg: 14, elbowM: 0.025, shoulderM: 0.035, perElbow: 1 };
/**
 * Whether a hand gets to a point in one posture, and how. `reached` carries a way on which nothing is met; `cannot`: not even a thinner arm
 * with freer joints has a pose, by a search fine enough that a true pose would show; everything between is `notFound`.
 */
export function reachThrough(ask: ReachAsk): ArmAnswer {
  if (!isJudgedMirrored(ask.grasp, ask.posture, ask.around)) return judged(ask);
  const { kept } = ask;
  return mirroredAnswer(
    judged({
      ...ask,
      grasp: mirroredGrasp(ask.grasp),
      posture: mirroredRegion(ask.posture),
      around: mirroredSurroundings(ask.around),
      ...(kept ? { kept: kept.map(mirroredPose) } : {}),
    }),
  );
}

function judged(ask: ReachAsk): ArmAnswer {
  const { seed, kept, level = 'full', explain = true } = ask;
  const motion = motionOf(ask);
  let tried = 0;

  const keptWay = kept && kept.length > 0 ? stillFree(motion, kept) : null;
  if (keptWay) return reached(motion, keptWay.trail, keptWay.stance, keptWay.trail.length);

  const first = search(motion, FIRST);
  tried += first.searched.tried + motion.looked;
  if (first.found) return reached(motion, first.found.trail, first.found.stance, tried);
  let hasPose = first.poses.length > 0;
  let stage = first.searched.stage;
  if (!hasPose) {
    const proof = isDisproved(ask, motion);
    tried += proof.tried;
    if (proof.isDisproved) {
      const shaved = explain ? shavedIn(ask, motion) : null;
      return without('cannot', proof.stage ?? 'hand', shaved, tried);
    }
  }
  const random = seededRandom(seed);
  const grownFirst = byTrees(motion, first.poses, FIRST_TREES, random);
  if (grownFirst) return reached(motion, grownFirst.trail, grownFirst.stance, tried + motion.looked);
  if (level === 'full') {
    const grown = byTrees(motion, first.poses, MORE_TREES, random);
    if (grown) return reached(motion, grown.trail, grown.stance, tried + motion.looked);
    const finer = search(motion, SECOND);
    tried += finer.searched.tried;
    const found = finer.found ?? byTrees(motion, finer.poses, SECOND_TREES, random);
    if (found) return reached(motion, found.trail, found.stance, tried + motion.looked);
    hasPose ||= finer.poses.length > 0;
    stage = finer.searched.stage;
  }
  tried += motion.looked;
  if (hasPose) return without('notFound', 'wayIn', null, tried);
  const shaved = explain ? shavedIn(ask, motion) : null;
  return without('notFound', stage ?? 'hand', shaved, tried);
}

function without(
  outcome: 'cannot' | 'notFound',
  stage: 'hand' | 'forearm' | 'upperArm' | 'wayIn',
  shaved: Shaved | null,
  tried: number,
): ArmAnswer {
  return { outcome, stage, shortByM: shaved?.shortByM ?? null, blockers: shaved?.blockers ?? [], tried };
}

function byTrees(
  motion: ArmMotion,
  poses: readonly FreePose[],
  growths: readonly number[],
  random: () => number,
): FoundWay | null {
  for (const count of growths)
    for (const { pose, stance } of poses) {
      motion.holdTool(pose);
      const trail = treeWayOut(motion, pose, stance, count, random);
      if (trail) return { trail, stance };
    }
  return null;
}

const shavedIn = ({ grasp, body, posture, grownM = 0 }: ReachAsk, { world }: ArmMotion): Shaved =>
  shavedTo(world, grasp, body, posture, grownM);

function isDisproved(
  { grasp, body, posture, grownM = 0 }: ReachAsk,
  { world }: ArmMotion,
): { readonly isDisproved: boolean; readonly stage: Searched['stage']; readonly tried: number } {
  const thin = armOf(body, grownM - PROOF_THINNER_M, PROOF_FREER_DEG);
  let isFound = false;
  const { stage, tried } = new PoseSearch(world, grasp, roomier(posture), thin, null, 0, PROOF).run(() => {
    isFound = true;
    return true;
  });
  if (!isFound) return { isDisproved: true, stage, tried };
  const { isProved, cells } = hasNoRoomForHand(world, grasp, body, grownM);
  return { isDisproved: isProved, stage: 'hand', tried: tried + cells };
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
