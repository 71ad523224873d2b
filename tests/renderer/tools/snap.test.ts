import type { Vec3 } from '@core/base/vec';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import { type Box, boxFaces, type Face, wallFaces, wayToHull } from '@renderer/tools/faces';
import { gapsAround, overlapsOf, shifted, snap } from '@renderer/tools/snap';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const part: Box = { low: [1, 0, 0], high: [1.4, 0.3, 0.2] };
/** A face that stops what moves towards +x, at x, wide enough to stand before the part. */
const ahead = (x: number, extent: { y?: readonly [number, number] } = {}): Face => ({
  axis: 0,
  at: x,
  facing: -1,
  extent: { low: [x, extent.y?.[0] ?? -1, -1], high: [x, extent.y?.[1] ?? 1, 1] },
  subject: `wall-${x}`,
});

/** A straight-sided tank of a hull, 2 m wide and 1 m deep, without thickness. Coordinates are derived by hand from it. */
function tank(): HullSurface {
  const station = (xM: number) => ({
    xM,
    points: [
      [0, -0.5],
      [0.98, -0.5],
      [1, -0.48],
      [1, 0.5],
    ] as [number, number][],
  });
  return hullSurface({
    stations: { a: station(0), b: station(1), c: station(2), d: station(3), e: station(4) },
    grade: 'measured',
    measuredTo: 'outside',
    shellM: 0,
    liningM: 0,
    offsetM: 0,
    sheerIsDeck: true,
  });
}

describe('snapping', () => {
  it('puts the box on a face within the pull, exactly', () => {
    const { box, on } = snap(part, [0], [ahead(1.41)], 0.02, null);
    expect(box.high[0]).toBeCloseTo(1.41, 12);
    expect(on).toEqual([{ axis: 0, side: 1, at: 1.41, face: ahead(1.41) }]);
  });

  it('leaves it alone beyond the pull, and where the face does not stand before it', () => {
    expect(snap(part, [0], [ahead(1.43)], 0.02, null).box).toEqual(part);
    // derived: the face ends at y = -0.1, the part begins at y = 0
    expect(snap(part, [0], [ahead(1.41, { y: [-1, -0.1] })], 0.02, null).on).toEqual([]);
  });

  it('pulls back out of a face that it has entered a little', () => {
    expect(snap(part, [0], [ahead(1.39)], 0.02, null).box.high[0]).toBeCloseTo(1.39, 12);
  });

  it('takes the nearest of several, and each axis by itself', () => {
    const beside: Face = {
      axis: 1,
      at: 0.31,
      facing: -1,
      extent: { low: [0, 0.31, -1], high: [3, 0.31, 1] },
      subject: 'side',
    };
    const { box, on } = snap(part, [0, 1], [ahead(1.415), ahead(1.405), beside], 0.02, null);
    expect(box.high[0]).toBeCloseTo(1.405, 12);
    expect(box.high[1]).toBeCloseTo(0.31, 12);
    expect(on).toHaveLength(2);
  });

  it('does not depend on the order of the faces', () => {
    const faces = [
      ahead(1.411),
      ahead(1.402),
      ahead(1.39),
      ...boxFaces({ low: [0.5, 0, 0], high: [0.995, 0.3, 0.2] }, 'other'),
    ];
    fc.assert(
      fc.property(fc.shuffledSubarray(faces, { minLength: faces.length }), (order) => {
        expect(snap(part, [0], order, 0.02, null).box).toEqual(snap(part, [0], faces, 0.02, null).box);
      }),
    );
  });

  it('never moves a box by more than the pull', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.05, noNaN: true }),
        fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        (pull, dx) => {
          const { box } = snap(
            shifted(part, [dx, 0, 0]),
            [0, 1, 2],
            [ahead(1.4), ...boxFaces({ low: [0, 0.35, 0], high: [3, 0.4, 0.2] }, 'o')],
            pull,
            null,
          );
          for (const k of [0, 1, 2] as const)
            expect(Math.abs(box.low[k] - shifted(part, [dx, 0, 0]).low[k])).toBeLessThanOrEqual(pull + 1e-12);
        },
      ),
    );
  });
});

