import { boatSchema } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { describe, expect, it } from 'vitest';
import { checkRuns, type Violation } from '../support/check-run';
import type { P3 } from '../support/geometry-oracle';
import type { HullMesh } from '../support/hull-oracle';
import { rounded } from '../support/plant-oracle';
import { primLength } from '../support/trace-oracle';
import { box, type Case, change, DRAIN, FEED, first, R, retold, valid, withArc } from './three-boxes';

/**
 * The judge itself is judged here: runs made by hand are let through, and each single fault planted in them is caught.
 * All numbers are derived: see `three-boxes.ts`.
 */
const judge = ({ boat, runs }: Case, hull?: HullMesh): Violation[] =>
  checkRuns(boatSchema.parse(boat), { arrangement: null, runs }, hull ? { hull } : {});

const PLANTED: Record<string, { plant: (one: Case) => Case; kinds: Violation['kind'][]; hull?: HullMesh }> = {
  'a hole that is not declared': {
    plant: (one) => ({ ...one, runs: [change(first(one), { holes: [] }), ...one.runs.slice(1)] }),
    kinds: ['undeclared'],
  },
  'a hole declared 6 mm from where the run passes': {
    plant: (one) => ({
      ...one,
      runs: [
        change(first(one), { holes: first(one).holes.map((h) => ({ ...h, at: [h.at[0], h.at[1] + 0.006, h.at[2]] })) }),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['holePlace'],
  },
  'a hole smaller than the hose': {
    plant: (one) => ({
      ...one,
      runs: [
        change(first(one), { holes: first(one).holes.map((h) => ({ ...h, diameterM: 0.029 })) }),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['holeSize'],
  },
  'a hole in a panel that must not be drilled': {
    plant: (one) => ({
      ...one,
      boat: { ...one.boat, panels: { ...one.boat.panels, bulkhead: { ...one.boat.panels.bulkhead, rule: 'noDrill' } } },
    }),
    kinds: ['noDrill'],
  },
  'a new hole said to exist already': {
    plant: (one) => ({
      ...one,
      runs: [
        change(first(one), { holes: first(one).holes.map((h) => ({ ...h, existing: true })) }),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['notExisting'],
  },
  'an old hole that is too narrow': {
    plant: (one) => {
      const bulkhead = one.boat.panels.bulkhead;
      return {
        ...one,
        boat: {
          ...one.boat,
          panels: {
            ...one.boat.panels,
            bulkhead: { ...bulkhead, holes: { old: { ...bulkhead.holes.old, diameterM: 0.028 } } },
          },
        },
      };
    },
    kinds: ['holeSize', 'notExisting'],
  },
  'a hole too near the edge of its panel': {
    plant: (one) => ({
      ...one,
      boat: { ...one.boat, panels: { ...one.boat.panels, bulkhead: { ...one.boat.panels.bulkhead, edgeM: 0.49 } } },
    }),
    kinds: ['holeEdge'],
  },
  'an arc left out': { plant: (one) => withArc(one, () => []), kinds: ['joint'] },
  'an arc whose turn is 2 % too large': {
    plant: (one) =>
      withArc(one, (arc) => {
        const turn = (primLength(arc) / arc.radius) * 1.02;
        const a: P3 = [arc.from[0] - arc.centre[0], arc.from[1] - arc.centre[1], arc.from[2] - arc.centre[2]];
        const n = arc.normal;
        const b: P3 = [n[1] * a[2] - n[2] * a[1], n[2] * a[0] - n[0] * a[2], n[0] * a[1] - n[1] * a[0]];
        const at = (k: 0 | 1 | 2): number => arc.centre[k] + a[k] * Math.cos(turn) + b[k] * Math.sin(turn);
        return [{ ...arc, to: [at(0), at(1), at(2)] }];
      }),
    kinds: ['joint', 'tangent'],
  },
  'bends 10 % tighter than the hose allows': {
    plant: (one) => ({ ...one, runs: [retold(first(one), rounded(FEED, 0.9 * R)), ...one.runs.slice(1)] }),
    kinds: ['radius'],
  },
  'a gap of 1 mm at a joint': {
    plant: (one) => withArc(one, (arc) => [{ ...arc, from: [arc.from[0] + 0.001, arc.from[1], arc.from[2]] }]),
    kinds: ['joint', 'arc'],
  },
  'a port left 3 degrees off its direction': {
    plant: (one) => {
      const bent: P3[] = [FEED[0] as P3, [1.3, 0.3 + 0.7 * Math.tan(Math.PI / 60), 0.3], ...FEED.slice(2)];
      return { ...one, runs: [retold(first(one), rounded(bent, R)), ...one.runs.slice(1)] };
    },
    kinds: ['port'],
  },
  'a run that starts 5 mm beside its port': {
    plant: (one) => ({
      ...one,
      runs: [
        retold(first(one), rounded([[0.6, 0.305, 0.3], [1.3, 0.305, 0.3], ...FEED.slice(2)], R)),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['port'],
  },
  'a bend within the rigid end': {
    plant: (one) => ({
      ...one,
      boat: {
        ...one.boat,
        lineKinds: { hose: { ...one.boat.lineKinds.hose, end: { rigidM: 0.7, diameterM: 0.036 } } },
      },
    }),
    kinds: ['lead'],
  },
  'a bend that begins before the bare hose is clear of its thing': {
    // Radius 15 mm: straight over 21 mm. The corner lies 28 mm from the port, and its fillet reaches 13 mm back.
    plant: (one) => ({
      ...one,
      boat: {
        ...one.boat,
        lineKinds: { hose: { ...one.boat.lineKinds.hose, end: undefined } },
      } as unknown as Case['boat'],
      runs: [
        retold(first(one), rounded([FEED[0] as P3, [0.628, 0.3, 0.3], ...FEED.slice(2)], R)),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['lead'],
  },
  'a bend that ends 10 mm before the middle of a panel': {
    // Panel 12 mm, radius 15 mm: straight from 21 mm before the middle on. The fillet of the corner reaches 19 mm beyond it.
    plant: (one) => ({
      ...one,
      runs: [
        retold(first(one), rounded([FEED[0] as P3, FEED[1] as P3, [1.977, 0.1, 0.4], ...FEED.slice(3)], R)),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['holeSquare'],
  },
  'a hose 8 mm thicker in radius through the same place': {
    plant: (one) => ({
      ...one,
      boat: { ...one.boat, lineKinds: { hose: { ...one.boat.lineKinds.hose, outsideM: 0.046 } } },
    }),
    kinds: ['holeSize', 'radius'],
  },
  'a box put on the run': {
    plant: (one) => ({
      ...one,
      boat: {
        ...one.boat,
        fixtures: {
          ...one.boat.fixtures,
          crate: {
            name: 'crate',
            kind: 'other',
            shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
            pose: { at: [2.5, 0.16, 0.44], yawDeg: 30 },
          },
        },
      },
    }),
    kinds: ['clearance'],
  },
  'a sweep that comes 2 mm into the hose': {
    // A quarter disc about z with radius 0.2 at [2.5, 0.3]: its rim is 0.1 from the hub's side of the run at y = 0.1.
    plant: (one) => ({
      ...one,
      boat: {
        ...one.boat,
        fixtures: {
          ...one.boat.fixtures,
          tiller: {
            name: 'tiller',
            kind: 'steering',
            soft: true,
            shape: { type: 'box', sizeM: [0.02, 0.02, 0.02] },
            pose: { at: [2.5, 0.298, 0.4] },
            sweeps: {
              arm: {
                type: 'sector',
                at: [0, 0, 0],
                axis: 'z',
                radiusM: 0.185,
                fromDeg: 225,
                toDeg: 315,
                thicknessM: 0.05,
              },
            },
          },
        },
      },
    }),
    kinds: ['clearance'],
  },
  'a part that the arrangement puts on the run': {
    plant: (one) =>
      ({
        ...one,
        boat: {
          ...one.boat,
          parts: {
            spares: {
              name: 'spares',
              kind: 'sparesBox',
              shape: { type: 'cylinder', diameterM: 0.1, lengthM: 0.2, axis: 'y' },
            },
          },
          arrangements: { plan: { name: 'plan', places: { spares: { at: [2.4, 0.15, 0.46] } } } },
        },
      }) as Case,
    kinds: ['clearance'],
  },
  'the other line laid on it': {
    plant: (one) => ({
      ...one,
      runs: [
        first(one),
        retold(
          one.runs[1] as RunReport,
          rounded(
            [DRAIN[0] as P3, [1.0, 0.24, 0.3], [1.55, 0.11, 0.4], [2.4, 0.11, 0.4], [2.7, -0.4, 0.7], [2.9, -0.4, 0.7]],
            R,
          ),
        ),
      ],
    }),
    kinds: ['runs'],
  },
  'a wall where the doorway was': {
    plant: (one) => ({
      ...one,
      boat: { ...one.boat, panels: { bulkhead: one.boat.panels.bulkhead } as Case['boat']['panels'] },
    }),
    kinds: ['undeclared'],
  },
  'a run that leaves the drawn space': {
    plant: (one) => ({
      ...one,
      runs: [
        retold(
          first(one),
          rounded(
            [
              FEED[0] as P3,
              [1.3, 0.3, 0.3],
              [1.65, 0.1, 0.4],
              [2.5, 0.1, 0.4],
              [2.8, 0.5, 1.1],
              [3.3, -0.2, 0.3],
              [4.33, -0.2, 0.3],
            ],
            R,
          ),
        ),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['wall'],
  },
  'a run within the lining of the hull': {
    plant: (one) => one,
    kinds: ['hull'],
    hull: box([0, -0.6, -0.1], [5, 0.33, 1.2]),
  },
  'a length that is not the sum': {
    plant: (one) => ({
      ...one,
      runs: [change(first(one), { lengthM: (first(one).lengthM as number) - 0.001 }), ...one.runs.slice(1)],
    }),
    kinds: ['length'],
  },
  'a bound above the length': {
    plant: (one) => ({
      ...one,
      runs: [change(first(one), { lowerBoundM: (first(one).lengthM as number) + 0.001 }), ...one.runs.slice(1)],
    }),
    kinds: ['bound'],
  },
  'a hole declared that the run does not pass': {
    plant: (one) => ({
      ...one,
      runs: [
        change(first(one), {
          holes: [
            ...first(one).holes,
            { panelId: 'middle|forward', at: [3.506, 0, 0.4], diameterM: 0.03, existing: false },
          ],
        }),
        ...one.runs.slice(1),
      ],
    }),
    kinds: ['holeUnused'],
  },
  'a compartment entered that the plan forbids': {
    plant: (one) =>
      ({
        ...one,
        boat: { ...one.boat, arrangements: { plan: { name: 'plan', forbidden: { feed: ['middle'] } } } },
      }) as Case,
    kinds: ['forbidden'],
  },
  'a clip point passed by': {
    plant: (one) =>
      ({
        ...one,
        boat: {
          ...one.boat,
          arrangements: { plan: { name: 'plan', clipPoints: { feed: { one: { at: [2.5, 0.15, 0.4], order: 1 } } } } },
        },
      }) as Case,
    kinds: ['clipPoint'],
  },
};

describe('the independent judge of runs', () => {
  it('lets runs made by hand through', () => {
    expect(judge(valid())).toEqual([]);
    expect(judge(valid(), box([0, -0.6, -0.1], [5, 0.6, 1.2]))).toEqual([]);
  });

  it.each(Object.keys(PLANTED))('catches %s', (name) => {
    const { plant, kinds, hull } = PLANTED[name] as (typeof PLANTED)[string];
    const found = judge(plant(valid()), hull).map((one) => one.kind);
    for (const kind of kinds) expect(found).toContain(kind);
  });
});
