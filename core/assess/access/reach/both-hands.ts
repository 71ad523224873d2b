import { add, along, cross, dot, scale, type Vec3 } from '../../../base/vec';
import { type Arm, armOf, type FlatPose, HAND, PALM, toArmPose, WRIST } from './arm';
import type { ArmMotion } from './arm-motion';
import { type Effort, type FoundWay, type FramedTask, framed, motionIn, motionOf, reached, search } from './arm-search';
import { COARSE, FINE } from './pose-search';
import type { PostureRegion } from './posture-region';
import { type ReachAsk, type ReachLevel, reachInFrame, reachThrough } from './reach-through';
import { answerInBoat, frameOf, graspIn } from './task-frame';
import type { ArmAnswer, ArmPose, Grasp, Obstruction } from './types';

/** Efforts for the first hand, and for the second past it. */
const FIRST = {
  kept: [],
  quick: [{ fine: COARSE, poses: 120, ways: 12, kept: 0 }],
  full: [
    { fine: COARSE, poses: 240, ways: 40, kept: 0 },
    { fine: FINE, poses: 800, ways: 40, kept: 0 },
  ],
} as const satisfies Readonly<Record<ReachLevel, readonly Effort[]>>;
const SECOND: Effort = { fine: COARSE, poses: 60, ways: 8, kept: 0 };
/** The other shoulder is where the body puts it, or so far from there: shoulders roll, metres. */
const SHOULDER_PLAY_M = 0.08;
/** Tried one after the other, metres. */
const FARTHER_M = [0.02, 0.04, 0.08, 0.16, 0.32] as const;
/** The line of the shoulders is nearer to the opening's outward direction than this: a side is turned to it. */
const SIDEWAYS_COS = 0.7;

/** Two ways that were found for both hands before, each where it still goes: past one another they went. */
export const bothAsBefore = (
  ask: ReachAsk,
  second: Grasp,
  [one, other]: readonly [readonly ArmPose[], readonly ArmPose[]],
): readonly ArmAnswer[] => [
  reachThrough({ ...ask, level: 'kept', kept: one }),
  reachThrough({ ...ask, level: 'kept', kept: other, grasp: second }),
];

/**
 * Both hands at two points at once, in one posture: one goes in, then the other past it, the shoulders as far apart as those of one body and
 * in one stance of it. Two answers, in the order of the grasps; where each hand gets there alone and no pair is found, the second says so.
 */
export function reachWithBoth(ask: ReachAsk, second: Grasp): readonly ArmAnswer[] {
  const { kept: _kept, ...rest } = ask;
  const frame = frameOf(ask.grasp, ask.posture, ask.around);
  return judged(framed(rest, frame), graspIn(frame, second)).map((answer) => answerInBoat(frame, answer));
}

function judged(ask: ReachAsk & FramedTask, second: Grasp): readonly ArmAnswer[] {
  const level = ask.level ?? 'full';
  const alone = [reachInFrame(ask), reachInFrame({ ...ask, grasp: second })] as const;
  if (alone.some(({ outcome }) => outcome !== 'reached')) return alone;
  let tried = alone[0].tried + alone[1].tried;
  for (const effort of FIRST[level]) {
    const pair = pairOf(ask, second, effort);
    tried += pair.tried;
    if (pair.answers) return pair.answers;
  }
  // How much farther than it can the other shoulder would have to move: that is what a pair lacks where each hand gets there alone.
  const farther =
    (ask.explain ?? true) ? FARTHER_M.find((byM) => pairOf(ask, second, FIRST.quick[0], byM).answers) : null;
  return [alone[0], { outcome: 'notFound', stage: 'upperArm', shortByM: farther ?? null, blockers: [], tried }];
}

function pairOf(
  ask: ReachAsk & FramedTask,
  second: Grasp,
  effort: Effort,
  fartherM = 0,
): { readonly answers: readonly ArmAnswer[] | null; readonly tried: number } {
  const motion = motionOf({ ...ask, posture: squareOn(ask.posture) });
  let answers: readonly ArmAnswer[] | null = null;
  let tried = 0;
  const { searched } = search(motion, effort, (way) => {
    const other = secondOf(ask, second, motion, way, SHOULDER_PLAY_M + fartherM);
    tried += other.looked;
    if (other.answer) answers = [reached(motion, way.trail, way.stance, tried), other.answer];
    return answers !== null;
  });
  return { answers, tried: tried + searched.tried };
}

/** Who works with both hands faces the opening: with a side turned to it the other shoulder is out of reach. */
function squareOn(posture: PostureRegion): PostureRegion {
  const { gate, attitudes } = posture;
  if (!gate) return posture;
  const square = attitudes.filter(({ across }) => Math.abs(dot(across, gate.out)) < SIDEWAYS_COS);
  return { ...posture, attitudes: square.length > 0 ? square : attitudes };
}

/** The second hand, past the arm that is already in, from the other shoulder of the same body. */
function secondOf(
  ask: ReachAsk & FramedTask,
  second: Grasp,
  first: ArmMotion,
  { trail, stance }: FoundWay,
  playM: number,
): { readonly answer: ArmAnswer | null; readonly looked: number } {
  const pose = toArmPose(trail[0] as FlatPose, first.arm);
  const { spine, across } = first.person.attitudeOf(stance);
  const shoulder = along(pose.shoulder, across, ask.body.shouldersM);
  const posture: PostureRegion = {
    ...ask.posture,
    shoulders: [
      {
        centre: shoulder,
        half: [playM, playM, playM],
        axes: [across, spine, cross(across, spine)],
      },
    ],
    attitudes: [{ spine, across: scale(across, -1) }],
  };
  const world = first.world.withArm(armBodies(pose, trail[0] as FlatPose, armOf(ask.body, 0)));
  const motion = motionIn(world, { ...ask, grasp: second, posture });
  const otherSide = first.person.sideOf(stance) === 'right' ? 'left' : 'right';
  const { found, searched } = search(motion, SECOND, (way) => motion.person.sideOf(way.stance) === otherSide);
  const looked = searched.tried + motion.looked;
  return { answer: found ? reached(motion, found.trail, found.stance, looked) : null, looked };
}

/** An arm in a pose as things that another arm may meet. */
function armBodies(pose: ArmPose, flat: FlatPose, arm: Arm): readonly Obstruction[] {
  const name = { owner: 'otherArm', label: 'the other arm' };
  const solid = { id: 'otherArm', ...name, layer: 'furnishing' as const };
  const vector = (k: number): Vec3 => [flat[k] as number, flat[k + 1] as number, flat[k + 2] as number];
  const [hand, palm] = [vector(HAND), vector(PALM)];
  return [
    { ...name, solid: { ...solid, type: 'capsule', from: pose.elbow, to: pose.wrist, radius: arm.foreRadiusM } },
    { ...name, solid: { ...solid, type: 'capsule', from: pose.shoulder, to: pose.elbow, radius: arm.upperRadiusM } },
    {
      ...name,
      solid: {
        ...solid,
        type: 'box',
        centre: add(vector(WRIST), scale(hand, arm.handM - arm.behindM)),
        half: arm.halfM,
        axes: [hand, palm, cross(hand, palm)],
      },
    },
  ];
}
