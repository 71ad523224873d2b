import { runCapsules } from '@core/runs/routing/capsules';
import { repair } from '@core/runs/routing/repair';
import { rankLines, routeLine } from '@core/runs/routing/route';
import type { Routed, RoutingLine, RunOutcome } from '@core/runs/routing/types';
import { segmentSegmentSquared } from '@core/shape/space/segment-distance';
import type { CapsuleSolid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { checkRuns } from '../../../support/check-run';
import { scene } from '../../../support/scenes';
import { cellsOfCapsule, type RoutedWorld, reportOf, routeAll, worldOf } from './boat-views';

const byCell = (world: RoutedWorld, runs: ReadonlyMap<string, readonly CapsuleSolid[]>) => {
  const cells = new Map<number, CapsuleSolid[]>();
  for (const id of [...runs.keys()].sort())
    for (const capsule of runs.get(id) ?? [])
      for (const cell of cellsOfCapsule(world.layout, capsule)) cells.set(cell, [...(cells.get(cell) ?? []), capsule]);
  return cells;
};
const repaired = (world: RoutedWorld, outcomes: ReadonlyMap<string, RunOutcome>) =>
  repair({ ranked: world.lines, outcomes, viewOf: (_, runs) => world.viewOf(byCell(world, runs)) });

describe('runs of a whole boat', () => {
  it('ranks the stiffest first, then the thickest, then the farthest to go, and by id what is equal in all that', () => {
    const line = (id: string, bendRadiusM: number, radiusM = 0.01, apartM = 1) =>
      ({ id, bendRadiusM, radiusM, from: { at: [0, 0, 0] }, to: { at: [0, apartM, 0] } }) as unknown as RoutingLine;
    const ranked = rankLines([
      line('b', 0.05),
      line('c', 0.2),
      line('a', 0.05),
      line('z', 0.05, 0.01, 2),
      line('y', 0.05, 0.02),
    ]);
    expect(ranked.map(({ id }) => id)).toEqual(['c', 'y', 'z', 'a', 'b']);
  });

  // Planted scenes hold a run for every line by construction, so a miss is the router's or another run's.
  it.each([
    { seed: 9, planted: false },
    { seed: 5, planted: true },
  ])('are valid to the independent judge in scene $seed (planted: $planted)', ({ seed, planted }) => {
    const world = worldOf(scene(seed, { planted }).boat);
    const outcomes = routeAll(world, 'fast');
    const all = new Map([...outcomes, ...repaired(world, outcomes)]);
    expect(checkRuns(world.boat, reportOf(all), world.hull ? { hull: world.hull } : {})).toEqual([]);
    const missed = [...all.values()].filter((one) => one.status === 'blocked').length;
    // Measured over 24 planted scenes: 1 to 2 in 100 without the second pass; others hold lines that no hose can follow.
    expect(missed / all.size).toBeLessThanOrEqual(planted ? 0.07 : 0.15);
    for (const outcome of all.values())
      if (outcome.status === 'routed') {
        expect(outcome.lowerBoundM).toBeLessThanOrEqual(outcome.lengthM + 1e-9);
        expect(outcome.costBoundM).toBeLessThanOrEqual(outcome.costM + 1e-9);
      } else expect(outcome.reason.kind).not.toBe('notPlaced');
  });

  it('cover their own shape with their capsules', () => {
    const world = worldOf(scene(2).boat);
    const line = world.lines[0] as RoutingLine;
    const run = routeLine(world.viewOf(new Map()), line, 'fast') as Routed;
    const capsules = runCapsules(line, run);
    for (const prim of run.prims) {
      const middle =
        prim.kind === 'line'
          ? ([0, 1, 2].map((k) => ((prim.from[k] as number) + (prim.to[k] as number)) / 2) as [number, number, number])
          : bisecting(prim);
      for (const p of [prim.from, middle, prim.to]) {
        // Derived: the hose's surface at p lies within a capsule when p is within its radius less the hose's.
        const inside = capsules.some(
          ({ from, to, radius }) =>
            Math.sqrt(segmentSegmentSquared(...p, ...p, ...from, ...to)) <= radius - line.radiusM + 1e-9,
        );
        expect(inside).toBe(true);
      }
    }
    expect(new Set(capsules.map(({ id }) => id)).size).toBe(capsules.length);
  });

  it('are repaired by moving at most four runs out of the way, or left alone', () => {
    // Of this scene one line is blocked by another that can move.
    const world = worldOf(scene(25).boat);
    const outcomes = routeAll(world, 'fast');
    const changed = repaired(world, outcomes);
    // Asked again, the same answer: nothing is remembered.
    expect(JSON.stringify([...repaired(world, outcomes)])).toBe(JSON.stringify([...changed]));
    for (const outcome of changed.values()) expect(outcome.status).toBe('routed');
    const all = new Map([...outcomes, ...changed]);
    const blocked = (some: ReadonlyMap<string, RunOutcome>): number =>
      [...some.values()].filter(({ status }) => status === 'blocked').length;
    expect(blocked(all)).toBeLessThan(blocked(outcomes));
    expect(checkRuns(world.boat, reportOf(all), world.hull ? { hull: world.hull } : {})).toEqual([]);
  });
});

/** Half way along an arc of less than half a turn. */
function bisecting(arc: Extract<Routed['prims'][number], { kind: 'arc' }>): [number, number, number] {
  const out = [0, 1, 2].map((k) => (arc.from[k] as number) + (arc.to[k] as number) - 2 * (arc.centre[k] as number)) as [
    number,
    number,
    number,
  ];
  const size = Math.hypot(...out);
  return [0, 1, 2].map((k) => (arc.centre[k] as number) + ((out[k] as number) / size) * arc.radius) as [
    number,
    number,
    number,
  ];
}
