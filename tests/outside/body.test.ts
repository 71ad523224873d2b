import { BODY_ROWS, bodyOf } from '@core/base/formulas/body-sizes';
import { normalDeviate } from '@core/base/formulas/distributions';
import { HAND_OPENINGS } from '@core/base/formulas/hand-openings';
import { describe, expect, it } from 'vitest';

const armOf = (person: Parameters<typeof bodyOf>[0]): number => {
  const { upperArmM, forearmM, handM } = bodyOf(person).sizes;
  return upperArmM + forearmM + handM;
};

describe('sizes of a body', () => {
  // Published: NUREG-0700 Rev. 3 Table 11.4, 5th of women and 95th of men, millimetres, as quoted.
  it('has the two printed rows', () => {
    expect(Object.values(BODY_ROWS.short).map((m) => Math.round(m * 1000))).toEqual([677, 1230, 509, 724, 503]);
    expect(Object.values(BODY_ROWS.large).map((m) => Math.round(m * 1000))).toEqual([886, 1553, 646, 862, 604]);
  });

  it('takes the rows as they are, and marks everybody else as interpolated', () => {
    for (const sex of ['female', undefined] as const)
      expect(bodyOf({ percentile: 5, sex })).toMatchObject({
        isInterpolated: false,
        sizes: { standingShoulderM: 1.23, sittingShoulderM: 0.509 },
      });
    for (const sex of ['male', undefined] as const)
      expect(bodyOf({ percentile: 95, sex })).toMatchObject({
        isInterpolated: false,
        sizes: { standingShoulderM: 1.553, sittingShoulderM: 0.646 },
      });
    for (const person of [
      null,
      { percentile: 50 },
      { percentile: 95, sex: 'female' },
      { percentile: 5, sex: 'male' },
    ] as const)
      expect(bodyOf(person).isInterpolated).toBe(true);
  });

  it('a middling adult has the arm of common practice: 330 + 270 + 100 mm', () => {
    const { sizes } = bodyOf(null);
    expect(sizes.upperArmM).toBeCloseTo(0.33, 9);
    expect(sizes.forearmM).toBeCloseTo(0.27, 9);
    expect(sizes.handM).toBeCloseTo(0.1, 9);
    expect(bodyOf({ percentile: 50 }).sizes).toEqual(sizes);
  });

  // Derived estimate: 677 mm of functional reach less about 100 mm of shoulder, 575 +- 25 mm to the middle of the grip through an opening.
  it('the 5th of women reaches about 575 mm through an opening', () => {
    expect(Math.abs(armOf({ percentile: 5, sex: 'female' }) - 0.575)).toBeLessThanOrEqual(0.025);
  });

  it('arms keep the ratio of the reach from the shoulder of the two rows (derived: 577 to 786)', () => {
    expect(armOf({ percentile: 5 }) / armOf({ percentile: 95 })).toBeCloseTo(577 / 786, 9);
  });

  it('grows with the percentile, and a man of a percentile reaches farther than a woman of the same', () => {
    const percents = [0, 1, 5, 20, 50, 80, 95, 99, 100];
    for (const sex of ['female', 'male', undefined] as const) {
      const arms = percents.map((percentile) => armOf({ percentile, sex }));
      for (const [k, arm] of arms.entries()) expect(arm).toBeGreaterThanOrEqual((arms[k - 1] ?? 0) - 1e-12);
    }
    for (const percentile of percents)
      expect(armOf({ percentile, sex: 'male' })).toBeGreaterThan(armOf({ percentile, sex: 'female' }));
  });

  it('is a straight line between the rows over the normal deviate (tables: 25 % lies 0.6745 deviations below the middle, 5 % 1.6449)', () => {
    expect(normalDeviate(0.25)).toBeCloseTo(-0.6745, 3);
    expect(normalDeviate(0.95)).toBeCloseTo(1.6449, 3);
    expect(normalDeviate(0.5)).toBe(0);
    const [short, middle, quarter] = [5, 50, 25].map((percentile) => armOf({ percentile })) as [number, number, number];
    expect((middle - quarter) / (middle - short)).toBeCloseTo(0.6745 / 1.6449, 3);
  });

  it('takes an arm that was measured in place of that of the percentile, its links in proportion (derived: 0.63 of 0.70)', () => {
    const { sizes } = bodyOf({ percentile: 50, armM: 0.63 });
    expect(sizes.upperArmM).toBeCloseTo(0.297, 9);
    expect(sizes.forearmM).toBeCloseTo(0.243, 9);
    expect(sizes.handM).toBeCloseTo(0.09, 9);
    expect(sizes.standingShoulderM).toBe(bodyOf(null).sizes.standingShoulderM);
  });

  it('the large row passes the openings that the table gives for it', () => {
    const { sizes } = bodyOf({ percentile: 95, sex: 'male' });
    expect(2 * sizes.upperArmRadiusM).toBeLessThanOrEqual(HAND_OPENINGS.shoulder.bare.widthM);
    expect(2 * sizes.forearmRadiusM).toBeLessThanOrEqual(HAND_OPENINGS.elbow.bare.heightM);
    expect(sizes.handBoxM[1]).toBeLessThanOrEqual(HAND_OPENINGS.handFist.bare.widthM);
    expect(sizes.handBoxM[2]).toBeLessThanOrEqual(HAND_OPENINGS.handFist.bare.heightM);
  });
});
