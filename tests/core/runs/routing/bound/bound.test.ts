import type { Vec3 } from '@core/base/vec';
import { boatSchema } from '@core/boat/schema/boat';
import { lengthBound, plainBound, startLengthBound } from '@core/runs/routing/bound/bound';
import type { Lead, RoutingLine } from '@core/runs/routing/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';
import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../../../../support/boats';
import { plainBox, plainLead, plainLine } from '../../../../support/plain-hose';

type Draft = Pick<BoatDraft, 'compartments' | 'panels'>;

function layoutOf(draft: Draft): Layout {
  const boat = boatSchema.parse({ format: 'underberth-boat', schemaVersion: 1, name: 'x', ...draft });
  return deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: 0.5 });
}
const room = (x0: number, x1: number, y0 = -1, y1 = 1): NonNullable<Draft['compartments']>[string] => ({
  name: 'room',
  view: 'plan',
  outline: [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ],
  rangeM: [0, 1],
});
const lead = (at: Vec3, direction: Vec3, rigidM = 0) => plainLead(at, direction, 0.01, { rigidM });
const line = (from: Lead, to: Lead, edit: Partial<RoutingLine> = {}) =>
  plainLine(from, to, { radiusM: 0.01, bendRadiusM: 0.1 }, edit);

/** A hose of 10 mm radius leaves its port straight until it is clear of its thing. */
const LEAD = 0.016;
const one = layoutOf({ compartments: { a: room(0, 6) } });
const two = (rule: 'open' | 'drill' | 'noDrill', holes: object = {}): Layout =>
  layoutOf({
    compartments: { a: room(0, 2), b: room(2.012, 4) },
    panels: {
      p: { between: ['a', 'b'], near: [2.006, 0, 0.5], rule, holes: holes as Record<string, never>, newHoleCostM: 0.3 },
    },
  });

