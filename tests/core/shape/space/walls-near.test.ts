import { readFileSync } from 'node:fs';
import type { Vec3 } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import { layout } from '@core/engine/shape-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import { wallBody } from '@core/shape/space/convex';
import { wallsNear } from '@core/shape/space/walls-near';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../support/random';

describe('walls near a box', () => {
  // Derived: a look at every wall of the boat.
  it('are all whose plate or outline meets it, in the order of the layout', () => {
    const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
    if (!read.ok) throw new Error(read.problems[0]?.message);
    const derived = new Store(sourceOf(read.boat)).read(layout);
    const random = randomFrom(3);
    let met = 0;
    for (let box = 0; box < 300; box++) {
      const low: Vec3 = [12 * random() - 0.5, 4 * random() - 2, 3 * random() - 1];
      const high: Vec3 = [low[0] + 1.5 * random(), low[1] + random(), low[2] + random()];
      const near = wallsNear(derived, low, high).map(({ wall }) => wall);
      const meets = (points: readonly Vec3[]): boolean =>
        ([0, 1, 2] as const).every(
          (k) => Math.min(...points.map((p) => p[k])) <= high[k] && Math.max(...points.map((p) => p[k])) >= low[k],
        );
      const expected = derived.walls.filter((wall) => {
        const body = wallBody(wall, derived.panels);
        return meets([body.low, body.high]) || meets(wall.polygon);
      });
      expect(near).toEqual(expect.arrayContaining(expected));
      expect(near).toEqual(derived.walls.filter((wall) => near.includes(wall)));
      met += expected.length;
    }
    expect(met).toBeGreaterThan(300);
  });
});
