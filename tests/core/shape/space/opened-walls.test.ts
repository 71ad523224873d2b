import type { Opening } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import { segmentToSolid } from '@core/shape/space/kernel';
import { type Obstruction, openedWalls } from '@core/shape/space/opened-walls';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from '../layout/boats';

/** A locker of 1 x 1 x 1 m beside a cabin of 1 x 1 x 1 m: they share the face x = 1. */
const layout = layoutOf({
  locker: boxIn('plan', [0, 0, 0], [1, 1, 1], { kind: 'locker' }),
  cabin: boxIn('plan', [1, 0, 0], [2, 1, 1], { kind: 'cabin' }),
});

const opening = (more: Record<string, unknown> = {}): Opening =>
  openingSchema.parse({
    name: 'door',
    compartment: 'locker',
    to: 'cabin',
    at: [1, 0.5, 0.5],
    normal: [1, 0, 0],
    widthM: 0.4,
    heightM: 0.3,
    ...more,
  });

const walls = (openings: Record<string, Opening>): readonly Obstruction[] =>
  openedWalls(layout, openings, [-1, -1, -1], [3, 2, 2]);

/** Whether a straight line along x at y, z meets what bounds the two rooms between them. */
const isStopped = (around: readonly Obstruction[], y: number, z: number): boolean =>
  around.some(({ solid }) => segmentToSolid([0.9, y, z], [1.1, y, z], solid, 1) <= 0);

describe('walls with their openings open', () => {
  it('leaves a wall whole where nothing is opened', () => {
    expect(isStopped(walls({}), 0.5, 0.5)).toBe(true);
    expect(walls({}).length).toBe(layout.walls.length);
  });

  // derived: clear from y = 0.3 to 0.7 and z = 0.35 to 0.65
  it.each([
    [0.5, 0.5, false],
    [0.301, 0.351, false],
    [0.699, 0.649, false],
    [0.299, 0.5, true],
    [0.701, 0.5, true],
    [0.5, 0.349, true],
    [0.5, 0.651, true],
  ])('cuts a rectangle out exactly: y %d, z %d', (y, z, stopped) => {
    expect(isStopped(walls({ door: opening() }), y, z)).toBe(stopped);
  });

  it('keeps the area of the wall less that of the opening', () => {
    // derived: 1 m2 less 0.4 x 0.3
    const area = walls({ door: opening() })
      .filter(({ owner }) => owner === 'cabin|locker')
      .reduce((sum, { solid }) => sum + (solid.type === 'plate' ? areaOf(solid.polygon) : 0), 0);
    expect(area).toBeCloseTo(0.88, 9);
  });

  it('cuts a round opening by a polygon within it, and 1.2 mm from it at most at a diameter of half a metre', () => {
    const around = walls({ door: opening({ shape: 'round', widthM: 0.5, heightM: 0.5 }) });
    for (let k = 0; k < 360; k += 7) {
      const at = (r: number): [number, number] => {
        const angle = (k * Math.PI) / 180;
        return [0.5 + r * Math.cos(angle), 0.5 + r * Math.sin(angle)];
      };
      expect(isStopped(around, ...at(0.2501))).toBe(true);
      expect(isStopped(around, ...at(0.2487))).toBe(false);
    }
  });

  it('cuts two openings out of one wall', () => {
    const around = walls({
      high: opening({ at: [1, 0.5, 0.8], heightM: 0.2 }),
      low: opening({ at: [1, 0.5, 0.2], heightM: 0.2 }),
    });
    expect([0.2, 0.5, 0.8].map((z) => isStopped(around, 0.5, z))).toEqual([false, true, false]);
  });

  it('does not cut a wall that the opening is not in', () => {
    const astray = walls({ door: opening({ at: [0.8, 0.5, 0.5] }) });
    expect(isStopped(astray, 0.5, 0.5)).toBe(true);
    const square = walls({ door: opening({ normal: [0, 1, 0] }) });
    expect(isStopped(square, 0.5, 0.5)).toBe(true);
  });

  describe('a hinged lid', () => {
    const swung = (hingeAlong: string, angleDeg: number): readonly Obstruction[] =>
      walls({ door: opening({ how: 'hinged', swing: { hingeAlong, angleDeg } }) }).filter(
        ({ owner }) => owner === 'door',
      );
    /** Whether the lid is met at this point of the cabin. */
    const isAt = (around: readonly Obstruction[], p: readonly [number, number, number]): boolean =>
      around.some(({ solid }) => segmentToSolid(p, p, solid, 1) <= 0);

    // derived: seen from the cabin, looking aft, left is starboard (y = 0.3); square open the leaf stands out to x = 1.4 beside the opening
    it('stands beside the opening at a right angle, on the side of its hinge', () => {
      expect(isAt(swung('left', 90), [1.35, 0.294, 0.5])).toBe(true);
      expect(isAt(swung('left', 90), [1.35, 0.306, 0.5])).toBe(false);
      expect(isAt(swung('right', 90), [1.35, 0.706, 0.5])).toBe(true);
      expect(isAt(swung('top', 90), [1.25, 0.5, 0.656])).toBe(true);
      expect(isAt(swung('bottom', 90), [1.25, 0.5, 0.344])).toBe(true);
    });

    it('leans over the opening when it opens less, and lies flat against the wall when it opens more', () => {
      // derived: at 45 degrees the middle of the leaf's inner face is 0.2 cos 45 in from the hinge and as much out
      const by = 0.2 * Math.SQRT1_2;
      expect(isAt(swung('left', 45), [1 + by + 0.003, 0.3 + by - 0.003, 0.5])).toBe(true);
      expect(isAt(swung('left', 45), [1 + by - 0.005, 0.3 + by + 0.005, 0.5])).toBe(false);
      expect(isAt(swung('left', 180), [1.006, 0.1, 0.5])).toBe(true);
      expect(isAt(swung('left', 180), [0.994, 0.1, 0.5])).toBe(false);
    });

    it('is not there without a swing, nor of what slides or lifts out', () => {
      for (const how of ['hinged', 'sliding', 'liftOut', 'curtain', 'open'])
        expect(walls({ door: opening({ how }) }).some(({ owner }) => owner === 'door')).toBe(false);
    });
  });
});

function areaOf(polygon: readonly (readonly [number, number, number])[]): number {
  let twice = 0;
  for (let k = 1; k + 1 < polygon.length; k++) {
    const [a, b, c] = [polygon[0], polygon[k], polygon[k + 1]] as const;
    if (!a || !b || !c) continue;
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    twice += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
  }
  return twice / 2;
}
