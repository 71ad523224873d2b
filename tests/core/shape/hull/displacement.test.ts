import type { Hull } from '@core/boat/schema/boat';
import { displacement, hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { box, canoe, vPrism, wedge, wigley, wineglass } from '../../../support/hull-shapes';
import { randomFrom } from '../../../support/random';

const HULLS: [string, Hull][] = [
  ['box', box(8, 3, 0.5)],
  ['V prism', vPrism(6, 2.4, 0.6, 0.6)],
  ['wedge', wedge(6, 2, 0.5)],
  ['Wigley', wigley(9, 3, 0.6, 21, 15, 0.8)],
  ['wineglass', wineglass()],
  ['canoe', canoe()],
];

describe('displacement', () => {
  // Derived: the same integral over the same triangles, once by plan areas and once by the sums that hydrostatics keeps.
  it.each(HULLS)('is the volume of hydrostatics, whatever the water: %s', (_name, hull) => {
    const surface = hullSurface(hull);
    const random = randomFrom(7);
    let wet = 0;
    for (let water = 0; water < 60; water++) {
      const up = [random() - 0.5, random() - 0.5, 0.4 + random()] as const;
      const levelM = 1.2 * (random() - 0.4);
      const { volumeM3 } = hydrostatics(surface, { up, levelM });
      expect(Math.abs(displacement(surface, { up, levelM }) - volumeM3)).toBeLessThan(1e-10 * Math.max(1, volumeM3));
      if (volumeM3 > 0) wet += 1;
    }
    expect(wet).toBeGreaterThan(30);
  });
});
