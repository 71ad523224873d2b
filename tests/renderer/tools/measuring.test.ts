import type { Vec2, Vec3 } from '@core/base/vec';
import { facesAround, readingOf } from '@renderer/tools/measuring';
import type { SnapField } from '@renderer/tools/point-snap';
import { describe, expect, it } from 'vitest';

describe('what a tape reads', () => {
  it('gives legs, their sum, and the angle at the last corner', () => {
    // 3-4-5, then square on.
    const reading = readingOf([
      [0, 0, 0],
      [3, 4, 0],
      [7, 1, 0],
    ]);
    expect(reading?.legsM).toEqual([5, 5]);
    expect(reading?.totalM).toBe(10);
    expect(reading?.angleDeg).toBeCloseTo(90, 9);
    expect(reading?.alongM).toEqual([4, 3, 0]);
  });

  it('reads half a turn where it goes straight on, nothing where it comes back', () => {
    const line = (x: number): Vec3 => [x, 0, 0];
    expect(readingOf([line(0), line(1), line(3)])?.angleDeg).toBeCloseTo(180, 9);
    expect(readingOf([line(0), line(1), line(0)])?.angleDeg).toBeCloseTo(0, 9);
    expect(readingOf([line(0), line(1)])?.angleDeg).toBeNull();
    expect(readingOf([line(0)])).toBeNull();
  });
});

describe('the faces around a point', () => {
  const side = (a: Vec2, b: Vec2) => ({ a, b, solid: [0, 0] as const, subject: 'box' });
  const room: SnapField = {
    lines: [side([0, 0], [2, 0]), side([2, 0], [2, 1]), side([2, 1], [0, 1]), side([0, 1], [0, 0])],
    curves: [],
  };

  it('are met to the right, left, up and down, the nearest of several', () => {
    expect(facesAround([0.5, 0.25], room)).toEqual([
      [2, 0.25],
      [0, 0.25],
      [0.5, 1],
      [0.5, 0],
    ]);
    const nearer = { ...room, lines: [...room.lines, side([1, -1], [1, 2])] };
    expect(facesAround([0.5, 0.25], nearer)[0]).toEqual([1, 0.25]);
  });

  it('are fewer where one side is open, also in a curve, and a face under the point itself is none', () => {
    expect(facesAround([3, 0.5], room)).toEqual([[2, 0.5]]);
    const ring: SnapField = {
      lines: [],
      curves: [
        [
          [0, 0],
          [4, 0],
          [0, 4],
        ],
      ],
    };
    expect(facesAround([1, 1], ring)).toEqual([
      [3, 1],
      [0, 1],
      [1, 3],
      [1, 0],
    ]);
    expect(facesAround([2, 0.5], room)).toEqual([
      [0, 0.5],
      [2, 1],
      [2, 0],
    ]);
  });
});
