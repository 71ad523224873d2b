import { combine, judge as judgeWithTape } from '../boat/accuracy';
import type { CloseCall, GradeShare, Limit, Measured, MeasureUnit } from './finding';

export interface Judged {
  readonly met: boolean;
  readonly measured: Measured;
  readonly limit: Limit;
  readonly closeCall?: CloseCall;
  readonly gradeFrom?: readonly GradeShare[];
}

/**
 * Compares a measured value with its limit and with the tape: `grade` is what the values that went in add to the accuracy of
 * their difference, in the unit of both. Without any the comparison is exact.
 */
export function judge(input: {
  value: number;
  limit: number;
  bound: Limit['bound'];
  unit: MeasureUnit;
  grade: readonly GradeShare[];
}): Judged {
  const { value, bound, unit } = input;
  const limit = { value: input.limit, unit, bound };
  const gradeFrom = gathered(input.grade);
  const { outcome, closeCall } = judgeWithTape(value, limit, combine(...gradeFrom.map(({ gradeM }) => gradeM)));
  return {
    met: outcome === 'pass',
    measured: { value, unit },
    limit,
    ...(closeCall ? { closeCall } : {}),
    ...(gradeFrom.length > 0 ? { gradeFrom } : {}),
  };
}

/** Of a value that is named twice the greater share counts; what adds nothing is left out. Sorted by path. */
function gathered(shares: readonly GradeShare[]): readonly GradeShare[] {
  const byPath = new Map<string, number>();
  for (const { path, gradeM } of shares) if (gradeM > 0) byPath.set(path, Math.max(gradeM, byPath.get(path) ?? 0));
  return [...byPath].map(([path, gradeM]) => ({ path, gradeM })).sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** A share of which only a part, or a multiple, goes into the verdict. */
export const times = ({ path, gradeM }: GradeShare, gain: number): GradeShare => ({
  path,
  gradeM: gradeM * Math.abs(gain),
});

/** Of two judgements of one verdict the one that the tape may sooner turn: its margin is the smaller share of its grade. */
export function lessSure(a: Judged, b: Judged): Judged {
  if (!a.closeCall || !b.closeCall) return a.closeCall ? a : b.closeCall ? b : a;
  const sure = (one: Judged): number => {
    const chances = one.closeCall?.passProbability ?? [1, 1];
    return Math.abs((chances[0] + chances[1]) / 2 - 0.5);
  };
  return sure(b) < sure(a) ? b : a;
}

/** Steps of a bisection: a range of 200 mm to 2 mm. */
const BISECTIONS = 7;

/** How far something may slip, metres, while a verdict holds: `most` when it holds all the way. */
export function slipUntil(holds: (slipM: number) => boolean, most: number): number {
  if (holds(most)) return most;
  let [low, high] = [0, most];
  for (let step = 0; step < BISECTIONS; step++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
