import { afterAll, describe, expect, it } from 'vitest';
import { suiteScene } from '../support/suite-scene';
import { quantile } from './suite-table';
import { easedPairs, type Pair, twinPairs, wrongBy } from './twins';

/**
 * Derived: a boat mirrored, shifted, with its lines drawn from the other end or its ids exchanged is the same boat; with less in the way no
 * run need be dearer; a stiffer hose can only do worse. SYMMETRY_SEED: first seed (1). SYMMETRY_SCENES: how many (12).
 */
const FIRST = Number(process.env.SYMMETRY_SEED ?? 1);
const COUNT = Number(process.env.SYMMETRY_SCENES ?? 12);
const found: (Pair & { seed: number })[] = [];

describe('the deep search on boats that are the same, easier or harder', () => {
  it.each(Array.from({ length: COUNT }, (_, k) => FIRST + k))('scene %i', (seed) => {
    const { boat } = suiteScene(seed);
    const pairs = [...twinPairs(boat), ...easedPairs(boat, 5)].map((pair) => ({ ...pair, seed }));
    found.push(...pairs);
    expect(pairs.length).toBe(14 * 6);
  });

  it.each(['mirrored', 'shifted', 'turnedRound', 'renamed'])(
    '%s: the same lines are found, at nearly the same cost',
    (twin) => {
      const pairs = found.filter((pair) => pair.twin === twin);
      expect(pairs.filter((pair) => (pair.cost === null) !== (pair.twinCost === null))).toEqual([]);
      expect(quantile(pairs.map(wrongBy), 0.95)).toBeLessThanOrEqual(0.01);
    },
  );

  it.each(['obstacles gone', 'stiffer'])('%s: never the wrong way by more than half a per cent', (twin) => {
    expect(found.filter((pair) => pair.twin === twin && wrongBy(pair) > 0.005)).toEqual([]);
  });
});

afterAll(() => {
  for (const pair of found)
    if (wrongBy(pair) > 0.005)
      console.log(`seed ${pair.seed} ${pair.line} ${pair.twin}: ${pair.cost} against ${pair.twinCost}`);
  for (const twin of new Set(found.map((pair) => pair.twin))) {
    const wrong = found.filter((pair) => pair.twin === twin).map(wrongBy);
    console.log(
      JSON.stringify({
        twin,
        lines: wrong.length,
        p50: quantile(wrong, 0.5),
        p95: quantile(wrong, 0.95),
        worst: Math.max(...wrong),
      }),
    );
  }
});
