import type { Vec3 } from '@core/base/vec';
import { routeLine, startSearch } from '@core/runs/routing/route';
import type { Routed } from '@core/runs/routing/types';
import { warmRun } from '@core/runs/routing/warm';
import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../../../support/boats';
import { routeAll, worldOf } from './boat-views';
import {
  block,
  boatOf,
  type Compartment,
  type Draft,
  locker,
  routed,
  type Setting,
  theBlock,
  theRun,
  thing,
} from './small-boats';

const ROOM = { room: locker([0, -1, 0], [2, 1, 1]) };
const CUBE: Vec3 = [0.1, 0.1, 0.1];

describe('a run in one locker', () => {
  it('is straight between ports that face each other', () => {
    const run = theRun({
      compartments: ROOM,
      fixtures: { a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]), b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]) },
    });
    // Derived: 1.4 m between centres less half a cube at each end.
    expect(run.lengthM).toBeCloseTo(1.3, 4);
    expect(run.bends).toBe(0);
    expect(run.lowerBoundM).toBeLessThanOrEqual(run.lengthM);
  });

  it('turns one corner with the radius of the hose, within a thousandth of the shortest', () => {
    const R = 0.06;
    const run = theRun({
      compartments: ROOM,
      fixtures: { a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]), b: thing([1.3, 0.7, 0.5], CUBE, [0, -1, 0]) },
    });
    // Derived: leads of 16 mm (radius and 6 mm) are straight; then legs of 0.934 m and 0.634 m that end at the corner of two rays square to each other; the shortest curve that
    // starts and ends along them is arc, straight, arc in their plane: it turns alpha, runs straight, turns the rest.
    let least = Number.POSITIVE_INFINITY;
    for (let k = 1; k < 20000; k += 1) {
      const alpha = ((Math.PI / 2) * k) / 20000;
      const beta = Math.PI / 2 - alpha;
      const [x0, y0] = [R * Math.sin(alpha), R * (1 - Math.cos(alpha))];
      const [x1, y1] = [0.934 - R * (1 - Math.cos(beta)), 0.634 - R * Math.sin(beta)];
      const [dx, dy] = [x1 - x0, y1 - y0];
      if (Math.abs(dx * Math.sin(alpha) - dy * Math.cos(alpha)) > 2e-4) continue;
      least = Math.min(least, (R * Math.PI) / 2 + Math.hypot(dx, dy));
    }
    expect(run.lengthM).toBeGreaterThan(least + 0.032 - 1e-4);
    expect(run.lengthM).toBeLessThan((least + 0.032) * 1.001);
    expect(run.leastRadiusM).toBeGreaterThanOrEqual(R);
  });

  it('goes round a box in the way, and no nearer than its own radius', () => {
    const run = theRun({
      compartments: ROOM,
      fixtures: {
        a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]),
        b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]),
        x: block([1, 0, 0.5], [0.3, 0.6, 0.98]),
      },
    });
    // Derived: past the box's edges at half its width plus the radius, straight lines to both ports.
    const side = 0.31;
    const polygon = 2 * Math.hypot(0.5, side) + 0.3;
    expect(run.lengthM).toBeGreaterThan(polygon - 0.04);
    expect(run.lengthM).toBeLessThan(polygon * 1.04);
    expect(run.minClearanceM).toBeGreaterThanOrEqual(0);
    expect(run.minClearanceM).toBeLessThan(0.001);
  });

  it('passes its clip points in order', () => {
    const clip: Vec3 = [1, 0.6, 0.5];
    const run = theRun({
      compartments: ROOM,
      fixtures: { a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]), b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]) },
      arrangement: { name: 'one', clipPoints: { l: { c: { at: [...clip], order: 1 } } } },
    });
    expect(run.lengthM).toBeGreaterThan(2 * Math.hypot(0.65, 0.6));
    // A clip lies on a straight piece.
    const near = run.prims.some((prim) => {
      if (prim.kind !== 'line') return false;
      const d = prim.to.map((v, k) => v - (prim.from[k] as number)) as [number, number, number];
      const w = clip.map((v, k) => v - (prim.from[k] as number)) as [number, number, number];
      const t = (d[0] * w[0] + d[1] * w[1] + d[2] * w[2]) / (d[0] ** 2 + d[1] ** 2 + d[2] ** 2);
      return t >= 0 && t <= 1 && Math.hypot(w[0] - d[0] * t, w[1] - d[1] * t, w[2] - d[2] * t) < 1e-6;
    });
    expect(near).toBe(true);
  });

  it('is blocked at its lead by what stands there, with how much is missing', () => {
    const block1 = theBlock({
      compartments: ROOM,
      fixtures: {
        a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]),
        b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]),
        x: block([0.45, 0.104, 0.5], [0.18, 0.2, 0.2]),
      },
    });
    // Derived: the block's side lies 4 mm off the axis of the port, the hose is 10 mm thick to that side.
    expect(block1).toMatchObject({ proved: false, reason: { kind: 'lead', blocker: 'x' } });
    expect(block1.reason.shortByM).toBeCloseTo(0.006, 9);
    // With a rigid end of 40 mm nothing can bend away before: that is proof.
    const rigid = theBlock({
      compartments: ROOM,
      fixtures: {
        a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]),
        b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]),
        x: block([0.45, 0.104, 0.5], [0.18, 0.2, 0.2]),
      },
      kind: { end: { rigidM: 0.04 } },
    });
    expect(rigid).toMatchObject({ proved: true, reason: { kind: 'lead', blocker: 'x' } });
  });

  it('is blocked where the hose is too stiff for the room, and says that a bend is in want of straight', () => {
    const stiff = theBlock({
      compartments: { room: locker([0, -0.1, 0], [0.5, 0.1, 0.2]) },
      fixtures: {
        a: thing([0.06, 0, 0.1], CUBE, [1, 0, 0]),
        b: thing([0.3, 0.03, 0.1], [0.06, 0.06, 0.06], [0, -1, 0]),
      },
      kind: { bendRadiusM: 0.4 },
    });
    expect(stiff.proved).toBe(false);
    expect(['bend', 'clearance']).toContain(stiff.reason.kind);
    expect(stiff.reason.shortByM).toBeGreaterThan(0.002);
    // Derived: there is nothing else that the missing straight could be against.
    expect(stiff.reason.blocker).toMatch(/^(a|b|room.*)$/);
    expect(stiff.reason.at).not.toBeNull();
  });

  it('is blocked at the port by the hose that sits there already, where the two cannot part', () => {
    // Derived: a duct 32 mm wide takes one hose of 20 mm, not two.
    const end = { thing: 'a', port: 'p' };
    const line = { name: 'l', kind: 'hose', medium: 'seaWater' as const, from: end, to: { thing: 'b', port: 'p' } };
    const world = worldOf(
      boatOf({
        compartments: { duct: locker([0, -0.016, 0], [0.5, 0.016, 0.032]) },
        fixtures: {
          a: thing([0.02, 0, 0.016], [0.02, 0.02, 0.02], [1, 0, 0]),
          b: thing([0.48, 0, 0.016], [0.02, 0.02, 0.02], [-1, 0, 0]),
        },
        lines: { first: line, second: line },
      }),
    );
    const outcomes = routeAll(world, 'fast');
    expect(outcomes.get('first')?.status).toBe('routed');
    expect(outcomes.get('second')).toMatchObject({ status: 'blocked', reason: { kind: 'lead', blocker: 'first' } });
  });

  it('leads suction round the side of what pressure climbs over', () => {
    const over = (suction: boolean): Setting => ({
      compartments: ROOM,
      fixtures: {
        a: thing([0.3, 0, 0.3], CUBE, [1, 0, 0]),
        b: thing([1.7, 0, 0.3], CUBE, [-1, 0, 0]),
        // 0.15 m to climb over the port's height, 0.25 m to go round either side.
        x: block([1, 0, 0.215], [0.2, 0.5, 0.43]),
      },
      lines: {
        l: {
          name: 'l',
          kind: 'hose',
          medium: 'seaWater',
          suction,
          from: { thing: 'a', port: 'p' },
          to: { thing: 'b', port: 'p' },
        },
      },
    });
    const highest = (run: Routed): number => Math.max(...run.prims.flatMap(({ from, to }) => [from[2], to[2]]));
    expect(highest(theRun(over(false)))).toBeGreaterThan(0.42);
    expect(highest(theRun(over(true)))).toBeLessThan(0.32);
  });

  it('says by how much a supplied hose falls short, with proof only below the bound', () => {
    const setting = (limit: number) => {
      const world = worldOf(
        boatOf({
          compartments: ROOM,
          fixtures: {
            a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]),
            b: thing([1.7, 0, 0.5], CUBE, [-1, 0, 0]),
            x: block([1, 0, 0.5], [0.3, 0.6, 0.98]),
          },
        }),
      );
      const line = { ...(world.lines[0] as (typeof world.lines)[number]), lengthLimitM: limit };
      return routeLine(world.viewOf(new Map()), line, 'fast');
    };
    // Derived: 1.3 m straight through the block is the bound; round it takes at least 1.45 m.
    expect(setting(1.2)).toMatchObject({ status: 'blocked', proved: true, reason: { kind: 'reach' } });
    const short = setting(1.4);
    expect(short).toMatchObject({ status: 'blocked', proved: false, reason: { kind: 'reach' } });
    expect(setting(1.6).status).toBe('routed');
  });

  it('keeps two lines apart by 2 mm', () => {
    const lines: Draft<'lines'> = {};
    for (const id of ['l', 'm'])
      lines[id] = {
        name: id,
        kind: 'hose',
        medium: 'seaWater',
        from: { thing: `a${id}`, port: 'p' },
        to: { thing: `b${id}`, port: 'p' },
      };
    const small: Vec3 = [0.05, 0.05, 0.05];
    const outcomes = routed({
      compartments: ROOM,
      fixtures: {
        al: thing([0.3, 0, 0.5], small, [1, 0, 0]),
        bl: thing([1.7, 0, 0.5], small, [-1, 0, 0]),
        am: thing([1, -0.5, 0.5], small, [0, 1, 0]),
        bm: thing([1, 0.5, 0.5], small, [0, -1, 0]),
      },
      lines,
    });
    const second = outcomes.get('m') as Routed;
    expect(second.status).toBe('routed');
    // Derived: straight it would be 0.95 m; it must step over 22 mm between centre lines.
    expect(second.lengthM).toBeGreaterThan(0.95);
    expect(second.minClearanceM).toBeGreaterThanOrEqual(0.002 - 1e-9);
    expect(second.minClearanceM).toBeLessThan(0.003);
  });
});

