import type { Vec3 } from '@core/base/vec';
import type { Crossing } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { type Compartment, type Fixture, locker, type Setting, theBlock, theRun, thing } from './small-boats';

const CUBE: Vec3 = [0.1, 0.1, 0.1];

/** A compartment whose section, athwartships and up, has this outline. */
const section = (outline: [number, number][], rangeM: [number, number]): Compartment => ({
  name: 'locker',
  view: 'section',
  outline,
  rangeM,
});

/** Two ducts of one L-shaped section in line, 12 mm apart: arms of a width along the sole and up the port side. */
function ducts(armM: number): Setting {
  const L: [number, number][] = [
    [0, 0],
    [0.8, 0],
    [0.8, armM],
    [armM, armM],
    [armM, 0.8],
    [0, 0.8],
  ];
  const slim: Vec3 = [0.1, 0.03, 0.03];
  return {
    compartments: { aft: section(L, [0, 1]), fore: section(L, [1.012, 2]) },
    panels: { bulkhead: { between: ['aft', 'fore'], near: [1.006, 0.02, 0.02] } },
    fixtures: {
      a: thing([0.1, 0.022, 0.022], slim, [1, 0, 0]),
      b: thing([1.9, 0.022, 0.022], slim, [-1, 0, 0]),
    },
  };
}

describe('a panel in several pieces', () => {
  // Derived: a hole of 22 mm keeps 15 mm of the edge: 26 mm from its middle. In an arm of width w that asks for w = 52 mm; in the corner,
  // across the seam of the pieces, the circle that touches both outer sides and the inner corner has radius w (2 - sqrt 2): 44.4 mm do.
  it('is drilled across its seam, where the pieces are too narrow each: 45 mm of width do, 44 do not', () => {
    const run = theRun(ducts(0.045));
    expect(run.crossings).toMatchObject([{ panelId: 'aft|fore', holeId: null }]);
    expect(theBlock(ducts(0.044))).toMatchObject({ proved: false });
  });

  it('keeps the distance from an inner corner of its outline', () => {
    const run = theRun(ducts(0.2));
    const [, y, z] = (run.crossings[0] as Crossing).at;
    const corner =
      y > 0.2 || z > 0.2 ? Math.hypot(Math.max(0, 0.2 - y), Math.max(0, 0.2 - z)) : Number.POSITIVE_INFINITY;
    expect(Math.min(y, z, corner)).toBeGreaterThanOrEqual(0.026 - 1e-9);
  });
});

describe('a thick panel', () => {
  const bay = (thicknessM: number, more: Partial<Setting> = {}): Setting => ({
    compartments: { aft: locker([0, -0.5, 0], [1, 0.5, 0.8]), fore: locker([1 + thicknessM, -0.5, 0], [2, 0.5, 0.8]) },
    panels: { bulkhead: { between: ['aft', 'fore'], near: [1 + thicknessM / 2, 0, 0.4], thicknessM } },
    fixtures: { a: thing([0.3, -0.2, 0.4], CUBE, [1, 0, 0]), b: thing([1.8, 0.25, 0.5], CUBE, [-1, 0, 0]) },
    ...more,
  });

  it('of 60 mm is passed square over its whole depth', () => {
    const run = theRun(bay(0.06));
    const [hole] = run.crossings;
    expect(hole?.at[0]).toBeCloseTo(1.03, 6);
    // The checker has looked along the hole; here the straight that holds it, derived: 60 mm and the hose's radius on both sides.
    const through = run.prims.find((prim) => prim.kind === 'line' && prim.from[0] < 1.03 && prim.to[0] > 1.03);
    expect(through && through.to[0] - through.from[0]).toBeGreaterThan(0.08);
  });

  it('that is sloped is passed along its own normal', () => {
    const slope = (x: number): [number, number][] => [
      [x, 0],
      [x - 0.3, 0.8],
    ];
    const [a0, a1] = slope(1);
    const shift = 0.06 * Math.hypot(1, 0.3 / 0.8);
    const [f0, f1] = slope(1 + shift);
    const profile = (outline: [number, number][]): Compartment => ({
      name: 'locker',
      view: 'profile',
      outline,
      rangeM: [-0.5, 0.5],
    });
    const run = theRun({
      ...bay(0.06),
      compartments: {
        aft: profile([[-0.2, 0], a0, a1, [-0.2, 0.8]] as [number, number][]),
        fore: profile([f0, [2.2, 0], [2.2, 0.8], f1] as [number, number][]),
      },
      panels: { bulkhead: { between: ['aft', 'fore'], near: [0.87, 0, 0.4], thicknessM: 0.06 } },
    });
    const [hole] = run.crossings;
    const n = Math.hypot(0.8, 0.3);
    expect(Math.abs((hole?.along?.[0] ?? 0) * (0.8 / n) + (hole?.along?.[2] ?? 0) * (0.3 / n))).toBeCloseTo(1, 6);
  });
});

describe('a run among things that lie askew', () => {
  /** A locker turned by so many degrees about the upright, with a cylinder and a sweep in the way. */
  const turned = (yawDeg: number, inWay: Fixture): Setting => ({
    compartments: {
      room: {
        name: 'room',
        view: 'plan',
        outline: [
          [0, -0.5],
          [2, -0.5],
          [2, 0.5],
          [0, 0.5],
        ],
        rangeM: [0, 0.8],
        yawDeg,
      },
    },
    fixtures: {
      a: thing([0.45, 0, 0.4], CUBE, [1, 0, 0]),
      b: thing([1.55, 0.05, 0.4], CUBE, [-1, 0, 0]),
      inWay,
    },
  });
  const cylinder: Fixture = {
    name: 'accumulator',
    kind: 'other',
    shape: { type: 'cylinder', diameterM: 0.16, lengthM: 0.4, axis: 'z' },
    pose: { at: [1, 0, 0.4], rollDeg: 35, pitchDeg: 20 },
  };

  it.each([0, 17, -31])('rounds a cylinder that lies askew in a locker turned by %i degrees', (yawDeg) => {
    const run = theRun(turned(yawDeg, cylinder));
    expect(run.bends).toBeGreaterThan(0);
  });

  it('stays out of what a quadrant sweeps', () => {
    const quadrant: Fixture = {
      name: 'quadrant',
      kind: 'other',
      shape: { type: 'box', sizeM: [0.04, 0.04, 0.3] },
      pose: { at: [1, -0.1, 0.4], yawDeg: 12 },
      sweeps: {
        arc: { type: 'sector', at: [0, 0, 0], axis: 'z', radiusM: 0.25, fromDeg: 45, toDeg: 135, thicknessM: 0.1 },
      },
    };
    const still: Fixture = { ...quadrant, sweeps: {} };
    const [free, kept] = [theRun(turned(0, still)), theRun(turned(0, quadrant))];
    expect(kept.lengthM).toBeGreaterThan(free.lengthM + 0.01);
  });
});
