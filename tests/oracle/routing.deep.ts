import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { countScene, type SceneCount } from './suite-count';
import { offenders, RADIUS_CLASSES, suiteTable, WANTED_GAPS } from './suite-table';

/**
 * The router measured on scenes of a fixed mix (tests/support/suite-scene.ts). Derived: every cost is the oracle's own sum, every run is
 * judged by the oracle, and what can be routed is known by construction, by the deep search or by a search of another kind.
 *
 * ROUTING_SEED: first seed (1). ROUTING_SCENES: how many (300). ROUTING_LOG: file to which each scene is written as a line of JSON; scenes
 * that it holds already are not counted again. ROUTING_PARTS: of `grid,alone` what is done (default both).
 */
const FIRST = Number(process.env.ROUTING_SEED ?? 1);
const COUNT = Number(process.env.ROUTING_SCENES ?? 300);
const LOG = process.env.ROUTING_LOG;
const PARTS = (process.env.ROUTING_PARTS ?? 'grid,alone').split(',');

const known = new Map<number, SceneCount>();
if (LOG && existsSync(LOG))
  for (const row of readFileSync(LOG, 'utf8').split('\n').filter(Boolean)) {
    const count = JSON.parse(row) as SceneCount;
    known.set(count.seed, count);
  }
const counts: SceneCount[] = [];

describe('the router over scenes of a fixed mix', () => {
  it.each(Array.from({ length: COUNT }, (_, k) => FIRST + k))('scene %i', (seed) => {
    const before = known.get(seed);
    const count = before ?? countScene(seed, { grid: PARTS.includes('grid'), alone: PARTS.includes('alone') });
    counts.push(count);
    if (!before) {
      console.log(JSON.stringify(count));
      if (LOG) appendFileSync(LOG, `${JSON.stringify(count)}\n`);
    }
    expect(count.faults).toEqual([]);
    expect(count.lines.flatMap((line) => line.above)).toEqual([]);
  });

  it('finds nearly every run that is known, never proves one away, and comes near the best', () => {
    const table = suiteTable(counts);
    expect(table.proofsOnCounted).toBe(0);
    expect(table.fastMiss).toBeLessThanOrEqual(0.03);
    expect(table.deepMiss).toBeLessThanOrEqual(0.015);
    expect(table.deepNearBest).toBeGreaterThanOrEqual(0.9);
    if (PARTS.includes('alone')) {
      for (const [radius] of RADIUS_CLASSES) {
        const gap = table.gapAlone[radius];
        const [median, near] = WANTED_GAPS[radius];
        expect(gap?.median, `median of ${radius} mm`).toBeLessThanOrEqual(median);
        expect(gap?.near, `near ones of ${radius} mm`).toBeGreaterThanOrEqual(near);
      }
      expect(table.suction.below10mm).toBeGreaterThanOrEqual(0.8);
      expect(table.suction.lengthPrice).toBeLessThanOrEqual(0.005);
    }
  });
});

afterAll(() => {
  console.log(offenders(counts).join('\n'));
  console.log(JSON.stringify(suiteTable(counts), null, 1));
});
