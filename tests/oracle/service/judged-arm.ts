import { reachThrough } from '@core/assess/access/reach/reach-through';
import type { ArmAnswer, Obstruction } from '@core/assess/access/reach/types';
import { type ArmScene, armScene } from '../../support/service/arm-scene';
import { mirroredScene, shiftedScene } from '../../support/service/arm-twins';
import { bruteTruth, type Truth } from '../../support/service/brute-arm';
import { faultsOfReached } from '../../support/service/retrace';

export const obstructionsOf = ({ solids }: ArmScene): Obstruction[] =>
  solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid }));

const answerTo = (scene: ArmScene): ArmAnswer => {
  const { grasp, body, posture, seed } = scene;
  return reachThrough({
    grasp,
    body,
    posture,
    around: obstructionsOf(scene),
    hull: null,
    level: 'full',
    seed: `oracle ${seed}`,
  });
};

/** What is answered to a scene, to its mirror image, elsewhere, and with the obstructions in another order. */
export function answersToTwins(seed: number): readonly ArmAnswer['outcome'][] {
  const scene = armScene(seed);
  const twins = [
    scene,
    mirroredScene(scene),
    shiftedScene(scene, [3.25, -1.5, 0.75]),
    { ...scene, solids: [...scene.solids].reverse() },
  ];
  return twins.map((twin) => answerTo(twin).outcome);
}

export interface JudgedArm {
  readonly seed: number;
  readonly posture: string;
  readonly answer: ArmAnswer['outcome'];
  /** Null where nobody asked for what brute force finds. */
  readonly truth: Truth['kind'] | null;
  /** What is wrong with a way that is said to lead there, or a free pose where there was said to be none. */
  readonly faults: readonly string[];
  readonly shortByM: number | null;
}

/**
 * One hard scene: what is answered, what brute force finds, and what contradicts. A way is re-traced and needs no brute force; without
 * `counted` it is asked only where something was said to be impossible.
 */
export function judgeArm(seed: number, counted = true): JudgedArm {
  const scene = armScene(seed);
  const answer = answerTo(scene);
  const truth = counted || answer.outcome === 'cannot' ? bruteTruth(scene) : null;
  const faults =
    answer.outcome === 'reached'
      ? faultsOfReached(scene, answer)
      : answer.outcome === 'cannot' && truth?.kind === 'pose'
        ? [`a pose with ${(truth.gapM * 1e3).toFixed(1)} mm to spare where there was said to be none`]
        : [];
  const shortByM = answer.outcome === 'reached' ? null : answer.shortByM;
  return { seed, posture: scene.posture.posture, answer: answer.outcome, truth: truth?.kind ?? null, faults, shortByM };
}

/** Counted over many scenes; outside the band of one cell a scene is true one way or the other. */
export function armTable(all: readonly JudgedArm[]) {
  const count = (is: (one: JudgedArm) => boolean): number => all.filter(is).length;
  // A way that was re-traced is there, whatever brute force missed.
  const isYes = (one: JudgedArm): boolean =>
    one.truth === 'pose' || (one.answer === 'reached' && one.faults.length === 0);
  const isNo = (one: JudgedArm): boolean => one.truth === 'none' && !isYes(one);
  return {
    scenes: all.length,
    reached: count(({ answer }) => answer === 'reached'),
    cannot: count(({ answer }) => answer === 'cannot'),
    notFound: count(({ answer }) => answer === 'notFound'),
    withPose: count(isYes),
    withoutPose: count(isNo),
    inBand: count((one) => !isYes(one) && !isNo(one)),
    poseNotFound: count((one) => isYes(one) && one.answer === 'notFound'),
    noneNotFound: count((one) => isNo(one) && one.answer === 'notFound'),
    faulty: all.filter(({ faults }) => faults.length > 0).map(({ seed, faults }) => `${seed}: ${faults.join('; ')}`),
  };
}
