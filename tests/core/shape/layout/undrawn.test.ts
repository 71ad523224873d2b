import { readFileSync } from 'node:fs';
import { signedArea } from '@core/base/ring';
import { boatSchema, type Hull } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import { clipHalfPlane } from '@core/shape/layout/polygon';
import { sectionWithin, slicesBetween } from '@core/shape/layout/room';
import { slivers, undrawnSpace } from '@core/shape/layout/undrawn';
import { describe, expect, it } from 'vitest';
import { box } from '../../../support/hull-shapes';
import { boxIn, compartment, layoutOf } from './boats';

/** Box 8 x 3 m from z = -0.5 to 1, without a shell. */
const HULL = hullSurface(box(8, 3, 0.5));

describe('undrawn space', () => {
  it('of an empty boat is its interior, in one piece', () => {
    const got = undrawnSpace(layoutOf({}), HULL);
    expect(got.volumeM3).toBeCloseTo(36, 9);
    expect(got.gapsM3).toBeCloseTo(0, 9);
    expect(got.pieces.length).toBe(1);
    expect(got.pieces[0]?.at.map((v) => Math.round(v * 1e6) / 1e6 + 0)).toEqual([4, 0, 0.25]);
  });

  it('is told apart where compartments part it, largest piece first', () => {
    // A wall of compartments amidships, another over the whole breadth of the after half but for a bilge under it.
    const layout = layoutOf({
      aft: boxIn('section', [0, -2, -0.2], [4, 2, 2]),
      middle: boxIn('plan', [4, -2, -1], [5, 2, 2]),
    });
    const { pieces, volumeM3, gapsM3 } = undrawnSpace(layout, HULL);
    expect(volumeM3).toBeCloseTo(4 * 3 * 0.3 + 3 * 3 * 1.5, 6);
    expect(pieces.map(({ volumeM3: v }) => Math.round(v * 1000) / 1000)).toEqual([13.5, 3.6]);
    expect(pieces[1]?.high.map((v) => Math.round(v * 100) / 100)).toEqual([4, 1.5, -0.2]);
    expect(gapsM3).toBeCloseTo(0, 6);
  });

  it('does not take the thickness of a panel for a space', () => {
    const layout = layoutOf({
      a: boxIn('plan', [-1, -2, -1], [9, -0.01, 2]),
      b: boxIn('plan', [-1, 0.01, -1], [9, 2, 2]),
    });
    const { pieces, gapsM3 } = undrawnSpace(layout, HULL);
    expect(pieces).toEqual([]);
    expect(gapsM3).toBeCloseTo(8 * 0.02 * 1.5, 6);
  });

  it('counts space that two compartments share once', () => {
    const layout = layoutOf({
      a: boxIn('plan', [-1, -2, -1], [5, 2, 2]),
      b: boxIn('plan', [3, -2, -1], [9, 2, 2]),
    });
    expect(undrawnSpace(layout, HULL).volumeM3).toBeCloseTo(0, 9);
  });
});

describe('undrawn space of the complete sample boat', () => {
  // Derived by another way: the interior less each cell's own share of every slice, up to the sheer; the compartments are disjoint.
  it('is what its compartments leave', () => {
    const boat = boatSchema.parse(JSON.parse(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8')));
    const hull = hullSurface(boat.hull as Hull);
    const layout = layoutOf(boat.compartments);
    expect(layout.overlaps).toEqual([]);
    let drawnM3 = 0;
    const corners = layout.cells.flatMap((cell) => cell.corners.map((p) => p[0]));
    for (const { x, widthM } of slicesBetween(hull.aftM, hull.forwardM, [...hull.columnsM, ...corners]))
      for (const ring of hull.insideAt(x)) {
        const below = clipHalfPlane(ring, 0, 1, hull.sheerAt(x));
        for (const cell of layout.cells)
          if (x > cell.low[0] && x < cell.high[0] && below.length > 2)
            drawnM3 += widthM * signedArea(sectionWithin(below, cell.planes, x));
      }
    const { interiorM3, volumeM3 } = undrawnSpace(layout, hull);
    expect(drawnM3).toBeGreaterThan(0.5 * interiorM3);
    expect(Math.abs(drawnM3 + volumeM3 - interiorM3) / interiorM3).toBeLessThan(1e-6);
  });
});

describe('slivers', () => {
  it('are gaps, overlaps and compartments thinner than 5 mm, with their places', () => {
    const layout = layoutOf({
      a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
      gap: boxIn('plan', [1.003, 0, 0], [2, 1, 1]),
      panel: boxIn('plan', [-1, 0, 0], [-0.012, 1, 1]),
      thin: compartment(
        'section',
        [
          [3, 0],
          [4, 0],
          [4, 0.004],
          [3, 0.004],
        ],
        [0, 1],
      ),
    });
    const got = slivers(layout);
    expect(got.map(({ kind, compartments }) => [kind, [...compartments].sort()])).toEqual([
      ['gap', ['a', 'gap']],
      ['compartment', ['thin']],
    ]);
    expect(got[0]?.thicknessM).toBeCloseTo(0.003, 9);
    expect(got[0]?.at[0]).toBeCloseTo(1.0015, 6);
    expect(got[1]?.thicknessM).toBeCloseTo(0.004, 9);
  });

  it('are shallow overlaps too', () => {
    const layout = layoutOf({
      a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
      b: boxIn('plan', [0.9955, 0.2, 0.2], [2, 0.8, 0.8]),
    });
    const got = slivers(layout);
    expect(got.map(({ kind }) => kind)).toEqual(['overlap']);
    expect(got[0]?.thicknessM).toBeCloseTo(0.0045, 6);
  });
});
