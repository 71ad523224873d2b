import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/near-compass';
const KEY = `${RULE}|cable|`;
const amperes = (a: number | undefined) => ({ 'lines.cable.currentA': a, 'fixtures.pump.electric.drawA': undefined });

describe('a power cable near a compass', () => {
  it('turns it by asin(2e-7 I / d / 20e-6): 25 A half a metre off, 30 degrees (derived, Biot-Savart)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(30, 0), unit: 'deg' },
      limit: { value: 1, bound: 'atMost' },
      related: ['compass'],
      data: { awayM: expect.closeTo(0.5, 2), isPair: false },
    });
  });

  // sin 1 degree x 20e-6 x 0.4993 / 2e-7 = 0.8714 A (derived)
  it('passes at the limit', () => {
    expect(verdict(bent(RULE, amperes(0.86)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, amperes(0.9)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('passes as a pair: 2.5 mm apart the field is 200 times less (derived)', () => {
    expect(verdict(bent(RULE, { 'lineKinds.single.conductors': 2 }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.1435, 2) },
      data: { isPair: true },
    });
  });

  it('takes the current of what it feeds where the line has none', () => {
    expect(verdict(bent(RULE, { 'lines.cable.currentA': undefined }), KEY)).toMatchObject({
      outcome: 'fail',
      data: { amperes: 25 },
    });
  });

  it('cannot tell without a current, and says where to enter it', () => {
    expect(verdict(bent(RULE, amperes(undefined)), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noCurrent',
      missing: { path: 'lines.cable.currentA', unit: 'A' },
    });
  });

  it('does not apply without a compass, and not to a hose', () => {
    expect(verdict(bent(RULE, { 'fixtures.compass.kind': 'other' }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lines.cable.medium': 'air' }), RULE)).toEqual([]);
  });
});