describe('distances to the nearest faces', () => {
  it('are counted from the box to the face on each side', () => {
    // derived: 1.9 - 1.4 ahead, 1 - 0.7 behind
    const gaps = gapsAround(
      part,
      [0],
      [ahead(1.9), ahead(2.4), ...boxFaces({ low: [0.2, 0, 0], high: [0.7, 0.3, 0.2] }, 'other')],
      null,
    );
    expect(gaps.map((g) => [g.side, Number(g.gapM.toFixed(9))])).toEqual([
      [-1, 0.3],
      [1, 0.5],
    ]);
  });

  it('go negative where the box has entered the face', () => {
    const [gap] = gapsAround(part, [0], [ahead(1.391)], null);
    expect(gap?.gapM).toBeCloseTo(-0.009, 9);
  });

  it('end at the hull', () => {
    const hull = tank();
    const inside: Box = { low: [1.5, 0.2, -0.1], high: [2, 0.5, 0.1] };
    // derived: side at y = 1, bottom at z = -0.5, less than 1 mm of fairing
    expect(wayToHull(hull, inside, 1, 1, 3)).toBeCloseTo(0.5, 3);
    expect(wayToHull(hull, inside, 2, -1, 3)).toBeCloseTo(0.4, 3);
    expect(wayToHull(hull, inside, 1, 1, 0.3)).toBe(0.3);
    const gaps = gapsAround(inside, [1, 2], [], hull);
    expect(gaps.find((g) => g.axis === 1 && g.side === 1)?.gapM).toBeCloseTo(0.5, 3);
    expect(gaps.find((g) => g.axis === 1 && g.side === -1)?.gapM).toBeCloseTo(1.2, 3);
  });

  it('through the hull say how far, along the shortest way back only', () => {
    const hull = tank();
    const through: Box = { low: [1.5, 0.75, -0.1], high: [2, 1.05, 0.1] };
    const gaps = gapsAround(through, [0, 1], [], hull);
    const negative = gaps.filter((g) => g.gapM < 0);
    expect(negative).toHaveLength(1);
    expect(negative[0]).toMatchObject({ axis: 1, side: 1 });
    expect(negative[0]?.gapM).toBeCloseTo(-0.05, 3);
  });

  it('put a box on the skin when it comes near', () => {
    const hull = tank();
    const near: Box = { low: [1.5, 0.6, -0.1], high: [2, 0.99, 0.1] };
    const { box, on } = snap(near, [1], [], 0.02, hull);
    expect(box.high[1]).toBeCloseTo(1, 3);
    expect(on[0]?.face).toBeNull();
  });
});

describe('faces of walls', () => {
  it('lie half a thickness off the middle plane, each facing away from it', () => {
    const box = (x0: number, x1: number) => ({
      name: 'a',
      kind: 'locker' as const,
      view: 'plan' as const,
      outline: [
        [x0, 0],
        [x1, 0],
        [x1, 1],
        [x0, 1],
      ] as [number, number][],
      rangeM: [0, 1] as [number, number],
      yawDeg: 0,
      grade: 'taped' as const,
    });
    // derived: two lockers with a gap of 20 mm at x = 1 to 1.02
    const layout = deriveLayout({
      compartments: { a: box(0, 1), b: box(1.02, 2) },
      panels: {},
      newHoles: {},
      newHoleCostM: 0.5,
    });
    const between = wallFaces(layout).filter((f) => f.axis === 0 && f.at > 0.5 && f.at < 1.5);
    expect(between.map((f) => [f.facing, Number(f.at.toFixed(6))]).sort()).toEqual([
      [-1, 1],
      [1, 1.02],
    ]);
  });
});

describe('overlaps', () => {
  it('are told with the depth of the shallowest way out, deepest first', () => {
    const at = (low: Vec3, high: Vec3, id: string) => ({ id, box: { low, high } });
    const found = overlapsOf(part, [
      at([1.391, 0, 0], [2, 0.3, 0.2], 'nine'),
      at([0, 0.25, 0], [3, 0.6, 0.2], 'fifty'),
      at([1.4, 0, 0], [2, 1, 1], 'touching'),
    ]);
    expect(found.map((o) => o.id)).toEqual(['fifty', 'nine']);
    expect(found[1]?.depthM).toBeCloseTo(0.009, 12);
  });
});
