import { deviationDeg, fieldOfLongWire, fieldTurning } from '@core/base/formulas/compass-deviation';
import { fieldOfWay } from '@core/base/formulas/current-field';
import type { Vec3 } from '@core/base/vec';
import { describe, expect, it } from 'vitest';

/** Field of a way by summing Biot-Savart over short pieces, tesla: mu0 / 4 pi I sum of dl x r / r^3. */
function summed(corners: readonly Vec3[], amperes: number, at: Vec3): number {
  const sum = [0, 0, 0] as [number, number, number];
  const steps = 20000;
  corners.slice(1).forEach((to, k) => {
    const from = corners[k] as Vec3;
    const d = to.map((value, axis) => (value - (from[axis] as number)) / steps) as [number, number, number];
    for (let s = 0; s < steps; s += 1) {
      const r = at.map((value, axis) => value - (from[axis] as number) - (s + 0.5) * (d[axis] as number));
      const [x, y, z] = r as [number, number, number];
      const cube = Math.hypot(x, y, z) ** 3;
      sum[0] += (d[1] * z - d[2] * y) / cube;
      sum[1] += (d[2] * x - d[0] * z) / cube;
      sum[2] += (d[0] * y - d[1] * x) / cube;
    }
  });
  return 1e-7 * amperes * Math.hypot(...sum);
}
const straight = (halfM: number, z = 0): readonly Vec3[] => [
  [-halfM, 0, z],
  [halfM, 0, z],
];
const bent: readonly Vec3[] = [
  [-0.4, 0.1, 0],
  [0.2, 0.1, 0.3],
  [0.2, 0.8, -0.2],
  [1.1, 0.9, 0],
];
const ABOVE: Vec3 = [0, 0, 0.5];
const strength = (corners: readonly Vec3[], at: Vec3): number => Math.hypot(...fieldOfWay(corners, 25, at));

describe('the field of a current', () => {
  it('is that of Biot-Savart, summed over short pieces, along corners too', () => {
    for (const corners of [straight(0.25), straight(1.6), bent])
      expect(strength(corners, ABOVE) * 1e6).toBeCloseTo(summed(corners, 25, ABOVE) * 1e6, 4);
  });

  it('of half a metre of cable is 4.472 microtesla half a metre off (derived: 5 x 2 x 0.25 / 0.559)', () => {
    expect(strength(straight(0.25), ABOVE) * 1e6).toBeCloseTo(4.4721, 4);
  });

  it('is none straight ahead of the cable', () => {
    expect(strength(straight(0.5), [1, 0, 0])).toBe(0);
  });

  it('comes to that of a long wire, of a pair too', () => {
    expect(strength(straight(200), ABOVE)).toBeCloseTo(fieldOfLongWire({ amperes: 25, awayM: 0.5, apartM: 0 }), 10);
    const pair = strength(straight(200, 0.005), ABOVE) - strength(straight(200, -0.005), ABOVE);
    expect(pair).toBeCloseTo(fieldOfLongWire({ amperes: 25, awayM: 0.5, apartM: 0.01 }), 10);
  });
});

describe('a compass in a field', () => {
  it('turns by atan(B / H) square to it, asin(B / H) at worst, by 90 degrees at most (derived)', () => {
    expect(deviationDeg(10e-6).squareDeg).toBeCloseTo(26.565, 3);
    expect(deviationDeg(10e-6).worstDeg).toBeCloseTo(30, 9);
    expect(deviationDeg(50e-6).worstDeg).toBe(90);
    expect(deviationDeg(0)).toEqual({ squareDeg: 0, worstDeg: 0 });
  });

  it('turns by a degree in 0.349 microtesla (derived)', () => {
    expect(fieldTurning(1) * 1e6).toBeCloseTo(0.34905, 5);
    expect(deviationDeg(fieldTurning(1)).worstDeg).toBeCloseTo(1, 9);
  });
});
