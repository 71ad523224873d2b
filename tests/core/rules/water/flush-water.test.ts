import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** A flush drinks 15 to 40 L: common practice, no source. Half a tank: our own choice. */
const RULE = 'water/flush-water';
const KEY = `${RULE}|tank|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);

describe('the tank that feeds the flush', () => {
  it('of 60 L is advice: 40 L are more than half of it', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'drinksTank',
      measured: { value: 40, unit: 'L' },
      limit: { value: 30 },
    });
  });

  it('passes at twice what a flush takes, as entered or as usual', () => {
    expect(told({ 'parts.tank.liquidL': 80 })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.pump.flushL': 30 })).toMatchObject({ outcome: 'pass', measured: { value: 30 } });
    expect(told({ 'parts.pump.flushL': 30.1 })).toMatchObject({ outcome: 'fail' });
  });

  it('is not asked where its capacity was not entered, or nothing is flushed', () => {
    expect(told({ 'parts.tank.liquidL': undefined })).toMatchObject({ outcome: 'notApplicable', reason: 'noCapacity' });
    expect(verdicts(bent(RULE, { 'lines.f5': undefined }), RULE)).toEqual([]);
  });
});
