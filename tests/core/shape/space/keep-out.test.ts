import type { KeepOut } from '@core/boat/schema/boat';
import { distanceToKeepOut } from '@core/shape/space/keep-out';
import { describe, expect, it } from 'vitest';

const POSE = { at: [1, 0, 0] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
/** From 30 degrees before starboard to 30 behind it, seen from above. */
const SECTOR: KeepOut = {
  type: 'sector',
  at: [0, 0, 0],
  axis: 'z',
  radiusM: 0.3,
  fromDeg: -120,
  toDeg: -60,
  thicknessM: 0.1,
};

describe('distance to what something moves through', () => {
  it('of a sector is exact at its rim, above it and beside it', () => {
    // Derived from the drawing.
    expect(distanceToKeepOut(SECTOR, POSE, [1, -0.34, 0])).toBeCloseTo(0.04, 12);
    expect(distanceToKeepOut(SECTOR, POSE, [1, -0.2, 0.08])).toBeCloseTo(0.03, 12);
    expect(distanceToKeepOut(SECTOR, POSE, [1, -0.2, 0.02])).toBe(0);
    // square to its straight side, 200 mm from the hub: 200 sin 60
    expect(distanceToKeepOut(SECTOR, POSE, [1.2, 0, 0])).toBeCloseTo(0.2 * Math.sin(Math.PI / 3), 12);
    expect(distanceToKeepOut(SECTOR, POSE, [1, 0.1, 0])).toBeCloseTo(0.1, 12);
  });

  it('turns with its thing and about its own axis', () => {
    expect(distanceToKeepOut(SECTOR, { ...POSE, yawDeg: 90 }, [1.34, 0, 0])).toBeCloseTo(0.04, 12);
    // about x angles count from y: from z down to y there is 60 to 120 degrees of it
    const rearing: KeepOut = { ...SECTOR, axis: 'x', fromDeg: 60, toDeg: 120 };
    expect(distanceToKeepOut(rearing, POSE, [1, 0, 0.35])).toBeCloseTo(0.05, 12);
    expect(distanceToKeepOut(rearing, POSE, [1, 0, -0.35])).toBeCloseTo(0.35, 12);
  });

  it('of a full turn is that of a disc', () => {
    expect(distanceToKeepOut({ ...SECTOR, fromDeg: 0, toDeg: 360 }, POSE, [1.3, 0.4, 0])).toBeCloseTo(0.2, 12);
  });

  it('of a box and a cylinder is that to their sides', () => {
    const box: KeepOut = { type: 'box', at: [0.1, 0, 0], sizeM: [0.2, 0.1, 0.1] };
    expect(distanceToKeepOut(box, POSE, [1.23, 0.09, 0])).toBeCloseTo(0.05, 12);
    const cylinder: KeepOut = { type: 'cylinder', at: [0, 0, 0], diameterM: 0.1, lengthM: 0.4, axis: 'y' };
    expect(distanceToKeepOut(cylinder, POSE, [1.13, 0.26, 0])).toBeCloseTo(0.1, 12);
  });
});
