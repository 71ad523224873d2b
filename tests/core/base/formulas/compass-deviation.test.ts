import { compassDeviationDeg } from '@core/base/formulas/compass-deviation';
import { describe, expect, it } from 'vitest';

/** Field of a straight conductor of length 2 l by summing Biot-Savart, tesla: mu0 / 4 pi I sum of dl d / r^3. */
function summed(amperes: number, awayM: number, halfM: number): number {
  const steps = 200000;
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const x = -halfM + ((k + 0.5) * 2 * halfM) / steps;
    sum += ((2 * halfM) / steps) * (awayM / (x * x + awayM * awayM) ** 1.5);
  }
  return 1e-7 * amperes * sum;
}
const degreesOf = (teslas: number): number => (Math.asin(teslas / 20e-6) * 180) / Math.PI;

describe('a current near a compass', () => {
  it('turns it as the law of Biot and Savart says, summed along 200 m', () => {
    expect(compassDeviationDeg({ amperes: 25, awayM: 0.5, apartM: 0 })).toBeCloseTo(degreesOf(summed(25, 0.5, 100)), 2);
    expect(compassDeviationDeg({ amperes: 25, awayM: 0.5, apartM: 0 })).toBeCloseTo(30, 9);
  });

  it('turns it by what the two conductors of a pair do not take off each other', () => {
    const pair = summed(25, 0.495, 100) - summed(25, 0.505, 100);
    expect(compassDeviationDeg({ amperes: 25, awayM: 0.5, apartM: 0.01 })).toBeCloseTo(degreesOf(pair), 2);
  });

  it('turns it at most square, and by nothing without current', () => {
    expect(compassDeviationDeg({ amperes: 500, awayM: 0.1, apartM: 0 })).toBe(90);
    expect(compassDeviationDeg({ amperes: 0, awayM: 0.1, apartM: 0 })).toBe(0);
  });
});
