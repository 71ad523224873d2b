import { rotationOf, type Vec3 } from '@core/base/vec';
import { gapBetween, overlap, overlapWithHull, overlapWithWall } from '@core/shape/space/overlap';
import type { Solid } from '@core/shape/space/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from '../layout/boats';
import { box, capsule, cylinder, flip, isInside, mirroredSolid, vHull } from './scenes';

const moved = (s: Solid, by: Vec3): Solid =>
  s.type === 'box'
    ? { ...s, centre: [s.centre[0] + by[0], s.centre[1] + by[1], s.centre[2] + by[2]] }
    : {
        ...s,
        from: [s.from[0] + by[0], s.from[1] + by[1], s.from[2] + by[2]],
        to: [s.to[0] + by[0], s.to[1] + by[1], s.to[2] + by[2]],
      };

describe('overlap of two solids, by hand', () => {
  it('is the least shift of two square boxes', () => {
    // derived: shadows overlap 0.1, 0.3 and 0.4 m; 0.1 along x is least.
    const found = overlap(box('a', [0, 0, 0], [1, 1, 1]), box('b', [0.9, 0.7, 0.6], [1, 1, 1]));
    expect(found?.depthM).toBeCloseTo(0.1, 12);
    expect(found?.way).toEqual([-1, 0, 0]);
    expect(found?.at[0]).toBeCloseTo(0.45, 12);
    expect(found?.at[1]).toBeCloseTo(0.35, 12);
    expect(found?.at[2]).toBeCloseTo(0.3, 12);
  });
  it('is measured along the diagonal where a box stands on its edge', () => {
    // derived: the turned unit box reaches to x = sqrt(1/2) = 0.7071 at an edge; the other begins at 0.6.
    const found = overlap(box('a', [0, 0, 0], [1, 1, 1], { yawDeg: 45 }), box('b', [1.6, 0, 0], [2, 3, 3]));
    expect(found?.depthM).toBeCloseTo(Math.SQRT1_2 - 0.6, 12);
  });
  it('is nothing for boxes that touch or stand apart edge to edge', () => {
    expect(overlap(box('a', [0, 0, 0], [1, 1, 1]), box('b', [1, 0, 0], [1, 1, 1]))).toBeNull();
    // derived: only the product of two edges parts these: each is yawed or rolled 45 degrees and they miss by the corner.
    expect(
      overlap(
        box('a', [0, 0, 0], [2, 0.2, 0.2], { rollDeg: 45 }),
        box('b', [0, 0, 0.29], [0.2, 2, 0.2], { pitchDeg: 45 }),
      ),
    ).toBeNull();
    // derived: both edges at 0.1 sqrt 2 = 0.14142 from their middles: 0.28 apart they share 2 x 0.14142 - 0.28
    const crossed = overlap(
      box('a', [0, 0, 0], [2, 0.2, 0.2], { rollDeg: 45 }),
      box('b', [0, 0, 0.28], [0.2, 2, 0.2], { pitchDeg: 45 }),
    );
    expect(crossed?.depthM).toBeCloseTo(0.2 * Math.SQRT2 - 0.28, 9);
  });
  it('of a box and the round side of a cylinder is radius less distance', () => {
    // derived: upright cylinder of radius 0.2 with its axis 0.15 m from the face of the box.
    const found = overlap(box('a', [0, 0, 0], [1, 1, 1]), cylinder('b', [0.65, 0, -0.3], [0.65, 0, 0.3], 0.2));
    expect(found?.depthM).toBeCloseTo(0.05, 4);
    // derived: the same axis off the upright edge of the box by (0.1, 0.1): 0.2 - 0.1 sqrt 2
    const edge = overlap(box('a', [0, 0, 0], [1, 1, 1]), cylinder('b', [0.6, 0.6, -0.3], [0.6, 0.6, 0.3], 0.2));
    expect(edge?.depthM).toBeCloseTo(0.2 - 0.1 * Math.SQRT2, 4);
    expect(
      overlap(box('a', [0, 0, 0], [1, 1, 1]), cylinder('b', [0.65, 0.65, -0.3], [0.65, 0.65, 0.3], 0.2)),
    ).toBeNull();
  });
  it('of two cylinders is measured between axes, or over the end', () => {
    // derived: crossed axes 0.25 m apart, radii 0.1 and 0.2
    const crossed = overlap(cylinder('a', [-1, 0, 0], [1, 0, 0], 0.1), cylinder('b', [0, -1, 0.25], [0, 1, 0.25], 0.2));
    expect(crossed?.depthM).toBeCloseTo(0.05, 4);
    // derived: stood on each other, 0.03 m into the end
    const stacked = overlap(cylinder('a', [0, 0, 0], [0, 0, 1], 0.3), cylinder('b', [0.1, 0, 0.97], [0.1, 0, 2], 0.3));
    expect(stacked?.depthM).toBeCloseTo(0.03, 6);
  });
  it('of a hose and a box counts the round end', () => {
    const found = overlap(box('a', [0, 0, 0], [1, 1, 1]), capsule('h', [0.51, 0, 0], [1, 0, 0], 0.02));
    expect(found?.depthM).toBeCloseTo(0.01, 4);
  });
});

