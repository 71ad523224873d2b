import type { Vec2, Vec3 } from '@core/base/vec';
import type { Boat, Compartment } from '@core/boat/schema/boat';

import { prismOf } from '@core/shape/layout/prism';
import { compartmentVolume } from '@core/shape/layout/room';
import type { Layout } from '@core/shape/layout/types';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaInSpace, boxIn, compartment, layoutOf } from './boats';

const VIEWS = ['plan', 'profile', 'section'] as const;

/** A star-shaped outline about a centre: never crosses itself, mostly concave. */
const starOutline = fc
  .array(fc.double({ min: 0.15, max: 0.9, noNaN: true }), { minLength: 3, maxLength: 12 })
  .chain((radii) => fc.tuple(fc.constant(radii), fc.boolean(), fc.double({ min: 0, max: 6, noNaN: true })))
  .map(([radii, clockwise, start]) => {
    const outline = radii.map((r, i): Vec2 => {
      const angle = start + (i / radii.length) * 2 * Math.PI;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    });
    return clockwise ? outline.reverse() : outline;
  });
const shapes = fc.record({
  view: fc.constantFrom(...VIEWS),
  outline: starOutline,
  from: fc.double({ min: -1, max: 1, noNaN: true }),
  depth: fc.double({ min: 0.1, max: 1.5, noNaN: true }),
  yawDeg: fc.constantFrom(0, 0, 17, -41.5, 90),
});
const shoelace = (outline: readonly Vec2[]): number =>
  Math.abs(
    outline.reduce((s, p, i) => {
      const q = outline[(i + 1) % outline.length] as Vec2;
      return s + (p[0] * q[1] - q[0] * p[1]) / 2;
    }, 0),
  );

/** Volume by the divergence theorem over the polygons of a convex piece's planes: independent of how pieces were cut. */
function volumeOfCells(layout: Layout, id: string): number {
  return compartmentVolume(layout, null, id).volumeM3;
}

/** Area of all faces against walls and panels: a closed panel is one wall for two faces. */
function areas(compartments: Boat['compartments'], layout: Layout): readonly [number, number] {
  let faces = 0;
  for (const [id, record] of Object.entries(compartments))
    for (const face of prismOf(id, record)?.faces ?? [])
      for (const piece of face.pieces) faces += areaInSpace(piece.polygon);
  let plates = 0;
  for (const wall of layout.walls) plates += areaInSpace(wall.polygon) * (wall.panelId ? 2 : 1);
  return [faces, plates];
}

/** A row of boxes along x in several views, with gaps and offsets, none overlapping. */
const rowOfBoxes = fc
  .array(
    fc.record({
      view: fc.constantFrom(...VIEWS),
      long: fc.double({ min: 0.3, max: 1, noNaN: true }),
      gap: fc.constantFrom(0, 0, 0.012, 0.03, 0.2),
      y: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      z: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
    }),
    { minLength: 2, maxLength: 8 },
  )
  .map((rows) => {
    const out: Boat['compartments'] = {};
    let x = 0;
    rows.forEach(({ view, long, gap, y, z }, i) => {
      out[`c${i}`] = boxIn(view, [x, y - 0.5, z - 0.4], [x + long, y + 0.5, z + 0.4]);
      out[`d${i}`] = boxIn(view, [x, y - 0.5, z + 0.4 + gap], [x + long, y + 0.5, z + 0.9]);
      x += long + gap;
    });
    return out;
  });

function mirrored(record: Compartment): Compartment {
  const flip: Partial<Compartment> =
    record.view === 'plan'
      ? { outline: record.outline.map(([x, y]) => [x, -y]) }
      : record.view === 'section'
        ? { outline: record.outline.map(([y, z]) => [-y, z]) }
        : { rangeM: [-record.rangeM[1], -record.rangeM[0]] };
  return { ...record, ...flip, yawDeg: -record.yawDeg };
}

const rounded = (n: number): number => Math.round(n * 1e6) / 1e6 + 0;
/** A polygon as a set of corners, to compare polygons walked in opposite directions. */
const cornerSet = (polygon: readonly Vec3[], sign: 1 | -1): string =>
  polygon
    .map((p) => [rounded(p[0]), rounded(sign * p[1]), rounded(p[2])].join(' '))
    .sort()
    .join(' | ');
const shapeOf = (layout: Layout, sign: 1 | -1) => ({
  cells: layout.cells.map((c) => `${c.compartment}: ${cornerSet(c.corners, sign)}`).sort(),
  portals: layout.portals.map((p) => `${p.kind}: ${cornerSet(p.polygon, sign)}`).sort(),
  walls: layout.walls.reduce((s, w) => s + areaInSpace(w.polygon), 0).toFixed(7),
  panels: Object.values(layout.panels)
    .map((p) => `${p.between} ${p.areaM2.toFixed(7)} ${p.gapM.toFixed(7)}`)
    .sort(),
});

