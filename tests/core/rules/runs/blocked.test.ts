import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

/** Geometry of the drawn boat: a 13 mm hose, two lockers with a board between; sizes by hand from where things stand. */
const RULE = 'runs/blocked';
const KEY = `${RULE}|hose|`;

describe('a blocked run', () => {
  it('is proved where no panel may be passed', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'hole',
      related: expect.arrayContaining(['aft|fore']),
      data: { proved: true },
    });
  });

  it('finds its way when the panel may be drilled', () => {
    expect(verdict(bent(RULE, { 'panels.between.rule': 'drill' }), KEY)).toMatchObject({
      outcome: 'pass',
      limit: { value: 0, bound: 'atLeast' },
    });
  });

  it('finds its way through a hole that is wide enough, and not through one that is too narrow', () => {
    const hole = (diameterM: number) =>
      bent(RULE, { 'panels.between.holes': { old: { at: [1.01, 0.5, 0], diameterM } } });
    expect(verdict(hole(0.04), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(hole(0.012), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('says what stands before a port, and by how much', () => {
    const block = {
      name: 'Battery',
      kind: 'battery',
      shape: { type: 'box', sizeM: [0.1, 0.3, 0.3] },
      pose: { at: [0.52, 0.5, 0] },
    };
    const found = verdict(bent(RULE, { 'panels.between.rule': 'drill', 'fixtures.block': block }), KEY);
    expect(found).toMatchObject({ outcome: 'fail', related: expect.arrayContaining(['block']) });
    expect(found.data.shortByM).toBeGreaterThan(0);
  });

  it('does not apply while an end has no place', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.tap': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });
});
