import { type Handle, leverRoom } from '@core/assess/access/handle-swing';
import { UNIT_AXES, type Vec3 } from '@core/base/vec';
import type { Solid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';

const POSE = { at: [0, 0, 0] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
const LEVER: Handle = { at: [0, 0, 0.05], leverM: 0.11, swingDeg: 90, direction: [1, 0, 0] };
const wall = (centre: Vec3, half: Vec3): Solid => ({
  type: 'box',
  id: 'wall',
  owner: 'wall',
  label: 'Wall',
  layer: 'furnishing',
  centre,
  half,
  axes: UNIT_AXES,
});
/** From its face at x 80 forward, and from its face at y -80 to starboard. */
const FORWARD = wall([0.13, 0, 0.05], [0.05, 0.3, 0.05]);
const STARBOARD = wall([0, -0.13, 0.05], [0.3, 0.05, 0.05]);

describe('room for a lever', () => {
  it('is the distance from the hub to what stands in its sector', () => {
    const { freeM, blocker } = leverRoom(LEVER, POSE, [FORWARD], 0.2);
    expect(Math.abs(freeM - 0.08)).toBeLessThan(0.0005);
    expect(blocker?.owner).toBe('wall');
  });

  it('does not mind what stands elsewhere: from forward it is shut to port', () => {
    expect(leverRoom(LEVER, POSE, [STARBOARD], 0.2)).toMatchObject({ freeM: 0.2, blocker: null });
    expect(leverRoom({ ...LEVER, swingDeg: -90 }, POSE, [STARBOARD], 0.2).blocker).not.toBeNull();
  });

  it('turns with its valve, about the axis that is said', () => {
    // Derived: turned half round the lever points aft and is shut to starboard.
    expect(leverRoom(LEVER, { ...POSE, yawDeg: 180 }, [FORWARD], 0.2).blocker).toBeNull();
    expect(leverRoom(LEVER, { ...POSE, yawDeg: 180 }, [STARBOARD], 0.2).blocker).not.toBeNull();
    // about x it swings in the plane square to the wall ahead and never meets it
    expect(leverRoom({ ...LEVER, direction: [0, 1, 0], axis: [1, 0, 0] }, POSE, [FORWARD], 0.2).blocker).toBeNull();
  });

  it('is that of the best quarter where nobody knows which way it points', () => {
    const { direction: _, ...unknown } = LEVER;
    expect(leverRoom(unknown, POSE, [FORWARD], 0.2).blocker).toBeNull();
    const all = [
      FORWARD,
      STARBOARD,
      wall([-0.13, 0, 0.05], [0.05, 0.3, 0.05]),
      wall([0, 0.13, 0.05], [0.3, 0.05, 0.05]),
    ];
    expect(Math.abs(leverRoom(unknown, POSE, all, 0.2).freeM - 0.08)).toBeLessThan(0.0005);
    // a direction along the axis says no more than the axis
    expect(leverRoom({ ...LEVER, direction: [0, 0, 1] }, POSE, [FORWARD], 0.2).blocker).toBeNull();
  });
});
