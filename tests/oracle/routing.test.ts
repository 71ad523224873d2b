import { analyze } from '@core/analyze';
import type { RunReport } from '@core/engine/report';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import type { Violation } from '../support/check-run';
import { gridRun } from '../support/grid/grid-run';
import { priceOf } from '../support/price-oracle';
import { interiorOf } from '../support/run-oracle';
import { NO_DRILL, ODD_CELLS } from '../support/suite-interior';
import { LINES, OBSTACLES_PER_M3, STIFF_LINES, suiteScene } from '../support/suite-scene';
import { boatOf, judge } from './judged';

/**
 * Derived: every verdict is the oracle's own arithmetic on the boat file and on the primitives in the report. ROUTING_SEED: first of the
 * scenes (1); those of even numbers have runs that are known to be there.
 */
const FIRST = Number(process.env.ROUTING_SEED ?? 1);
const scenes = Array.from({ length: 6 }, (_, k) => suiteScene(FIRST + k));
const routed = scenes.map((scene) => {
  const boat = boatOf(scene.boat);
  return { scene, boat, report: analyze(boat) };
});

describe('the scenes', () => {
  const sum = (of: (scene: (typeof scenes)[number]) => number): number =>
    scenes.reduce((all, scene) => all + of(scene), 0);

  it('hold to their mix', () => {
    expect(scenes.map((scene) => Object.keys(scene.boat.lines ?? {}).length)).toEqual(scenes.map(() => LINES));
    expect(sum((one) => one.counts.stiffLines) / (LINES * scenes.length)).toBeCloseTo(STIFF_LINES, 1);
    expect(sum((one) => one.counts.oddCells) / sum((one) => one.counts.cells)).toBeCloseTo(ODD_CELLS, 1);
    expect(sum((one) => one.counts.obstacles) / sum((one) => one.counts.volumeM3) / OBSTACLES_PER_M3).toBeCloseTo(1, 1);
    const panels = scenes.flatMap((one) => Object.values(one.boat.panels ?? {}));
    expect(panels.filter((one) => one.rule === 'noDrill').length / panels.length).toBeCloseTo(NO_DRILL, 1);
    expect(scenes.filter((one) => one.isPlanted).length).toBe(scenes.length / 2);
  });

  it('are planted with runs that the judge lets through, all at once', () => {
    for (const { scene, boat, report } of routed.filter((one) => one.scene.isPlanted)) {
      const runs = report.runs.map((run): RunReport => {
        const plant = scene.planted[run.lineId];
        if (!plant) throw new Error(`expected a planted run of ${run.lineId}`);
        const { reason: _, costM: __, costBoundM: ___, costs: ____, ...rest } = run;
        return { ...rest, ...plant, status: 'routed', lowerBoundM: 0 };
      });
      expect(judge(boat, { ...report, runs })).toEqual([]);
    }
  });
});

describe.each(routed)('the runs of scene $scene.seed', ({ scene, boat, report }) => {
  it('break no limit', () => {
    expect(judge(boat, report)).toEqual([]);
    expect(report.runs.filter((run) => run.status === 'routed').length).toBeGreaterThan(LINES / 2);
  });

  it('are never shorter nor cheaper than their bounds, nor are runs that are known to be there; and none of those is proved away', () => {
    const interior = interiorOf(boat, report);
    for (const run of report.runs)
      for (const known of [run.status === 'routed' ? run : null, scene.planted[run.lineId]]) {
        if (!known) continue;
        expect(run.lowerBoundM).toBeLessThanOrEqual(known.lengthM ?? 0);
        expect(run.costBoundM ?? 0).toBeLessThanOrEqual(priceOf(interior, known));
        expect(run.proved ?? false).toBe(false);
      }
  });
});

it('the runs include nearly all that are known to be there', () => {
  const known = routed.filter((one) => one.scene.isPlanted).flatMap((one) => one.report.runs);
  expect(known.filter((run) => run.status === 'blocked').length).toBeLessThanOrEqual(0.05 * known.length);
});

