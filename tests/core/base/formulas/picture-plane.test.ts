import { type PictureMark, type PicturePlane, picturePlane } from '@core/base/formulas/picture-plane';
import type { Vec2 } from '@core/base/vec';
import { describe, expect, it } from 'vitest';

function planeOf(marks: readonly PictureMark[]): PicturePlane {
  const found = picturePlane(marks);
  if (!found.ok) throw new Error(found.problem.kind);
  return found.plane;
}

const mark = (pixel: Vec2, place: Vec2): PictureMark => ({ pixel, place });

/** derived: a pinhole camera of focal length f pixels before the plane, turned about the upright axis and tilted. */
function camera(turn: number, tilt: number): (place: Vec2) => Vec2 {
  const [ct, st, cp, sp] = [Math.cos(turn), Math.sin(turn), Math.cos(tilt), Math.sin(tilt)];
  return ([u, v]) => {
    const x = ct * (u - 5);
    const depth = 14 + st * (u - 5);
    const y = cp * v - sp * depth + sp * 14;
    const z = sp * v + cp * depth;
    return [2000 + (1800 * x) / z, 1500 - (1800 * y) / z];
  };
}

const expectPlace = (got: Vec2 | null, wanted: Vec2, digits = 9): void => {
  expect(got?.[0]).toBeCloseTo(wanted[0], digits);
  expect(got?.[1]).toBeCloseTo(wanted[1], digits);
};

describe('two marks', () => {
  it('give scale and turn', () => {
    // derived: 500 pixels are 5 m, the picture lies turned by the angle whose tangent is 3/4
    const plane = planeOf([mark([100, 400], [0, 0]), mark([500, 100], [5, 0])]);
    expect(plane.metresPerPixel).toBeCloseTo(0.01, 12);
    expectPlace(plane.toPlace([300, 250]), [2.5, 0]);
    expectPlace(plane.toPlace([100 - 60, 400 - 80]), [0, 1]);
    expectPlace(plane.toPixel([0, 1]), [40, 320]);
  });

  it('keep up upright when the bow is on the left', () => {
    const plane = planeOf([mark([900, 500], [0, 0]), mark([100, 500], [8, 0])]);
    expectPlace(plane.toPlace([500, 300]), [4, 2]);
  });

  it('one above the other will do', () => {
    const plane = planeOf([mark([300, 800], [0, -1]), mark([300, 400], [0, 1])]);
    expectPlace(plane.toPlace([500, 600]), [1, 0]);
  });
});

describe('three and four marks', () => {
  it('three straighten a stretched and skewed picture', () => {
    const skewed = ([u, v]: Vec2): Vec2 => [100 + 90 * u + 20 * v, 700 - 130 * v + 5 * u];
    const plane = planeOf([mark(skewed([0, 0]), [0, 0]), mark(skewed([10, 0]), [10, 0]), mark(skewed([0, 2]), [0, 2])]);
    expectPlace(plane.toPlace(skewed([7.3, -1.2])), [7.3, -1.2]);
  });

  it('four undo the perspective of a camera that looks aslant', () => {
    for (const [turn, tilt] of [
      [0, 0],
      [0.5, 0.1],
      [-0.6, -0.2],
      [0.2, 0.4],
    ] as const) {
      const shot = camera(turn, tilt);
      const corners: Vec2[] = [
        [0, 0],
        [10, 0],
        [10, 1.5],
        [0, 1.2],
      ];
      const plane = planeOf(corners.map((place) => mark(shot(place), place)));
      for (const place of [
        [5, 0.7],
        [2, -1.1],
        [9.5, 1.4],
      ] as Vec2[]) {
        expectPlace(plane.toPlace(shot(place)), place, 6);
        expectPlace(plane.toPixel(place), shot(place), 4);
      }
    }
  });

  it('know their horizon, also when the corner of the picture lies beyond it', () => {
    // derived: rows above y = 400 are sky: u = 1000 x / (y - 400), v = 1 / (y - 400) scaled
    const shot = ([u, v]: Vec2): Vec2 => [500 + (100 * u) / v, 400 + 800 / v];
    const corners: Vec2[] = [
      [-2, 2],
      [2, 2],
      [2, 6],
      [-2, 6],
    ];
    const plane = planeOf(corners.map((place) => mark(shot(place), place)));
    expectPlace(plane.toPlace(shot([1, 4])), [1, 4], 6);
    expect(plane.toPlace([500, 300])).toBeNull();
    expect(plane.toPlace([0, 0])).toBeNull();
  });

  it('a click off by a pixel is off by about what a pixel covers', () => {
    const shot = camera(0.3, 0.1);
    const corners: Vec2[] = [
      [0, 0],
      [10, 0],
      [10, 1.5],
      [0, 1.2],
    ];
    const plane = planeOf(corners.map((place) => mark(shot(place), place)));
    const [x, y] = shot([5, 0.5]);
    const off = plane.toPlace([x + 1, y]);
    expect(Math.abs((off?.[0] ?? 0) - 5)).toBeLessThan(2 * plane.metresPerPixel);
  });
});

describe('marks that cannot scale a picture', () => {
  const kindOf = (marks: readonly PictureMark[]) => {
    const found = picturePlane(marks);
    return found.ok ? null : found.problem;
  };
  it('are told: too few, the same pixel, the same place, three in a line, a crossing quadrangle', () => {
    expect(kindOf([mark([0, 0], [0, 0])])).toEqual({ kind: 'tooFew' });
    expect(kindOf([mark([10, 10], [0, 0]), mark([12, 11], [5, 0])])).toEqual({ kind: 'samePixel', marks: [0, 1] });
    expect(kindOf([mark([10, 10], [2, 0]), mark([300, 11], [2, 0])])).toEqual({ kind: 'samePlace', marks: [0, 1] });
    expect(kindOf([mark([0, 0], [0, 0]), mark([100, 0], [1, 0]), mark([200, 1], [2, 0])])).toEqual({
      kind: 'inLine',
      marks: [0, 1, 2],
    });
    const crossed = [mark([0, 100], [0, 0]), mark([200, 0], [4, 0]), mark([200, 100], [4, 2]), mark([0, 0], [0, 2])];
    expect(kindOf(crossed)).toEqual({ kind: 'crossing' });
  });
});
