import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/service-task';
const KEY = `${RULE}|filter|bowl`;
const DOOR = 'openings.door';

describe('access/service-task', () => {
  it('names the opening that two arms do not go through, and what is missing', () => {
    // derived: two arms in to the shoulders take 500 mm (MIL-STD-1472, from memory), the door is 340 wide
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: 0.34, unit: 'm' },
      limit: { value: 0.5, bound: 'atLeast' },
      related: ['door'],
      data: { why: 'openingTooSmallForTwo' },
    });
  });

  it('passes through a wide door, near to it', () => {
    const wide = bent(RULE, {
      [`${DOOR}.widthM`]: 0.8,
      [`${DOOR}.heightM`]: 0.7,
      'arrangements.plan.places.filter.at': [0.6, 0.35, 0.1],
    });
    expect(verdict(wide, KEY)).toMatchObject({ outcome: 'pass', data: { opening: 'door' } });
  });

  it('says what is moved first as advice, and a screwed panel as a fault', () => {
    const wide = {
      [`${DOOR}.widthM`]: 0.8,
      [`${DOOR}.heightM`]: 0.7,
      'arrangements.plan.places.filter.at': [0.6, 0.35, 0.1],
    };
    expect(verdict(bent(RULE, { ...wide, [`${DOOR}.moveFirst`]: ['Cushion'] }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'afterMoving',
      data: { removals: 'Cushion' },
    });
    expect(verdict(bent(RULE, { ...wide, [`${DOOR}.how`]: 'screwed' }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'byDismantling',
    });
  });

  it('asks nothing of a boat without places to stand, and nothing of what is in no place', () => {
    const nowhere = bent(RULE, { standingPlaces: {}, [`${DOOR}.standing`]: undefined });
    expect(verdict(nowhere, KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noStanding' });
    const notPlaced = bent(RULE, { 'arrangements.plan.places': {} });
    expect(verdicts(notPlaced, RULE)).toMatchObject([{ outcome: 'notApplicable', reason: 'notPlaced' }]);
  });

  it('does not ask where no opening is drawn', () => {
    expect(verdict(bent(RULE, { openings: {} }), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'notAsked' });
  });
});
