import { type Lift, recommendedWeight } from '@core/base/formulas/lifting';
import { describe, expect, it } from 'vitest';

const IDEAL: Lift = { outM: 0.25, upM: 0.75, travelM: 0.25, turnDeg: 0, grip: 'good' };
const weight = (change: Partial<Lift>) => recommendedWeight({ ...IDEAL, ...change });

describe('the recommended weight', () => {
  it('is greatest close by and at the height of the knuckles', () => {
    for (const change of [
      { outM: 0.3 },
      { upM: 0.5 },
      { upM: 1 },
      { travelM: 0.5 },
      { turnDeg: 20 },
      { grip: 'poor' as const },
    ])
      expect(weight(change).weightKg).toBeLessThan(weight({}).weightKg);
  });

  it('takes the least distance and travel of the equation where they are less', () => {
    expect(weight({ outM: 0.1, travelM: 0 })).toEqual(weight({}));
    expect(weight({ travelM: -0.6 })).toEqual(weight({ travelM: 0.6 }));
    expect(weight({ turnDeg: -30 })).toEqual(weight({ turnDeg: 30 }));
  });

  it('counts a fair grip only below the knuckles', () => {
    // Derived: the same lift 75 cm up and just below it.
    expect(weight({ grip: 'fair' }).weightKg).toBe(weight({}).weightKg);
    expect(weight({ grip: 'fair', upM: 0.7 }).weightKg / weight({ upM: 0.7 }).weightKg).toBeCloseTo(0.95, 12);
  });

  it('says where it is beyond its range, and gives the edge of it', () => {
    for (const [beyond, edge] of [
      [{ outM: 0.7 }, { outM: 0.63 }],
      [{ upM: -0.2 }, { upM: 0 }],
      [{ upM: 1.9 }, { upM: 1.75 }],
      [{ travelM: 2 }, { travelM: 1.75 }],
      [{ turnDeg: 150 }, { turnDeg: 135 }],
    ] as const) {
      expect(weight(beyond)).toEqual({ ...weight(edge), isBeyond: true });
      expect(weight(edge).isBeyond).toBe(false);
    }
  });
});
