import type { Vec3 } from '@core/base/vec';
import { routeLine } from '@core/runs/routing/route';
import type { Routed } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { worldOf } from './boat-views';
import { block, boatOf, type Draft, locker, type Setting, theBlock, theRun, thing } from './small-boats';

type End = NonNullable<Draft<'lines'>[string]['ends']>['from'];

const CUBE: Vec3 = [0.1, 0.1, 0.1];
const HOLE_AT: [number, number, number] = [1.006, 0, 0.4];
const TWO = { aft: locker([0, -0.6, 0], [1, 0.6, 0.8]), fore: locker([1.012, -0.6, 0], [2, 0.6, 0.8]) };
const ACROSS = { a: thing([0.3, 0, 0.4], CUBE, [1, 0, 0]), b: thing([1.7, 0.1, 0.4], CUBE, [-1, 0, 0]) };
const lineWith = (ends: { from?: End; to?: End }): NonNullable<Setting['lines']> => ({
  l: {
    name: 'l',
    kind: 'hose',
    medium: 'seaWater',
    from: { thing: 'a', port: 'p' },
    to: { thing: 'b', port: 'p' },
    ends,
  },
});
const crimped = (diameterM: number, rigidM: number): End => ({ diameterM, rigidM, crimped: true });

/** A bulkhead with one hole in it, and ends that are crimped on. */
const through = (diameterM: number, ends: { from?: End; to?: End }, more: Partial<Setting> = {}): Setting => ({
  compartments: TWO,
  panels: {
    bulkhead: { between: ['aft', 'fore'], near: HOLE_AT, rule: 'noDrill', holes: { old: { at: HOLE_AT, diameterM } } },
  },
  fixtures: ACROSS,
  lines: lineWith(ends),
  ...more,
});

describe('an end that is crimped on', () => {
  const both = { from: crimped(0.034, 0.06), to: crimped(0.03, 0.06) };

  it('passes the hole by the smaller of the two: 30 mm and 2 mm of play ask for 32 mm, not 36', () => {
    expect(theRun(through(0.032, both)).crossings).toMatchObject([{ holeId: 'old', fedFrom: 'from' }]);
    expect(theBlock(through(0.031, both))).toMatchObject({
      proved: true,
      reason: { kind: 'hole', shortByM: expect.closeTo(0.001, 4) },
    });
    const swapped = { from: both.to, to: both.from };
    expect(theRun(through(0.032, swapped)).crossings).toMatchObject([{ fedFrom: 'to' }]);
  });

  it('stays at its port where the other end goes on after the hose is through', () => {
    expect(theRun(through(0.022, { from: crimped(0.034, 0.06) })).crossings).toMatchObject([{ fedFrom: 'from' }]);
  });

  // Derived: the end of 60 mm stands 60 mm out of the panel, whose face is at x = 1.012, when it is through.
  it.each([
    ['behind the panel', (gapM: number): Vec3 => [1.012 + gapM + 0.05, 0, 0.4]],
    ['before it', (gapM: number): Vec3 => [1 - gapM - 0.05, 0, 0.4]],
  ])('needs its length free %s: 60 mm do, 59 do not', (_, at) => {
    const wall = (gapM: number): Setting =>
      through(0.032, both, {
        fixtures: { ...ACROSS, wall: block(at(gapM), [0.1, 0.08, 0.08]) },
        kind: { bendRadiusM: 0.03 },
      });
    expect(theRun(wall(0.0601)).crossings).toHaveLength(1);
    expect(theBlock(wall(0.059))).toMatchObject({
      proved: false,
      reason: { kind: 'feed', blocker: 'wall', shortByM: expect.closeTo(0.001, 3) },
    });
  });

  it('takes a hole where there is room for it, if it may be drilled', () => {
    const wall = { wall: block([1.08, 0.05, 0.4], [0.1, 0.4, 0.3]) };
    const drill = { bulkhead: { between: ['aft', 'fore'] as [string, string], near: HOLE_AT, newHoleCostM: 0.1 } };
    const bare = theRun(through(0.032, {}, { panels: drill, fixtures: { ...ACROSS, ...wall } }));
    const made = theRun(through(0.032, both, { panels: drill, fixtures: { ...ACROSS, ...wall } }));
    // Derived: the block covers y from -0.15 to 0.25 and z from 0.25 to 0.55; the end of 30 mm stays beside it.
    const [, y, z] = (made.crossings[0] as Routed['crossings'][number]).at;
    expect(y < -0.165 || y > 0.265 || z < 0.235 || z > 0.565).toBe(true);
    expect(bare.crossings).toHaveLength(1);
  });
});

