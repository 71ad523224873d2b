import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'runs/pressure-near-berth';
const KEY = `${RULE}|hose|`;
const FROM = `${KEY}from`;
const pillow = (...at: readonly number[]) => ({ 'compartments.cabin.pillows': [at] });
/** The joint at x 800 then lies in a locker of its own, aft of the berth. */
const parted = {
  'compartments.locker': { name: 'Locker', view: 'plan', outline: square(0.7, 2.4), rangeM: [-0.4, 1.6] },
  'compartments.cabin.outline': square(0, 0.68),
  ...pillow(0.5, 0.5, 0.5),
};

describe('a pressure joint near a head', () => {
  it('keeps half a metre away (common practice): 800 - 500 = 300 mm (derived)', () => {
    expect(verdict(bent(RULE, {}), FROM)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'nearHead',
      measured: { value: expect.closeTo(0.3, 9), unit: 'm' },
      limit: { value: 0.5, bound: 'atLeast' },
      related: ['membrane', 'cabin'],
      hazards: ['highPressure'],
    });
    expect(verdict(bent(RULE, pillow(0.3, 0.5, 0.5)), FROM)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, pillow(0.302, 0.5, 0.5)), FROM)).toMatchObject({ outcome: 'fail' });
  });

  it('may be shielded by a cover or a panel', () => {
    const cover = {
      'lines.hose.ends.from': { diameterM: 0.025, rigidM: 0.07, crimped: true, swivel: true, shielded: true },
    };
    expect(verdict(bent(RULE, cover), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdict(bent(RULE, parted), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noneNear' });
    const open = {
      ...parted,
      'panels.between': { between: ['cabin', 'locker'], near: [0.69, 0.5, 0.5], rule: 'open' },
    };
    expect(verdict(bent(RULE, open), FROM)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.3, 9) },
    });
  });

  it('is measured to the berth where no pillow is drawn', () => {
    const open = {
      ...parted,
      'panels.between': { between: ['cabin', 'locker'], near: [0.69, 0.5, 0.5], rule: 'open' },
      'compartments.cabin.pillows': undefined,
    };
    expect(verdict(bent(RULE, open), FROM)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.12, 9) },
    });
    // a panel right at the side of the berth shields as well
    expect(verdict(bent(RULE, { ...parted, 'compartments.cabin.pillows': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  it('does not matter where nobody sleeps, and is asked of the pressure side alone', () => {
    expect(verdict(bent(RULE, { 'compartments.cabin.berth': false }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lineKinds.made.pressureBar': 10 }), RULE)).toEqual([]);
    expect(verdicts(bent(RULE, { 'lines.hose.medium': 'freshWater' }), RULE)).toEqual([]);
  });
});

function square(from: number, to: number): readonly (readonly [number, number])[] {
  return [
    [from, -1],
    [to, -1],
    [to, 1],
    [from, 1],
  ];
}
