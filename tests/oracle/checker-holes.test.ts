import { boatSchema } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../support/boats';
import { checkRuns, type Violation } from '../support/check-run';
import type { P3 } from '../support/geometry-oracle';

/**
 * The judge is judged where several runs share a hole, where holes are planned, and where crimped ends come through them. All numbers are
 * derived: two boxes 12 mm apart, hoses of 20 mm straight through one hole of 44 mm, which holds two: 22 mm each.
 */
const box = (x0: number, x1: number): NonNullable<BoatDraft['compartments']>[string] => ({
  name: 'box',
  view: 'plan',
  outline: [
    [x0, -0.5],
    [x1, -0.5],
    [x1, 0.5],
    [x0, 0.5],
  ],
  rangeM: [0, 0.8],
});
const HOLE_AT: P3 = [1.006, 0, 0.4];

interface Given {
  readonly diameterM?: number;
  readonly carries?: Record<string, { name: string; diameterM: number }>;
  /** Planned for these lines instead of there already. */
  readonly planned?: readonly string[];
  readonly end?: { diameterM: number; rigidM: number; crimped: boolean; angleDeg?: number; dropM?: number };
  readonly wallAt?: number;
}

/** Places of the two hoses across the hole, from its middle, and what the boat is like. */
function judged(
  ys: readonly number[],
  given: Given = {},
  edit: (run: RunReport) => RunReport = (run) => run,
): Violation[] {
  const diameterM = given.diameterM ?? 0.044;
  const thing = (x: number, y: number, out: 1 | -1): NonNullable<BoatDraft['fixtures']>[string] => ({
    name: 'thing',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.1, 0.004, 0.05] },
    pose: { at: [x - out * 0.05, y, 0.4] },
    ports: { p: { at: [out * 0.05, 0, 0], direction: [out, 0, 0] } },
  });
  const fixtures: BoatDraft['fixtures'] = {};
  const lines: BoatDraft['lines'] = {};
  const runs = ys.map((y, k): RunReport => {
    fixtures[`a${k}`] = thing(0.4, y, 1);
    fixtures[`b${k}`] = thing(1.6, y, -1);
    lines[`l${k}`] = {
      name: 'l',
      kind: 'hose',
      medium: 'seaWater',
      from: { thing: `a${k}`, port: 'p' },
      to: { thing: `b${k}`, port: 'p' },
    };
    return {
      lineId: `l${k}`,
      status: 'routed',
      lengthM: 1.2,
      lowerBoundM: 1.2,
      prims: [{ kind: 'line', from: [0.4, y, 0.4], to: [1.6, y, 0.4] }],
      holes: [
        given.planned
          ? { panelId: 'aft|fore', at: HOLE_AT, diameterM, existing: false, newHoleId: 'cut' }
          : { panelId: 'aft|fore', at: HOLE_AT, diameterM, existing: true },
      ],
      minClearanceM: 0,
    };
  });
  if (given.wallAt !== undefined)
    fixtures.wall = {
      name: 'wall',
      kind: 'other',
      shape: { type: 'box', sizeM: [0.02, 0.02, 0.02] },
      pose: { at: [given.wallAt, 0.025, 0.4] },
    };
  const boat = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'two boxes',
    compartments: { aft: box(0, 1), fore: box(1.012, 2) },
    panels: {
      bulkhead: {
        between: ['aft', 'fore'],
        near: HOLE_AT,
        thicknessM: 0.012,
        ...(given.planned ? {} : { holes: { old: { at: HOLE_AT, diameterM, carries: given.carries ?? {} } } }),
      },
    },
    arrangements: {
      plan: {
        name: 'plan',
        ...(given.planned
          ? { newHoles: { cut: { between: ['aft', 'fore'], at: HOLE_AT, diameterM, for: [...given.planned] } } }
          : {}),
      },
    },
    fixtures,
    lineKinds: {
      hose: { name: 'hose', what: 'hose', outsideM: 0.02, bendRadiusM: 0.05, ...(given.end ? { end: given.end } : {}) },
    },
    lines,
  });
  return checkRuns(boat, { arrangement: 'plan', runs: runs.map(edit) });
}
const kinds = (violations: readonly Violation[]): string[] => [...new Set(violations.map(({ kind }) => kind))].sort();

