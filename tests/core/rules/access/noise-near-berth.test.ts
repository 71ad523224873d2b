import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/noise-near-berth';
const KEY = `${RULE}|pump|`;
const soft = { 'parts.pump.mounting.resilient': true };
const inCabin = { 'arrangements.plan.places.pump.at': [0.6, -0.5, -0.2] };

describe('a pump beside a berth', () => {
  it('that stands rigid behind its panel is heard (common practice, ranked by this project)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'heardInBerth',
      measured: { value: 3, unit: 'count' },
      limit: { value: 1, bound: 'atMost' },
      related: ['cabin'],
      data: { isOpen: false },
    });
  });

  it('on rubber feet behind its panel passes, in the same air it does not', () => {
    expect(verdict(bent(RULE, soft), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 1 } });
    expect(verdict(bent(RULE, { ...soft, ...inCabin }), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: 2 },
    });
    expect(verdict(bent(RULE, inCabin), KEY)).toMatchObject({ measured: { value: 4 } });
    const open = { ...soft, 'panels.door': { between: ['locker', 'cabin'], near: [0.6, -0.01, 0], rule: 'open' } };
    expect(verdict(bent(RULE, open), KEY)).toMatchObject({ measured: { value: 2 }, data: { isOpen: true } });
  });

  it('does not go by distance: at the far end of the same locker it is heard as well', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.pump.at': [1.4, 0.9, -0.2] }), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: 3 },
    });
  });

  it('cannot be told about while nobody says how it stands', () => {
    expect(verdict(bent(RULE, { 'parts.pump.mounting': {} }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'mountUnknown',
    });
  });

  it('does not apply where nobody sleeps, and is asked of pumps alone', () => {
    expect(verdict(bent(RULE, { 'compartments.cabin.berth': false }), KEY)).toMatchObject({ reason: 'noBerthNear' });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ reason: 'notPlaced' });
    expect(verdicts(bent(RULE, { 'parts.pump.kind': 'tee' }), RULE)).toEqual([]);
  });
});
