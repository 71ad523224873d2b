import { footOnLeg } from '@core/base/segment';
import { distance, type Vec3 } from '@core/base/vec';
import type { Routed, RunOutcome } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { type Draft, locker, routed, type Setting, thing } from './small-boats';

/** Two lockers in a row, 12 mm apart; the bulkhead between must not be drilled. */
const TWO = { aft: locker([0, -0.6, 0], [1, 0.6, 0.8]), fore: locker([1.012, -0.6, 0], [2, 0.6, 0.8]) };
const CUBE: Vec3 = [0.1, 0.06, 0.1];
const HOLE_AT: [number, number, number] = [1.006, 0, 0.4];

/** Lines `l0`, `l1` ... side by side, each from its own thing aft to its own thing forward. */
function abreast(count: number): Pick<Setting, 'fixtures' | 'lines'> {
  const fixtures: Setting['fixtures'] = {};
  const lines: NonNullable<Setting['lines']> = {};
  for (let k = 0; k < count; k += 1) {
    const y = 0.15 * (k - (count - 1) / 2);
    fixtures[`a${k}`] = thing([0.2, y, 0.4], CUBE, [1, 0, 0]);
    fixtures[`b${k}`] = thing([1.8, y, 0.4], CUBE, [-1, 0, 0]);
    lines[`l${k}`] = {
      name: `l${k}`,
      kind: 'hose',
      medium: 'seaWater',
      from: { thing: `a${k}`, port: 'p' },
      to: { thing: `b${k}`, port: 'p' },
    };
  }
  return { fixtures, lines };
}

function through(
  count: number,
  diameterM: number,
  more: Partial<Setting> = {},
  carries: Record<string, { name: string; diameterM: number }> = {},
): Map<string, RunOutcome> {
  const panels: Draft<'panels'> = {
    bulkhead: {
      between: ['aft', 'fore'],
      near: HOLE_AT,
      rule: 'noDrill',
      holes: { old: { at: HOLE_AT, diameterM, carries } },
    },
  };
  return routed({ compartments: TWO, panels, ...abreast(count), ...more });
}
const statuses = (outcomes: ReadonlyMap<string, RunOutcome>): string[] =>
  [...outcomes].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, { status }]) => status);
const crossingOf = (outcomes: ReadonlyMap<string, RunOutcome>, line: string): Vec3 =>
  (outcomes.get(line) as Routed).crossings[0]?.at as Vec3;

describe('a hole that several runs share', () => {
  // Derived: a hose of 20 mm asks for 22 mm of a hole, two for 44 mm: 1 mm at the rim on both sides, 2 mm between them.
  it('lets a second hose lie beside the first: 44 mm hold two of 20 mm, 43 mm one', () => {
    const two = through(2, 0.044);
    expect(statuses(two)).toEqual(['routed', 'routed']);
    const [a, b] = [crossingOf(two, 'l0'), crossingOf(two, 'l1')];
    expect(Math.hypot(a[1] - b[1], a[2] - b[2])).toBeCloseTo(0.022, 4);
    const one = through(2, 0.043);
    expect(statuses(one)).toEqual(['routed', 'blocked']);
    expect(one.get('l1')).toMatchObject({
      proved: false,
      reason: { kind: 'hole', blocker: 'aft|fore', shortByM: expect.closeTo(0.001, 4) },
    });
  });

  it('holds three in the circle round three circles, 22 mm times 2.1547 (published, Kravitz 1967), and no three in less', () => {
    expect(statuses(through(3, 0.0475))).toEqual(['routed', 'routed', 'routed']);
    expect(statuses(through(3, 0.0465))).toEqual(['routed', 'routed', 'blocked']);
  });

  it('holds what it carries too: at its bottom, and the hose above', () => {
    const loom = { loom: { name: 'loom', diameterM: 0.018 } };
    // Derived: 18 mm and 22 mm.
    expect(statuses(through(1, 0.04, {}, loom))).toEqual(['routed']);
    const full = through(1, 0.039, {}, loom);
    expect(full.get('l0')).toMatchObject({
      status: 'blocked',
      proved: true,
      reason: { kind: 'hole', shortByM: expect.closeTo(0.001, 4) },
    });
  });

  it('is passed through the middle where nothing could lie beside the hose', () => {
    expect(crossingOf(through(1, 0.024), 'l0')).toEqual(HOLE_AT);
  });
});