/** Corners on a coarse grid: repeated, collinear, touching and crossing outlines all come up. */
const anyOutline = fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 })), {
  minLength: 3,
  maxLength: 10,
});

describe('any outline that the schema allows', () => {
  it('gives a layout, and says which compartments are flawed', () => {
    const record = fc.record({
      view: fc.constantFrom(...VIEWS),
      outline: anyOutline,
      from: fc.integer({ min: 0, max: 3 }),
      depth: fc.integer({ min: 0, max: 2 }),
      yawDeg: fc.constantFrom(0, 0, 30, 90),
    });
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 5 }), (records) => {
        const boat = Object.fromEntries(
          records.map(({ view, outline, from, depth, yawDeg }, i) => [
            `c${i}`,
            compartment(view, outline, [from, from + depth], { yawDeg }),
          ]),
        );
        const layout = layoutOf(boat);
        const left = new Set(layout.flaws.filter((f) => f.reason === 'noVolume').map((f) => f.compartment));
        for (const id of Object.keys(boat)) expect((layout.cellsOf[id]?.length ?? 0) > 0).toBe(!left.has(id));
        for (const cell of layout.cells)
          for (const p of cell.corners) for (const v of p) expect(Number.isFinite(v)).toBe(true);
        for (const wall of layout.walls) expect(areaInSpace(wall.polygon)).toBeGreaterThan(0);
        for (const panel of Object.values(layout.panels)) expect(panel.areaM2).toBeGreaterThan(0);
        for (const { depthM, at } of layout.overlaps) {
          expect(depthM).toBeGreaterThan(0.004);
          expect(at.every(Number.isFinite)).toBe(true);
        }
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});

describe('overlaps of compartments', () => {
  it('are the least shift that parts two boxes, wherever they are drawn', () => {
    const number = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...VIEWS),
        fc.constantFrom(...VIEWS),
        fc.tuple(number(-1, 1), number(-1, 1), number(-1, 1)),
        (one, other, [x, y, z]) => {
          const layout = layoutOf({
            a: boxIn(one, [0, 0, 0], [1, 0.8, 0.6]),
            b: boxIn(other, [x, y, z], [x + 0.5, y + 0.7, z + 0.9]),
          });
          // derived: the least overlap of the two ranges along x, y and z, from either side
          const shifts = [
            [0, 1, x, x + 0.5],
            [0, 0.8, y, y + 0.7],
            [0, 0.6, z, z + 0.9],
          ].map(([a, b, c, d]) => Math.min((b as number) - (c as number), (d as number) - (a as number)));
          const least = Math.min(...shifts);
          if (least <= 0.004) expect(layout.overlaps).toEqual([]);
          else {
            expect(layout.overlaps[0]?.depthM).toBeCloseTo(least, 9);
            const at = layout.overlaps[0]?.at as Vec3;
            expect(at.every((v, k) => v >= Math.max(0, [x, y, z][k] as number) - 1e-9)).toBe(true);
          }
        },
      ),
      { numRuns: 200, seed: 12 },
    );
  });
});