const TWO = { aft: locker([0, -0.6, 0], [1, 0.6, 0.8]), fore: locker([1.012, -0.6, 0], [2, 0.6, 0.8]) };
const ACROSS = { a: thing([0.3, 0, 0.4], CUBE, [1, 0, 0]), b: thing([1.7, 0.1, 0.4], CUBE, [-1, 0, 0]) };
const bulkhead = (record: Partial<Draft<'panels'>[string]>): Draft<'panels'> => ({
  bulkhead: { between: ['aft', 'fore'], near: [1.006, 0, 0.4], ...record },
});

describe('a run through a panel', () => {
  it('drills it square, with the hole as wide as the hose needs', () => {
    const run = theRun({ compartments: TWO, panels: bulkhead({ rule: 'drill', newHoleCostM: 0.4 }), fixtures: ACROSS });
    expect(run.crossings).toHaveLength(1);
    expect(run.crossings[0]).toMatchObject({ holeId: null });
    expect(run.crossings[0]?.at[0]).toBeCloseTo(1.006, 9);
    expect(run.costM).toBeCloseTo(run.lengthM + 0.4, 9);
  });

  it('takes an existing hole rather than drill when the way round costs less than the hole', () => {
    const holes = { old: { at: [1.006, 0.3, 0.4] as [number, number, number], diameterM: 0.03 } };
    const run = theRun({ compartments: TWO, panels: bulkhead({ newHoleCostM: 0.4, holes }), fixtures: ACROSS });
    expect(run.crossings).toMatchObject([{ holeId: 'old', diameterM: 0.03 }]);
    const cheap = theRun({ compartments: TWO, panels: bulkhead({ newHoleCostM: 0.001, holes }), fixtures: ACROSS });
    expect(cheap.crossings).toMatchObject([{ holeId: null }]);
  });

  it('leaves an existing hole alone that is too small, or full', () => {
    const at = [1.006, 0.1, 0.4] as [number, number, number];
    for (const old of [
      { at, diameterM: 0.021 },
      // Derived: 22 mm beside 24 mm ask for sqrt(22^2 + 24^2) = 32.6 mm.
      { at, diameterM: 0.032, carries: { loom: { name: 'loom', diameterM: 0.024 } } },
    ]) {
      const run = theRun({
        compartments: TWO,
        panels: bulkhead({ newHoleCostM: 0.4, holes: { old } }),
        fixtures: ACROSS,
      });
      expect(run.crossings).toMatchObject([{ holeId: null }]);
    }
  });

  it('never drills where that is forbidden, and proves that there is no other way', () => {
    const none = theBlock({ compartments: TWO, panels: bulkhead({ rule: 'noDrill' }), fixtures: ACROSS });
    expect(none).toMatchObject({ proved: true, reason: { kind: 'hole' } });
  });

  it('passes an open panel without a hole', () => {
    const run = theRun({ compartments: TWO, panels: bulkhead({ rule: 'open' }), fixtures: ACROSS });
    expect(run.crossings).toEqual([]);
    // Derived: 1.3 m along and 0.1 m across between ports along x: hardly more than straight.
    expect(run.lengthM).toBeLessThan(Math.hypot(1.3, 0.1) + 0.01);
  });

  it('does not enter a forbidden compartment', () => {
    const three = { ...TWO, beside: locker([0, 0.612, 0], [2, 1.2, 0.8]) };
    const panels = {
      ...bulkhead({ rule: 'noDrill' as const }),
      one: { between: ['aft', 'beside'] as [string, string], near: [0.5, 0.606, 0.4] as [number, number, number] },
      two: { between: ['beside', 'fore'] as [string, string], near: [1.5, 0.606, 0.4] as [number, number, number] },
    };
    expect(theRun({ compartments: three, panels, fixtures: ACROSS }).crossings).toHaveLength(2);
    const arrangement = { name: 'one', forbidden: { l: ['beside'] } };
    const kept = theBlock({ compartments: three, panels, fixtures: ACROSS, arrangement });
    expect(kept).toMatchObject({ proved: true, reason: { kind: 'hole' } });
  });
});

