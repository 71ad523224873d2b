import { chiSquareExcess, studentExcess, studentLimit } from '@core/base/formulas/distributions';
import { describe, expect, it } from 'vitest';

describe('limits of the distributions', () => {
  // from memory of the common tables of chi-square and Student's t, five and six figures
  it.each([
    [3.84146, 1, 0.05],
    [5.99146, 2, 0.05],
    [18.307, 10, 0.05],
    [23.2093, 10, 0.01],
    [124.342, 100, 0.05],
    [3.9403, 10, 0.95],
  ])('chi-square %f of %i degrees is exceeded with chance %f', (x, degrees, chance) => {
    expect(chiSquareExcess(x, degrees)).toBeCloseTo(chance, 5);
  });
  it.each([
    [12.7062, 1, 0.05],
    [2.22814, 10, 0.05],
    [2.75, 30, 0.01],
    [4.0321, 5, 0.01],
  ])("Student's t %f of %i degrees is exceeded in size with chance %f", (t, degrees, chance) => {
    expect(studentExcess(t, degrees)).toBeCloseTo(chance, 5);
    expect(studentLimit(chance, degrees)).toBeCloseTo(t, 3);
  });
  it('meet where they must: two degrees of chi-square are an exponential, one of t is a ratio', () => {
    // derived: Q(x | 2) = exp(-x / 2); P(|t| > 1 | 1) = 1 - 2 arctan(1) / pi = 1/2
    for (const x of [0.1, 1, 5, 40]) expect(chiSquareExcess(x, 2)).toBeCloseTo(Math.exp(-x / 2), 12);
    expect(studentExcess(1, 1)).toBeCloseTo(0.5, 12);
    // derived: t squared of many degrees is chi-square of one
    expect(studentExcess(2, 1e7)).toBeCloseTo(chiSquareExcess(4, 1), 6);
  });
});
