import { edit } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { atOnce } from '@core/engine/in-slices';
import { startService } from '@core/engine/service/service';
import type { ServiceReport } from '@core/engine/service/service-report';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../support/random';
import { batten, lockerBoat } from './locker-boat';

/** A second locker, far from the first one, with a pump and a part in it, and a part in the first. */
function twoLockers(): Boat {
  const pump = lockerBoat().fixtures.pump as object;
  return lockerBoat({
    'compartments.cabin.outline': [
      [-0.4, -1.4],
      [6, -1.4],
      [6, 0],
      [-0.4, 0],
    ],
    'compartments.far': {
      name: 'Far locker',
      kind: 'locker',
      view: 'plan',
      outline: [
        [4, 0.02],
        [5.2, 0.02],
        [5.2, 0.8],
        [4, 0.8],
      ],
      rangeM: [-0.4, 0.4],
    },
    'openings.farDoor': {
      name: 'Far door',
      compartment: 'far',
      to: 'cabin',
      at: [4.6, 0.01, 0],
      normal: [0, -1, 0],
      widthM: 0.4,
      heightM: 0.3,
      standing: 'farSole',
    },
    'standingPlaces.farSole': { name: 'Far sole', at: [4.6, -0.5, -0.6], compartment: 'cabin' },
    'fixtures.farPump': { ...pump, name: 'Far pump', pose: { at: [4.6, 0.5, 0] } },
    'parts.crate': {
      name: 'Crate',
      kind: 'other',
      shape: { type: 'box', sizeM: [0.2, 0.1, 0.2] },
      massKg: 3,
      services: {
        strap: { task: 'other', at: [0, -0.05, 0], direction: [0, -1, 0], needs: ['hand'] },
      },
    },
    'arrangements.plan': { name: 'Plan', places: { crate: { at: [0.3, 0.5, -0.2] } } },
  });
}

const cold = (session: Session): ServiceReport => atOnce(startService(session.boat));

function moved(session: Session, at: readonly [number, number, number]): () => void {
  const result = edit(session.boat, (boat) => {
    const place = boat.arrangements.plan?.places.crate;
    if (place) place.at = [...at];
  });
  if (!result.ok) throw new Error('the move is no edit');
  session.edit(result.patches);
  return () => session.edit(result.inverse);
}

const judgedTasks = (session: Session): number => session.computed().get('taskOutcome') ?? 0;

describe('service in a session', () => {
  it('tells at rest what a cold start tells, after any moves and their undoing', () => {
    const random = randomFrom(7);
    const session = new Session(twoLockers());
    const undo: (() => void)[] = [];
    for (let move = 0; move < 4; move++) {
      undo.push(moved(session, [0.2 + 0.8 * random(), 0.15 + 0.5 * random(), -0.3 + 0.6 * random()]));
      expect(atOnce(session.service())).toEqual(cold(session));
    }
    for (const back of undo.reverse()) back();
    expect(atOnce(session.service())).toEqual(cold(session));
  }, 60_000);

  it('judges anew only the tasks near what has moved', () => {
    const session = new Session(twoLockers());
    atOnce(session.service());
    const before = judgedTasks(session);
    expect(before).toBe(3);
    moved(session, [0.9, 0.5, -0.2]);
    atOnce(session.service());
    // the crate's own task and that of the pump beside it; the far pump keeps its answer
    expect(judgedTasks(session) - before).toBe(2);
  });

  it('tells at once which ways of before still go, and which tasks are open', () => {
    const session = new Session(twoLockers());
    atOnce(session.service());
    moved(session, [0.3, 0.5, -0.22]);
    const kept = session.service();
    let told = kept.step();
    while (!('answer' in told) && told.partial === undefined) told = kept.step();
    if ('answer' in told || !told.partial) throw new Error('expected what can be told at once');
    expect(told.partial.open).toEqual([]);
    expect(told.partial.report.tasks).toHaveLength(3);
    // before the pump: its way of before is blocked, and another one has to be looked for
    moved(session, [0.6, 0.3, 0]);
    const blocked = session.service();
    let first = blocked.step();
    while (!('answer' in first) && first.partial === undefined) first = blocked.step();
    if ('answer' in first || !first.partial) throw new Error('expected what can be told at once');
    expect(first.partial.open).toContain('pump/knob');
  });

  it('tells first what the plan makes worse, and what it was before', () => {
    const session = new Session(twoLockers());
    moved(session, [0.6, 0.3, 0]);
    const [first] = atOnce(session.service()).tasks;
    expect(first).toMatchObject({ key: 'pump/knob', before: 'byHand', verdict: 'byDismantling', isWorse: true });
    expect(first?.removals).toMatchObject([{ what: 'crate', kind: 'thing' }]);
    moved(session, [0.3, 0.5, -0.2]);
    expect(atOnce(session.service()).tasks.every(({ isWorse }) => !isWorse)).toBe(true);
  });

  it('finishes an answer for the boat that it was asked about, whatever is edited meanwhile', () => {
    const session = new Session(twoLockers());
    const asked = cold(session);
    const work = session.service();
    work.step();
    work.step();
    moved(session, [0.6, 0.3, 0]);
    expect(atOnce(work)).toEqual(asked);
    expect(atOnce(session.service())).toEqual(cold(session));
  });

  it('does not depend on the order of the records', () => {
    const boat = twoLockers();
    const turned = {
      ...boat,
      fixtures: Object.fromEntries(Object.entries(boat.fixtures).reverse()),
      compartments: Object.fromEntries(Object.entries(boat.compartments).reverse()),
      openings: Object.fromEntries(Object.entries(boat.openings).reverse()),
    };
    expect(atOnce(startService(turned))).toEqual(atOnce(startService(boat)));
  });
});

describe('a boat mirrored or shifted', () => {
  const scene = (mirror: 1 | -1, byM: number) => {
    const p = ([x = 0, y = 0, z = 0]: readonly number[]) => [x + byM, mirror * y, z];
    const box = (x0: number, y0: number, x1: number, y1: number) =>
      [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ].map(([x = 0, y = 0]) => [x + byM, mirror * y]);
    const boat = lockerBoat({
      'compartments.cabin.outline': box(-0.4, -1.4, 1.6, 0),
      'compartments.locker.outline': box(0, 0.02, 1.2, 0.8),
      'openings.door.at': p([0.6, 0.01, 0]),
      'openings.door.normal': [0, -mirror, 0],
      'openings.door.heightM': 0.22,
      'standingPlaces.sole.at': p([0.6, -0.5, -0.6]),
      'fixtures.pump.pose.at': p([0.75, 0.45, 0.1]),
      'fixtures.pump.services': {
        knob: { task: 'handle', at: [0, -mirror * 0.1, 0], direction: [0, -mirror, 0], needs: ['hand'] },
        nut: { task: 'nut', at: [-0.1, 0, 0], direction: [-1, 0, 0] },
        glass: { task: 'oilGlass', at: [0, -mirror * 0.1, 0.05], direction: [0, -mirror, 0] },
      },
      'fixtures.batten': batten(p([0.6, 0.25, -0.06])),
    });
    return atOnce(startService(boat)).tasks.map(({ key, verdict, posture, shortByM, blockers }) => ({
      key,
      verdict,
      posture,
      short: shortByM === null ? null : Math.round(shortByM * 1000),
      blockers: blockers.map(({ owner }) => owner),
    }));
  };

  it('is judged alike', () => {
    const asItIs = scene(1, 0);
    expect(asItIs).toHaveLength(3);
    expect(scene(-1, 0)).toEqual(asItIs);
    expect(scene(1, 3)).toEqual(asItIs);
  });
});
