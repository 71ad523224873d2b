import { describe, expect, it } from 'vitest';
import { roundOne, slalom, spiderAndFly } from './geodesics';

/**
 * Derived and published as in geodesic.test.ts, where ends lie far apart in height: there each corner of the run has to find its
 * height on its edge by itself.
 */
describe.each([
  { radiusM: 0.02, bendRadiusM: 0.025 },
  { radiusM: 0.005, bendRadiusM: 0.006 },
])('a hose of radius $radiusM m', (size) => {
  it.each([0.4, 0.8, 1.6, 3])('falls %f m round one box and between two within 1 %% of the unfolded sheet', (fallM) => {
    for (const one of [roundOne(size, fallM), slalom(size, fallM)]) {
      expect(one.routed()).toBeGreaterThanOrEqual(one.leastM - 1e-6);
      expect(one.routed()).toBeLessThan(one.mostM * 1.01);
    }
  });

  it('goes over five faces of a long box within 2 % of the unfolded line', () => {
    const { leastM, mostM, routed } = spiderAndFly(size);
    expect(routed()).toBeGreaterThanOrEqual(leastM);
    expect(routed()).toBeLessThan(mostM * 1.02);
  });
});
