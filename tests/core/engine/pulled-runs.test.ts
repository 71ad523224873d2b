import { footOnLeg } from '@core/base/segment';
import { distance, type Vec3 } from '@core/base/vec';
import { edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { Session, type WhatIf } from '@core/engine/session';
import { pathOf } from '@core/output/views/curves';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const lockers = (): Boat => {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error('unreadable');
  return result.boat;
};

const runOf = (session: Session, id: string): RunReport => {
  const run = session.settled().runs.find(({ lineId }) => lineId === id);
  if (!run) throw new Error(`expected a run of ${id}`);
  return run;
};

/** The first piece of news is told before anything was searched for. */
function warmRunOf(session: Session, wish: Omit<WhatIf, 'seq' | 'places'>, id: string): RunReport | undefined {
  session.whatIf({ seq: 1, places: {}, ...wish });
  return session.step()?.runs.find(({ lineId }) => lineId === id);
}

function offPath(run: RunReport, at: Vec3): number {
  const path = pathOf(run.prims);
  return Math.min(...path.slice(1).map((p, k) => distance(at, footOnLeg(at, path[k] as Vec3, p))));
}

/** The middle of its longest straight. */
function straightOf(run: RunReport): Vec3 {
  const lines = run.prims.flatMap((prim) => (prim.kind === 'line' ? [prim] : []));
  const { from, to } = lines.reduce((a, b) => (distance(b.from, b.to) > distance(a.from, a.to) ? b : a));
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2];
}

/** A routed run that passes a panel whose hole is still to be drilled. */
function drilled(session: Session): { readonly run: RunReport; readonly index: number } {
  for (const run of session.settled().runs) {
    const index = run.holes.findIndex((hole) => !hole.existing);
    if (run.status === 'routed' && index >= 0) return { run, index };
  }
  throw new Error('expected a run with a hole to drill');
}

describe('a clip point that is pulled', () => {
  it('is passed at once, without a search, and leaves the boat as it was', () => {
    const session = new Session(lockers());
    const { run } = drilled(session);
    const middle = straightOf(run);
    const at: [number, number, number] = [middle[0], middle[1], middle[2] + 0.005];
    const warm = warmRunOf(session, { clips: { [run.lineId]: { clip: { at, order: 1 } } } }, run.lineId);
    expect(warm?.status).toBe('routed');
    // derived: the centre line passes a clip point; arcs are drawn to a tenth of a millimetre
    expect(warm && offPath(warm, at)).toBeLessThan(2e-4);
    expect(warm?.lengthM).toBeGreaterThan(run.lowerBoundM - 1e-9);
    session.endWhatIf();
    expect(runOf(session, run.lineId)).toEqual(run);
  });

  it('at rest is answered as a cold check of the edited boat does', () => {
    const session = new Session(lockers());
    const { run } = drilled(session);
    const middle = straightOf(run);
    const at: [number, number, number] = [middle[0], middle[1] + 0.02, middle[2]];
    warmRunOf(session, { clips: { [run.lineId]: { clip: { at, order: 1 } } } }, run.lineId);
    while (session.step());
    session.endWhatIf();
    const done = edit(session.boat, (draft) => {
      const clips = draft.arrangements.first?.clipPoints;
      if (clips) clips[run.lineId] = { clip: { at, order: 1 } };
    });
    if (!done.ok) throw new Error('refused');
    session.edit(done.patches);
    expect(session.settled()).toEqual(new Session(done.boat).settled());
  });
});

describe('a crossing that is slid', () => {
  it('holds the run at that place of its panel, still to be drilled, and is not searched away', () => {
    const session = new Session(lockers());
    const { run, index } = drilled(session);
    const hole = run.holes[index];
    if (!hole) throw new Error('expected a hole');
    const { diameterM } = hole;
    for (const by of [0.005, 0.01, 0.02]) {
      const at: Vec3 = [hole.at[0], hole.at[1], hole.at[2] + by];
      const warm = warmRunOf(session, { slid: { [run.lineId]: { index, at, diameterM } } }, run.lineId);
      expect(warm?.status).toBe('routed');
      const now = warm?.holes[index];
      expect(now && distance(now.at, at)).toBeLessThan(0.002);
      expect(now?.existing).toBe(false);
      const later: RunReport[] = [];
      for (let news = session.step(); news; news = session.step()) later.push(...news.runs);
      expect(later.filter(({ lineId }) => lineId === run.lineId)).toEqual([]);
    }
    session.endWhatIf();
    expect(runOf(session, run.lineId)).toEqual(run);
  });
});
