import { rotationOf, squareTo, type Vec3 } from '@core/base/vec';
import { freeDepth, type Surroundings } from '@core/shape/space/free-depth';
import type { Solid } from '@core/shape/space/solids';
import type { PushedFace } from '@core/shape/space/things';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf, panelData } from '../layout/boats';
import { box, capsule, cylinder, flip, isInside, mirroredSolid, vHull } from './scenes';

const locker = layoutOf({ locker: boxIn('plan', [0, 0, 0], [1, 0.6, 0.5], { name: 'locker' }) });
const face = (
  at: Vec3,
  direction: Vec3,
  sizeM: readonly [number, number],
  more: Partial<PushedFace> = {},
): PushedFace => ({
  at,
  direction,
  across: squareTo(direction),
  sizeM,
  round: false,
  ...more,
});
const around = (solids: readonly Solid[] = [], more: Partial<Surroundings> = {}): Surroundings => ({
  layout: locker,
  hull: null,
  solids,
  ...more,
});
const down: Vec3 = [0, 0, -1];
const forward: Vec3 = [1, 0, 0];

describe('free depth, by hand', () => {
  it('goes to the drawn face of the compartment and names the wall', () => {
    // derived: a bowl's lower face at z = 0.32 over the bottom of the locker at z = 0
    const found = freeDepth(face([0.5, 0.3, 0.32], down, [0.13, 0.13], { round: true }), 1, around());
    expect(found.freeM).toBeCloseTo(0.32, 9);
    expect(found.blocker).toMatchObject({ layer: 'wall', owner: 'locker', label: 'bottom of locker' });
  });
  it('has no room where the face starts on the wall that it is pushed through, and all of it with its back to that wall', () => {
    // derived: the top of the locker is at z = 0.5, and has no thickness towards undrawn space.
    const top: Vec3 = [0.5, 0.3, 0.5];
    expect(freeDepth(face(top, [0, 0, 1], [0.1, 0.1]), 1, around())).toMatchObject({
      freeM: 0,
      blocker: { layer: 'wall', label: 'top of locker' },
    });
    expect(freeDepth(face(top, down, [0.1, 0.1]), 1, around()).freeM).toBeCloseTo(0.5, 9);
  });
  it('goes to the cap when nothing is in the way', () => {
    expect(freeDepth(face([0.5, 0.3, 0.32], down, [0.1, 0.1]), 0.2, around())).toEqual({ freeM: 0.2, blocker: null });
  });
  it('stops at a box that the face meets with its rim only, and passes one that it clears', () => {
    // derived: the face spans y 0.25 to 0.35; boxes begin at y = 0.349 and 0.351, x = 0.7.
    const blocked = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.6,
      around([box('b', [0.75, 0.399, 0.2], [0.1, 0.1, 0.1])]),
    );
    expect(blocked.freeM).toBeCloseTo(0.5, 9);
    expect(blocked.blocker?.owner).toBe('b');
    expect(blocked.blocker?.at[0]).toBeCloseTo(0.7, 9);
    const clear = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.6,
      around([box('b', [0.75, 0.401, 0.2], [0.1, 0.1, 0.1])]),
    );
    expect(clear.freeM).toBe(0.6);
  });
  it('lets a face slide along what it only touches', () => {
    const flush = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.6,
      around([box('b', [0.75, 0.4, 0.2], [0.1, 0.1, 0.1])]),
    );
    expect(flush.freeM).toBe(0.6);
  });
  it('meets the round side of a cylinder where it stands', () => {
    // derived: upright cylinder of radius 0.06 at x = 0.7, right ahead: 0.7 - 0.06 - 0.2; or 0.05 m aside of a face that ends
    // 0.02 m aside: 0.03 m off its axis, so sqrt(0.06^2 - 0.03^2) = 0.05196 before it.
    const ahead = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.04, 0.04]),
      0.7,
      around([cylinder('c', [0.7, 0.3, 0], [0.7, 0.3, 0.5], 0.06)]),
    );
    expect(ahead.freeM).toBeCloseTo(0.44, 5);
    const aside = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.04, 0.04]),
      0.7,
      around([cylinder('c', [0.7, 0.35, 0], [0.7, 0.35, 0.5], 0.06)]),
    );
    expect(aside.freeM).toBeGreaterThan(0.5 - 0.05196 - 0.0005);
    expect(aside.freeM).toBeLessThan(0.5 - 0.05196 + 0.0005);
  });
  it('tells a disc from the rectangle around it', () => {
    // derived: a box with its corner at (0.04, 0.04) from the axis is inside the square of 0.1 but outside the disc of 0.1.
    const corner = box('b', [0.7, 0.3 + 0.04 + 0.05, 0.2 + 0.04 + 0.05], [0.1, 0.1, 0.1]);
    const square = freeDepth(face([0.2, 0.3, 0.2], forward, [0.1, 0.1]), 0.6, around([corner]));
    const round = freeDepth(face([0.2, 0.3, 0.2], forward, [0.1, 0.1], { round: true }), 0.6, around([corner]));
    expect([square.freeM, round.freeM].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([0.45, 0.6]);
  });
  it('has no depth where something stands in the face already', () => {
    const found = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.6,
      around([box('b', [0.2, 0.3, 0.2], [0.1, 0.02, 0.02])]),
    );
    expect(found.freeM).toBe(0);
    expect(found.blocker?.owner).toBe('b');
    const rear = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.6,
      around([box('b', [0.15, 0.3, 0.2], [0.1, 0.3, 0.3])]),
    );
    expect(rear.freeM).toBe(0.6); // what it is mounted on ends where the face begins
  });
  it('meets a hose by its round side', () => {
    const found = freeDepth(
      face([0.2, 0.3, 0.2], forward, [0.1, 0.1]),
      0.7,
      around([capsule('h', [0.7, 0, 0.2], [0.7, 0.6, 0.2], 0.012)]),
    );
    expect(found.freeM).toBeCloseTo(0.488, 5);
  });
  it('passes an open panel and stops at a closed one', () => {
    const boat = { a: boxIn('plan', [0, 0, 0], [1, 1, 1]), b: boxIn('plan', [1, 0, 0], [2, 1, 1]) };
    const pushed = face([0.5, 0.5, 0.5], forward, [0.2, 0.2]);
    const closed = freeDepth(pushed, 3, around([], { layout: layoutOf(boat) }));
    expect(closed).toMatchObject({ freeM: 0.5, blocker: { owner: 'a|b', layer: 'wall' } });
    const open = layoutOf(boat, { panels: { p: panelData(['a', 'b'], [1, 0.5, 0.5], { rule: 'open' }) } });
    expect(freeDepth(pushed, 3, around([], { layout: open })).freeM).toBeCloseTo(1.5, 9);
  });
  it('goes down to the hull by its lower outer edge', () => {
    // derived: the face spans y 0.2 to 0.4 at z = 0.5; the inner face |y| = z + 0.5 - 0.03 sqrt 2 is met at y = 0.4.
    const open = layoutOf({ bilge: boxIn('plan', [2, -2, -1], [4, 2, 1]) });
    const found = freeDepth(face([3, 0.3, 0.5], down, [0.2, 0.2]), 2, around([], { layout: open, hull: vHull(0.03) }));
    expect(found.freeM).toBeGreaterThan(0.6 - 0.03 * Math.SQRT2 - 3e-4);
    expect(found.freeM).toBeLessThan(0.6 - 0.03 * Math.SQRT2 + 3e-4);
    expect(found.blocker?.layer).toBe('hull');
    expect(found.blocker?.at[1]).toBeCloseTo(0.4, 6);
    const other = freeDepth(face([3, -0.3, 0.5], down, [0.2, 0.2]), 2, around([], { layout: open, hull: vHull(0.03) }));
    expect(other.freeM).toBeCloseTo(found.freeM, 9);
  });
});