const point = (reach: number) =>
  fc.tuple(
    fc.double({ min: -reach, max: reach, noNaN: true }),
    fc.double({ min: -reach, max: reach, noNaN: true }),
    fc.double({ min: -reach, max: reach, noNaN: true }),
  );
const angle = fc.double({ min: -180, max: 180, noNaN: true });
const sideLength = fc.double({ min: 0.1, max: 0.8, noNaN: true });
const anySolid = (id: string) =>
  fc.oneof(
    fc
      .tuple(point(0.4), sideLength, sideLength, sideLength, angle, angle, angle)
      .map(([c, x, y, z, yawDeg, pitchDeg, rollDeg]) => box(id, c, [x, y, z], { yawDeg, pitchDeg, rollDeg })),
    fc.tuple(point(0.4), sideLength, sideLength, angle, angle).map(([c, long, across, yawDeg, pitchDeg]) => {
      const axis = rotationOf({ yawDeg, pitchDeg, rollDeg: 0 })[0];
      const end = (k: number): Vec3 => [c[0] + axis[0] * k, c[1] + axis[1] * k, c[2] + axis[2] * k];
      return cylinder(id, end(-long / 2), end(long / 2), across / 2);
    }),
  );

describe('overlap of any two solids', () => {
  it('is undone by the shift that it names, and not by 0.2 mm less', () => {
    fc.assert(
      fc.property(anySolid('a'), anySolid('b'), (a, b) => {
        const found = overlap(a, b);
        if (!found) return;
        const by = (k: number): Vec3 => [found.way[0] * k, found.way[1] * k, found.way[2] * k];
        expect(overlap(moved(a, by(found.depthM + 1e-5)), b)).toBeNull();
        if (found.depthM > 3e-4) expect(overlap(moved(a, by(found.depthM - 2e-4)), b)).not.toBeNull();
        expect(
          isInside({ ...a, ...grown(a) } as Solid, found.at) && isInside({ ...b, ...grown(b) } as Solid, found.at),
        ).toBe(true);
      }),
      { numRuns: 300, seed: 1 },
    );
  });
  it('is found whenever a sampled point lies in both, and no direction of 2,000 parts them sooner', () => {
    fc.assert(
      fc.property(anySolid('a'), anySolid('b'), (a, b) => {
        const found = overlap(a, b);
        const shared = samples.filter((p) => isInside(a, p) && isInside(b, p));
        if (shared.length > 0) expect(found).not.toBeNull();
        if (!found) return;
        for (const d of directions) {
          const shadow = reach(a, d) + reach(b, [-d[0], -d[1], -d[2]]);
          expect(shadow).toBeGreaterThan(found.depthM - 1e-4);
        }
      }),
      { numRuns: 120, seed: 2 },
    );
  });
  it('does not depend on the order or on the side of the boat', () => {
    fc.assert(
      fc.property(anySolid('a'), anySolid('b'), (a, b) => {
        const one = overlap(a, b);
        expect(overlap(b, a)?.depthM ?? 0).toBeCloseTo(one?.depthM ?? 0, 4);
        expect(overlap(mirroredSolid(a), mirroredSolid(b))?.depthM ?? 0).toBeCloseTo(one?.depthM ?? 0, 4);
      }),
      { numRuns: 200, seed: 3 },
    );
  });
});

