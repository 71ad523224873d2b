import { afterAll, expect, it } from 'vitest';
import { countScene, type SceneCount } from './judged';

/** Derived, as in scenes.test.ts: sixty scenes, half of them with runs that are known to be there. */
const SCENES = Array.from({ length: 60 }, (_, k) => ({ seed: 101 + k, planted: k % 2 === 0 }));
const counts: SceneCount[] = [];

it.each(SCENES)('routes scene $seed (planted: $planted) without a fault', ({ seed, planted }) => {
  const count = countScene(seed, planted);
  counts.push(count);
  console.log(JSON.stringify({ ...count, gaps: undefined }));
  expect(count.violations).toEqual([]);
  expect(count.boundsAbove).toEqual([]);
});

it('finds at least 95 of 100 runs that are known to be there', () => {
  const planted = counts.filter((one) => one.planted);
  const lines = planted.reduce((sum, one) => sum + one.lines, 0);
  const missed = planted.reduce((sum, one) => sum + one.lines - one.routed, 0);
  expect(missed).toBeLessThanOrEqual(0.05 * lines);
});

afterAll(() => {
  for (const planted of [true, false]) {
    const some = counts.filter((one) => one.planted === planted);
    const gaps = some.flatMap((one) => one.gaps).sort((a, b) => a - b);
    const lines = some.reduce((sum, one) => sum + one.lines, 0);
    const routed = some.reduce((sum, one) => sum + one.routed, 0);
    console.log(
      JSON.stringify({
        scenes: some.length,
        planted,
        lines,
        routed,
        missShare: (lines - routed) / lines,
        missedStiff: some.flatMap((one) => one.missedRadii).filter((r) => r >= 130).length,
        proved: some.reduce((sum, one) => sum + one.proved, 0),
        gapMedian: gaps[gaps.length >> 1],
        gapP95: gaps[Math.floor(gaps.length * 0.95)],
      }),
    );
  }
});
