import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/panel-record';
const LOST = `${RULE}|bulkhead|panel`;
const touching = {
  'compartments.fore.outline': [
    [1.02, 0],
    [2, 0],
    [2, 1],
    [1.02, 1],
  ],
};

describe('a panel record', () => {
  it('that finds no panel is not lost', () => {
    expect(verdict(bent(RULE, {}), LOST)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noSuchPair',
      enterNext: expect.stringContaining('bulkhead'),
    });
  });

  it('finds its panel, and measures how far off its point is: |1.2 - 1.01| (derived)', () => {
    expect(verdict(bent(RULE, touching), `${RULE}|bulkhead|`)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.19, 6), unit: 'm' },
      limit: { value: 0.3, bound: 'atMost' },
    });
  });

  it('is lost again when its point is further than 300 mm', () => {
    expect(verdict(bent(RULE, { ...touching, 'panels.bulkhead.near': [1.311, 0.5, 0] }), LOST)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'tooFar',
    });
    expect(
      verdict(bent(RULE, { ...touching, 'panels.bulkhead.near': [1.309, 0.5, 0] }), `${RULE}|bulkhead|`),
    ).toMatchObject({ outcome: 'pass' });
  });

  it('yields to a nearer one', () => {
    const nearer = { between: ['fore', 'aft'], near: [1.01, 0.5, 0], rule: 'drill' };
    expect(verdict(bent(RULE, { ...touching, 'panels.nearer': nearer }), LOST)).toMatchObject({
      reason: 'takenByNearer',
    });
  });

  it('is not asked for where a planned hole goes through the skin', () => {
    const hole = { between: ['aft', 'skin'], at: [0.5, 1, 0], diameterM: 0.03 };
    const found = verdicts(bent(RULE, { arrangements: { plan: { name: 'Plan', newHoles: { h: hole } } } }), RULE);
    expect(found.map(({ subject }) => subject)).not.toContain('h');
  });

  it('of a planned hole counts as well', () => {
    const hole = { between: ['aft', 'fore'], at: [1.2, 0.5, 0], diameterM: 0.03 };
    expect(
      verdict(bent(RULE, { arrangements: { plan: { name: 'Plan', newHoles: { h: hole } } } }), `${RULE}|h|newHole`),
    ).toMatchObject({ outcome: 'cannotTell', cause: 'arrangement' });
  });
});
