import { expect, it } from 'vitest';
import { DUBINS_WORDS } from '../support/dubins-oracle';
import { poses, quantile } from './dubins-poses';

/** Dubins 1957, as in dubins.test.ts: 200 poses for each word. */
it('keeps within 2 % of each of the six words for 95 of 100 poses', () => {
  const results = poses(71, 200);
  const figures = DUBINS_WORDS.map((word) => {
    const some = results.filter((one) => one.word === word);
    return {
      word,
      none: some.filter((one) => one.routed === null).length,
      p50: quantile(some, 0.5),
      p95: quantile(some, 0.95),
      below: some.filter((one) => one.routed !== null && one.routed < one.plane - 1e-4).length,
      boundAbove: some.filter((one) => one.bound > Math.min(one.plane, one.routed ?? one.plane)).length,
    };
  });
  console.log(figures.map((one) => JSON.stringify(one)).join('\n'));
  for (const one of figures) {
    expect(one.boundAbove).toBe(0);
    expect(one.p95).toBeLessThan(0.02);
  }
});
