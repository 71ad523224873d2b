import type { Vec3 } from '@core/base/vec';
import { FRAMES } from '@core/output/views/drawing';
import { panned, zoomed } from '@renderer/board/camera';
import { covers, grownBy, shownAt } from '@renderer/board/paint/still';
import type { View } from '@renderer/board/scene';
import { type Camera, sheetOf, toPaper, toScreen, transformOf } from '@renderer/board/sheet';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const extent = { low: [-0.1, -1.75, -1.7] as Vec3, high: [11.1, 1.75, 1.6] as Vec3 };
const sheet = sheetOf(1000, 580, extent);
const VIEWS = ['profile', 'plan', 'section'] as const;
const viewOf = (name: (typeof VIEWS)[number], camera: Camera, on = sheet): View => ({
  name,
  frame: FRAMES[name],
  t: transformOf(on, camera, name),
  field: on.fields[name],
  cut: null,
});

describe('pictures of the fields', () => {
  it('are taken of larger fields in which every point keeps its place', () => {
    const grown = grownBy(sheet, 160);
    for (const name of VIEWS) {
      const before = transformOf(sheet, sheet.fit, name);
      const after = transformOf(grown, sheet.fit, name);
      for (const key of ['scale', 'x', 'y'] as const) expect(after[key]).toBeCloseTo(before[key], 9);
      expect(covers(grown.fields[name], sheet.fields[name])).toBe(true);
    }
    expect(grown.fields.detail).toEqual(sheet.fields.detail);
  });

  it('are shown so that every point of the boat lies where a fresh drawing would put it', () => {
    const move = fc.record({
      dx: fc.integer({ min: -120, max: 120 }),
      dy: fc.integer({ min: -120, max: 120 }),
      factor: fc.double({ min: 0.7, max: 1.6, noNaN: true }),
      u: fc.double({ min: 0, max: 11, noNaN: true }),
      v: fc.double({ min: -1.5, max: 1.5, noNaN: true }),
    });
    fc.assert(
      fc.property(move, fc.constantFrom(...VIEWS), ({ dx, dy, factor, u, v }, name) => {
        const taken = viewOf(name, sheet.fit, grownBy(sheet, 160));
        const now = viewOf(name, zoomed(sheet, panned(sheet.fit, name, dx, dy), factor));
        const picture = shownAt({ view: taken, area: taken.field }, now);
        // derived: a point of the picture keeps its share of the picture's width and height
        const [x, y] = toScreen(taken.t, [u, v]);
        const shown = [
          picture.x + ((x - taken.field.x) / taken.field.w) * picture.w,
          picture.y + ((y - taken.field.y) / taken.field.h) * picture.h,
        ] as const;
        const [fu, fv] = toPaper(now.t, shown);
        expect(fu).toBeCloseTo(u, 6);
        expect(fv).toBeCloseTo(v, 6);
      }),
    );
  });

  it('end where a pan goes further than their margin', () => {
    const taken = viewOf('plan', sheet.fit, grownBy(sheet, 160));
    const reaches = (dx: number): boolean => {
      const now = viewOf('plan', panned(sheet.fit, 'plan', dx, 0));
      return covers(shownAt({ view: taken, area: taken.field }, now), now.field);
    };
    expect(reaches(150)).toBe(true);
    expect(reaches(170)).toBe(false);
  });
});
