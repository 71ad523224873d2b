import type { Vec3 } from '@core/base/vec';
import { travelToContact } from '@core/shape/space/contact';
import { convexOf } from '@core/shape/space/convex';
import type { AnySolid } from '@core/shape/space/kernel';
import type { Solid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { firstContact, movedSolid } from '../../../support/convex-gap';
import { dice } from '../../../support/dice';
import { normalised, plus, times } from '../../../support/geometry-oracle';
import { box, capsule, cylinder, flip, mirroredSolid } from './scenes';

const X: Vec3 = [1, 0, 0];
const travel = (a: Solid, b: AnySolid, direction: Vec3 = X, within = 2): number | null =>
  travelToContact(a, convexOf(b), direction, within)?.t ?? null;
const wall = (x: number, thicknessM = 0): AnySolid => ({
  type: 'plate',
  id: 'wall',
  label: 'wall',
  normal: [1, 0, 0],
  thicknessM,
  polygon: [
    [x, -1, -1],
    [x, 1, -1],
    [x, 1, 1],
    [x, -1, 1],
  ],
});

describe('travel until contact, derived', () => {
  it('of boxes is the gap between their faces', () => {
    const p = box('p', [0, 0, 0], [0.2, 0.2, 0.2]);
    expect(travel(p, box('q', [0.7, 0.05, 0], [0.2, 0.2, 0.2]))).toBeCloseTo(0.5, 12);
    expect(travel(p, wall(0.6))).toBeCloseTo(0.5, 12);
    expect(travel(p, wall(0.6, 0.02))).toBeCloseTo(0.49, 12);
    expect(travel(p, wall(0.6), X, 0.5)).toBeNull();
    expect(travel(p, wall(0.6), [-1, 0, 0])).toBeNull();
  });
  it('of a turned box is that of its edge', () => {
    // half a diagonal of 0.2 sqrt 2 stands ahead of its middle
    expect(travel(box('p', [0, 0, 0], [0.2, 0.2, 0.2], { yawDeg: 45 }), wall(0.6))).toBeCloseTo(
      0.6 - 0.1 * Math.SQRT2,
      12,
    );
  });
  it('of edge against edge is the gap of the two', () => {
    // an upright edge at x = 0.1 sqrt 2 meets a level one at x = 0.8 - 0.1 sqrt 2
    const p = box('p', [0, 0, 0], [0.2, 0.2, 1], { yawDeg: 45 });
    const q = box('q', [0.8, 0, 0], [0.2, 1, 0.2], { pitchDeg: 45 });
    expect(travel(p, q)).toBeCloseTo(0.8 - 0.2 * Math.SQRT2, 12);
  });
  it('of round ones is that of their axes less the radii', () => {
    const p = cylinder('p', [0, 0, -0.5], [0, 0, 0.5], 0.1);
    // crossing at a right angle
    expect(travel(p, cylinder('q', [0.6, -0.5, 0], [0.6, 0.5, 0], 0.05))).toBeCloseTo(0.45, 6);
    // side by side, 0.09 off the line: the axes are 0.15 apart after 0.6 - sqrt(0.15^2 - 0.09^2) = 0.48
    expect(travel(p, capsule('q', [0.6, 0.09, -0.2], [0.6, 0.09, 0.2], 0.05))).toBeCloseTo(0.48, 5);
    // an element going out along its own axis against a box whose edge is within its round
    expect(travel(cylinder('p', [0, 0, 0], [0.3, 0, 0], 0.1), box('q', [0.7, 0.15, 0], [0.2, 0.2, 0.2]))).toBeCloseTo(
      0.3,
      5,
    );
  });
  it('of a ball and an edge follows the circle about the edge', () => {
    // ball of 0.1, edge at (0.5, 0.06): met after 0.5 - sqrt(0.1^2 - 0.06^2) = 0.42
    const ball = capsule('p', [0, 0, 0], [0, 0, 0], 0.1);
    expect(travel(ball, box('q', [0.6, 0.16, 0], [0.2, 0.2, 0.4]))).toBeCloseTo(0.42, 5);
  });
  it('slides along what it touches, and leaves it', () => {
    const p = box('p', [0, 0, 0], [0.2, 0.2, 0.2]);
    const beside = (overlap: number) => box('q', [0.5, 0.2 - overlap, 0], [0.2, 0.2, 0.2]);
    expect(travel(p, beside(0))).toBeNull();
    expect(travel(p, beside(5e-5))).toBeNull();
    expect(travel(p, beside(3e-4))).toBeCloseTo(0.3, 12);
    expect(travel(p, wall(-0.1))).toBeNull();
    expect(travel(p, wall(0.1))).toBeCloseTo(0, 12);
    const round = cylinder('p', [0, 0, -0.1], [0, 0, 0.1], 0.1);
    expect(travel(round, beside(0))).toBeNull();
    expect(travel(round, wall(-0.1))).toBeNull();
    expect(travel(round, wall(0.1))).toBeLessThan(2e-4);
    expect(travel(round, box('q', [0, 0, 0.2], [0.9, 0.9, 0.2]))).toBeNull();
  });
  it('is nothing where they overlap from the start', () => {
    expect(travel(box('p', [0, 0, 0], [0.2, 0.2, 0.2]), box('q', [0.1, 0, 0], [0.2, 0.2, 0.2]))).toBe(0);
    expect(travel(cylinder('p', [0, 0, 0], [0, 0, 1], 0.2), box('q', [0.1, 0, 0], [0.2, 0.2, 0.2]))).toBe(0);
  });
});

describe('against a reference that knows nothing of the method', () => {
  const roll = dice(71);
  const turn = () => ({ yawDeg: roll.from(0, 360), pitchDeg: roll.from(-90, 90), rollDeg: roll.from(0, 360) });
  const point = (span: number): Vec3 => [roll.from(-span, span), roll.from(-span, span), roll.from(-span, span)];
  const shape = (id: string, at: Vec3): Solid => {
    const kind = roll.whole(4);
    if (kind <= 1) {
      const sides: Vec3 = [roll.from(0.04, 0.4), roll.from(0.04, 0.4), roll.from(0.02, 0.3)];
      return box(id, at, sides, kind === 0 ? {} : turn());
    }
    const half = times(normalised(point(1)), roll.from(0.02, 0.2));
    const [from, to] = [plus(at, times(half, -1)), plus(at, half)];
    return (kind === 2 ? cylinder : capsule)(id, from, to, roll.from(0.01, 0.12));
  };
  const cases = Array.from({ length: 500 }, () => {
    const direction = normalised(roll.next() < 0.3 ? X : point(1));
    const ahead = plus(times(direction, roll.from(0.25, 0.7)), point(0.3));
    return { a: shape('a', [0, 0, 0]), b: shape('b', ahead), direction };
  });
  const reference = ({ a, b, direction }: (typeof cases)[number]) => firstContact(a, b, direction, 1);
  const shrunk = (solid: Solid): Solid =>
    solid.type === 'box'
      ? { ...solid, half: [solid.half[0] - 3e-4, solid.half[1] - 3e-4, solid.half[2] - 3e-4] }
      : { ...solid, radius: solid.radius - 3e-4 };
  it('is exact for boxes, cylinders and hoses', () => {
    const counts = { met: 0, clear: 0, atGraze: 0 };
    const errors: number[] = [];
    for (const one of cases) {
      const told = travel(one.a, one.b, one.direction, 1);
      const { t, least } = reference(one);
      if ((told === null) !== (t === null)) {
        // Only a graze may be judged either way: by a body 0.3 mm smaller nothing is met.
        counts.atGraze += 1;
        if (t === null) expect(least).toBeLessThan(3e-4);
        else expect(reference({ ...one, a: shrunk(one.a) }).t).toBeNull();
        continue;
      }
      if (told === null || t === null) counts.clear += 1;
      else {
        counts.met += 1;
        errors.push(Math.abs(told - t));
      }
    }
    errors.sort((a, b) => a - b);
    expect(counts.met).toBeGreaterThan(150);
    expect(counts.clear).toBeGreaterThan(100);
    expect(counts.atGraze).toBeLessThan(5);
    expect(errors[Math.floor(errors.length / 2)]).toBeLessThan(2e-6);
    expect(errors[errors.length - 1]).toBeLessThan(2e-5);
  });
  it('is the same in the mirror, elsewhere and for the other of the two', () => {
    for (const { a, b, direction } of cases.slice(0, 120)) {
      const told = travel(a, b, direction, 1);
      const mirrored = travel(mirroredSolid(a), mirroredSolid(b), flip(direction), 1);
      const by: Vec3 = [3.25, -1.5, 0.75];
      const shifted = travel(movedSolid(a, by) as Solid, movedSolid(b, by) as Solid, direction, 1);
      const other = travel(b, a, times(direction, -1), 1);
      for (const twin of [mirrored, shifted, other]) {
        expect(twin === null).toBe(told === null);
        if (twin !== null && told !== null) expect(Math.abs(twin - told)).toBeLessThan(2e-5);
      }
    }
  });
});
