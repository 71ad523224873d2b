import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../support/scene-interior';
import { suiteScene } from '../support/suite-scene';
import { quantile } from './suite-table';
import { alone, easedPairs, type Pair, twinPairs, wrongBy } from './twins';

/**
 * Derived, as in symmetries.deep.ts: the same boat mirrored, shifted, with its lines drawn from the other end or its ids exchanged.
 * Two scenes with a stiff and a soft line each. SYMMETRY_SEED: the first (2).
 */
const FIRST = Number(process.env.SYMMETRY_SEED ?? 2);
const LINES = ['l0', 'l12'];

function fewLines(seed: number): BoatDraft {
  const { boat } = suiteScene(seed);
  const some = LINES.map((line) => alone(boat, line));
  return {
    ...boat,
    lines: Object.assign({}, ...some.map((one) => one.lines)),
    arrangements: {
      plan: { name: 'plan', clipPoints: Object.assign({}, ...some.map((one) => one.arrangements?.plan?.clipPoints)) },
    },
  };
}

describe('the deep search on boats that are the same, easier or harder', () => {
  const boats = [fewLines(FIRST), fewLines(FIRST + 2)];

  it('finds the same lines at nearly the same cost', () => {
    const pairs = boats.flatMap(twinPairs);
    const isOff = ({ cost, twinCost }: Pair): boolean => (cost === null) !== (twinCost === null);
    expect(pairs.filter(isOff)).toEqual([]);
    expect(quantile(pairs.map(wrongBy), 0.9)).toBeLessThanOrEqual(0.01);
  });

  it('is not dearer with less in the way nor cheaper with a stiffer hose', () => {
    const [first] = boats as [BoatDraft];
    expect(easedPairs(first, 5).filter((pair) => wrongBy(pair) > 0.005)).toEqual([]);
  });
});
