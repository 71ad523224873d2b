import { combine, gradeM, judge, normalShare } from '@core/boat/accuracy';
import { describe, expect, it } from 'vitest';

const atLeast = (value: number) => ({ value, bound: 'atLeast' as const });
const atMost = (value: number) => ({ value, bound: 'atMost' as const });

describe('accuracy', () => {
  it('gives the grades of the file where it has any', () => {
    expect(gradeM({ accuracy: {} }, 'measured')).toBe(0.005);
    expect(gradeM({ accuracy: {} }, 'guessed')).toBe(0.1);
    expect(gradeM({ accuracy: { taped: 0.012 } }, 'taped')).toBe(0.012);
  });

  // Derived: six chained readings of 10 mm make sqrt(6) x 10 = 24.5 mm.
  it('combines by root of the sum of squares', () => {
    expect(combine(0.03, 0.04)).toBeCloseTo(0.05, 12);
    expect(combine(...Array.from({ length: 6 }, () => 0.01))).toBeCloseTo(0.0244949, 7);
    expect(combine()).toBe(0);
  });

  // Published: table of the normal distribution, Phi(1) = 0.84134, Phi(1.96) = 0.97500, Phi(3) = 0.99865.
  it('knows the normal distribution', () => {
    expect(normalShare(0)).toBeCloseTo(0.5, 6);
    expect(normalShare(1)).toBeCloseTo(0.841345, 6);
    expect(normalShare(1.959964)).toBeCloseTo(0.975, 6);
    expect(normalShare(-3)).toBeCloseTo(0.00135, 6);
  });

  it('is clean only beyond one and a half grades', () => {
    expect(judge(0.631, atLeast(0.6), 0.02)).toEqual({ outcome: 'pass', margin: expect.closeTo(0.031, 9) });
    expect(judge(0.629, atLeast(0.6), 0.02).closeCall?.gradeM).toBe(0.02);
    expect(judge(0.569, atLeast(0.6), 0.02)).toEqual({ outcome: 'fail', margin: expect.closeTo(-0.031, 9) });
    expect(judge(0.571, atLeast(0.6), 0.02).closeCall).toBeDefined();
    expect(judge(0.569, atMost(0.6), 0.02).outcome).toBe('pass');
  });

  // Derived: the grade is two standard deviations; a margin of half a grade is one, chance 0.841, within the band.
  it('gives the chance of a close call as a band', () => {
    const pass = judge(0.61, atLeast(0.6), 0.02);
    const [low, high] = pass.closeCall?.passProbability ?? [0, 0];
    expect(low).toBeLessThan(0.8413);
    expect(high).toBeGreaterThan(0.8413);
    const fail = judge(0.59, atLeast(0.6), 0.02);
    expect(fail.closeCall?.passProbability[0]).toBeCloseTo(1 - high, 9);
    const even = judge(0.6, atLeast(0.6), 0.02);
    expect(even.outcome).toBe('pass');
    expect(even.closeCall?.passProbability[0]).toBeCloseTo(0.5, 6);
    expect(even.closeCall?.passProbability[1]).toBeCloseTo(0.5, 6);
  });

  it('does not let rounding dust decide, nor call exact values close', () => {
    expect(judge(0.1 + 0.2, atMost(0.3), 0).outcome).toBe('pass');
    expect(judge(0.3, atMost(0.3), 0)).toEqual({ outcome: 'pass', margin: 0 });
    expect(judge(0.300001, atMost(0.3), 0).outcome).toBe('fail');
  });
});