describe('the judge of a shared hole', () => {
  it('lets two hoses lie side by side in it, with their gap away from it', () => {
    expect(judged([-0.011, 0.011])).toEqual([]);
    // They touch all along: in the hole and beside it they may, at their ports they may not.
    expect(judged([-0.01, 0.01])).toMatchObject([
      { kind: 'runs', at: [0.4, -0.01, 0.4], amount: expect.closeTo(0.002, 9) },
    ]);
  });

  it('catches hoses that run into each other, lie on the rim, or are too many for it', () => {
    expect(kinds(judged([-0.009, 0.009]))).toContain('runs');
    expect(kinds(judged([-0.013, 0.013]))).toContain('holePlace');
    expect(kinds(judged([-0.011, 0.011], { carries: { loom: { name: 'loom', diameterM: 0.036 } } }))).toContain(
      'holeFull',
    );
  });

  // A loom of 14 mm in a hole of 44 mm: 12 mm are left beside a hose of 20 mm in its middle, 23 mm beside one 11 mm off it.
  it('catches a hose that lies on what the hole carries', () => {
    const carries = { loom: { name: 'loom', diameterM: 0.014 } };
    expect(judged([0.011], { carries })).toEqual([]);
    expect(judged([0], { carries })).toMatchObject([{ kind: 'holeFull', amount: expect.closeTo(0.002, 9) }]);
  });
});

describe('the judge of a planned hole', () => {
  it('lets the line pass that it is made for, and another beside it', () => {
    expect(judged([0], { planned: ['l0'] })).toEqual([]);
    expect(judged([-0.011, 0.011], { planned: ['l1'] })).toEqual([]);
  });

  it('catches a run that is said to pass an old hole there, or does not pass its own', () => {
    expect(
      kinds(
        judged([0], { planned: ['l0'] }, (run) => ({ ...run, holes: [{ ...run.holes[0], existing: true } as never] })),
      ),
    ).toEqual(expect.arrayContaining(['notExisting']));
    const aside = (run: RunReport): RunReport => ({
      ...run,
      holes: [{ panelId: 'aft|fore', at: [1.006, 0.1, 0.4], diameterM: 0.022, existing: false }],
    });
    expect(kinds(judged([0.1], { planned: ['l0'] }, aside))).toEqual(['planned']);
    expect(judged([0.1], { planned: ['other'] }, aside)).toEqual([]);
  });
});

describe('the judge of a crimped end', () => {
  const end = { diameterM: 0.03, rigidM: 0.06, crimped: true };

  it('asks for a hole that the leading end passes', () => {
    expect(judged([0], { end, diameterM: 0.032 })).toEqual([]);
    expect(kinds(judged([0], { end, diameterM: 0.028 }))).toContain('holeSize');
  });

  it('asks for its length free on both sides of the panel, to the millimetre', () => {
    // Derived: the block of 20 mm stands from y = 15 mm on, beside the hose and in the way of the end, its near face 60 or 59 mm off the panel.
    const off = { end, diameterM: 0.04 };
    expect(judged([0], { ...off, wallAt: 1.012 + 0.06 + 0.0101 })).toEqual([]);
    expect(kinds(judged([0.001], { ...off, wallAt: 1.012 + 0.059 + 0.01 }))).toEqual(['feed']);
    expect(kinds(judged([0.001], { ...off, wallAt: 1 - 0.059 - 0.01 }))).toEqual(['feed']);
    // An end that goes on last leaves the bare hose to pass.
    expect(judged([0.001], { end: { ...end, crimped: false }, diameterM: 0.04, wallAt: 1.04 })).toEqual([]);
  });
});

describe('the judge of an elbow', () => {
  it('asks for the hose to begin at its corner, in a direction that it may be turned to', () => {
    const end = { diameterM: 0.024, rigidM: 0.04, crimped: false, angleDeg: 90, dropM: 0.03 };
    // Straight out of the port, as if there were no elbow.
    expect(kinds(judged([0], { end }))).toEqual(['port']);
  });
});
