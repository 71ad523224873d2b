import { readdirSync, readFileSync } from 'node:fs';
import { boatSchema } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';

import { prismOf } from '@core/shape/layout/prism';
import { compartmentVolume } from '@core/shape/layout/room';
import { describe, expect, it } from 'vitest';
import { areaInSpace, layoutOf } from './boats';

const FOLDER = 'sample-boats/complete';

describe('the layout of the complete sample boats', () => {
  for (const name of readdirSync(FOLDER)) {
    const boat = boatSchema.parse(JSON.parse(readFileSync(`${FOLDER}/${name}/boat.json`, 'utf8')));
    const layout = layoutOf(boat.compartments, { panels: boat.panels });

    it(`of ${name} has no flaw, no overlap and no record without its panel`, () => {
      expect([layout.flaws, layout.overlaps, layout.orphans]).toEqual([[], [], []]);
    });
    it(`of ${name} shares out every face between walls and panels`, () => {
      const faces = Object.entries(boat.compartments)
        .flatMap(([id, record]) => prismOf(id, record)?.faces ?? [])
        .flatMap((face) => face.pieces)
        .reduce((s, piece) => s + areaInSpace(piece.polygon), 0);
      const walls = layout.walls.reduce((s, w) => s + areaInSpace(w.polygon) * (w.panelId ? 2 : 1), 0);
      const open = Object.values(layout.panels).reduce((s, p) => s + (p.rule === 'open' ? 2 * p.areaM2 : 0), 0);
      // Faces up to a degree apart are projected onto each other: at most 1.5 parts in ten thousand of a face.
      expect(Math.abs(walls + open - faces)).toBeLessThan(1e-4 * faces);
    });
    it(`of ${name} leaves every compartment some room inside the hull, and none more than its outline`, () => {
      const hull = boat.hull ? hullSurface(boat.hull) : null;
      for (const id of Object.keys(boat.compartments)) {
        const room = compartmentVolume(layout, hull, id).volumeM3;
        expect(room).toBeGreaterThan(0.001);
        expect(room).toBeLessThanOrEqual(compartmentVolume(layout, null, id).volumeM3 * (1 + 1e-6));
      }
    });
  }
});
