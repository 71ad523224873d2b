import type { ArmAnswer, ArmPose } from '@core/assess/access/reach/types';
import { gap, inner, minus, normalised, type P3, plus, size, times } from '../geometry-oracle';
import {
  armGap,
  type Body,
  bodyAt,
  bodyGap,
  graspFaults,
  handBox,
  isInRegion,
  isTurnedAway,
  jointFaults,
  shoulderFaults,
  shoulderWay,
  toolInHand,
} from './arm-model';
import type { ArmScene } from './arm-scene';

/** Overlaps no deeper than this are rounding (metres). */
const DUST_M = 1e-4;
/** Farthest that anything moves between two places that are looked at. */
const STEP_M = 5e-4;
/** Longest step between two poses of a way that may be judged by straight lines. */
const STRIDE_M = 0.03;

/** Without an opening the way begins with the hand so near to its own shoulder. */
const HOME_M = 0.32;

type Reached = Extract<ArmAnswer, { outcome: 'reached' }>;

/** Everything that is wrong with a way that is said to lead to the place, by definition of arm, limits and solids alone. */
export function faultsOfReached(scene: ArmScene, answer: Reached): string[] {
  const { pose, way, side } = answer;
  const faults: string[] = [];
  const [first, last] = [way[0], way[way.length - 1]];
  if (!first || !last) return ['no way'];
  if (farthest(last, pose) > 1e-6) faults.push('the way ends elsewhere');
  faults.push(...graspFaults(pose, scene.grasp), ...shoulderFaults(scene, pose.shoulder));
  const attitude = scene.posture.attitudes.find(
    (one) => !isTurnedAway(scene, one, side) && isSame(bodyAt(pose.shoulder, one, scene.body), answer.body),
  );
  if (!scene.posture.gate && !way.every(({ shoulder }) => isInRegion(scene, shoulder)))
    faults.push('the shoulder leaves its region on the way');
  if (!attitude) faults.push('no attitude of the posture has that body');
  const trunk = bodyGap(scene, answer.body);
  if (trunk.gapM < -DUST_M) faults.push(`${trunk.what} by ${(-trunk.gapM * 1e3).toFixed(1)} mm`);
  const toward = attitude ? shoulderWay(attitude, side) : null;
  for (const one of way) {
    const wrong = jointFaults(one, scene.body, toward);
    if (wrong.length > 0) {
      faults.push(...wrong);
      break;
    }
  }
  if (!isOutside(scene, first)) faults.push('the way begins inside');
  const tool = toolInHand(pose, scene.grasp);
  let spare = Number.POSITIVE_INFINITY;
  for (let k = 1; k < way.length && faults.length === 0; k += 1) {
    const [from, to] = [way[k - 1] as ArmPose, way[k] as ArmPose];
    const strideM = farthest(from, to);
    if (strideM > STRIDE_M) faults.push(`a step of ${(strideM * 1e3).toFixed(0)} mm`);
    const steps = Math.max(1, Math.ceil(strideM / STEP_M));
    for (let n = 0; n <= steps; n += 1) {
      const at = between(from, to, n / steps);
      const { gapM, what } = armGap(scene, at, tool);
      spare = Math.min(spare, gapM);
      if (gapM < -DUST_M) {
        faults.push(`on the way (${k} of ${way.length - 1}) ${what} by ${(-gapM * 1e3).toFixed(2)} mm`);
        break;
      }
      // Nothing comes nearer than this before it has moved so far.
      n += Math.max(0, Math.floor(Math.max(0, gapM - 1e-3) / STEP_M) - 1);
    }
  }
  if (faults.length === 0 && answer.spareM > spare + 2e-3)
    faults.push(`spare of ${(answer.spareM * 1e3).toFixed(1)} mm is said, ${(spare * 1e3).toFixed(1)} is there`);
  return faults;
}

const isSame = (a: Body, b: Body): boolean =>
  gap(a.neck, b.neck) < 1e-6 && gap(a.hips, b.hips) < 1e-6 && gap(a.head, b.head) < 1e-6;

/** How far anything of an arm is moved from one pose to the next, at most. */
function farthest(a: ArmPose, b: ArmPose): number {
  const turned = gap(a.palm, b.palm);
  return Math.max(
    gap(a.shoulder, b.shoulder),
    gap(a.elbow, b.elbow),
    gap(a.wrist, b.wrist),
    gap(a.grip, b.grip) +
      0.1 * turned +
      0.1 * gap(normalised(minus(a.grip, a.wrist)), normalised(minus(b.grip, b.wrist))),
  );
}

/** Joints along straight lines, links kept straight between them. */
function between(a: ArmPose, b: ArmPose, t: number): ArmPose {
  const mix = (p: P3, q: P3): P3 => plus(p, times(minus(q, p), t));
  const [wrist, grip] = [mix(a.wrist, b.wrist), mix(a.grip, b.grip)];
  const u = normalised(minus(grip, wrist));
  const palm = mix(a.palm, b.palm);
  const flat = minus(palm, times(u, inner(palm, u)));
  return {
    shoulder: mix(a.shoulder, b.shoulder),
    elbow: mix(a.elbow, b.elbow),
    wrist,
    grip,
    palm: size(flat) > 1e-9 ? normalised(flat) : palm,
  };
}

/** The whole hand before the outer face of the opening; where there is none, its middle by its own shoulder. */
export function isOutside({ posture, body }: ArmScene, pose: ArmPose): boolean {
  const hand = handBox(pose, body);
  const { gate } = posture;
  if (!gate) return gap(hand.centre, pose.shoulder) <= HOME_M + 1e-6;
  const reach = hand.axes.reduce((sum, axis, k) => sum + Math.abs(inner(axis, gate.out)) * (hand.half[k] as number), 0);
  return inner(minus(hand.centre, gate.at), gate.out) - reach >= gate.outerM - 1e-6;
}
