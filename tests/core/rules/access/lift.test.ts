import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'access/lift';
const KEY = `${RULE}|box|`;
/** NIOSH 94-110 by hand: H 60, V 10, D 65 cm, poor grip. */
const RWL = 23 * (25 / 60) * (1 - 0.003 * 65) * (0.82 + 4.5 / 65) * 0.9;

describe('a part that is lifted into its place', () => {
  it('takes two people or a tackle over an index of 3, and is never more than advice', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'twoPeople',
      measured: { value: expect.closeTo(25 / RWL, 9), unit: 'count' },
      limit: { value: 3, bound: 'atMost' },
      hazards: ['lifting'],
      data: { weightKg: expect.closeTo(RWL, 9), isBeyond: false },
    });
    expect(verdict(bent(RULE, { 'parts.box.massKg': 3 * RWL - 1e-6 }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'parts.box.massKg': 3 * RWL + 1e-4 }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('says where the equation ends: farther out than 63 cm', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.box.at': [0.6, 0.6, -0.3] }), KEY)).toMatchObject({
      outcome: 'fail',
      data: { isBeyond: true, outM: expect.closeTo(0.8, 9) },
    });
  });

  it('is lifted from the best place', () => {
    const near = {
      'openings.lid': {
        name: 'Lid',
        compartment: 'locker',
        at: [0.6, 0.4, 0.5],
        normal: [0, 0, 1],
        widthM: 0.5,
        heightM: 0.5,
        standing: 'deck',
      },
      'standingPlaces.deck': { name: 'Deck', at: [0.6, 0.15, -0.9] },
    };
    expect(verdict(bent(RULE, near), KEY)).toMatchObject({ outcome: 'pass', data: { standing: 'Deck' } });
  });

  it('cannot be told where nobody says how one stands for it', () => {
    expect(verdict(bent(RULE, { 'openings.door.standing': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'standsNowhere',
    });
  });

  it('is not asked of what is light, nor where no standing place is drawn', () => {
    expect(verdict(bent(RULE, { 'parts.box.massKg': 9.9 }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'light',
    });
    expect(verdict(bent(RULE, { 'openings.door.standing': undefined, standingPlaces: {} }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noneDrawn',
    });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ reason: 'notPlaced' });
  });
});