describe('a run in lockers of other shapes', () => {
  it('stays inside a concave locker', () => {
    const run = theRun({
      compartments: {
        ell: {
          name: 'ell',
          view: 'plan',
          outline: [
            [0, 0],
            [2, 0],
            [2, 0.5],
            [0.5, 0.5],
            [0.5, 2],
            [0, 2],
          ],
          rangeM: [0, 0.6],
        },
      },
      fixtures: { a: thing([1.8, 0.25, 0.3], CUBE, [-1, 0, 0]), b: thing([0.25, 1.8, 0.3], CUBE, [0, -1, 0]) },
    });
    // Derived: two straights past the inner corner at (0.5, 0.5), 10 mm off.
    const corner = 0.49;
    const polygon = Math.hypot(1.75 - corner, corner - 0.25) * 2;
    expect(run.lengthM).toBeGreaterThan(polygon - 0.06);
    expect(run.lengthM).toBeLessThan(polygon * 1.05);
  });

  it('drills a sloped panel along its own normal', () => {
    const slope = 0.3;
    const side = (s: number): Compartment => ({
      name: 'side',
      view: 'section',
      outline: [
        [s * 0.2, 0],
        [s * 1.2, 0],
        [s * 1.2, 0.8],
        [s * 0.2 + slope, 0.8],
      ],
      rangeM: [0, 1.5],
    });
    const run = theRun({
      compartments: {
        port: { ...side(1) },
        middle: {
          name: 'middle',
          view: 'section',
          outline: [
            [-0.8, 0],
            [0.19, 0],
            [0.19 + slope, 0.8],
            [-0.8, 0.8],
          ],
          rangeM: [0, 1.5],
        },
      },
      fixtures: { a: thing([0.3, -0.5, 0.4], CUBE, [0, 1, 0]), b: thing([1.2, 0.9, 0.4], CUBE, [0, -1, 0]) },
    });
    expect(run.crossings).toHaveLength(1);
  });
});

