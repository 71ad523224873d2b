import { turned, turnOf } from '@core/base/turning';
import { type Pose, rotate, rotationOf, type Vec3 } from '@core/base/vec';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const POSE: Pose = { at: [1, 2, 3], yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
const close = (a: Vec3, b: Vec3): void => {
  for (const axis of [0, 1, 2] as const) expect(a[axis]).toBeCloseTo(b[axis], 9);
};

describe('turns', () => {
  it('four quarter turns about any axis bring a thing back, with whole degrees all the way', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('x', 'y', 'z'),
        fc.array(fc.constantFrom('x', 'y', 'z'), { maxLength: 4 }),
        (axis, before) => {
          const start = before.reduce<Pose>((pose, about) => turned(pose, about as 'x' | 'y' | 'z', 90), POSE);
          let pose = start;
          for (let quarter = 0; quarter < 4; quarter++) {
            pose = turned(pose, axis as 'x' | 'y' | 'z', 90);
            for (const deg of [pose.yawDeg, pose.pitchDeg, pose.rollDeg]) expect(Number.isInteger(deg)).toBe(true);
          }
          for (const column of [0, 1, 2] as const) close(rotationOf(pose)[column], rotationOf(start)[column]);
          expect(pose.at).toEqual(POSE.at);
        },
      ),
    );
  });

  it('turns about the axes of the boat, right-handed', () => {
    // derived: a quarter turn about z takes x to y, about x takes y to z, about y takes z to x
    close(rotate(rotationOf(turned(POSE, 'z', 90)), [1, 0, 0]), [0, 1, 0]);
    close(rotate(rotationOf(turned(POSE, 'x', 90)), [0, 1, 0]), [0, 0, 1]);
    close(rotate(rotationOf(turned(POSE, 'y', 90)), [0, 0, 1]), [1, 0, 0]);
  });

  it('reads angles back from a rotation: the same rotation, also at a pitch of a quarter turn', () => {
    const angle = fc.integer({ min: -180, max: 180 });
    fc.assert(
      fc.property(angle, fc.oneof(angle, fc.constantFrom(-90, 90)), angle, (yawDeg, pitchDeg, rollDeg) => {
        const rotation = rotationOf({ yawDeg, pitchDeg, rollDeg });
        const again = rotationOf(turnOf(rotation));
        for (const column of [0, 1, 2] as const) close(again[column], rotation[column]);
      }),
    );
  });
});