/** A solid grown by 0.1 mm: a cylinder by the half per cent that the prism around it stands out. */
const grown = (s: Solid) =>
  s.type === 'box'
    ? { half: [s.half[0] + 1e-4, s.half[1] + 1e-4, s.half[2] + 1e-4] }
    : { radius: s.radius * 1.005 + 1e-4 };
const samples: Vec3[] = Array.from({ length: 12 ** 3 }, (_, i) => [
  ((i % 12) - 5.5) / 8,
  ((Math.floor(i / 12) % 12) - 5.5) / 8,
  (Math.floor(i / 144) - 5.5) / 8,
]);
/** A spiral of directions over the sphere. */
const directions: Vec3[] = Array.from({ length: 2000 }, (_, i) => {
  const z = 1 - (2 * i + 1) / 2000;
  const r = Math.sqrt(1 - z * z);
  return [r * Math.cos(i * 2.399963), r * Math.sin(i * 2.399963), z];
});
/** Support of a solid along d, written from the definition of its shape. */
function reach(s: Solid, d: Vec3): number {
  const product = (p: Vec3, q: Vec3): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
  if (s.type === 'box')
    return (
      product(s.centre, d) +
      s.axes.reduce((sum, axis, k) => sum + Math.abs(product(axis, d)) * (s.half[k] as number), 0)
    );
  const span: Vec3 = [s.to[0] - s.from[0], s.to[1] - s.from[1], s.to[2] - s.from[2]];
  const share = product(span, d) ** 2 / product(span, span);
  return Math.max(product(s.from, d), product(s.to, d)) + s.radius * Math.sqrt(Math.max(0, 1 - share));
}