describe('an elbow end', () => {
  const ROOM = { room: locker([0, -1, 0], [2, 1, 1]) };
  const elbow: End = { angleDeg: 90, rigidM: 0.05, dropM: 0.04, diameterM: 0.03 };
  const room = (more: Setting['fixtures'] = {}): Setting => ({
    compartments: ROOM,
    fixtures: { a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]), b: thing([0.39, 0.7, 0.5], CUBE, [0, -1, 0]), ...more },
    lines: lineWith({ from: elbow }),
  });

  it('lets the hose begin at its corner, and points at the other end where nothing is in the way', () => {
    const run = theRun(room());
    // Derived: the port is at x = 0.35, the corner 40 mm before it, in line with the other port: straight from y = 0 to 0.65.
    expect(run.prims[0]?.from[0]).toBeCloseTo(0.39, 9);
    expect(run.lengthM).toBeCloseTo(0.65, 4);
    expect(run.turns).toEqual([0, 0]);
  });

  it('is turned another way where the first is blocked', () => {
    // A block 30 mm from the corner: the rigid end of 50 mm has no room that way.
    const run = theRun(room({ stop: block([0.39, 0.08, 0.5], [0.06, 0.1, 0.06]) }));
    expect(run.turns?.[0]).not.toBe(0);
  });

  it('needs room for the leg from its port: 55 mm of corner and radius do, 54 do not', () => {
    // Derived: corner 40 mm before the port at x = 0.35, fitting 15 mm thick: up to x = 0.405.
    const wall = (gapM: number): Setting =>
      room({ wall: block([0.35 + gapM + 0.05, -0.3, 0.5], [0.1, 2 * 0.65, 0.06]) });
    expect(theRun(wall(0.0551)).status).toBe('routed');
    expect(theBlock(wall(0.054))).toMatchObject({ reason: { kind: 'lead', blocker: 'wall' } });
  });

  it('has a bound that holds whichever way it is turned', () => {
    const setting = room({ stop: block([0.39, 0.08, 0.5], [0.06, 0.1, 0.06]) });
    const world = worldOf(boatOf(setting));
    for (const line of world.lines) {
      const run = routeLine(world.viewOf(new Map()), line, 'fast') as Routed;
      expect(run.lowerBoundM).toBeLessThanOrEqual(run.lengthM);
      // Derived: from the corner at (0.39, 0) to the port at (0.39, 0.65).
      expect(run.lowerBoundM).toBeLessThanOrEqual(0.65);
    }
  });
});

describe('tube that is pushed into its fittings', () => {
  const straight = (straightM: number): Routed =>
    theRun({
      compartments: { room: locker([0, -1, 0], [2, 1, 1]) },
      fixtures: { a: thing([0.3, 0, 0.5], CUBE, [1, 0, 0]), b: thing([1.3, 0.7, 0.5], CUBE, [0, -1, 0]) },
      kind: { straightM, end: { rigidM: 0.02 } },
    });

  it('stays straight behind them, beyond the rigid end', () => {
    const [first] = straight(0.05).prims;
    expect(first?.kind).toBe('line');
    // Derived: 20 mm and 50 mm.
    if (first?.kind === 'line') expect(first.to[0] - first.from[0]).toBeGreaterThanOrEqual(0.07 - 1e-9);
    expect(straight(0.05).lengthM).toBeGreaterThan(straight(0).lengthM);
  });
});
