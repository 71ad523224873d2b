import * as portable from '../base/portable';
import type { Boat, Grade } from './schema/boat';

/** Two standard deviations of each grade in metres, where the boat file says nothing else. Common practice with a tape; no publication. */
export const DEFAULT_GRADES_M: Readonly<Record<Grade, number>> = {
  measured: 0.005,
  taped: 0.02,
  scaled: 0.04,
  guessed: 0.1,
};

/** A verdict is clean only where its margin exceeds the combined grade this many times (three standard deviations). */
export const CLEAN_MARGIN = 1.5;
/** Nobody knows a grade better than this: the chance of a close call is given for grades a quarter larger and a fifth smaller. */
export const GRADE_LARGER = 1.25;
const GRADE_SMALLER = 0.8;
/** Differences below the quantum of the file decide nothing. */
const DUST = 1e-9;

/** Two standard deviations of a grade in metres. */
export const gradeM = (boat: Pick<Boat, 'accuracy'>, grade: Grade): number =>
  boat.accuracy[grade] ?? DEFAULT_GRADES_M[grade];

/** Grade of a sum or difference of independent readings: root of the sum of squares. */
export const combine = (...grades: readonly number[]): number =>
  Math.sqrt(grades.reduce((sum, grade) => sum + grade * grade, 0));

export interface Judgement {
  readonly outcome: 'pass' | 'fail';
  /** Measured value inside the limit by so much; negative when it breaks it. */
  readonly margin: number;
  readonly closeCall?: { readonly gradeM: number; readonly passProbability: readonly [number, number] };
}

/**
 * Judges a measured value against a limit. `gradeM` is the combined grade (two standard deviations) of their difference, in the
 * unit of both. A margin within 1.5 grades is a close call and carries the chance, as a band, that the limit is really met.
 */
export function judge(
  measured: number,
  limit: { readonly value: number; readonly bound: 'atMost' | 'atLeast' },
  gradeM: number,
): Judgement {
  const difference = limit.bound === 'atLeast' ? measured - limit.value : limit.value - measured;
  const margin = Math.abs(difference) < DUST ? 0 : difference;
  const outcome = margin >= 0 ? 'pass' : 'fail';
  if (!(gradeM > 0) || Math.abs(margin) > CLEAN_MARGIN * gradeM) return { outcome, margin };
  const chances = [GRADE_LARGER, GRADE_SMALLER].map((k) => normalShare((2 * margin) / (gradeM * k)));
  return {
    outcome,
    margin,
    closeCall: { gradeM, passProbability: [Math.min(...chances), Math.max(...chances)] },
  };
}

/**
 * Share of a normal distribution below `deviations` standard deviations.
 * Phi(x) = (1 + erf(x / sqrt 2)) / 2, erf by Abramowitz and Stegun 7.1.26 (error below 1.5e-7; quoted, not read).
 */
export function normalShare(deviations: number): number {
  const x = Math.abs(deviations) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const series = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  const erf = 1 - series * portable.exp(-x * x);
  return deviations < 0 ? (1 - erf) / 2 : (1 + erf) / 2;
}