describe('invariants of the layout', () => {
  it('cuts any simple outline into convex pieces that add up to the prism', () => {
    fc.assert(
      fc.property(shapes, ({ view, outline, from, depth, yawDeg }) => {
        const layout = layoutOf({ a: compartment(view, outline, [from, from + depth], { yawDeg }) });
        // derived: area of the outline by the shoelace formula times the range
        expect(volumeOfCells(layout, 'a')).toBeCloseTo(shoelace(outline) * depth, 5);
        for (const cell of layout.cells)
          for (const { normal, offset } of cell.planes)
            for (const p of cell.corners)
              expect(normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2]).toBeLessThanOrEqual(offset + 1e-6);
        // a tree of pieces hangs together by one cut fewer than pieces
        expect(layout.portals.length).toBe(layout.cells.length - 1);
      }),
      { numRuns: 150, seed: 4 },
    );
  });

  it('does not depend on the direction in which an outline was drawn', () => {
    fc.assert(
      fc.property(shapes, ({ view, outline, from, depth, yawDeg }) => {
        const one = layoutOf({ a: compartment(view, outline, [from, from + depth], { yawDeg }) });
        const other = layoutOf({ a: compartment(view, [...outline].reverse(), [from + depth, from], { yawDeg }) });
        expect(volumeOfCells(other, 'a')).toBeCloseTo(volumeOfCells(one, 'a'), 9);
        expect(other.walls.length).toBe(one.walls.length);
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  it('shares out every face between walls and panels', () => {
    fc.assert(
      fc.property(rowOfBoxes, (boat) => {
        const layout = layoutOf(boat);
        const [faces, plates] = areas(boat, layout);
        expect(plates).toBeCloseTo(faces, 6);
        expect(layout.overlaps).toEqual([]);
      }),
      { numRuns: 60, seed: 6 },
    );
  });

  it('is mirrored when the boat is mirrored', () => {
    fc.assert(
      fc.property(rowOfBoxes, shapes, (boat, shape) => {
        const all: Boat['compartments'] = {
          ...boat,
          s: compartment(shape.view, shape.outline, [shape.from + 20, shape.from + 20 + shape.depth], {
            yawDeg: shape.yawDeg,
          }),
        };
        const flipped = Object.fromEntries(Object.entries(all).map(([id, c]) => [id, mirrored(c)]));
        expect(shapeOf(layoutOf(flipped), -1)).toEqual(shapeOf(layoutOf(all), 1));
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('is mirrored even where an outline is its own mirror image and cuts could fall either way', () => {
    const plus: Vec2[] = [
      [1, 0],
      [2, 0],
      [2, 1],
      [3, 1],
      [3, 2],
      [2, 2],
      [2, 3],
      [1, 3],
      [1, 2],
      [0, 2],
      [0, 1],
      [1, 1],
    ];
    const tee: Vec2[] = [
      [0, -1],
      [0.4, -1],
      [0.4, -0.2],
      [2, -0.2],
      [2, 0.2],
      [0.4, 0.2],
      [0.4, 1],
      [0, 1],
    ];
    for (const view of VIEWS)
      for (const outline of [plus, tee]) {
        const record = compartment(view, outline, [0.1, 1]);
        expect(shapeOf(layoutOf({ a: mirrored(record) }), -1)).toEqual(shapeOf(layoutOf({ a: record }), 1));
      }
  });

  it('does not depend on the order of the records', () => {
    fc.assert(
      fc.property(rowOfBoxes, (boat) => {
        const turned = Object.fromEntries(Object.entries(boat).reverse());
        expect(JSON.stringify(layoutOf(turned))).toBe(JSON.stringify(layoutOf(boat)));
      }),
      { numRuns: 30, seed: 8 },
    );
  });

  it('finds the same panels when the whole boat is yawed', () => {
    // Each box is turned about its own middle, so the middles are moved as well to turn the pair as one.
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), fc.constantFrom(...VIEWS), (yawDeg, view) => {
        const straight = {
          a: boxIn(view, [-0.5, -0.4, 0], [0.5, 0.4, 1]),
          b: boxIn('plan', [0.52, -0.2, 0.1], [1.5, 0.4, 0.9]),
        };
        const angle = (yawDeg * Math.PI) / 180;
        const centre: Vec2 = [1.01, 0.1];
        const dx = centre[0] * Math.cos(angle) - centre[1] * Math.sin(angle) - centre[0];
        const dy = centre[0] * Math.sin(angle) + centre[1] * Math.cos(angle) - centre[1];
        const turned = {
          a: { ...straight.a, yawDeg },
          b: {
            ...straight.b,
            outline: straight.b.outline.map(([x, y]) => [x + dx, y + dy] as [number, number]),
            yawDeg,
          },
        };
        const [one, other] = [layoutOf(straight), layoutOf(turned)];
        expect(Object.keys(other.panels)).toEqual(Object.keys(one.panels));
        expect(other.panels['a|b']?.areaM2).toBeCloseTo(one.panels['a|b']?.areaM2 as number, 7);
        expect(other.panels['a|b']?.gapM).toBeCloseTo(0.02, 7);
        expect(other.overlaps).toEqual([]);
      }),
      { numRuns: 60, seed: 9 },
    );
  });

  it('keeps the id of a panel when an unrelated compartment changes', () => {
    fc.assert(
      fc.property(rowOfBoxes, fc.nat(), (boat, pick) => {
        const ids = Object.keys(boat);
        const gone = ids[pick % ids.length] as string;
        const { [gone]: _, ...rest } = boat;
        const before = Object.keys(layoutOf(boat).panels).filter((id) => !id.split(/[|#]/).includes(gone));
        // What stood in a gap may give way to a panel between its neighbours: no id is lost and none changes.
        expect(Object.keys(layoutOf(rest).panels)).toEqual(expect.arrayContaining(before));
      }),
      { numRuns: 40, seed: 10 },
    );
  });
});
