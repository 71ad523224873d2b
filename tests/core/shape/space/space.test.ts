import type { Vec3 } from '@core/base/vec';
import type { Panel } from '@core/shape/layout/types';
import { convexOf } from '@core/shape/space/convex';
import { nearestPoints } from '@core/shape/space/convex-distance';
import { LookUp } from '@core/shape/space/look-up';
import type { Mover } from '@core/shape/space/scene';
import type { Layer, Solid } from '@core/shape/space/solids';
import { createSpace } from '@core/shape/space/space';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf, panelData } from '../layout/boats';
import { box, capsule, cylinder, flip, isInside, mirroredSolid, vHull } from './scenes';

const LAYERS: readonly Layer[] = ['structure', 'furnishing', 'sweep', 'run'];
const mover = (
  radiusM: number,
  passage: (panel: Panel) => number | null = (p) => (p.rule === 'open' ? 0 : null),
): Mover => ({
  radiusM,
  stoppedBy: new Set(LAYERS),
  passage,
});
const eye = mover(0);
/** Two lockers 1 x 1 x 1 m side by side along x with a panel between them, a third above the second. */
const boat = {
  a: boxIn('plan', [0, 0, 0], [1, 1, 1]),
  b: boxIn('plan', [1, 0, 0], [2, 1, 1]),
  c: boxIn('section', [1, 0, 1], [2, 1, 2]),
};
const closed = layoutOf(boat);
const open = layoutOf(boat, {
  panels: {
    ab: panelData(['a', 'b'], [1, 0.5, 0.5], { rule: 'open' }),
    bc: panelData(['b', 'c'], [1.5, 0.5, 1], { rule: 'noDrill' }),
  },
});

describe('clearance', () => {
  const space = createSpace(closed, null, [box('tank', [0.5, 0.5, 0.2], [0.2, 0.2, 0.2])]);
  it('names the nearest thing and measures from the surface of the mover', () => {
    // derived: the tank's top is at z = 0.3; the segment runs at 0.42 with a radius of 0.02.
    const found = space.clearance({ from: [0.3, 0.5, 0.42], to: [0.7, 0.5, 0.42] }, mover(0.02));
    expect(found.freeM).toBeCloseTo(0.1, 9);
    expect(found.blocker).toMatchObject({ id: 'tank', layer: 'furnishing' });
    expect(found.blocker?.at[2]).toBeCloseTo(0.42, 9);
  });
  it('counts walls from the drawn outline', () => {
    const found = space.clearance({ from: [0.93, 0.5, 0.8], to: [0.93, 0.5, 0.8] }, mover(0.02));
    expect(found.freeM).toBeCloseTo(0.05, 9);
    expect(found.blocker).toMatchObject({ layer: 'wall', owner: 'a|b' });
  });
  it('of a solid is its distance, or how deep it stands in something', () => {
    const apart = space.clearance(box('p', [0.5, 0.5, 0.5], [0.1, 0.1, 0.1]), mover(0));
    expect(apart.freeM).toBeCloseTo(0.15, 9);
    const deep = space.clearance(cylinder('p', [0.2, 0.5, 0.32], [0.8, 0.5, 0.32], 0.05), mover(0));
    expect(deep.freeM).toBeCloseTo(-0.03, 4);
    expect(deep.blocker?.id).toBe('tank');
  });
  it('knows the hull', () => {
    const inHull = createSpace(layoutOf({ r: boxIn('plan', [0, -3, -1], [8, 3, 2]) }), vHull(0.03), []);
    // derived: (z + 0.5 - |y|) / sqrt 2 at y = 0.3, z = 0, less inset and radius
    const found = inHull.clearance({ from: [3, 0.3, 0], to: [4, 0.3, 0] }, mover(0.01));
    expect(found.freeM).toBeCloseTo(0.2 / Math.SQRT2 - 0.04, 9);
    expect(found.blocker?.layer).toBe('hull');
    expect(inHull.clearance(box('p', [4, 0, 0.5], [0.4, 0.4, 0.4]), mover(0)).freeM).toBeCloseTo(
      0.6 / Math.SQRT2 - 0.03,
      3,
    );
  });
  it('leaves out the layers and owners that do not stop the mover', () => {
    const soft = { ...mover(0.02), stoppedBy: new Set<Layer>(['run']) };
    const own = { ...mover(0.02), ignores: new Set(['tank']) };
    for (const m of [soft, own])
      expect(space.clearance({ from: [0.3, 0.5, 0.42], to: [0.7, 0.5, 0.42] }, m, 0.2).blocker).toBeNull();
  });
});

