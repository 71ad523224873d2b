/**
 * Weight that nearly all healthy people lift without harm, by the revised equation of NIOSH.
 *
 *   RWL = 23 kg x HM x VM x DM x AM x CM
 *   HM = 25 / H    VM = 1 - 0.003 |V - 75|    DM = 0.82 + 4.5 / D    AM = 1 - 0.0032 A
 *
 * H: from between the ankles out to the hands, cm, 25 where it is less. V: hands above the floor, cm. D: travel up or down, cm, 25 where it
 * is less. A: turn of the trunk, degrees. CM: how it can be gripped. The multiplier of frequency is 1: it is lifted now and then.
 *
 * Source: NIOSH 94-110, Applications manual for the revised NIOSH lifting equation (public domain); the multipliers of grip from memory.
 * Holds for H to 63, V from 0 to 175, D to 175, A to 135, with both hands, standing on firm ground with room to move. It says too much of a
 * person who kneels, lies, or is cramped.
 */
export type Grip = 'good' | 'fair' | 'poor';

export interface Lift {
  /** From between the ankles to the hands, level, metres. */
  readonly outM: number;
  /** Hands above the floor, metres. */
  readonly upM: number;
  /** How far up or down, metres. */
  readonly travelM: number;
  readonly turnDeg: number;
  readonly grip: Grip;
}

export interface RecommendedWeight {
  readonly weightKg: number;
  /** Outside the range of the equation, where it recommends to lift nothing: the weight is that at the edge of the range. */
  readonly isBeyond: boolean;
}

const GREATEST_KG = 23;
const LEAST_CM = 25;
const FARTHEST_CM = 63;
const HIGHEST_CM = 175;
const KNUCKLES_CM = 75;
const MOST_TURNED_DEG = 135;

export function recommendedWeight({ outM, upM, travelM, turnDeg, grip }: Lift): RecommendedWeight {
  const [h, v, d] = [Math.max(LEAST_CM, outM * 100), upM * 100, Math.max(LEAST_CM, Math.abs(travelM) * 100)];
  const isBeyond = h > FARTHEST_CM || v < 0 || v > HIGHEST_CM || d > HIGHEST_CM || Math.abs(turnDeg) > MOST_TURNED_DEG;
  const hands = Math.min(HIGHEST_CM, Math.max(0, v));
  const weightKg =
    GREATEST_KG *
    (LEAST_CM / Math.min(FARTHEST_CM, h)) *
    (1 - 0.003 * Math.abs(hands - KNUCKLES_CM)) *
    (0.82 + 4.5 / Math.min(HIGHEST_CM, d)) *
    (1 - 0.0032 * Math.min(MOST_TURNED_DEG, Math.abs(turnDeg))) *
    gripShare(grip, hands);
  return { weightKg, isBeyond };
}

const gripShare = (grip: Grip, handsCm: number): number =>
  grip === 'poor' ? 0.9 : grip === 'fair' && handsCm < KNUCKLES_CM ? 0.95 : 1;
