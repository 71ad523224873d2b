import { afterAll, expect, it } from 'vitest';
import { gapTable, type LineGap, sceneGaps } from './gap-causes';
import { WANTED_GAPS } from './suite-table';

/** Derived: costs by the router, bounds by their proof. GAP_SEED: where to begin. GAP_EFFORT: fast or deep. */
const FIRST = Number(process.env.GAP_SEED ?? 301);
const EFFORT = process.env.GAP_EFFORT === 'fast' ? 'fast' : 'deep';
const gaps: LineGap[] = [];

it.each(Array.from({ length: 30 }, (_, k) => FIRST + k))('holds no bound above a run in scene %i', (seed) => {
  const some = sceneGaps(seed, EFFORT);
  gaps.push(...some);
  expect(some.filter((one) => one.isAbove)).toEqual([]);
});

it('comes near the bounds, by radius', () => {
  for (const { radiusMm, median, near } of gapTable(gaps)) {
    const [most, least] = WANTED_GAPS[radiusMm];
    expect(median).toBeLessThanOrEqual(most);
    expect(near).toBeGreaterThanOrEqual(least);
  }
});

afterAll(() => {
  for (const row of gapTable(gaps)) console.log(JSON.stringify(row));
});
