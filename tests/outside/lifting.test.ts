import { type Grip, recommendedWeight } from '@core/base/formulas/lifting';
import { describe, expect, it } from 'vitest';

/**
 * Check values: the revised NIOSH equation (NIOSH 94-110, public domain), evaluated by hand for these scenes; the ideal lift of 23 kg is
 * published there as the load constant.
 */
const SCENES: readonly (readonly [
  scene: string,
  H: number,
  V: number,
  D: number,
  A: number,
  grip: Grip,
  weightKg: number,
])[] = [
  ['ideal', 25, 75, 25, 0, 'good', 23],
  ['workbench', 35, 100, 30, 0, 'good', 14.74],
  ['low shelf, close', 30, 40, 60, 0, 'good', 15.35],
  ['locker at knee height', 40, 50, 50, 30, 'good', 10.94],
  ['cockpit locker floor', 45, 25, 40, 0, 'good', 10.13],
  ['out of a bilge', 50, 0, 70, 0, 'fair', 7.49],
  ['deep locker, turned', 60, 10, 60, 30, 'poor', 5.62],
  ['over a coaming', 63, 25, 50, 45, 'poor', 5.44],
];

describe('the lifting equation of NIOSH 94-110', () => {
  it.each(SCENES)('%s: H %i, V %i, D %i cm, A %i degrees, %s grip: %f kg', (_, h, v, d, a, grip, weightKg) => {
    const found = recommendedWeight({ outM: h / 100, upM: v / 100, travelM: d / 100, turnDeg: a, grip });
    expect(found.isBeyond).toBe(false);
    expect(Math.abs(found.weightKg - weightKg)).toBeLessThanOrEqual(0.01);
  });

  it('gives the index of the published scale: 25 kg out of a bilge is 3.34 times what is recommended', () => {
    const { weightKg } = recommendedWeight({ outM: 0.5, upM: 0, travelM: 0.7, turnDeg: 0, grip: 'fair' });
    expect(25 / weightKg).toBeCloseTo(3.34, 2);
  });
});
