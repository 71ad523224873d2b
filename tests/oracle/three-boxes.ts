import type { RunReport } from '@core/engine/report';
import type { P3 } from '../support/geometry-oracle';
import type { HullMesh } from '../support/hull-oracle';
import { rounded } from '../support/plant-oracle';
import { type OraclePrim, primLength } from '../support/trace-oracle';

/** A boat of three boxes in a row, 12 mm apart, with two runs made by hand: all of it can be drawn with a ruler. */
const draft = () => ({
  format: 'underberth-boat' as const,
  schemaVersion: 1 as const,
  name: 'three boxes',
  compartments: {
    aft: {
      name: 'aft',
      view: 'plan' as const,
      outline: [
        [0, -0.6],
        [2, -0.6],
        [2, 0.6],
        [0, 0.6],
      ] as [number, number][],
      rangeM: [0, 0.9] as [number, number],
    },
    middle: {
      name: 'middle',
      view: 'section' as const,
      outline: [
        [-0.6, 0],
        [0.6, 0],
        [0.6, 0.9],
        [-0.6, 0.9],
      ] as [number, number][],
      rangeM: [2.012, 3.5] as [number, number],
    },
    forward: {
      name: 'forward',
      view: 'profile' as const,
      outline: [
        [3.512, 0],
        [5, 0],
        [5, 0.9],
        [3.512, 0.9],
      ] as [number, number][],
      rangeM: [-0.6, 0.6] as [number, number],
    },
  },
  panels: {
    bulkhead: {
      between: ['aft', 'middle'] as [string, string],
      near: [2.006, 0, 0.4] as [number, number, number],
      rule: 'drill' as 'open' | 'drill' | 'noDrill',
      thicknessM: 0.012,
      holes: { old: { at: [2.006, -0.4, 0.5] as [number, number, number], diameterM: 0.04 } },
    },
    doorway: {
      between: ['middle', 'forward'] as [string, string],
      near: [3.506, 0, 0.4] as [number, number, number],
      rule: 'open' as const,
    },
  },
  fixtures: {
    pump: {
      name: 'pump',
      kind: 'feedPump' as const,
      shape: { type: 'box' as const, sizeM: [0.2, 0.2, 0.2] as [number, number, number] },
      pose: { at: [0.5, 0.3, 0.3] as [number, number, number] },
      ports: {
        out: { at: [0.1, 0, 0] as [number, number, number], direction: [1, 0, 0] as [number, number, number] },
        low: { at: [0.1, -0.06, 0] as [number, number, number], direction: [1, 0, 0] as [number, number, number] },
      },
    },
    filter: {
      name: 'filter',
      kind: 'filter' as const,
      shape: { type: 'cylinder' as const, diameterM: 0.14, lengthM: 0.3, axis: 'z' as const },
      pose: { at: [4.4, -0.2, 0.3] as [number, number, number], yawDeg: 90 },
      ports: {
        in: {
          at: [0, 0.07, 0] as [number, number, number],
          direction: [0, 1, 0] as [number, number, number],
          straightM: 0.03,
        },
      },
    },
    sink: {
      name: 'sink',
      kind: 'sink' as const,
      shape: { type: 'box' as const, sizeM: [0.2, 0.2, 0.1] as [number, number, number] },
      pose: { at: [3, -0.4, 0.7] as [number, number, number] },
      ports: {
        in: { at: [-0.1, 0, 0] as [number, number, number], direction: [-1, 0, 0] as [number, number, number] },
      },
    },
  } as Record<string, object>,
  lineKinds: {
    hose: {
      name: 'hose',
      what: 'hose' as const,
      outsideM: 0.03,
      bendRadiusM: 0.1,
      end: { rigidM: 0.05, diameterM: 0.036 },
    },
  },
  lines: {
    feed: {
      name: 'feed',
      kind: 'hose',
      medium: 'seaWater' as const,
      from: { thing: 'pump', port: 'out' },
      to: { thing: 'filter', port: 'in' },
    },
    drain: {
      name: 'drain',
      kind: 'hose',
      medium: 'seaWater' as const,
      from: { thing: 'pump', port: 'low' },
      to: { thing: 'sink', port: 'in' },
    },
  },
});

/** Least radius of the centre line: 100 mm to the inside and half of 30 mm. */
export const R = 0.115;
// The filter is turned by 90 degrees: its port faces -x, at x = 4.4 - 0.07.
export const FEED: P3[] = [
  [0.6, 0.3, 0.3],
  [1.3, 0.3, 0.3],
  [1.65, 0.1, 0.4],
  [2.7, 0.1, 0.4],
  [3.4, -0.2, 0.3],
  [4.33, -0.2, 0.3],
];
export const DRAIN: P3[] = [
  [0.6, 0.24, 0.3],
  [1.0, 0.24, 0.3],
  [1.5, -0.4, 0.5],
  [2.5, -0.4, 0.5],
  [2.7, -0.4, 0.7],
  [2.9, -0.4, 0.7],
];

const report = (lineId: string, prims: OraclePrim[], holes: RunReport['holes'], lowerBoundM: number): RunReport => ({
  lineId,
  status: 'routed',
  lengthM: prims.reduce((sum, one) => sum + primLength(one), 0),
  lowerBoundM,
  prims,
  holes,
  minClearanceM: 0,
});

export const valid = () => {
  const boat = draft();
  const hole = (at: P3, existing: boolean, diameterM: number) => ({ panelId: 'aft|middle', at, diameterM, existing });
  return {
    boat,
    runs: [
      report('feed', rounded(FEED, R), [hole([2.006, 0.1, 0.4], false, 0.03)], 3.7),
      report('drain', rounded(DRAIN, R), [hole([2.006, -0.4, 0.5], true, 0.04)], 2.3),
    ],
  };
};
export type Case = ReturnType<typeof valid>;

export const change = (run: RunReport, edit: Partial<RunReport>): RunReport => ({ ...run, ...edit });
export const retold = (run: RunReport, prims: readonly OraclePrim[]): RunReport =>
  change(run, { prims, lengthM: prims.reduce((sum, one) => sum + primLength(one), 0) });
export const first = (one: Case): RunReport => one.runs[0] as RunReport;
const arcOf = (run: RunReport): number => run.prims.findIndex((prim) => prim.kind === 'arc');

/** A copy of the feed run with one primitive replaced. */
export function withArc(one: Case, edit: (arc: Extract<OraclePrim, { kind: 'arc' }>) => OraclePrim[]): Case {
  const run = first(one);
  const k = arcOf(run);
  const prims = run.prims.flatMap((prim, i) => (i === k && prim.kind === 'arc' ? edit(prim) : [prim]));
  return { ...one, runs: [retold(run, prims), ...one.runs.slice(1)] };
}

export const box = (low: P3, high: P3): HullMesh => {
  const c = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [
    i & 1 ? high[0] : low[0],
    i & 2 ? high[1] : low[1],
    i & 4 ? high[2] : low[2],
  ]);
  // Open at the top, as a skin up to the sheer is.
  const quads = [
    [0, 2, 3, 1],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const;
  return {
    vertices: Float64Array.from(c.flat()),
    triangles: Uint32Array.from(quads.flatMap(([a, b, d, e]) => [a, b, d, a, d, e])),
    insetM: 0.02,
  };
};
