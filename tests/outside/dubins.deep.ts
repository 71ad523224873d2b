import { describe, expect, it } from 'vitest';
import { DUBINS_WORDS } from '../support/dubins-oracle';
import { poses, quantile } from './dubins-poses';

/** Dubins 1957, as in dubins.test.ts: 200 poses for each word, ten times over. Other poses: DUBINS_SEED. */
const FIRST = Number(process.env.DUBINS_SEED ?? 71);

describe.each(Array.from({ length: 10 }, (_, k) => FIRST + k))('poses of seed %i', (seed) => {
  const results = poses(seed, 200);
  const figures = DUBINS_WORDS.map((word) => {
    const some = results.filter((one) => one.word === word);
    return {
      word,
      p50: quantile(some, 0.5),
      p95: quantile(some, 0.95),
      worst: quantile(some, 1),
      below: some.filter((one) => one.routed !== null && one.routed < one.plane - 1e-4).length,
    };
  });
  console.log(figures.map((one) => JSON.stringify({ seed, ...one })).join('\n'));

  it('are all found', () => {
    expect(results.filter((one) => one.routed === null).map(({ word, pose }) => `${word}: ${pose}`)).toEqual([]);
  });
  it('give curves that a hose may follow', () => {
    expect(results.flatMap((one) => one.faults)).toEqual([]);
  });
  it('keep within 2 % of each word for 95 of 100, within 5 % for all that are found', () => {
    for (const { word } of figures) {
      const found = results.filter((one) => one.word === word && one.routed !== null);
      expect(quantile(found, 0.95)).toBeLessThan(0.02);
      expect(quantile(found, 1)).toBeLessThan(0.05);
    }
  });
  it('are bounded from below', () => {
    expect(results.filter((one) => one.bound > Math.min(one.plane, one.routed ?? one.plane))).toEqual([]);
  });
});
