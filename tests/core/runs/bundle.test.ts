import { leastHole } from '@core/runs/bundle';
import { describe, expect, it } from 'vitest';

describe('the least hole about round things', () => {
  it('is exact for one, two and three', () => {
    expect(leastHole([0.02])).toBeCloseTo(0.02, 12);
    expect(leastHole([0.025, 0.018])).toBeCloseTo(0.043, 12);
    // Published (Descartes): three equal circles need 1 + 2 / sqrt 3 of their diameter.
    expect(leastHole([0.01, 0.01, 0.01])).toBeCloseTo(0.01 * (1 + 2 / Math.sqrt(3)), 12);
  });

  it('is that of the two larger where the third lies beside them', () => {
    // Derived: beside two circles of 10 in a circle of 20 there is just room for one of 6.67.
    expect(leastHole([0.01, 0.01, 0.02 / 3])).toBeCloseTo(0.02, 9);
    expect(leastHole([0.01, 0.01, 0.0066])).toBe(0.02);
    expect(leastHole([0.01, 0.01, 0.0068])).toBeGreaterThan(0.02);
  });

  it('never asks for more than the known packings of equal circles, and grows with what is added', () => {
    // Published (Graham, Lubachevsky): diameters of the least circle about 4 to 7 circles of diameter 1.
    for (const [count, least] of [
      [4, 2.4142],
      [5, 2.7013],
      [6, 3],
      [7, 3],
    ] as const)
      expect(leastHole(Array(count).fill(1))).toBeLessThanOrEqual(least + 1e-4);
    expect(leastHole([1, 1, 1, 1])).toBeGreaterThan(leastHole([1, 1, 1]) - 1e-12);
    expect(leastHole(Array(7).fill(1))).toBeCloseTo(3, 9);
  });

  it('does not depend on the order', () => {
    expect(leastHole([0.01, 0.03, 0.02])).toBe(leastHole([0.03, 0.02, 0.01]));
  });
});
