import type { Vec3 } from '@core/base/vec';
import { FRAMES, project } from '@core/output/views/drawing';
import { kept, panned, zoomedAbout } from '@renderer/board/camera';
import {
  type Camera,
  fieldAt,
  pixelsPerMetreOf,
  sheetOf,
  toPaper,
  toScreen,
  transformOf,
  within,
  zoneAt,
} from '@renderer/board/sheet';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const extent = { low: [-0.1, -1.75, -1.7] as Vec3, high: [11.1, 1.75, 1.6] as Vec3 };
const sizes = fc.record({ w: fc.integer({ min: 500, max: 2600 }), h: fc.integer({ min: 380, max: 1500 }) });
const VIEWS = ['profile', 'plan', 'section'] as const;

describe('the sheet', () => {
  it('shows the whole boat in every view, at any size', () => {
    fc.assert(
      fc.property(sizes, ({ w, h }) => {
        const sheet = sheetOf(w, h, extent);
        for (const view of VIEWS)
          for (const x of [extent.low[0], extent.high[0]])
            for (const y of [extent.low[1], extent.high[1]])
              for (const z of [extent.low[2], extent.high[2]])
                expect(
                  within(
                    sheet.fields[view],
                    toScreen(transformOf(sheet, sheet.fit, view), project(FRAMES[view], [x, y, z])),
                  ),
                ).toBe(true);
      }),
    );
  });

  it('keeps its four fields inside the frame and apart', () => {
    fc.assert(
      fc.property(sizes, ({ w, h }) => {
        const { fields, inner } = sheetOf(w, h, extent);
        for (const f of Object.values(fields)) {
          expect(f.x).toBeGreaterThanOrEqual(inner.x - 1e-9);
          expect(f.x + f.w).toBeLessThanOrEqual(inner.x + inner.w + 1e-9);
          expect(f.y + f.h).toBeLessThanOrEqual(inner.y + inner.h + 1e-9);
        }
        expect(fields.profile.x + fields.profile.w).toBeLessThanOrEqual(fields.section.x + 1e-9);
        expect(fields.profile.y + fields.profile.h).toBeLessThanOrEqual(fields.plan.y + 1e-9);
      }),
    );
  });

  it('lays profile over plan and beside the section, so that projection lines are straight', () => {
    const sheet = sheetOf(924, 566, extent);
    const camera: Camera = { scale: 140, at: [4.2, -0.6, 0.1] };
    const p: Vec3 = [4.5, -0.8, 0.2];
    const on = (view: (typeof VIEWS)[number]) => toScreen(transformOf(sheet, camera, view), project(FRAMES[view], p));
    expect(on('profile')[0]).toBeCloseTo(on('plan')[0], 9);
    expect(on('profile')[1]).toBeCloseTo(on('section')[1], 9);
  });

  it('names zones by row and column (ISO 5457: letters down, numbers across)', () => {
    const sheet = sheetOf(924, 566, extent);
    const { inner } = sheet;
    expect(zoneAt(sheet, [inner.x + 1, inner.y + 1])).toBe('A1');
    expect(zoneAt(sheet, [inner.x + inner.w - 1, inner.y + inner.h - 1])).toBe('E8');
    // derived: column 3 of 8 spans 2/8 to 3/8 of the width, row B the second fifth of the height
    expect(zoneAt(sheet, [inner.x + inner.w * 0.3, inner.y + inner.h * 0.3])).toBe('B3');
  });

  it('counts its scale in CSS pixels of 1/96 inch', () => {
    // derived: 96 / 25.4 pixels a millimetre
    expect(pixelsPerMetreOf(50)).toBeCloseTo(3779.527559 / 50, 6);
  });

  it('finds the field under a point', () => {
    const sheet = sheetOf(924, 566, extent);
    const { section } = sheet.fields;
    expect(fieldAt(sheet, [section.x + 20, section.y + 20])).toBe('section');
    expect(fieldAt(sheet, [2, 2])).toBeNull();
  });
});

describe('the camera', () => {
  const sheet = sheetOf(924, 566, extent);
  const cameras = fc
    .record({
      scale: fc.double({ min: 50, max: 900, noNaN: true }),
      x: fc.double({ min: 0, max: 11, noNaN: true }),
      y: fc.double({ min: -1, max: 1, noNaN: true }),
      z: fc.double({ min: -1, max: 1, noNaN: true }),
    })
    .map(({ scale, x, y, z }): Camera => ({ scale, at: [x, y, z] }));

  it('zooms about the pointer: the boat point under it stays there', () => {
    fc.assert(
      fc.property(
        cameras,
        fc.constantFrom(...VIEWS),
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        (camera, view, factor) => {
          const pointer = [300, 200] as const;
          const before = toPaper(transformOf(sheet, camera, view), pointer);
          const after = toPaper(transformOf(sheet, zoomedAbout(sheet, camera, view, pointer, factor), view), pointer);
          expect(after[0]).toBeCloseTo(before[0], 9);
          expect(after[1]).toBeCloseTo(before[1], 9);
        },
      ),
    );
  });

  it('pans so that the drawing follows the hand', () => {
    fc.assert(
      fc.property(cameras, fc.constantFrom(...VIEWS), (camera, view) => {
        const there = toScreen(transformOf(sheet, camera, view), [0.3, 0.2]);
        const moved = toScreen(transformOf(sheet, panned(camera, view, 24, -13), view), [0.3, 0.2]);
        expect(moved[0] - there[0]).toBeCloseTo(24, 6);
        expect(moved[1] - there[1]).toBeCloseTo(-13, 6);
      }),
    );
  });

  it('keeps some of the boat in sight', () => {
    expect(kept({ scale: 100, at: [40, -9, 3] }, extent).at).toEqual([11.1, -1.75, 1.6]);
  });
});