describe('the certified bound of a run', () => {
  // Derived: closed forms of arcs and straights.
  it('is the distance where nothing bends', () => {
    const straight = line(lead([1, 0, 0.5], [1, 0, 0], 0.1), lead([4, 0, 0.5], [-1, 0, 0], 0.05));
    for (const bound of [plainBound(straight, { layout: one }), lengthBound(straight, { layout: one }, 50)]) {
      expect(bound.lengthM).toBeLessThanOrEqual(3);
      expect(bound.lengthM).toBeCloseTo(3, 5);
    }
  });

  it.each([
    // Ports side by side, 1 m apart, both looking forward: two quarter turns and a straight between, pi R + (1 - 2 R).
    [
      'both ends forward',
      lead([1, 0.5, 0.5], [1, 0, 0]),
      lead([1, -0.5, 0.5], [1, 0, 0]),
      2 * LEAD + Math.PI * 0.1 + 0.8,
    ],
    // A straight of 1.9 from port to bend, a quarter turn, and the other lead.
    [
      'a right angle',
      lead([1, 0, 0.5], [1, 0, 0]),
      lead([3, 0.1 + LEAD, 0.5], [0, -1, 0]),
      1.9 + 0.1 * (Math.PI / 2) + LEAD,
    ],
  ])('is exact for arc, straight, arc: %s', (_, from, to, length) => {
    const bound = lengthBound(line(from, to), { layout: one }, 50);
    expect(bound.lengthM).toBeLessThanOrEqual(length);
    expect(bound.lengthM).toBeGreaterThan(length * 0.999);
  });

  it('pays for the cheapest hole, and asks the run to be square to the panel', () => {
    // Straight along y = 0 through the panel: length 2, one hole at 0.3.
    const through = line(lead([1, 0, 0.5], [1, 0, 0]), lead([3, 0, 0.5], [-1, 0, 0]));
    const bound = lengthBound(through, { layout: two('drill') }, 50);
    expect(bound.lengthM).toBeCloseTo(2, 4);
    expect(bound.costM).toBeCloseTo(2.3, 4);
    // An old hole at y = 0.6 is the only way: two bends of the angle a each side of it, straight between.
    const layout = two('noDrill', { old: { at: [2.006, 0.6, 0.5], diameterM: 0.02 } });
    const old = lengthBound(through, { layout }, 200);
    const stub = 0.006 + 0.01;
    const half = LEAD + reach(1.006 - stub - LEAD, 0.6, 0.1) + stub;
    const rest = LEAD + reach(0.994 - stub - LEAD, 0.6, 0.1) + stub;
    expect(old.costM).toBe(old.lengthM);
    expect(old.lengthM).toBeLessThanOrEqual(half + rest);
    expect(old.lengthM).toBeGreaterThan((half + rest) * 0.999);
    expect(old.suggestion).toEqual([{ portal: 0, at: [expect.closeTo(2.006, 9), 0.6, 0.5], direction: [1, 0, 0] }]);
    const own = bound.suggestion?.[0]?.at as Vec3;
    // Anywhere near y = 0 the way is as good as straight.
    expect(Math.hypot(own[0] - 2.006, own[1], own[2] - 0.5)).toBeLessThan(0.02);
  });

  it('says when no chain of holes lets the hose through', () => {
    const through = line(lead([1, 0, 0.5], [1, 0, 0]), lead([3, 0, 0.5], [-1, 0, 0]));
    expect(plainBound(through, { layout: two('noDrill') }).reachable).toBe(false);
    const narrow = two('noDrill', { old: { at: [2.006, 0.6, 0.5], diameterM: 0.019 } });
    expect(lengthBound(through, { layout: narrow }, 50).reachable).toBe(false);
    const barred = line(through.from, through.to, { forbiddenCompartments: ['b'] });
    expect(plainBound(barred, { layout: two('open') }).reachable).toBe(false);
    expect(plainBound(through, { layout: two('open') }).reachable).toBe(true);
  });

  it('lets compartments that share space count as one', () => {
    const shared = layoutOf({ compartments: { a: room(0, 2), b: room(1.8, 4) } });
    const through = line(lead([1, 0, 0.5], [1, 0, 0]), lead([3, 0, 0.5], [-1, 0, 0]));
    expect(shared.overlaps.length).toBe(1);
    expect(plainBound(through, { layout: shared }).reachable).toBe(true);
    expect(lengthBound(through, { layout: shared }, 20).lengthM).toBeCloseTo(2, 5);
  });

  it('bends round through an open doorway', () => {
    // a and c lie side by side and meet only by way of b: the doorways are at x from 2 to 4, so the run goes round the end of the wall.
    const round = layoutOf({
      compartments: { a: room(0, 2, 0.1, 1), b: room(2, 4), c: room(0, 2, -1, -0.1) },
      panels: {
        p: { between: ['a', 'b'], near: [2, 0.5, 0.5], rule: 'open' },
        q: { between: ['b', 'c'], near: [2, -0.5, 0.5], rule: 'open' },
      },
    });
    const about = line(lead([1, 0.3, 0.5], [1, 0, 0]), lead([1, -0.3, 0.5], [1, 0, 0]), { bendRadiusM: 0.08 });
    // Derived: a taut string from [1, 0.3] by [2, 0.1] and [2, -0.1] to [1, -0.3]; a run is longer.
    const taut = 2 * Math.hypot(1, 0.2) + 0.2;
    const plain = plainBound(about, { layout: round });
    const bound = lengthBound(about, { layout: round }, 300);
    expect(bound.lengthM).toBeGreaterThan(taut * 0.999);
    expect(bound.lengthM).toBeGreaterThanOrEqual(plain.lengthM);
    // A run that keeps its bends outside: straight to x = 2, half a turn of radius 0.3, and back.
    expect(bound.lengthM).toBeLessThan(2 + Math.PI * 0.3);
  });

  it('knows that a run may round the end of a wall in the space of two doorways', () => {
    // a and c share a wall at y = 0; their doorways to b are 60 mm deep, with the middle plane at x = 2.03.
    const round = layoutOf({
      compartments: { a: room(0, 2, 0, 1), b: room(2.06, 4), c: room(0, 2, -1, 0) },
      panels: {
        p: { between: ['a', 'b'], near: [2.03, 0.5, 0.5], rule: 'open' },
        q: { between: ['b', 'c'], near: [2.03, -0.5, 0.5], rule: 'open' },
        w: { between: ['a', 'c'], near: [1, 0, 0.5], rule: 'noDrill' },
      },
    });
    const about = line(lead([1, 0.06, 0.5], [1, 0, 0]), lead([1, -0.06, 0.5], [1, 0, 0]), { bendRadiusM: 0.06 });
    // Derived: straight, half a circle that comes to x = 2.012 and no farther, straight.
    const run = 2 * (1.012 - 0.06) + Math.PI * 0.06;
    const bound = lengthBound(about, { layout: round }, 200);
    expect(bound.reachable).toBe(true);
    expect(bound.lengthM).toBeLessThanOrEqual(run);
    expect(bound.lengthM).toBeGreaterThan(0.9 * run);
  });

  it('goes by the clip points, each passed within 5 mm', () => {
    const clip: Vec3 = [2, 0.8, 0.5];
    const by = line(lead([1, 0, 0.5], [1, 0, 0]), lead([3, 0, 0.5], [-1, 0, 0]), {
      bendRadiusM: 0.01,
      clipPoints: [clip],
    });
    // Taut over the point, and 5 mm short of it on both sides; the small bends add less than 10 mm.
    const taut = 2 * LEAD + 2 * Math.hypot(1 - LEAD, 0.8);
    for (const bound of [plainBound(by, { layout: one }), lengthBound(by, { layout: one }, 50)]) {
      expect(bound.lengthM).toBeLessThan(taut + 0.01);
      expect(bound.lengthM).toBeGreaterThan(taut - 0.0101);
    }
  });

  it('is led past a box that stands in the way of the string', () => {
    // A box of 0.2 x 1.2 m across the room from floor to top: the string goes round its near end, 0.2 m off the line of the ports.
    const box = plainBox('crate', [3, 0.4, 0.5], [0.1, 0.6, 0.5]);
    const past = line(lead([1, 0, 0.5], [1, 0, 0]), lead([5, 0, 0.5], [-1, 0, 0]), { bendRadiusM: 0.02 });
    const bound = lengthBound(past, { layout: one, thingsIn: () => [box] }, 300);
    // Derived: round both near corners, at a distance of at least 7 mm (a hose of 10 mm radius keeps that from one of two sides).
    const least = 2 * LEAD + 2 * Math.hypot(1.9 - LEAD, 0.207) + 0.2;
    const most = 2 * LEAD + 2 * Math.hypot(1.9 - LEAD, 0.22) + 0.2 + 0.02;
    expect(bound.closed).toBe(true);
    expect(bound.lengthM).toBeGreaterThan(least * 0.998);
    expect(bound.lengthM).toBeLessThan(most);
    // The other side is as far as the wall: a box to the wall leaves one side alone, a box across the room the way over it.
    const wide = { ...box, half: [0.1, 0.6, 0.2] as const };
    expect(lengthBound(past, { layout: one, thingsIn: () => [wide] }, 300).lengthM).toBeLessThanOrEqual(bound.lengthM);
  });

  it('comes in slices to the same value', () => {
    const layout = two('drill', { old: { at: [2.006, -0.7, 0.2], diameterM: 0.03 } });
    const slant = line(lead([0.5, 0.8, 0.2], [0, 1, 0], 0.05), lead([3.5, -0.6, 0.9], [0, 0, -1], 0.05));
    const sliced = startLengthBound(slant, { layout });
    let last = 0;
    for (let k = 0; k < 40; k++) {
      const { lengthM } = sliced.step(5);
      expect(lengthM).toBeGreaterThanOrEqual(last);
      last = lengthM;
    }
    expect(sliced.step(0)).toEqual(lengthBound(slant, { layout }, 200));
  });

  it('never falls as steps rise, and is the same each time', () => {
    const layout = two('drill', { old: { at: [2.006, -0.7, 0.2], diameterM: 0.03 } });
    const slant = line(lead([0.5, 0.8, 0.2], [0, 1, 0], 0.05), lead([3.5, -0.6, 0.9], [0, 0, -1], 0.05), {
      bendRadiusM: 0.15,
    });
    let last = plainBound(slant, { layout }).lengthM;
    for (const steps of [0, 1, 2, 3, 5, 8, 13, 30, 80, 200]) {
      const bound = lengthBound(slant, { layout }, steps);
      expect(bound.lengthM).toBeGreaterThanOrEqual(last);
      expect(lengthBound(slant, { layout }, steps)).toEqual(bound);
      last = bound.lengthM;
    }
  });
});

/** Shortest way, least radius r, from a heading along x to the same heading displaced by [x, y]: arc, straight, arc. */
function reach(x: number, y: number, r: number): number {
  // The circles' centres are [0, r] and [x, y - r]; the inner tangent of two circles of one radius has length l.
  const [dx, dy] = [x, y - 2 * r];
  const far = Math.hypot(dx, dy);
  const l = Math.sqrt(far * far - 4 * r * r);
  const turn = Math.atan2(dy, dx) + Math.atan2(2 * r, l);
  return l + 2 * r * turn;
}
