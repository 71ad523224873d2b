import { analyze } from '@core/analyze';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../oracle/judged';
import { suiteScene } from '../../support/suite-scene';
import { faultyBoat } from '../rules/judged';
import { afterActs, deepenAll, edited } from './deeper-acts';

const blockedIn = ({ runs }: Report) => runs.filter(({ status }) => status === 'blocked');

describe('lines that are blocked without proof', () => {
  // Lines of this scene that the first pass may not find; should it find them all one day, the law is still asked for.
  const boat = boatOf(suiteScene(6).boat);
  const shallow = analyze(boat);
  const deep = analyze(boat, { deeper: true });

  it('are tried again among all other runs, which stay where they are', () => {
    for (const run of shallow.runs) {
      const again = deep.runs.find(({ lineId }) => lineId === run.lineId);
      if (run.status === 'routed') expect(again?.prims).toEqual(run.prims);
      else if (run.proved) expect(again?.status).toBe('blocked');
    }
    expect(blockedIn(deep).length).toBeLessThanOrEqual(blockedIn(shallow).length);
  });

  it('say how hard they were tried', () => {
    for (const run of blockedIn(shallow)) if (!run.proved) expect(run).toMatchObject({ effort: 'fast' });
    for (const run of blockedIn(deep)) if (!run.proved) expect(run).toMatchObject({ effort: 'deep' });
  });

  it('come to the same in slices of a session as from cold, and are not tried again for an edit elsewhere', () => {
    const session = new Session(boat);
    expect(session.settled()).toEqual(shallow);
    expect(deepenAll(session, 700)).toBeGreaterThan(1);
    expect(session.settled()).toEqual(deep);
    // An edit that has nothing to do with them costs no new tries.
    const tries = session.computed().get('deepened') ?? 0;
    edited(session, (draft) => {
      draft.name = 'Renamed';
    });
    expect(session.settled().runs).toEqual(shallow.runs);
    expect(session.deepen(0).done).toBe(true);
    expect(session.computed().get('deepened') ?? 0).toBe(tries);
    expect(session.settled().runs).toEqual(deep.runs);
  });
});

describe('a line that is proved impossible', () => {
  it('is not tried again, and says what the proof rests on', () => {
    const boat = boatOf(faultyBoat('runs/blocked'));
    const session = new Session(boat);
    const run = session.settled().runs.find(({ lineId }) => lineId === 'hose');
    expect(run).toMatchObject({ status: 'blocked', proved: true, proof: 'noPassage' });
    expect(run?.effort).toBeUndefined();
    // derived: a hose of 19 mm and 1 mm all round
    expect(run?.reason?.neededM).toBeCloseTo(0.021, 9);
    deepenAll(session, 100);
    expect(session.computed().get('deepened') ?? 0).toBe(0);
  });
});

describe('a session with pins, drags and deeper tries', () => {
  it('gives at rest what a cold start gives, deeper or not, after any sequence of acts', () => {
    for (const seed of [1, 2]) for (const [told, cold] of afterActs(seed, 5)) expect(told).toEqual(cold);
  });
});
