import { judge as judgeWithTape } from '../boat/accuracy';
import type { CloseCall, Limit, Measured, MeasureUnit } from './finding';

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
  const { value, bound, unit } = input;
  const limit = { value: input.limit, unit, bound };
  const { outcome, closeCall } = judgeWithTape(value, limit, input.grade);
  return { met: outcome === 'pass', measured: { value, unit }, limit, ...(closeCall ? { closeCall } : {}) };
}
