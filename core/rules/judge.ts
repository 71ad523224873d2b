import type { CloseCall, Limit, Measured, MeasureUnit } from './finding';

/** A margin of at least this many grades is clean; less is a close call, whichever side it falls on. */
export const CLEAN_MARGIN_IN_GRADES = 1.5;
/** How far off the standard deviation itself may be: the chance is given as a band between the two. */
const DEVIATION_DOUBT = 1.5;

export interface Judged {
  readonly met: boolean;
  readonly measured: Measured;
  readonly limit: Limit;
  readonly closeCall?: CloseCall;
}

/**
 * Compares a measured value with its limit and with the tape: `grade` is two standard deviations of their difference, in the unit of both.
 * Zero grade: the comparison is exact.
 */
export function judge(input: {
  value: number;
  limit: number;
  bound: Limit['bound'];
  unit: MeasureUnit;
  grade: number;
}): Judged {
  const { value, limit, bound, unit, grade } = input;
  const margin = bound === 'atLeast' ? value - limit : limit - value;
  const base = { met: margin >= 0, measured: { value, unit }, limit: { value: limit, unit, bound } };
  if (!(grade > 0) || Math.abs(margin) >= CLEAN_MARGIN_IN_GRADES * grade) return base;
  const deviation = grade / 2;
  const chances = [
    normalCdf(margin / (deviation * DEVIATION_DOUBT)),
    normalCdf((margin * DEVIATION_DOUBT) / deviation),
  ].sort((a, b) => a - b);
  return { ...base, closeCall: { gradeM: grade, passProbability: [chances[0] ?? 0, chances[1] ?? 1] } };
}

/** Standard normal distribution: Abramowitz and Stegun 26.2.17, error below 7.5e-8. */
export function normalCdf(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly;
  return x >= 0 ? 1 - tail : tail;
}
