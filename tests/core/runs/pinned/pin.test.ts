import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { distance, type Vec3 } from '@core/base/vec';
import { currentArrangementId, edit } from '@core/boat/edits';
import { runPinned, runUnpinned } from '@core/boat/pins';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { pinOf, primsOfPin } from '@core/runs/pinned/pin';
import type { Prim } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { primLength } from '../../../support/trace-oracle';
import { bent } from '../../rules/judged';

/** Farthest that two runs are apart at the ends of their pieces; infinite where they differ in pieces. */
function apartM(a: readonly Prim[], b: readonly Prim[]): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  return Math.max(
    ...a.flatMap((prim, k) => {
      const other = b[k] as Prim;
      if (prim.kind !== other.kind) return [Number.POSITIVE_INFINITY];
      return [distance(prim.from, other.from), distance(prim.to, other.to)];
    }),
  );
}

/** Pieces of less than a few micrometres are lost in those of the file. */
const seen = (prims: readonly Prim[]): readonly Prim[] => prims.filter((prim) => primLength(prim) > 1e-5);

const runsOf = ({ runs }: Report) => runs.filter(({ status }) => status === 'routed');

function allPinned(boat: Boat, report: Report): Boat {
  const arrangementId = currentArrangementId(boat) ?? '';
  const made = edit(boat, (draft) => {
    for (const { lineId, prims } of runsOf(report)) runPinned(arrangementId, lineId, pinOf(prims))(draft);
  });
  if (!made.ok) throw new Error(made.problems[0]?.message ?? '');
  return made.boat;
}

function sandwort(): Boat {
  const read = readBoat(
    readFileSync(new URL('../../../../sample-boats/complete/sandwort/boat.json', import.meta.url), 'utf8'),
  );
  if (!read.ok) throw new Error(read.problems[0]?.message ?? '');
  return read.boat;
}

describe('a run and its pin', () => {
  const boat = sandwort();
  const routed = analyze(boat);
  const built = allPinned(boat, routed);
  const again = analyze(built);

  it('are the same run, to a micrometre', () => {
    // corners and radii are kept to 1 micrometre in the file
    const off = runsOf(routed)
      .map(({ lineId, prims }) =>
        apartM(seen(prims), seen(again.runs.find((run) => run.lineId === lineId)?.prims ?? [])),
      )
      .sort((a, b) => a - b);
    expect(off.length).toBeGreaterThan(10);
    expect(off[off.length >> 1]).toBeLessThan(1e-6);
    // a bend of far more than a right angle has its corner far out, and its ends a little farther off
    expect(off.at(-1)).toBeLessThan(3e-6);
  });

  it('are judged alike: nothing is broken by having been pinned', () => {
    const unrouted = new Set(routed.runs.flatMap(({ lineId, status }) => (status === 'blocked' ? [lineId] : [])));
    const fails = (report: Report) =>
      report.findings
        .filter(({ outcome, subject }) => outcome === 'fail' && !unrouted.has(subject))
        .map(({ key }) => key)
        .sort();
    // Only of a made-up hose that lies is it known where it bends: that is advised on, and nothing else is new.
    const added = again.findings.filter(({ key }) => fails(again).includes(key) && !fails(routed).includes(key));
    for (const finding of added)
      expect(finding).toMatchObject({ rule: 'runs/bend-at-fitting', severity: 'advice', reason: 'hoseBends' });
    expect(fails(again).filter((key) => !added.some((finding) => finding.key === key))).toEqual(fails(routed));
    const pinned = again.findings.filter(({ rule }) => rule === 'runs/pinned');
    expect(pinned.map(({ outcome }) => outcome)).toEqual(runsOf(routed).map(() => 'pass'));
  });

  it('survives the file, and goes back to the router when it is let go', () => {
    const read = readBoat(JSON.stringify(built));
    expect(read.ok && analyze(read.boat).runs).toEqual(again.runs);
    const arrangementId = currentArrangementId(boat) ?? '';
    const free = edit(built, (draft) => {
      for (const { lineId } of runsOf(routed)) runUnpinned(arrangementId, lineId)(draft);
    });
    expect(free.ok && analyze(free.boat)).toEqual(routed);
  });
});

describe('the pin of a hose with an elbow', () => {
  it('keeps the way that the elbow is turned', () => {
    const boat = boatOf(
      bent('runs/blocked', {
        'panels.between.rule': 'drill',
        'arrangements.plan.places.tee.yawDeg': 90,
        'lines.hose.ends': { from: { angleDeg: 90, rigidM: 0.04, diameterM: 0.027 } },
      }),
    );
    const routed = analyze(boat);
    const built = allPinned(boat, routed);
    const again = analyze(built);
    expect(runsOf(routed)).toHaveLength(1);
    expect(apartM(again.runs[0]?.prims ?? [], routed.runs[0]?.prims ?? [])).toBeLessThan(3e-6);
    expect(again.findings.filter(({ rule }) => rule === 'runs/pinned').map(({ outcome }) => outcome)).toEqual(['pass']);
  });
});

describe('lines and arcs of a pin', () => {
  const square: readonly Vec3[] = [
    [0, 0, 0],
    [1, 0, 0],
    [1, 1, 0],
  ];

  it('round a right angle by a quarter circle', () => {
    // derived: the quarter of radius 0.2 begins 0.2 before the corner
    const [before, arc, after] = primsOfPin({ points: square, radiiM: [0.2] }, 0.1);
    expect(before).toMatchObject({ kind: 'line', to: [0.8, 0, 0] });
    expect(arc).toMatchObject({ kind: 'arc', radius: 0.2 });
    expect(distance(after?.from ?? [0, 0, 0], [1, 0.2, 0])).toBeLessThan(1e-12);
  });

  it('bend tighter where two corners stand too close, and say so by their radius', () => {
    const z: readonly Vec3[] = [
      [0, 0, 0],
      [1, 0, 0],
      [1, 0.2, 0],
      [2, 0.2, 0],
    ];
    const radii = primsOfPin({ points: z }, 0.2).flatMap((prim) => (prim.kind === 'arc' ? [prim.radius] : []));
    // derived: 0.2 m between two right angles leaves each a radius of 0.1
    expect(radii.map((radius) => Math.round(radius * 1e6) / 1e6)).toEqual([0.1, 0.1]);
  });

  it('come back from a half turn, which has no one corner', () => {
    const loop: readonly Prim[] = [
      { kind: 'line', from: [0, 0, 0], to: [1, 0, 0] },
      { kind: 'arc', centre: [1, 0.3, 0], radius: 0.3, from: [1, 0, 0], to: [1, 0.6, 0], normal: [0, 0, 1] },
      { kind: 'line', from: [1, 0.6, 0], to: [0, 0.6, 0] },
    ];
    const again = primsOfPin(pinOf(loop), 0.1);
    expect(again.map(({ kind }) => kind)).toEqual(['line', 'arc', 'arc', 'line']);
    expect(distance(again.at(-2)?.to ?? [0, 0, 0], [1, 0.6, 0])).toBeLessThan(1e-9);
  });
});