const wide = layoutOf({ room: boxIn('plan', [-5, -5, -5], [5, 5, 5]) });
const number = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
const things = fc.array(
  fc.oneof(
    fc
      .tuple(
        number(0.2, 1.2),
        number(-0.3, 0.3),
        number(-0.3, 0.3),
        number(0.05, 0.4),
        number(0.05, 0.4),
        number(-90, 90),
        number(-90, 90),
      )
      .map(([x, y, z, a, b, yawDeg, rollDeg]) => box(`b${x}`, [x, y, z], [a, b, 0.2], { yawDeg, rollDeg })),
    fc
      .tuple(
        number(0.2, 1.2),
        number(-0.3, 0.3),
        number(-0.3, 0.3),
        number(0.02, 0.2),
        number(-90, 90),
        number(-90, 90),
      )
      .map(([x, y, z, radius, yawDeg, pitchDeg]) => {
        const axis = rotationOf({ yawDeg, pitchDeg, rollDeg: 0 })[0];
        return cylinder(`c${x}`, [x, y, z], [x + axis[0] * 0.3, y + axis[1] * 0.3, z + axis[2] * 0.3], radius);
      }),
  ),
  { minLength: 1, maxLength: 5 },
);

describe('free depth against brute force', () => {
  it('leaves no sampled point of a thing in the room swept, and one just beyond it', () => {
    fc.assert(
      fc.property(things, fc.boolean(), (solids, round) => {
        const pushed = face([0, 0, 0], forward, [0.24, 0.16], { across: [0, 1, 0], round });
        const found = freeDepth(pushed, 1.5, around(solids, { layout: wide }));
        const half: [number, number] = round ? [0.12, 0.12] : [0.12, 0.08];
        let first = 1.5;
        for (let i = 0; i <= 24; i++)
          for (let j = 0; j <= 24; j++) {
            const y = half[0] * (i / 12 - 1) * 0.995;
            const z = half[1] * (j / 12 - 1) * 0.995;
            if (round && y * y + z * z > (0.12 * 0.995) ** 2) continue;
            for (let x = 0; x < first; x += 0.004) if (solids.some((s) => isInside(s, [x, y, z]))) first = x;
          }
        expect(found.freeM).toBeLessThan(first + 1e-4);
        // A thing met may be missed between sampled points, 10 mm and 4 mm apart, but never by much when it is fat.
        const blocker = solids.find((s) => s.id === found.blocker?.id);
        if (blocker && found.blocker && found.freeM > 0) {
          const p = found.blocker.at;
          expect(p[0]).toBeCloseTo(found.freeM, 6);
          expect(Math.abs(p[1])).toBeLessThanOrEqual(half[0]);
          expect(nearlyInside(blocker, p)).toBe(true);
        }
      }),
      { numRuns: 60, seed: 11 },
    );
  });
  it('is the same on the other side of the boat', () => {
    fc.assert(
      fc.property(things, fc.boolean(), (solids, round) => {
        const pushed = face([0, 0.1, 0], forward, [0.24, 0.16], { across: [0, 1, 0], round });
        const mirrored = { ...pushed, at: flip(pushed.at) };
        const one = freeDepth(pushed, 1.5, around(solids, { layout: wide }));
        const other = freeDepth(mirrored, 1.5, around(solids.map(mirroredSolid), { layout: wide }));
        expect(other.freeM).toBeCloseTo(one.freeM, 5);
      }),
      { numRuns: 60, seed: 12 },
    );
  });
});

/** True when the solid grown by 0.2 mm holds the point. */
const nearlyInside = (s: Solid, p: Vec3): boolean =>
  isInside(
    s.type === 'box'
      ? { ...s, half: [s.half[0] + 2e-4, s.half[1] + 2e-4, s.half[2] + 2e-4] }
      : { ...s, radius: s.radius + 2e-4, from: stretched(s.from, s.to), to: stretched(s.to, s.from) },
    p,
  );
function stretched(end: Vec3, other: Vec3): Vec3 {
  const d: Vec3 = [end[0] - other[0], end[1] - other[1], end[2] - other[2]];
  const k = 2e-4 / Math.sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
  return [end[0] + d[0] * k, end[1] + d[1] * k, end[2] + d[2] * k];
}
