import { expect, it } from 'vitest';
import { countScene } from './judged';

/** Derived, as in scenes.test.ts: sixty scenes, half of them with runs that are known to be there. */
it('routes sixty boats without one fault', () => {
  const counts = Array.from({ length: 60 }, (_, k) => {
    const count = countScene(101 + k, k % 2 === 0);
    const { seed, planted, lines, routed, violations, boundsAbove } = count;
    console.log(JSON.stringify({ seed, planted, lines, routed, violations, boundsAbove }));
    return count;
  });
  const tell = (name: string, some: typeof counts): void => {
    const gaps = some.flatMap((one) => one.gaps).sort((a, b) => a - b);
    const lines = some.reduce((sum, one) => sum + one.lines, 0);
    const routed = some.reduce((sum, one) => sum + one.routed, 0);
    const stiff = some.flatMap((one) => one.missedRadii).filter((r) => r >= 130).length;
    console.log(
      JSON.stringify({
        name,
        lines,
        routed,
        missShare: (lines - routed) / lines,
        missedStiff: stiff,
        proved: some.reduce((sum, one) => sum + one.proved, 0),
        gapMedian: gaps[gaps.length >> 1],
        gapP95: gaps[Math.floor(gaps.length * 0.95)],
      }),
    );
  };
  tell(
    'planted',
    counts.filter((one) => one.planted),
  );
  tell(
    'free',
    counts.filter((one) => !one.planted),
  );
  expect(counts.flatMap((one) => one.violations)).toEqual([]);
  expect(counts.flatMap((one) => one.boundsAbove)).toEqual([]);
  const planted = counts.filter((one) => one.planted);
  const missed = planted.reduce((sum, one) => sum + one.lines - one.routed, 0);
  expect(missed / planted.reduce((sum, one) => sum + one.lines, 0)).toBeLessThan(0.05);
});
