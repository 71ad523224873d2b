import type { Vec3 } from '@core/base/vec';
import { boatSchema } from '@core/boat/schema/boat';
import { whyImpossible } from '@core/runs/routing/bound/impossible';
import type { Lead } from '@core/runs/routing/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';
import type { BoxSolid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { plainBox, plainLead, plainLine } from '../../../../support/plain-hose';
import { fuzzProofs } from './proof-fuzz';

const room = (x0: number, x1: number) => ({
  name: 'room',
  view: 'plan' as const,
  outline: [
    [x0, -1],
    [x1, -1],
    [x1, 1],
    [x0, 1],
  ] as [number, number][],
  rangeM: [0, 1] as [number, number],
});
function layoutOf(compartments: Record<string, ReturnType<typeof room>>, holes = {}): Layout {
  const boat = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'x',
    compartments,
    ...(compartments.b
      ? { panels: { p: { between: ['a', 'b'], near: [2.006, 0, 0.5], rule: 'noDrill' as const, holes } } }
      : {}),
  });
  return deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: 0.5 });
}
const lead = (at: Vec3, direction: Vec3) => plainLead(at, direction, 0.01);
const line = (from: Lead, to: Lead) => plainLine(from, to, { radiusM: 0.01, bendRadiusM: 0.1 });
const viewOf = (layout: Layout, things: readonly BoxSolid[] = []) => ({ layout, hull: null, thingsIn: () => things });
const away = lead([0.5, 0.5, 0.5], [0, -1, 0]);
/** Straight off the port, a quarter turn, and the hose's own half. */
const NEEDED = 0.016 + 0.1 + 0.01;

/** Derived: a curve of radius R that leaves straight at a wall must come R towards it before it runs along it. */
describe('a proof that a line has no run', () => {
  const one = layoutOf({ a: room(0, 4) });

  it('is given where a port looks at a wall that is too near, with what is missing, and not before', () => {
    const at = (d: number) => whyImpossible(line(lead([4 - d, 0, 0.5], [1, 0, 0]), away), viewOf(one));
    expect(at(NEEDED + 0.001)).toBeNull();
    const why = at(NEEDED - 0.01);
    expect(why).toMatchObject({ kind: 'turn', at: [4 - NEEDED + 0.01, 0, 0.5] });
    expect(why?.shortByM).toBeGreaterThan(0.0095);
    expect(why?.shortByM).toBeLessThan(0.0101);
  });

  it('needs the thing to be wide enough to close the whole way on', () => {
    const box = (half: number) => plainBox('crate', [2.096 + 0.1, 0, 0.5], [0.1, half, half]);
    const facing = line(lead([2, 0, 0.5], [1, 0, 0]), away);
    // 80 mm from the end of the straight to the box: by then a curve is at most 100 - sqrt(100^2 - 80^2) = 40 mm aside.
    expect(whyImpossible(facing, viewOf(one, [box(0.3)]))).toMatchObject({ blocker: 'crate' });
    expect(whyImpossible(facing, viewOf(one, [box(0.02)]))).toBeNull();
  });

  it('says how far a thing must stand back, however thin it is', () => {
    const board: BoxSolid = {
      type: 'box',
      id: 'board',
      owner: 'board',
      label: 'board',
      layer: 'furnishing',
      // 50 mm from the end of the straight, where 100 for the quarter turn and 10 for the hose's own half are needed: 60 are missing.
      centre: [2.016 + 0.05 + 0.01, 0, 0.5],
      half: [0.01, 0.4, 0.4],
      axes: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
    };
    const why = whyImpossible(line(lead([2, 0, 0.5], [1, 0, 0]), away), viewOf(one, [board]));
    expect(why).toMatchObject({ kind: 'turn', blocker: 'board' });
    expect(why?.shortByM).toBeGreaterThan(0.0595);
    expect(why?.shortByM).toBeLessThanOrEqual(0.06);
  });

  it('is not given where the other end lies before the wall', () => {
    const short = line(lead([3.9, 0, 0.5], [1, 0, 0]), lead([3.95, 0, 0.5], [-1, 0, 0]));
    expect(whyImpossible(short, viewOf(one))).toBeNull();
  });

  it('is given where a locker behind a hole is too shallow to turn in', () => {
    const holes = { old: { at: [2.006, 0, 0.5], diameterM: 0.03 } };
    const into = (depth: number) =>
      whyImpossible(
        line(away, lead([2.02 + depth / 2, 0.9, 0.5], [0, -1, 0])),
        viewOf(layoutOf({ a: room(0, 2), b: room(2.012, 2.012 + depth) }, holes)),
      );
    expect(into(0.2)).toBeNull();
    expect(into(0.06)?.kind).toBe('turn');
    expect(into(0.06)?.shortByM).toBeGreaterThan(0.01);
  });
});

describe('proofs and bounds in scenes', () => {
  const counts = [fuzzProofs(221, true, 60, 6), fuzzProofs(222, false, 60, 6)];

  it('contradict no run that was found or planted', () => {
    expect(counts.flatMap((one) => one.wrong)).toEqual([]);
    expect(counts.flatMap((one) => one.above)).toEqual([]);
  });
  it('explain a part of what is blocked', () => {
    expect(counts.reduce((sum, one) => sum + one.proved, 0)).toBeGreaterThan(0);
  });
});