describe('sight', () => {
  const space = createSpace(open, null, [box('tank', [0.5, 0.5, 0.2], [0.2, 0.2, 0.2])]);
  it('passes an open panel, not a closed one, and ends at what stands in the way', () => {
    expect(space.sight([0.2, 0.5, 0.6], [1.8, 0.5, 0.6], eye)).toEqual({ isSeen: true, blocker: null });
    const up = space.sight([1.5, 0.5, 0.6], [1.5, 0.5, 1.6], eye);
    expect(up.blocker).toMatchObject({ layer: 'wall', owner: 'b|c' });
    expect(up.blocker?.at[2]).toBeCloseTo(1, 4);
    const tank = space.sight([0.2, 0.5, 0.2], [1.8, 0.5, 0.2], eye);
    expect(tank.isSeen).toBe(false);
    expect(tank.blocker?.at[0]).toBeCloseTo(0.4, 4);
  });
  it('reaches a target on the face of a thing', () => {
    expect(space.sight([0.5, 0.5, 0.9], [0.5, 0.5, 0.3], eye).isSeen).toBe(true);
    expect(space.sight([0.5, 0.5, 0.9], [0.5, 0.5, 0.29], eye).isSeen).toBe(false);
  });
});

describe('fall', () => {
  const space = createSpace(open, null, [box('tank', [0.5, 0.5, 0.2], [0.2, 0.2, 0.2])]);
  it('lands on what is below, along the boat up or heeled', () => {
    const drop = space.fall([0.5, 0.5, 0.8], [0, 0, 1], eye);
    expect(drop).toMatchObject({ blocker: { id: 'tank' } });
    expect(drop.dropM).toBeCloseTo(0.5, 4);
    // derived: heeled so that it falls 1 sideways for 2 down: from y = 0.95 it meets the side y = 1 after 0.05 sideways, 0.1 down.
    const heeled = space.fall([0.8, 0.95, 0.8], [0, -1 / Math.sqrt(5), 2 / Math.sqrt(5)], eye);
    expect(heeled.at?.[1]).toBeCloseTo(1, 4);
    expect(heeled.at?.[2]).toBeCloseTo(0.7, 4);
  });
  it('falls through where nothing catches it', () => {
    expect(createSpace(layoutOf({}), null, []).fall([0, 0, 0], [0, 0, 1], eye)).toEqual({
      at: null,
      dropM: 20,
      blocker: null,
    });
  });
});

describe('field and way', () => {
  it('cost the straight way through an open panel', () => {
    const space = createSpace(open, null, []);
    const field = space.field([1.5, 0.5, 0.5], mover(0.02));
    expect(field.costAt([0.5, 0.5, 0.5])).toBeCloseTo(1, 9);
    expect(field.reached).toEqual(['a', 'b']);
    expect(field.costAt([1.5, 0.5, 1.5])).toBe(Number.POSITIVE_INFINITY);
    const way = space.way([0.5, 0.5, 0.5], [1.5, 0.5, 0.5], mover(0.02), 1000);
    expect(way).toMatchObject({ outcome: 'found', panels: ['a|b'] });
    expect(way.outcome === 'found' && way.lengthM).toBeCloseTo(1, 9);
  });
  it('count what passing a panel costs', () => {
    const space = createSpace(closed, null, []);
    const hose = mover(0.02, (p) => p.newHoleCostM);
    expect(space.field([1.5, 0.5, 0.5], hose).costAt([0.5, 0.5, 0.5])).toBeCloseTo(1.5, 9);
    const way = space.way([0.5, 0.5, 0.5], [1.5, 0.5, 1.5], hose, 5000);
    expect(way.outcome === 'found' && way.panels).toEqual(['a|b', 'b|c']);
    expect(way.outcome === 'found' && way.costM - way.lengthM).toBeCloseTo(1, 9);
  });
  it('goes round what stands in the way, with its radius clear', () => {
    // derived: a slab from side to side up to z = 0.8 in a locker 1 m high: the way goes over its top, at 0.8 + radius at least.
    const space = createSpace(closed, null, [box('slab', [0.5, 0.5, 0.4], [0.2, 1, 0.8])]);
    const m = mover(0.05);
    const way = space.way([0.2, 0.5, 0.2], [0.8, 0.5, 0.2], m, 5000);
    if (way.outcome !== 'found') throw new Error('expected a way');
    const least = 2 * Math.hypot(0.2 - 0.05, 0.65) + 0.3;
    expect(way.lengthM).toBeGreaterThan(least);
    expect(way.lengthM).toBeLessThan(least * 1.06);
    way.points.slice(1).forEach((p, i) => {
      expect(space.clearance({ from: way.points[i] as Vec3, to: p }, m).freeM).toBeGreaterThanOrEqual(-1e-9);
    });
  });
  it('says what stops it when there is no way, and when the steps are spent', () => {
    const space = createSpace(closed, null, [box('slab', [0.5, 0.5, 0.5], [0.2, 1, 1])]);
    const none = space.way([0.2, 0.5, 0.2], [0.8, 0.5, 0.2], mover(0.02), 5000);
    expect(none).toMatchObject({ outcome: 'noWay', blocker: { id: 'slab' } });
    expect(space.way([0.2, 0.5, 0.2], [0.8, 0.5, 0.2], mover(0.02), 1).outcome).toBe('stepsSpent');
    expect(space.way([0.2, 0.5, 0.2], [1.5, 0.5, 0.5], mover(0.02), 5000).outcome).toBe('noWay');
  });
});

