import type { Vec3 } from '@core/base/vec';
import { convexOf } from '@core/shape/space/convex';
import { areApart, nearestPoints } from '@core/shape/space/convex-distance';
import type { Solid } from '@core/shape/space/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { box, capsule, cylinder, isInside } from './scenes';

const number = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
const solid = (id: string) =>
  fc.oneof(
    fc
      .tuple(number(0, 1), number(-0.5, 0.5), number(0, 1), number(0.05, 0.5), number(-90, 90), number(-90, 90))
      .map(([x, y, z, s, yawDeg, rollDeg]) => box(id, [x, y, z], [s, 0.2, 0.1], { yawDeg, rollDeg })),
    fc
      .tuple(number(0, 1), number(-0.5, 0.5), number(0, 1), number(0.02, 0.2), number(-0.3, 0.3))
      .map(([x, y, z, r, d]) => cylinder(id, [x, y, z], [x + d, y + 0.3, z - d], r)),
    fc
      .tuple(number(0, 1), number(-0.5, 0.5), number(0, 1), number(0.02, 0.2))
      .map(([x, y, z, r]) => capsule(id, [x, y, z], [x + 0.2, y, z + 0.1], r)),
  );
const enlarged = (s: Solid): Solid =>
  s.type === 'box'
    ? { ...s, half: [s.half[0] + 1e-6, s.half[1] + 1e-6, s.half[2] + 1e-6] }
    : s.type === 'capsule'
      ? { ...s, radius: s.radius + 1e-6 }
      : { ...s, radius: s.radius + 1e-6, from: beyond(s.from, s.to), to: beyond(s.to, s.from) };
const beyond = (p: Vec3, q: Vec3): Vec3 => [
  p[0] + (p[0] - q[0]) * 1e-5,
  p[1] + (p[1] - q[1]) * 1e-5,
  p[2] + (p[2] - q[2]) * 1e-5,
];

// Judged by what a distance is, a plane that parts the bodies: nothing here is published.

describe('distance of two bodies', () => {
  it('joins points of both bodies, and the plane between them parts the bodies', () => {
    let apart = 0;
    fc.assert(
      fc.property(solid('a'), solid('b'), (a, b) => {
        const [one, other] = [convexOf(a), convexOf(b)];
        const { distanceM, onFirst, onSecond } = nearestPoints(one, other);
        if (distanceM < 1e-6) return;
        apart += 1;
        const d = [0, 1, 2].map(
          (k) => ((onSecond[k] as number) - (onFirst[k] as number)) / distanceM,
        ) as unknown as Vec3;
        const along = (p: Vec3) => p[0] * d[0] + p[1] * d[1] + p[2] * d[2];
        const gap = along(other.support([-d[0], -d[1], -d[2]])) - along(one.support(d));
        expect(Math.abs(gap - distanceM)).toBeLessThan(2e-5);
        expect(isInside(enlarged(a), onFirst) && isInside(enlarged(b), onSecond)).toBe(true);
        expect(areApart(one, other)).toBe(true);
      }),
      { numRuns: 300, seed: 41 },
    );
    expect(apart).toBeGreaterThan(100);
  });
});
