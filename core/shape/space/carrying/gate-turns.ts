import * as portable from '../../../base/portable';
import { radians, UNIT_AXES, type Vec3 } from '../../../base/vec';
import { aboutAxis, type CarriedBody, type Quaternion, quaternionOf, timesQuaternion } from './carried-body';
import type { Gate } from './straight-moves';

/** Turns in the opening's plane that are tried (degrees), and how many are kept. */
const TURN_STEP_DEG = 5;
const ROUND_STEP_DEG = 30;
const MOST_GATES = 24;

/** A way round in which a body passes an opening straight. */
export interface GateTurn {
  readonly turn: Quaternion;
  /** Half of what it takes up across, up and through. */
  readonly spreadM: Vec3;
  /** What is left beside it. */
  readonly slackM: number;
}

/** A fit to a hair is a fit. */
const SAME_M = 1e-9;
/** The turn that leaves most is found to this (degrees). */
const FINEST_DEG = 0.002;

/** Ways round in which a body fits a gate with one of its axes through it, the roomiest first; the best turn about each axis is among them. */
export function gateTurns({ half, round }: CarriedBody, gate: Gate): readonly GateTurn[] {
  const found: GateTurn[] = [];
  const through = round === null ? [0, 1, 2] : [round, (round + 1) % 3];
  for (const k of through) {
    const [i, j] = [(k + 1) % 3, (k + 2) % 3];
    // Own axis k along the third axis of the frame, i along the first.
    const columns = [0, 1, 2].map((own) => UNIT_AXES[own === k ? 2 : own === i ? 0 : 1]) as [Vec3, Vec3, Vec3];
    const square = quaternionOf(columns);
    const isDisc = k === round;
    const [a, b, c] = [half[i as 0 | 1 | 2], half[j as 0 | 1 | 2], half[k as 0 | 1 | 2]];
    const at = (deg: number): GateTurn => {
      const angle = radians(deg);
      const cos = Math.abs(portable.cos(angle));
      const sin = Math.abs(portable.sin(angle));
      const spreadM: Vec3 = isDisc ? [a, b, c] : [a * cos + b * sin, a * sin + b * cos, c];
      const slackM = gate.isRound
        ? Math.min(gate.widthM, gate.heightM) / 2 - (isDisc ? a : portable.hypot(a, b))
        : Math.min(gate.widthM / 2 - spreadM[0], gate.heightM / 2 - spreadM[1]);
      return { turn: timesQuaternion(aboutAxis([0, 0, 1], angle), square), spreadM, slackM };
    };
    const stepDeg = gate.isRound ? ROUND_STEP_DEG : TURN_STEP_DEG;
    let bestDeg = 0;
    let most = Number.NEGATIVE_INFINITY;
    for (let deg = 0; deg < (isDisc ? 1 : 180); deg += stepDeg) {
      const one = at(deg);
      if (one.slackM > most) [most, bestDeg] = [one.slackM, deg];
      if (one.slackM >= -SAME_M) found.push(one);
    }
    if (isDisc || gate.isRound) continue;
    let deg = bestDeg;
    for (let step = stepDeg / 2; step > FINEST_DEG; step /= 2)
      for (const by of [step, -step]) if (at(deg + by).slackM > at(deg).slackM) deg += by;
    if (deg !== bestDeg && at(deg).slackM >= -SAME_M) found.push(at(deg));
  }
  return found.sort((p, q) => q.slackM - p.slackM).slice(0, MOST_GATES);
}