/** The bulkhead may be drilled; one hole in it is decided on. */
const planned = (
  hole: { at?: Vec3; diameterM: number; for?: string[] },
  rule: 'drill' | 'noDrill' = 'drill',
): Pick<Setting, 'panels' | 'arrangement'> => ({
  panels: { bulkhead: { between: ['aft', 'fore'], near: HOLE_AT, rule, newHoleCostM: 0.05 } },
  arrangement: {
    name: 'one',
    newHoles: {
      cut: { between: ['aft', 'fore'], at: [...(hole.at ?? HOLE_AT)], diameterM: hole.diameterM, for: hole.for ?? [] },
    },
  },
});
const holesOf = (outcomes: ReadonlyMap<string, RunOutcome>, line: string): (string | undefined)[] =>
  (outcomes.get(line) as Routed).crossings.map(({ newHoleId }) => newHoleId);

describe('a hole that is planned', () => {
  const far: Vec3 = [1.006, 0.5, 0.7];

  it('is passed by the line that it is made for, however far round', () => {
    const free = routed({ compartments: TWO, ...abreast(1), ...planned({ at: far, diameterM: 0.03 }) });
    expect(holesOf(free, 'l0')).toEqual([undefined]);
    const bound = routed({ compartments: TWO, ...abreast(1), ...planned({ at: far, diameterM: 0.03, for: ['l0'] }) });
    expect(holesOf(bound, 'l0')).toEqual(['cut']);
    expect((bound.get('l0') as Routed).lengthM).toBeGreaterThan((free.get('l0') as Routed).lengthM + 0.1);
    // Nothing is drilled but what was decided on.
    expect((bound.get('l0') as Routed).costM).toBeLessThan((bound.get('l0') as Routed).lengthM + 1e-9);
  });

  it('says what it lacks where the line does not fit: 22 mm asked, 21 there', () => {
    const outcomes = routed({ compartments: TWO, ...abreast(1), ...planned({ diameterM: 0.021, for: ['l0'] }) });
    expect(outcomes.get('l0')).toMatchObject({
      status: 'blocked',
      proved: true,
      reason: { kind: 'hole', blocker: 'aft|fore', shortByM: expect.closeTo(0.001, 4) },
    });
  });

  it('is shared by others while there is room for those that it is made for', () => {
    const { fixtures, lines } = abreast(2);
    const share = (diameterM: number) =>
      routed({ compartments: TWO, fixtures, lines: lines ?? {}, ...planned({ diameterM, for: ['l1'] }, 'noDrill') });
    const roomy = share(0.044);
    expect(holesOf(roomy, 'l0')).toEqual(['cut']);
    expect(holesOf(roomy, 'l1')).toEqual(['cut']);
  });
});

describe('a clip point that several lines name', () => {
  it('is shared: the later run lies beside the earlier one there', () => {
    const { fixtures, lines } = abreast(2);
    const at: [number, number, number] = [0.6, 0, 0.55];
    const clips = { name: 'one', clipPoints: { l0: { c: { at, order: 1 } }, l1: { c: { at, order: 1 } } } };
    const outcomes = routed({
      compartments: { room: locker([0, -0.6, 0], [2, 0.6, 0.8]) },
      fixtures,
      lines: lines ?? {},
      arrangement: clips,
    });
    expect(statuses(outcomes)).toEqual(['routed', 'routed']);
    const nearest = (line: string): number =>
      Math.min(...(outcomes.get(line) as Routed).prims.map(({ from, to }) => distance(at, footOnLeg(at, from, to))));
    const [a, b] = [nearest('l0'), nearest('l1')].sort((p, q) => p - q) as [number, number];
    expect(a).toBeLessThan(1e-6);
    // Derived: two hoses of 20 mm with 2 mm between them.
    expect(b).toBeGreaterThan(0.0219);
    expect(b).toBeLessThan(0.024);
  });
});
