import type { Vec3 } from '@core/base/vec';
import { trappedCrest, unrolledProfile } from '@core/runs/profile';
import { arcSweep, primLength } from '@core/runs/routing/prims';
import type { Prim } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';

const LEVEL = { up: [0, 0, 1] as Vec3, levelM: 0 };

/** Straight up, a half circle of radius r over the top, straight down. */
function hump(rise: number, radius: number, drop: number): Prim[] {
  return [
    { kind: 'line', from: [0, 0, 0], to: [0, 0, rise] },
    {
      kind: 'arc',
      centre: [radius, 0, rise],
      radius,
      from: [0, 0, rise],
      to: [2 * radius, 0, rise],
      normal: [0, 1, 0],
    },
    { kind: 'line', from: [2 * radius, 0, rise], to: [2 * radius, 0, rise - drop] },
  ];
}

describe('the unrolled profile of a run', () => {
  it('finds the exact top of an arc: rise + radius (derived)', () => {
    const profile = unrolledProfile(hump(0.2, 0.1, 0.3), LEVEL);
    expect(Math.max(...profile.map((point) => point.heightM))).toBeCloseTo(0.3, 12);
    expect(profile.at(-1)?.alongM).toBeCloseTo(0.2 + Math.PI * 0.1 + 0.3, 12);
  });

  it('traps the height above the higher of the two lowest points: 0.3 above max(0, -0.1) (derived)', () => {
    const crest = trappedCrest(unrolledProfile(hump(0.2, 0.1, 0.3), LEVEL));
    expect(crest?.trappedM).toBeCloseTo(0.3, 12);
    expect(crest?.at[0]).toBeCloseTo(0.1, 12);
    const shallow = trappedCrest(unrolledProfile(hump(0.2, 0.1, 0.05), LEVEL));
    expect(shallow?.trappedM).toBeCloseTo(0.15, 12);
  });

  it('has no crest where the hose rises steadily, nor in a valley', () => {
    expect(trappedCrest(unrolledProfile([{ kind: 'line', from: [0, 0, 0], to: [1, 0, 0.4] }], LEVEL))).toBeNull();
    const valley: Prim[] = [
      { kind: 'line', from: [0, 0, 0.3], to: [0, 0, 0] },
      { kind: 'line', from: [0, 0, 0], to: [1, 0, 0.5] },
    ];
    expect(trappedCrest(unrolledProfile(valley, LEVEL))).toBeNull();
  });

  it('answers at any attitude: at 30 degrees a level athwartships hose climbs by half its length (derived)', () => {
    const tilt = { up: [0, Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)] as Vec3, levelM: 0.1 };
    const profile = unrolledProfile([{ kind: 'line', from: [0, 0, 0], to: [0, 2, 0] }], tilt);
    expect(profile.map((point) => point.heightM)).toEqual([expect.closeTo(-0.1, 12), expect.closeTo(0.9, 12)]);
  });

  it('measures arcs', () => {
    const [rise, arc] = hump(0.2, 0.1, 0.3) as [Prim, Extract<Prim, { kind: 'arc' }>, Prim];
    expect(arcSweep(arc)).toBeCloseTo(Math.PI, 12);
    expect(primLength(rise)).toBe(0.2);
  });
});