describe('sweep', () => {
  const space = createSpace(closed, null, [box('tank', [0.7, 0.5, 0.5], [0.2, 0.2, 0.2])]);
  const straight = (direction: Vec3, distanceM: number) => ({ kind: 'straight' as const, direction, distanceM });
  it('goes straight until it meets something', () => {
    // derived: a box of 0.1 m at x = 0.2 ends at 0.25; the tank begins at 0.6.
    const found = space.sweep(box('p', [0.2, 0.5, 0.5], [0.1, 0.1, 0.1]), straight([1, 0, 0], 1), eye);
    expect(found.free).toBeGreaterThan(0.35 - 2e-4);
    expect(found.free).toBeLessThan(0.35 + 4e-4);
    expect(found.blocker?.id).toBe('tank');
  });
  it('slides along what it touches', () => {
    const found = space.sweep(box('p', [0.2, 0.5, 0.05], [0.1, 0.1, 0.1]), straight([1, 0, 0], 0.7), eye);
    expect(found).toMatchObject({ share: 1, blocker: null });
  });
  it('drives a cylinder aslant on a corner', () => {
    // derived: upright cylinder of radius 0.05 going 45 degrees in plan from (0.4, 0.2): it meets the face x = 0.6 when its axis
    // is at 0.55, after 0.15 sqrt 2; there y = 0.35 is below the tank's side y = 0.4, so the edge (0.6, 0.4) is met first by
    // the round: distance of the edge from the line is |0.2 - 0.2| / sqrt 2 = 0, so after (0.2 sqrt 2 - 0.05).
    const found = space.sweep(
      cylinder('p', [0.4, 0.2, 0.45], [0.4, 0.2, 0.55], 0.05),
      straight([Math.SQRT1_2, Math.SQRT1_2, 0], 1),
      eye,
    );
    expect(Math.abs(found.free - (0.2 * Math.SQRT2 - 0.05))).toBeLessThan(5e-4);
  });
  it('turns a lever until it meets something', () => {
    // derived: an arm from the hub (0.2, 0.5) of 0.3 m, 0.02 m wide, turning right-handed about z from +y towards -x... and the
    // other way towards the wall y = 0 at its tip: a lever along x turns by asin(0.5 / 0.3) never; so hub at (0.2, 0.2):
    // its corner (0.3, -0.01) reaches y = -0.2 at angle asin(0.2 / 0.30017) - atan(0.01 / 0.3).
    const lever = box('lever', [0.35, 0.2, 0.2], [0.3, 0.02, 0.02]);
    const turn = { kind: 'turn' as const, about: [0.2, 0.2, 0.2] as Vec3, axis: [0, 0, 1] as Vec3, angleDeg: -90 };
    const found = space.sweep(lever, turn, eye);
    const expected = ((Math.asin(0.2 / Math.hypot(0.3, 0.01)) - Math.atan(0.01 / 0.3)) * 180) / Math.PI;
    expect(Math.abs(found.free - expected)).toBeLessThan(0.15);
    expect(found.blocker?.layer).toBe('wall');
    expect(space.sweep(lever, { ...turn, angleDeg: -20 }, eye)).toMatchObject({ share: 1, free: 20, blocker: null });
  });
  it('stops at the hull', () => {
    const inHull = createSpace(layoutOf({ r: boxIn('plan', [0, -3, -1], [8, 3, 2]) }), vHull(), []);
    // derived: the box's lower outer corner (0.2, z) meets z = |y| - 0.5 at z = -0.3; it starts at 0.3.
    const found = inHull.sweep(box('p', [4, 0, 0.5], [0.4, 0.4, 0.4]), straight([0, 0, -1], 2), eye);
    expect(Math.abs(found.free - 0.6)).toBeLessThan(1e-3);
    expect(found.blocker?.layer).toBe('hull');
  });
});

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