it('the grid finds a run of its own that is let through and no cheaper than the bound of the router', () => {
  const { boat, report } = routed[1] as (typeof routed)[number];
  if (!boat.hull) throw new Error('expected a hull');
  const interior = interiorOf(boat, report);
  const free = report.runs
    .filter((run) => run.lengthM !== null && boat.arrangements.plan?.clipPoints[run.lineId] === undefined)
    .sort((a, b) => (a.lengthM as number) - (b.lengthM as number))
    .slice(0, 2);
  const found = free.map((run) => ({
    run,
    own: gridRun(boat, report, run.lineId, { interior, hull: hullSurface(boat.hull as never) }),
  }));
  expect(found.filter(({ own }) => own !== null).length).toBeGreaterThan(0);
  for (const { run, own } of found) if (own) expect(priceOf(interior, own)).toBeGreaterThanOrEqual(run.costBoundM ?? 0);
});

describe('faults planted in the runs of a scene', () => {
  const { boat, report } = routed[0] as (typeof routed)[number];
  const runs = report.runs.filter((run) => run.status === 'routed');
  const kindsIn = (run: RunReport, at = boat): Violation['kind'][] =>
    judge(at, { ...report, runs: [run] }).map((one) => one.kind);
  const drilled = runs.filter((run) => run.holes.some((hole) => !hole.existing)).slice(0, 4);
  const bent = runs.filter((run) => run.prims.some((prim) => prim.kind === 'arc')).slice(0, 5);

  it('are caught where a hole is left out, moved by 6 mm, or made smaller', () => {
    expect(drilled.length).toBeGreaterThan(2);
    for (const run of drilled) {
      expect(kindsIn({ ...run, holes: [] })).toContain('undeclared');
      const holes = run.holes.map((hole) => ({
        ...hole,
        at: [hole.at[0] + 0.006, hole.at[1], hole.at[2] + 0.006] as const,
      }));
      expect(kindsIn({ ...run, holes })).toContain('holePlace');
      const small = run.holes.map((hole) => ({ ...hole, diameterM: hole.diameterM * 0.7 }));
      expect(kindsIn({ ...run, holes: small })).toContain('holeSize');
    }
  });

  it('are caught where an arc is left out or tightened by a tenth', () => {
    for (const run of bent) {
      const k = run.prims.findIndex((prim) => prim.kind === 'arc');
      expect(kindsIn({ ...run, prims: run.prims.filter((_, i) => i !== k) })).toContain('joint');
      const tight = run.prims.map((prim) => (prim.kind === 'arc' ? { ...prim, radius: prim.radius * 0.9 } : prim));
      expect(kindsIn({ ...run, prims: tight })).toContain('arc');
    }
  });

  it('are caught where one run is laid on another, or a port is missed', () => {
    const [a, b] = runs as [RunReport, RunReport];
    const laid = { ...b, prims: a.prims, holes: a.holes, lengthM: a.lengthM };
    expect(judge(boat, { ...report, runs: [laid, a] }).map((one) => one.kind)).toEqual(
      expect.arrayContaining(['runs', 'port']),
    );
  });

  it('are mostly caught where the hose is 6 mm thicker: taut runs lie on what they go round', () => {
    const caught = runs.filter((run) => {
      const line = boat.lines[run.lineId];
      const kind = line && boat.lineKinds[line.kind];
      if (!line || !kind) return false;
      const thick = { ...kind, outsideM: kind.outsideM + 0.012, bendRadiusM: kind.bendRadiusM - 0.006 };
      return kindsIn(run, { ...boat, lineKinds: { ...boat.lineKinds, [line.kind]: thick } }).length > 0;
    });
    expect(caught.length).toBeGreaterThanOrEqual(0.8 * runs.length);
  });
});
