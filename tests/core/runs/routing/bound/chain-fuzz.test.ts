import { domainOf } from '@core/runs/routing/bound/domain';
import { type BoundEvent, leastLeg, optimiseDual } from '@core/runs/routing/bound/dual';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../../support/dice';
import { dubinsEnd, dubinsWord } from '../../../../support/dubins-oracle';
import { fuzzChains } from './chain-fuzz';

/** Derived: the inequality in core/runs/routing/bound/dual.ts; the curves' lengths are sums of straights and R times angle. */
describe('the bound of a chain of holes, ports and open panels', () => {
  const count = fuzzChains(1, 20_000);

  it('never exceeds the length of 20,000 random curves that pass it', () => {
    expect(count.above).toBe(0);
    expect(count.legsAbove).toBe(0);
    expect(count.legsAboveHalfMore).toBeGreaterThan(count.curves / 20);
  });
  it('comes within a thousandth of many of them', () => {
    expect(count.within).toBeGreaterThan(count.curves / 20);
  });
  it('would be caught without its term for short legs, and without its windows', () => {
    expect(count.withoutShortLegs).toBeGreaterThan(1000);
    expect(count.withoutWindows).toBeGreaterThan(300);
  });
});

/** An end of unit radius at a place and heading of the plane, turned up by a tilt. */
const pose = (x: number, y: number, heading: number, tilt: number): BoundEvent => {
  const up = (a: number, b: number) => [a, b * Math.cos(tilt), b * Math.sin(tilt)] as const;
  const tangent = up(Math.cos(heading), Math.sin(heading));
  return { domain: domainOf([up(x, y)], tangent), tangent, stub: 0 };
};
const exact = (events: readonly BoundEvent[]): number => {
  const leastLegs = events.slice(1).map((event, j) => leastLeg(events[j] as BoundEvent, event, 1));
  return optimiseDual({ events, leastLegs }, 1, 400, []).value;
};

/** Dubins 1957, words in closed form as in tests/support/dubins-oracle.ts. */
describe('the bound of arc, straight, arc', () => {
  it('is the length itself, to a millionth, where no arc passes half a turn', () => {
    const d = dice(9);
    let drawn = 0;
    for (let n = 0; n < 400; n++) {
      const [a, b, apart, tilt] = [d.from(-3, 3), d.from(-3, 3), d.from(1, 8), d.from(0, 3)];
      for (const word of ['LSL', 'RSR', 'LSR', 'RSL'] as const) {
        const pieces = dubinsWord(word, a, b, apart);
        if (!pieces || pieces[0] > 2.8 || pieces[2] > 2.8 || pieces[1] < 0.2) continue;
        const length = pieces[0] + pieces[1] + pieces[2];
        const bound = exact([pose(0, 0, a, tilt), pose(apart, 0, b, tilt)]);
        expect(bound).toBeLessThanOrEqual(length + 1e-9);
        expect(bound).toBeGreaterThan(length * (1 - 1e-6));
        drawn += 1;
      }
    }
    expect(drawn).toBeGreaterThan(200);
  });

  it('adds up through a hole that fixes the direction', () => {
    // Left, straight, right into the hole; out of it the same again.
    const pieces = [0.7, 1.5, 0.4] as const;
    const [x, y, h] = dubinsEnd('LSR', pieces, 0.2);
    const [u, v, w] = dubinsEnd('LSR', pieces, h);
    const hole = { ...pose(x, y, h, 0.5), stub: 0 };
    const bound = exact([pose(0, 0, 0.2, 0.5), hole, pose(x + u, y + v, w, 0.5)]);
    expect(bound).toBeLessThanOrEqual(2 * 2.6 + 1e-9);
    expect(bound).toBeGreaterThan(2 * 2.6 * (1 - 1e-6));
  });

  it('feeds on itself where a leg must come back to where it began: a whole circle', () => {
    // Derived: 1 mm behind its start and in the same direction: half a circle, 1 mm straight back, half a circle.
    const around = leastLeg(pose(0, 0, 0, 0), pose(-1e-3, 0, 0, 0), 1);
    expect(around).toBeLessThanOrEqual(2 * Math.PI + 1e-3 + 1e-9);
    expect(around).toBeGreaterThan(2 * Math.PI - 0.05);
  });
});
