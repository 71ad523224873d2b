import { atOnce } from '@core/engine/in-slices';
import { startService } from '@core/engine/service/service';
import type { TaskReport } from '@core/engine/service/service-report';
import { describe, expect, it } from 'vitest';
import { batten, END, lockerBoat } from './locker-boat';

const judged = (changes: Readonly<Record<string, unknown>>): TaskReport => {
  const [task] = atOnce(startService(lockerBoat(changes))).tasks;
  if (!task) throw new Error('expected one task, got none');
  return task;
};
const owners = (task: TaskReport): readonly string[] => task.blockers.map(({ owner }) => owner);

describe('what flips a verdict is named', () => {
  it('a batten of 30 mm across the arm’s way', () => {
    const low = { 'openings.door.heightM': 0.16 };
    expect(judged(low)).toMatchObject({ verdict: 'byHand', openings: ['door'], posture: 'lean', standing: 'sole' });
    const crossed = judged({ ...low, 'fixtures.batten': batten([0.6, 0.06, 0]) });
    // derived: the batten leaves 65 mm above and below, a forearm is 92 thick
    expect(crossed.verdict).toBe('notAtAll');
    expect(owners(crossed)).toContain('batten');
    expect(crossed.shortByM).toBeGreaterThan(0.01);
    expect(crossed.shortByM).toBeLessThan(0.03);
  });

  it('a hose laid before the glass, which comes off for it', () => {
    const glass = { task: 'oilGlass', at: [0, -0.1, 0], direction: [0, -1, 0], see: { angleDeg: 30 } };
    const seen = { 'fixtures.pump.services': { glass } };
    expect(judged(seen)).toMatchObject({ verdict: 'byHand', reason: 'seen' });
    const hidden = judged({
      ...seen,
      'fixtures.left': {
        ...END,
        pose: { at: [0.2, 0.37, 0] },
        ports: { p: { at: [0.03, 0, 0], direction: [1, 0, 0] } },
      },
      'fixtures.right': {
        ...END,
        pose: { at: [1, 0.37, 0] },
        ports: { p: { at: [-0.03, 0, 0], direction: [-1, 0, 0] } },
      },
      'lineKinds.thick': { name: 'Thick hose', what: 'hose', outsideM: 0.05, boreM: 0.04, bendRadiusM: 0.15 },
      'lines.hose': {
        name: 'Hose',
        kind: 'thick',
        medium: 'freshWater',
        existing: true,
        from: { thing: 'left', port: 'p' },
        to: { thing: 'right', port: 'p' },
      },
    });
    expect(hidden).toMatchObject({ verdict: 'byDismantling', removals: [{ what: 'hose', kind: 'line' }] });
    expect(owners(hidden)).toEqual(['hose']);
  });

  it('a lid that opens the other way', () => {
    // a pump low behind the sill: the arm comes down from above, where a flap that is hung at the top stands out
    const low = (hingeAlong: 'top' | 'bottom') =>
      judged({
        'openings.door.widthM': 0.2,
        'openings.door.heightM': 0.2,
        'openings.door.how': 'hinged',
        'openings.door.swing': { hingeAlong, angleDeg: 60 },
        'fixtures.pump.pose.at': [0.6, 0.35, -0.26],
      });
    expect(low('bottom').verdict).toBe('byHand');
    const other = low('top');
    expect(['noWayFound', 'notAtAll']).toContain(other.verdict);
    expect(owners(other)).toContain('door');
    expect(other.shortByM).toBeGreaterThan(0);
  });

  it('what is moved first, and a screwed panel', () => {
    expect(judged({ 'openings.door.moveFirst': ['Cushion'] })).toMatchObject({
      verdict: 'afterMoving',
      removals: [{ what: 'Cushion', kind: 'loose', minutes: 3 }],
    });
    expect(judged({ 'openings.door.how': 'screwed' })).toMatchObject({
      verdict: 'byDismantling',
      removals: [{ what: 'door', kind: 'opening', minutes: 8 }],
    });
  });
});

describe('what cannot be asked is said plainly', () => {
  it('an opening into nothing, and no opening at all', () => {
    expect(judged({ 'openings.door.to': 'undrawn' })).toMatchObject({
      verdict: 'notAsked',
      reason: 'intoNothing',
      enterNext: 'openings.door.to',
    });
    expect(judged({ 'openings.door.at': [0.6, -0.7, 0] })).toMatchObject({
      verdict: 'notAsked',
      reason: 'intoNothing',
      enterNext: 'openings.door.at',
    });
    expect(judged({ openings: {} })).toMatchObject({ verdict: 'notAsked', reason: 'noOpening', enterNext: 'openings' });
  });

  it('nowhere to stand', () => {
    // its feet 2.4 m below the cabin sole: no shoulder comes to the door
    expect(judged({ 'standingPlaces.sole.at': [0.6, -0.5, -3] })).toMatchObject({
      verdict: 'notAtAll',
      reason: 'nowhereToStand',
    });
  });
});

describe('demands and people', () => {
  it('tells what breaks the demand that nothing is dismantled', () => {
    const demand = { 'demands.intact': { kind: 'noDismantling' } };
    expect(judged(demand).breaksDemand).toBeNull();
    expect(judged({ ...demand, 'openings.door.how': 'screwed' }).breaksDemand).toBe('noDismantling');
  });

  it('asks for both hands of whoever has the use of one arm', () => {
    const two = { 'fixtures.pump.services.knob.needs': ['twoHands'], 'openings.door.widthM': 0.7 };
    expect(judged(two).verdict).toBe('byHand');
    expect(judged({ ...two, 'people.mate': { name: 'Mate', oneArm: true } })).toMatchObject({
      verdict: 'notAtAll',
      reason: 'needsBothHands',
    });
  });
});
