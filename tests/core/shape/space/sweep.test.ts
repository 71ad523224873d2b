import type { Vec3 } from '@core/base/vec';
import { convexOf } from '@core/shape/space/convex';
import type { Solid } from '@core/shape/space/solids';
import { type InTheWay, type Motion, sweepPast } from '@core/shape/space/sweep';
import { describe, expect, it } from 'vitest';
import { box, cylinder, flip, mirroredSolid, vHull } from './scenes';

// All figures are derived in the comments beside them; nothing here is published.

const past = (...solids: Solid[]): InTheWay[] =>
  solids.map((solid) => ({
    name: { id: solid.id, owner: solid.owner, label: solid.label, layer: solid.layer },
    body: convexOf(solid),
  }));
const straight = (direction: Vec3, distanceM: number): Motion => ({ kind: 'straight', direction, distanceM });
const TANK = box('tank', [0.7, 0.5, 0.5], [0.2, 0.2, 0.2]);

describe('a solid that goes straight', () => {
  it('is stopped by what it meets', () => {
    // derived: a box of 0.1 m at x = 0.2 ends at 0.25; the tank begins at 0.6.
    const found = sweepPast(past(TANK), null, box('p', [0.2, 0.5, 0.5], [0.1, 0.1, 0.1]), straight([1, 0, 0], 1));
    expect(found.free).toBeCloseTo(0.35, 9);
    expect(found.blocker?.id).toBe('tank');
  });
  it('slides along what it touches', () => {
    const floor = box('floor', [0.5, 0.5, -0.05], [2, 2, 0.1]);
    const found = sweepPast(past(floor), null, box('p', [0.2, 0.5, 0.05], [0.1, 0.1, 0.1]), straight([1, 0, 0], 0.7));
    expect(found).toMatchObject({ free: 0.7, blocker: null });
  });
  it('meets a corner aslant with its round side', () => {
    // derived: upright cylinder of radius 0.05 going 45 degrees in plan from (0.4, 0.2): the edge (0.6, 0.4) of the tank lies on its
    // line, so it is met first by the round, after 0.2 sqrt 2 - 0.05.
    const upright = cylinder('p', [0.4, 0.2, 0.45], [0.4, 0.2, 0.55], 0.05);
    const found = sweepPast(past(TANK), null, upright, straight([Math.SQRT1_2, Math.SQRT1_2, 0], 1));
    expect(Math.abs(found.free - (0.2 * Math.SQRT2 - 0.05))).toBeLessThan(1e-5);
  });
  it('is stopped by the hull', () => {
    // derived: the box's lower outer corner (0.2, z) meets z = |y| - 0.5 at z = -0.3; it starts at 0.3.
    const found = sweepPast([], vHull(), box('p', [4, 0, 0.5], [0.4, 0.4, 0.4]), straight([0, 0, -1], 2));
    expect(Math.abs(found.free - 0.6)).toBeLessThan(1e-3);
    expect(found.blocker?.layer).toBe('hull');
  });
});

describe('a solid that turns', () => {
  // derived: a lever of 0.3 m, 0.02 m wide, from its hub at y = 0.2 along x, turning towards y = 0: its corner, which is
  // hypot(0.3, 0.01) from the hub and 0.01 below the axis, gets there at asin(0.2 / hypot) - atan(0.01 / 0.3).
  const lever = box('lever', [0.35, 0.2, 0.2], [0.3, 0.02, 0.02]);
  const wall = box('wall', [0.5, -0.05, 0.5], [2, 0.1, 2]);
  const expectedDeg = ((Math.asin(0.2 / Math.hypot(0.3, 0.01)) - Math.atan(0.01 / 0.3)) * 180) / Math.PI;
  const turn = (angleDeg: number, y = 0.2): Motion => ({
    kind: 'turn',
    about: [0.2, y, 0.2],
    axis: [0, 0, 1],
    angleDeg,
  });
  it('is stopped by what it meets', () => {
    const found = sweepPast(past(wall), null, lever, turn(-90));
    // drawn in by 0.2 mm at a corner 0.3 m out: 0.04 degrees, and a contact that is found to 0.1 mm
    expect(Math.abs(found.free - expectedDeg)).toBeLessThan(0.15);
    expect(found.blocker?.id).toBe('wall');
  });
  it('goes all the way where nothing is met', () => {
    expect(sweepPast(past(wall), null, lever, turn(-20))).toEqual({ free: 20, blocker: null });
    expect(sweepPast(past(wall), null, lever, turn(90))).toEqual({ free: 90, blocker: null });
  });
  it('turns the other way in a mirrored boat, just as far', () => {
    const found = sweepPast(past(wall), null, lever, turn(-90));
    const other = sweepPast(past(mirroredSolid(wall)), null, mirroredSolid(lever), turn(90, -0.2));
    expect(other.free).toBeCloseTo(found.free, 6);
    expect(flip(other.blocker?.at as Vec3)[0]).toBeCloseTo(found.blocker?.at[0] as number, 4);
  });
});