describe('distance of two bodies', () => {
  it('joins points of both bodies, and the plane between them parts the bodies', () => {
    fc.assert(
      fc.property(solid('a'), solid('b'), (a, b) => {
        const [one, other] = [convexOf(a), convexOf(b)];
        const { distanceM, onFirst, onSecond } = nearestPoints(one, other);
        if (distanceM < 1e-6) return;
        const d = [0, 1, 2].map(
          (k) => ((onSecond[k] as number) - (onFirst[k] as number)) / distanceM,
        ) as unknown as Vec3;
        const along = (p: Vec3) => p[0] * d[0] + p[1] * d[1] + p[2] * d[2];
        const gap = along(other.support([-d[0], -d[1], -d[2]])) - along(one.support(d));
        expect(Math.abs(gap - distanceM)).toBeLessThan(2e-5);
        expect(isInside(enlarged(a), onFirst) && isInside(enlarged(b), onSecond)).toBe(true);
      }),
      { numRuns: 300, seed: 41 },
    );
  });
});

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

describe('the space of a mirrored boat', () => {
  it('answers the same', () => {
    const room = layoutOf({ r: boxIn('plan', [-0.5, -1, -0.5], [1.5, 1, 1.5]) });
    fc.assert(
      fc.property(
        fc.tuple(solid('a'), solid('b'), solid('c')),
        number(-0.5, 0.5),
        number(0, 0.05),
        (solids, y, radius) => {
          const port = createSpace(room, null, solids);
          const starboard = createSpace(room, null, solids.map(mirroredSolid));
          const line = { from: [-0.3, y, 0.2] as Vec3, to: [1.3, y / 2, 0.8] as Vec3 };
          const other = { from: flip(line.from), to: flip(line.to) };
          const m = mover(radius);
          expect(starboard.clearance(other, m).freeM).toBeCloseTo(port.clearance(line, m).freeM, 9);
          expect(starboard.sight(other.from, other.to, m).isSeen).toBe(port.sight(line.from, line.to, m).isSeen);
          expect(starboard.fall(other.from, [0, 0, 1], m).dropM).toBeCloseTo(
            port.fall(line.from, [0, 0, 1], m).dropM,
            5,
          );
        },
      ),
      { numRuns: 80, seed: 42 },
    );
  });
  it('does not depend on the order of the solids', () => {
    fc.assert(
      fc.property(fc.tuple(solid('a'), solid('b'), solid('c')), (solids) => {
        const room = layoutOf({ r: boxIn('plan', [-0.5, -1, -0.5], [1.5, 1, 1.5]) });
        const ask = (list: readonly Solid[]) =>
          createSpace(room, null, list).way([-0.4, -0.9, -0.4], [1.4, 0.9, 1.4], mover(0.01), 3000);
        expect(ask([...solids].reverse())).toEqual(ask(solids));
      }),
      { numRuns: 20, seed: 43 },
    );
  });
});

describe('look-up', () => {
  it('finds what a scan finds, however large the scene', () => {
    const boxes = fc.array(fc.tuple(number(-5, 5), number(-5, 5), number(-5, 5), number(0, 2)), {
      minLength: 0,
      maxLength: 30,
    });
    fc.assert(
      fc.property(boxes, number(-5, 5), fc.constantFrom(1, 200), (list, at, size) => {
        const bounds = list.map(
          ([x, y, z, s]) =>
            [
              [x * size, y * size, z * size],
              [(x + s) * size, (y + s) * size, (z + s) * size],
            ] as const,
        );
        const [low, high]: [Vec3, Vec3] = [
          [at * size, at * size, -size],
          [(at + 1) * size, (at + 2) * size, size],
        ];
        const scan = bounds.flatMap(([l, h], i) =>
          l.every((v, k) => v <= (high[k] as number)) && h.every((v, k) => v >= (low[k] as number)) ? [i] : [],
        );
        expect(new LookUp(bounds).within(low, high)).toEqual(scan);
      }),
      { numRuns: 200, seed: 44 },
    );
  });
});
