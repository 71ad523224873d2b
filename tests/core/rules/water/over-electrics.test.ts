import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'water/over-electrics';
const KEY = `${RULE}|hose|`;
const STRAIGHT = {
  points: [
    [0.25, 0.05, 0.1],
    [1.75, 0.05, 0.1],
  ],
};

describe('water over open electrics', () => {
  it('is a danger straight above them', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'above',
      measured: { value: 0, unit: 'm' },
      limit: { value: 0.1, bound: 'atLeast' },
      related: ['bank'],
    });
  });

  // Kept as built along y 50 mm, 19 mm thick: its side is at 59.5. The battery is 200 wide (derived).
  it('is a fault closer beside than 100 mm, and none at the limit', () => {
    const at = (y: number) =>
      verdict(bent(RULE, { 'fixtures.bank.pose.at.1': y, 'arrangements.plan.pins': { hose: STRAIGHT } }), KEY);
    expect(at(0.2594)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'beside',
      measured: { value: expect.closeTo(0.0999, 6) },
    });
    expect(at(0.2596)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.1001, 6) },
      closeCall: { gradeM: expect.any(Number) },
    });
  });

  it('is nothing below them', () => {
    expect(verdict(bent(RULE, { 'fixtures.bank.pose.at.2': 0.35 }), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('is nothing over what drips do not hurt', () => {
    for (const dripProof of ['dripProof', 'sealed'])
      expect(verdict(bent(RULE, { 'fixtures.bank.electric.dripProof': dripProof }), KEY)).toMatchObject({
        outcome: 'notApplicable',
        reason: 'noneNear',
      });
  });

  it('counts a battery, a panel and a brushed motor as open where nobody says', () => {
    for (const change of [
      { 'fixtures.bank.electric': undefined },
      { 'fixtures.bank.electric': undefined, 'fixtures.bank.kind': 'dcPanel' },
      { 'fixtures.bank.electric': { drawA: 5, brushed: true }, 'fixtures.bank.kind': 'deckWashPump' },
    ])
      expect(verdict(bent(RULE, change), KEY)).toMatchObject({ outcome: 'fail', reason: 'above' });
  });

  it('cannot be told of a thing that draws current and of which nobody says how it stands water', () => {
    const fridge = { 'fixtures.bank.kind': 'fridge', 'fixtures.bank.electric': { drawA: 4 } };
    expect(verdict(bent(RULE, fridge), `${KEY}bank`)).toMatchObject({ outcome: 'cannotTell', reason: 'drips' });
  });

  it('does not ask of a cable or of air', () => {
    expect(verdicts(bent(RULE, { 'lines.hose.medium': 'air' }), RULE)).toEqual([]);
  });
});