describe('gap between two solids', () => {
  it('is measured corner to corner, face to face, and negative where they overlap', () => {
    // derived: corners 0.03, 0.04 and 0.12 m apart along the axes: 0.13 m
    const corner = gapBetween(box('a', [0, 0, 0], [1, 1, 1]), box('b', [1.03, 1.04, 1.12], [1, 1, 1]));
    expect(corner.gapM).toBeCloseTo(0.13, 9);
    expect(corner.at.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([0.515, 0.52, 0.56]);
    expect(gapBetween(box('a', [0, 0, 0], [1, 1, 1]), cylinder('c', [0, 0, 0.6], [0, 0, 2], 0.3)).gapM).toBeCloseTo(
      0.1,
      9,
    );
    expect(gapBetween(box('a', [0, 0, 0], [1, 1, 1]), cylinder('c', [0, 0, 0.45], [0, 0, 2], 0.3)).gapM).toBeCloseTo(
      -0.05,
      6,
    );
    expect(gapBetween(box('a', [0, 0, 0], [1, 1, 1]), box('b', [1, 0, 0], [1, 1, 1])).gapM).toBe(0);
  });
});

describe('overlap with the hull', () => {
  it('is the depth of the deepest corner beyond the inner face', () => {
    // derived: corner at y 0.5, z -0.2: (z + 0.5 - y) / sqrt 2 = -0.2 / sqrt 2, and 0.03 m more for the inset.
    const found = overlapWithHull(box('a', [4, 0.3, 0], [0.4, 0.4, 0.4]), vHull(0.03));
    expect(found?.depthM).toBeCloseTo(0.2 / Math.SQRT2 + 0.03, 4);
    expect(found?.at[1]).toBeCloseTo(0.5, 6);
    expect(found?.at[2]).toBeCloseTo(-0.2, 6);
    expect(found?.way[1]).toBeCloseTo(-Math.SQRT1_2, 6);
    expect(overlapWithHull(box('a', [4, 0, 0.5], [0.4, 0.4, 0.4]), vHull(0.03))).toBeNull();
  });
  it('is the same to port and starboard, for a box and for a cylinder', () => {
    for (const solid of [
      box('a', [4, 0.3, 0], [0.4, 0.4, 0.4], { yawDeg: 20, rollDeg: 11 }),
      cylinder('c', [4, 0.3, 0], [4.5, 0.5, 0.1], 0.15),
    ]) {
      const port = overlapWithHull(solid, vHull());
      const starboard = overlapWithHull(mirroredSolid(solid), vHull());
      expect(port?.depthM).toBeGreaterThan(0.05);
      expect(starboard?.depthM).toBeCloseTo(port?.depthM as number, 9);
      expect(flip(starboard?.at as Vec3)[1]).toBeCloseTo(port?.at[1] as number, 3);
    }
  });
  it('of a lying cylinder is its round side beyond the skin', () => {
    // derived: axis at y = 0.3, z = 0: (0.5 - 0.3) / sqrt 2 = 0.14142 from the skin; radius 0.2.
    const found = overlapWithHull(cylinder('c', [3, 0.3, 0], [5, 0.3, 0], 0.2), vHull());
    expect(found?.depthM).toBeCloseTo(0.2 - 0.2 / Math.SQRT2, 3);
  });
});

describe('overlap with a wall', () => {
  const layout = layoutOf({ a: boxIn('plan', [0, 0, 0], [1, 1, 1]), b: boxIn('plan', [1.02, 0, 0], [2, 1, 1]) });
  const wall = layout.walls.find((w) => w.panelId === 'a|b');
  if (!wall) throw new Error('expected a wall for the panel a|b');
  it('counts from the drawn outline', () => {
    // derived: the box ends at x = 0.99, then 1.0, then 1.013; the panel fills 1.00 to 1.02.
    const at = (x: number) => overlapWithWall(box('p', [x - 0.2, 0.5, 0.5], [0.4, 0.4, 0.4]), wall, layout.panels);
    expect(at(0.99)).toBeNull();
    expect(at(1)).toBeNull();
    expect(at(1.013)?.depthM).toBeCloseTo(0.013, 9);
  });
  it('towards undrawn space is the drawn face: a neighbour that stands aslant to it keeps its room', () => {
    // derived: b leans by 5 degrees, so the two share no panel; its corner touches the face x = 1 of a. A part 4 mm off that
    // face, inside b, meets no wall of a; a part of a that reaches 10 mm through the face does.
    const lean = layoutOf({
      a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
      b: {
        ...boxIn('profile', [1, 0, 0], [2, 1, 1]),
        outline: [
          [1, 0],
          [2, 0],
          [2, 1],
          [1.0875, 1],
        ],
      },
    });
    const forward = lean.walls.filter((w) => w.cells.includes(0) && w.normal[0] > 0.99);
    expect(Object.keys(lean.panels)).toEqual([]);
    const part = (x: number) => box('p', [x + 0.2, 0.5, 0.3], [0.4, 0.2, 0.2]);
    expect(forward.map((w) => overlapWithWall(part(1.004), w, lean.panels))).toEqual([null]);
    expect(forward.map((w) => overlapWithWall(part(0.61), w, lean.panels)?.depthM.toFixed(6))).toEqual(['0.010000']);
  });
  it('takes nothing of either side where the outlines touch', () => {
    const close = layoutOf({ a: boxIn('plan', [0, 0, 0], [1, 1, 1]), b: boxIn('plan', [1, 0, 0], [2, 1, 1]) });
    const panel = close.walls.find((w) => w.panelId === 'a|b');
    if (!panel) throw new Error('expected a wall for the panel a|b');
    expect(overlapWithWall(box('p', [0.8, 0.5, 0.5], [0.4, 0.4, 0.4]), panel, close.panels)).toBeNull();
    expect(overlapWithWall(box('p', [0.83, 0.5, 0.5], [0.4, 0.4, 0.4]), panel, close.panels)?.depthM).toBeCloseTo(
      0.03,
      9,
    );
    expect(
      overlapWithWall(cylinder('p', [0.7, 0.5, 0.5], [1.05, 0.5, 0.5], 0.1), panel, close.panels)?.depthM,
    ).toBeCloseTo(0.05, 4);
  });
});
