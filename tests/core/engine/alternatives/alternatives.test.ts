import { applied } from '@core/boat/edits';
import { alternatives } from '@core/engine/alternatives/alternatives';
import { Session } from '@core/engine/session';
import { alternativeText } from '@core/output/text/alternative-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent } from '../../rules/judged';
import { broken } from './judged-alternatives';

/** Two lockers with a panel between them that may be drilled, and a box in the middle of the straight way. */
const round = (more: Readonly<Record<string, unknown>> = {}) =>
  boatOf(
    bent('runs/blocked', {
      'panels.between.rule': 'drill',
      'fixtures.box': {
        name: 'Box',
        kind: 'joinery',
        shape: { type: 'box', sizeM: [0.2, 0.4, 0.5] },
        pose: { at: [0.8, 0.5, 0] },
      },
      ...more,
    }),
  );

describe('alternatives of a run round a box', () => {
  const boat = round();
  const found = alternatives(boat, 'hose');

  it('hold the present run and others, truly different, the cheapest first, and the edit brings each about', () => {
    expect(found.filter(({ isCurrent }) => isCurrent)).toHaveLength(1);
    expect(found.length).toBeGreaterThan(2);
    expect(broken(boat, 'hose', found)).toEqual([]);
  });

  it('are no more than are asked for, besides the present one', () => {
    expect(alternatives(boat, 'hose', { most: 1 }).filter(({ isCurrent }) => !isCurrent).length).toBeLessThanOrEqual(1);
  });

  it('keep the clip points that the line has', () => {
    // Beyond the box: over it or past either side of it remain. A clip on top of the box leaves one way alone.
    const clipped = round({ 'arrangements.plan.clipPoints': { hose: { own: { at: [1.3, 0.5, 0.02], order: 7 } } } });
    const found = alternatives(clipped, 'hose');
    expect(found.length).toBeGreaterThan(1);
    for (const { patches } of found) {
      const clips = applied(clipped, patches).arrangements.plan?.clipPoints.hose;
      expect(clips?.own?.at).toEqual([1.3, 0.5, 0.02]);
    }
    expect(broken(clipped, 'hose', found)).toEqual([]);
  });

  it('are worked out in slices, by a session as by themselves, and are put in words', () => {
    const session = new Session(boat);
    const before = session.settled();
    const work = session.alternatives('hose');
    let step = work.step();
    while ('progress' in step) step = work.step();
    expect(step.answer).toEqual(found);
    expect(session.settled()).toEqual(before);
    const present = found.find(({ isCurrent }) => isCurrent);
    expect(present && alternativeText(present, boat)).toEqual({ title: 'As it is', why: '' });
    for (const one of found)
      if (!one.isCurrent) expect(alternativeText(one, boat).why).toMatch(/longer|shorter|as long/i);
  });
});

describe('a line without alternatives', () => {
  it('has its present run alone where only one hole leads across', () => {
    const holes = { old: { at: [1.01, 0.5, 0], diameterM: 0.03 } };
    const boat = boatOf(bent('runs/blocked', { 'panels.between.holes': holes }));
    expect(alternatives(boat, 'hose').map(({ isCurrent }) => isCurrent)).toEqual([true]);
  });
});
