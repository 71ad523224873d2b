import { describe, expect, it } from 'vitest';
import { countSpare } from './spare';

/** Scenes by their seeds: SPARE_SEED is the first, SPARE_SCENES how many. */
const FIRST = Number(process.env.SPARE_SEED ?? 300);
const SCENES = Number(process.env.SPARE_SCENES ?? 30);

describe('spare length in scenes', () => {
  it('clears all, as an independent judge sees it, and is mostly laid', () => {
    const counts = Array.from({ length: SCENES }, (_, k) => countSpare(FIRST + k));
    const [asked, laid] = [counts.map((one) => one.asked), counts.map((one) => one.laid)].map((all) =>
      all.reduce((sum, count) => sum + count, 0),
    ) as [number, number];
    const kinds = counts.flatMap((one) => one.kinds);
    const shares = ['bulge', 'coil', 'wider'].map((kind) => `${kind} ${kinds.filter((one) => one === kind).length}`);
    process.stdout.write(`spare: ${laid} of ${asked} laid; ${shares.join(', ')}\n`);
    expect(counts.flatMap((one) => one.violations)).toEqual([]);
    expect(Math.max(...counts.map((one) => one.worstM))).toBeLessThan(2e-6);
    expect(laid / asked).toBeGreaterThan(0.4);
  });
});
