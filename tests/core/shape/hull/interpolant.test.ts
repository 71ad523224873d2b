import { fairSlopes, gapOf, hermite, limitToPositive, limitToSense } from '@core/shape/hull/interpolant';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const knotsOf = (gaps: readonly number[]): number[] => {
  const knots = [0];
  for (const gap of gaps) knots.push((knots[knots.length - 1] ?? 0) + gap);
  return knots;
};
const gaps = fc.array(fc.double({ min: 0.1, max: 3, noNaN: true }), { minLength: 2, maxLength: 12 });
const coefficient = fc.double({ min: -2, max: 2, noNaN: true });

describe('the interpolant', () => {
  it('reproduces any quadratic on any knots', () => {
    fc.assert(
      fc.property(gaps, coefficient, coefficient, coefficient, (widths, a, b, c) => {
        const knots = knotsOf(widths);
        const f = (x: number): number => a + b * x + c * x * x;
        const values = knots.map(f);
        const slopes = fairSlopes(knots, values);
        for (let i = 0; i < knots.length - 1; i += 1)
          for (const t of [0.1, 0.5, 0.83]) {
            const x = (knots[i] ?? 0) + t * (widths[i] ?? 0);
            expect(Math.abs(hermite(knots, values, slopes, i, t) - f(x))).toBeLessThan(1e-9 * (1 + x * x));
          }
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('passes through its values and joins them smoothly', () => {
    fc.assert(
      fc.property(fc.array(coefficient, { minLength: 3, maxLength: 9 }), (values) => {
        const knots = values.map((_, i) => i);
        const slopes = fairSlopes(knots, values);
        for (let i = 0; i < knots.length - 1; i += 1) {
          expect(hermite(knots, values, slopes, i, 0)).toBe(values[i]);
          expect(hermite(knots, values, slopes, i, 1)).toBe(values[i + 1]);
          const h = 1e-6;
          const start = (hermite(knots, values, slopes, i, h) - (values[i] ?? 0)) / h;
          expect(start).toBeCloseTo(slopes[i] ?? 0, 3);
        }
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('keeps rising data rising once limited', () => {
    fc.assert(
      fc.property(
        gaps,
        fc.array(fc.double({ min: 0, max: 2, noNaN: true }), { minLength: 12, maxLength: 12 }),
        (widths, rises) => {
          const knots = knotsOf(widths);
          const values = knotsOf(rises).slice(0, knots.length);
          const slopes = fairSlopes(knots, values);
          limitToSense(knots, values, slopes);
          let last = values[0] ?? 0;
          for (let i = 0; i < knots.length - 1; i += 1)
            for (let t = 0.05; t <= 1; t += 0.05) {
              const here = hermite(knots, values, slopes, i, t);
              expect(here).toBeGreaterThanOrEqual(last - 1e-9);
              last = here;
            }
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });

  it('keeps positive data positive once limited', () => {
    fc.assert(
      fc.property(
        gaps,
        fc.array(fc.double({ min: 0, max: 2, noNaN: true }), { minLength: 13, maxLength: 13 }),
        (widths, all) => {
          const knots = knotsOf(widths);
          const values = all.slice(0, knots.length);
          const slopes = fairSlopes(knots, values);
          limitToPositive(knots, values, slopes);
          for (let i = 0; i < knots.length - 1; i += 1)
            for (let t = 0; t <= 1; t += 0.05) expect(hermite(knots, values, slopes, i, t)).toBeGreaterThan(-1e-9);
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  it('finds the gap of a value, and the end gaps beyond', () => {
    const knots = [0, 1, 1.5, 4];
    expect([-1, 0, 0.5, 1, 1.2, 1.5, 3, 4, 9].map((x) => gapOf(knots, x))).toEqual([0, 0, 0, 1, 1, 2, 2, 2, 2]);
  });
});
