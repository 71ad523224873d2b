import { judge } from '@core/rules/judge';
import { describe, expect, it } from 'vitest';

describe('judging a measured value against its limit and the tape', () => {
  const compare = (value: number, gradeM: number) =>
    judge({ value, limit: 0.09, bound: 'atLeast', unit: 'm', grade: [{ path: 'openings.lid.widthM', gradeM }] });

  it('is clean only beyond one and a half grades', () => {
    expect(compare(0.09 + 0.0151, 0.01).closeCall).toBeUndefined();
    expect(compare(0.09 + 0.0149, 0.01)).toMatchObject({ met: true, closeCall: { gradeM: 0.01 } });
    expect(compare(0.09 - 0.0149, 0.01)).toMatchObject({ met: false, closeCall: { gradeM: 0.01 } });
    expect(compare(0.09 - 0.0151, 0.01).closeCall).toBeUndefined();
  });

  it('passes at the limit itself, with even odds', () => {
    const at = compare(0.09, 0.01);
    expect(at.met).toBe(true);
    expect(at.closeCall?.passProbability).toEqual([expect.closeTo(0.5, 6), expect.closeTo(0.5, 6)]);
  });

  it('keeps the unit of both, and is exact without a grade', () => {
    expect(judge({ value: 1, limit: 1, bound: 'atMost', unit: 'count', grade: [] })).toEqual({
      met: true,
      measured: { value: 1, unit: 'count' },
      limit: { value: 1, unit: 'count', bound: 'atMost' },
    });
  });
});
