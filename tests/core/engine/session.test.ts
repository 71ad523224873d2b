import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { edit, placed } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { type Delta, Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

function lockers(): Boat {
  const result = readBoat(JSON.stringify(threeLockers()));
  if (!result.ok) throw new Error('unreadable');
  return result.boat;
}

const pumpAt = (x: number) => ({ at: [x, 0.3, -0.2] as [number, number, number], yawDeg: 0, pitchDeg: 0, rollDeg: 0 });

/** All news until the session has nothing more to say. */
function newsOf(session: Session): Delta[] {
  const news: Delta[] = [];
  for (let delta = session.step(500); delta; delta = session.step(500)) news.push(delta);
  return news;
}

/** Computations that an action costs, by stage. */
function costOf(session: Session, action: () => void): Record<string, number> {
  const before = session.computed();
  action();
  return Object.fromEntries(
    [...session.computed()]
      .map(([id, count]) => [id, count - (before.get(id) ?? 0)])
      .filter(([, count]) => count !== 0),
  );
}

describe('a session', () => {
  it('answers as a cold start does', () => {
    expect(new Session(lockers()).settled()).toEqual(analyze(lockers()));
  });

  it('computes nothing again when nothing changed', () => {
    const session = new Session(lockers());
    session.settled();
    expect(costOf(session, () => session.settled())).toEqual({});
    session.open(lockers());
    expect(costOf(session, () => session.settled())).toEqual({});
  });

  it('keeps the objects of runs and findings that an edit does not change', () => {
    const session = new Session(lockers());
    const before = session.settled();
    const result = edit(session.boat, placed('first', 'pump', { at: [2.61, 0.3, -0.2] }));
    if (!result.ok) throw new Error('refused');
    session.edit(result.patches);
    const after = session.settled();
    const run = (report: typeof before, id: string) => report.runs.find(({ lineId }) => lineId === id);
    expect(run(after, 'raw-1')).toBe(run(before, 'raw-1'));
    expect(run(after, 'raw-2')).not.toBe(run(before, 'raw-2'));
    const kept = after.findings.filter((finding) => before.findings.includes(finding));
    expect(kept.length).toBeGreaterThan(after.findings.length / 2);
  });

  it('looks in a step of a drag at few findings again: not at every panel, nor at every clip', () => {
    const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
    if (!read.ok) throw new Error('unreadable');
    const session = new Session(read.boat);
    const all = costOf(session, () => session.settled()).findingsOn ?? 0;
    const { arrangement, findings } = session.settled();
    expect(all).toBeGreaterThan(500);
    expect(findings.length).toBeGreaterThan(500);
    // Spares hang on no line, a filter on two, the pump on most of the set.
    for (const [part, share] of [
      ['spares', 0.03],
      ['carbon', 0.1],
      ['pump', 0.2],
    ] as const) {
      const place = read.boat.arrangements[arrangement ?? '']?.places[part];
      if (!place) throw new Error(`${part} has no place`);
      const step = (seq: number): void => {
        const [x, y, z] = place.at;
        session.whatIf({ seq, places: { [part]: { ...place, at: [x + 0.004 * seq, y, z] } } });
        while (session.step()?.fresh === false);
      };
      step(1);
      const cost = costOf(session, () => step(2));
      expect(cost.findingsOn, part).toBeGreaterThan(0);
      expect(cost.findingsOn, part).toBeLessThan(share * all);
      session.endWhatIf();
      session.settled();
    }
  }, 60_000);

  it('recomputes a bounded number of nodes after one move: neither hull nor panels nor other things', () => {
    const session = new Session(lockers());
    session.settled();
    const result = edit(session.boat, placed('first', 'pump', { at: [2.62, 0.28, -0.2] }));
    if (!result.ok) throw new Error('refused');
    const cost = costOf(session, () => {
      session.edit(result.patches);
      session.settled();
    });
    for (const stage of ['hull', 'layout', 'attitude', 'circuit', 'water']) expect(cost[stage]).toBeUndefined();
    expect(cost.solidsOf).toBe(1);
    expect(cost.cellsOf).toBe(1);
    // Three lines hang on the pump; at most all four are looked at again.
    expect(cost.baseRun).toBeLessThanOrEqual(4);
    // A run that was found knows its bound: the stage is asked for blocked lines alone.
    expect(cost.bound).toBeUndefined();
    const lines = Object.keys(session.boat.lines).length;
    const things = Object.keys(session.boat.parts).length + Object.keys(session.boat.fixtures).length;
    const all = Object.values(cost).reduce((sum, count) => sum + count, 0);
    expect(all).toBeLessThan(20 * (lines + things));
  });

  it('renaming a thing costs no run', () => {
    const session = new Session(lockers());
    session.settled();
    const result = edit(session.boat, (boat) => {
      if (boat.fixtures.tank) boat.fixtures.tank.notes = 'stainless';
    });
    if (!result.ok) throw new Error('refused');
    const cost = costOf(session, () => {
      session.edit(result.patches);
      session.settled();
    });
    expect(cost.baseRun).toBeUndefined();
  });
});

describe('a drag', () => {
  it('tells first the runs that hang on what is moved, then findings, then what searches found', () => {
    const session = new Session(lockers());
    const rest = session.settled();
    session.whatIf({ seq: 7, places: { pump: pumpAt(2.55) } });
    const first = session.step();
    expect(first?.seq).toBe(7);
    expect(first?.runs.map(({ lineId }) => lineId).sort()).toEqual(['power', 'product', 'raw-2']);
    expect(first?.findings).toEqual([]);
    const raw = first?.runs.find(({ lineId }) => lineId === 'raw-2');
    expect(raw?.status).toBe('routed');
    // The hose ends where the port is now: 50 mm aft of where it was.
    const endOf = (run: RunReport | undefined) => run?.prims.at(-1)?.to[0] ?? Number.NaN;
    const before = rest.runs.find(({ lineId }) => lineId === 'raw-2');
    expect(endOf(raw)).toBeCloseTo(endOf(before) - 0.05, 9);
    newsOf(session);
    expect(session.step()).toBeNull();
  });

  it('brings the runs of a thing with many lines along a few at a time, each once, and findings after them', () => {
    const read = readBoat(readFileSync('sample-boats/complete/sandwort/boat.json', 'utf8'));
    if (!read.ok) throw new Error(read.problems[0]?.message);
    const session = new Session(read.boat);
    const rest = session.settled();
    const place = rest.places.station;
    if (!place) throw new Error('station has no place');
    const hanging = Object.entries(read.boat.lines).flatMap(([id, { from, to }]) =>
      from.thing === 'station' || to.thing === 'station' ? [id] : [],
    );
    expect(hanging.length).toBeGreaterThan(6);
    const movedTo = (by: number) => ({
      station: { ...place, at: [place.at[0] + by, place.at[1], place.at[2]] as const },
    });
    const piecesOf = (): Delta[] => {
      const pieces: Delta[] = [];
      for (let delta = session.step(); delta && !delta.fresh; delta = session.step()) pieces.push(delta);
      return pieces;
    };
    session.whatIf({ seq: 1, places: movedTo(0.004) });
    const pieces = piecesOf();
    expect(pieces.length).toBeGreaterThan(2);
    for (const { runs, findings } of pieces) {
      expect(runs.length).toBeLessThan(4);
      expect(findings).toEqual([]);
    }
    const told = pieces.flatMap(({ runs }) => runs.map(({ lineId }) => lineId));
    expect(new Set(told).size).toBe(told.length);
    expect(told).toEqual(expect.arrayContaining(hanging));

    // A hand that does not wait for the rest gets its next move whole: no line stays behind for longer.
    session.whatIf({ seq: 2, places: movedTo(0.008) });
    session.step();
    session.whatIf({ seq: 3, places: movedTo(0.012) });
    const whole = piecesOf();
    expect(whole.length).toBe(1);
    expect(whole[0]?.runs.map(({ lineId }) => lineId)).toEqual(expect.arrayContaining(hanging));
  }, 60_000);

  it('leaves the boat as it is, and its answer', () => {
    const session = new Session(lockers());
    const before = session.settled();
    session.whatIf({ seq: 1, places: { pump: pumpAt(2.4) } });
    newsOf(session);
    session.endWhatIf();
    expect(session.step()).toBeNull();
    expect(session.boat).toEqual(lockers());
    expect(session.settled()).toEqual(before);
  });

  it('puts runs and findings back when the hand goes back', () => {
    const session = new Session(lockers());
    const rest = session.settled();
    const runs = new Map(rest.runs.map((run) => [run.lineId, run]));
    const findings = new Map(rest.findings.map((finding) => [finding.key, finding]));
    const take = (delta: Delta): void => {
      for (const run of delta.runs) runs.set(run.lineId, run);
      for (const finding of delta.findings) findings.set(finding.key, finding);
      for (const key of delta.gone) findings.delete(key);
    };
    session.whatIf({ seq: 1, places: { strainer: { at: [1.05, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 } } });
    newsOf(session).forEach(take);
    // The strainer now stands in the bulkhead: a finding says so.
    expect([...findings.values()].some((f) => f.outcome === 'fail' && f.subject === 'strainer')).toBe(true);
    session.whatIf({ seq: 2, places: { strainer: { at: [1.5, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 } } });
    newsOf(session).forEach(take);
    expect([...findings.keys()].sort()).toEqual(rest.findings.map(({ key }) => key).sort());
    for (const run of rest.runs) {
      const now = runs.get(run.lineId);
      expect(now?.status).toBe(run.status);
      expect(Math.abs((now?.lengthM ?? 0) - (run.lengthM ?? 0))).toBeLessThan(0.02);
    }
  });

  it('moves a run aside that the moved thing would stand in', () => {
    const session = new Session(lockers());
    const rest = session.settled();
    // The strainer is put on the cable between battery and pump, to which it is no party.
    const cable = rest.runs.find(({ lineId }) => lineId === 'power');
    const middle = cable?.prims[Math.floor(cable.prims.length / 2)]?.from ?? [0, 0, 0];
    session.whatIf({ seq: 1, places: { strainer: { at: [...middle], yawDeg: 0, pitchDeg: 0, rollDeg: 0 } } });
    const told = newsOf(session).flatMap(({ runs }) => runs.map(({ lineId }) => lineId));
    expect(told).toContain('power');
  });
});
