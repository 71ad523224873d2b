import type { RunReport } from '@core/engine/report';
import { describe, expect, it } from 'vitest';
import type { Violation } from '../support/check-run';
import { countScene, judge, judgedScene } from './judged';

/** Derived: every verdict here is the oracle's own arithmetic on the boat file and the primitives in the report. */
describe.each([
  [1, true],
  [4, false],
])('the runs of scene %i (planted: %s)', (seed, planted) => {
  const count = countScene(seed, planted);

  it('break no limit', () => {
    expect(count.violations).toEqual([]);
    expect(count.routed).toBeGreaterThan(count.lines / 2);
  });
  it('are never shorter than their bound, nor are runs that are known to be there', () => {
    expect(count.boundsAbove).toEqual([]);
  });
  it('include nearly all that are known to be there', () => {
    if (planted) expect(count.lines - count.routed).toBeLessThanOrEqual(3);
  });
});

describe('faults planted in the runs of a routed scene', () => {
  const { boat, report } = judgedScene(2, false);
  const routed = report.runs.filter((run) => run.status === 'routed');
  const bent = routed.filter((run) => run.prims.some((prim) => prim.kind === 'arc'));
  const drilled = routed.filter((run) => run.holes.some((hole) => !hole.existing));
  /** The changed run alone, or among the others where they matter. */
  const kindsIn = (run: RunReport, others: readonly RunReport[] = []): Violation['kind'][] =>
    judge(boat, { ...report, runs: [run, ...others] }).map((one) => one.kind);

  it('are caught where a hole is left out, moved by 6 mm, or made smaller', () => {
    expect(drilled.length).toBeGreaterThan(0);
    const run = drilled[0] as RunReport;
    expect(kindsIn({ ...run, holes: [] })).toContain('undeclared');
    const moved = run.holes.map((hole) => ({
      ...hole,
      at: [hole.at[0] + 0.006, hole.at[1], hole.at[2] + 0.006] as const,
    }));
    expect(kindsIn({ ...run, holes: moved })).toContain('holePlace');
    const small = run.holes.map((hole) => ({ ...hole, diameterM: hole.diameterM * 0.7 }));
    expect(kindsIn({ ...run, holes: small })).toContain('holeSize');
  });

  it('are caught where an arc is tightened, left out or moved', () => {
    const run = bent[0] as RunReport;
    const k = run.prims.findIndex((prim) => prim.kind === 'arc');
    expect(kindsIn({ ...run, prims: run.prims.filter((_, i) => i !== k) })).toContain('joint');
    const tight = run.prims.map((prim) => (prim.kind === 'arc' ? { ...prim, radius: prim.radius * 0.9 } : prim));
    expect(kindsIn({ ...run, prims: tight })).toEqual(expect.arrayContaining(['radius', 'arc']));
    const moved = run.prims.map((prim, i) =>
      i === k ? { ...prim, from: [prim.from[0] + 0.001, prim.from[1], prim.from[2]] as const } : prim,
    );
    expect(kindsIn({ ...run, prims: moved })).toContain('joint');
  });

  it('are caught where one run is laid on another', () => {
    const [a, b] = routed as [RunReport, RunReport];
    expect(kindsIn({ ...b, prims: a.prims, lengthM: a.lengthM }, [a])).toEqual(
      expect.arrayContaining(['runs', 'port']),
    );
  });

  it('are caught where a box is put on a run', () => {
    const run = routed.find((one) => one.prims.some((prim) => prim.kind === 'line')) as RunReport;
    const middle = run.prims[Math.floor(run.prims.length / 2)] as RunReport['prims'][number];
    const at = [0, 1, 2].map((i) => ((middle.from[i] as number) + (middle.to[i] as number)) / 2) as [
      number,
      number,
      number,
    ];
    const crate = {
      ...boat.fixtures.t1,
      ports: {},
      pose: { at, yawDeg: 20, pitchDeg: 0, rollDeg: 0 },
    } as (typeof boat.fixtures)[string];
    const found = judge({ ...boat, fixtures: { ...boat.fixtures, crate } }, { ...report, runs: [run] });
    expect(found.map((one) => one.kind)).toContain('clearance');
  });
});