describe('the router', () => {
  const setting: Setting = {
    compartments: TWO,
    panels: bulkhead({ newHoleCostM: 0.2 }),
    fixtures: { ...ACROSS, x: block([0.65, 0.05, 0.4], [0.1, 0.5, 0.5]), y: block([1.35, 0, 0.3], [0.1, 0.6, 0.3]) },
  };
  const lineOf = (draft: BoatDraft) => {
    const world = worldOf(draft);
    return { view: world.viewOf(new Map()), line: world.lines[0] as (typeof world.lines)[number] };
  };

  it('answers the same whether it runs at once or in steps, and each time that it is asked', () => {
    const { view, line } = lineOf(boatOf(setting));
    const atOnce = routeLine(view, line, 'fast');
    const search = startSearch(view, line, 'fast');
    let steps = 0;
    let outcome = search.step(10);
    for (; !outcome; steps += 1) outcome = search.step(10);
    expect(steps).toBeGreaterThan(1);
    expect(JSON.stringify(outcome)).toBe(JSON.stringify(atOnce));
    // A fresh boat, nothing remembered.
    const again = lineOf(boatOf(setting));
    expect(JSON.stringify(routeLine(again.view, again.line, 'fast'))).toBe(JSON.stringify(atOnce));
  });

  it('looks only into cells that the line comes near', () => {
    const far = { ...TWO, far: locker([5, -0.6, 0], [6, 0.6, 0.8]), farther: locker([6.012, -0.6, 0], [7, 0.6, 0.8]) };
    const { view, line } = lineOf(boatOf({ ...setting, compartments: far }));
    const read = new Set<string>();
    routeLine(
      {
        ...view,
        thingsIn: (cell) => {
          read.add(view.layout.cells[cell]?.compartment ?? '');
          return view.thingsIn(cell);
        },
      },
      line,
      'fast',
    );
    expect([...read].sort()).toEqual(['aft', 'fore']);
  });

  it('keeps the run when nothing moved, and follows a port that moved 10 mm', () => {
    const { view, line } = lineOf(boatOf(setting));
    const run = routeLine(view, line, 'fast') as Routed;
    const warm = warmRun(view, line, run) as Routed;
    expect(warm.status).toBe('routed');
    expect(warm.costM).toBeLessThanOrEqual(run.costM + 1e-6);
    const moved = boatOf({
      ...setting,
      fixtures: { ...setting.fixtures, a: thing([0.3, 0.01, 0.4], CUBE, [1, 0, 0]) },
    });
    const next = lineOf(moved);
    const followed = warmRun(next.view, next.line, run) as Routed;
    expect(followed.status).toBe('routed');
    expect(Math.abs(followed.lengthM - run.lengthM)).toBeLessThan(0.03);
  });

  // Derived: the world has no preferred side, place or name.
  const mirrored = (p: readonly number[]): [number, number, number] => [
    p[0] as number,
    -(p[1] as number),
    p[2] as number,
  ];
  const shifted = (p: readonly number[]): [number, number, number] => [
    (p[0] as number) + 3.7,
    (p[1] as number) - 0.31,
    (p[2] as number) + 1.13,
  ];
  const changed = (point: (p: readonly number[]) => [number, number, number], direction = point): Setting => ({
    compartments: Object.fromEntries(
      Object.entries(setting.compartments).map(([id, one]) => {
        const ends = [
          point([one.rangeM[0], ...(one.outline[0] as [number, number])]),
          point([one.rangeM[1], ...(one.outline[2] as [number, number])]),
        ] as const;
        const low = [0, 1, 2].map((k) => Math.min(ends[0][k] as number, ends[1][k] as number)) as [
          number,
          number,
          number,
        ];
        const high = [0, 1, 2].map((k) => Math.max(ends[0][k] as number, ends[1][k] as number)) as [
          number,
          number,
          number,
        ];
        return [id, locker(low, high)];
      }),
    ),
    panels: bulkhead({ newHoleCostM: 0.2, near: point([1.006, 0, 0.4]) }),
    fixtures: Object.fromEntries(
      Object.entries(setting.fixtures).map(([id, one]) => [
        id,
        {
          ...one,
          pose: { at: point(one.pose.at) },
          ports: Object.fromEntries(
            Object.entries(one.ports ?? {}).map(([port, { at, direction: out }]) => [
              port,
              { at: direction(at), direction: direction(out) },
            ]),
          ),
        },
      ]),
    ),
  });

  it('finds as good a run in the mirrored boat, in the shifted one and under other names', () => {
    const cost = theRun(setting).costM;
    const within = (other: Setting): number => Math.abs(theRun(other).costM / cost - 1);
    expect(within(changed(mirrored))).toBeLessThan(0.01);
    expect(within(changed(shifted, (p) => [p[0] as number, p[1] as number, p[2] as number]))).toBeLessThan(0.01);
    const renamed: Setting = {
      ...setting,
      compartments: { zeta: TWO.aft, alpha: TWO.fore },
      panels: { q: { between: ['zeta', 'alpha'], near: [1.006, 0, 0.4], newHoleCostM: 0.2 } },
    };
    expect(within(renamed)).toBeLessThan(0.01);
  });
});
