import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/level';
const KEY = `${RULE}|pump|`;
const lean = (rollDeg: number) => ({ 'arrangements.plan.places.pump.rollDeg': rollDeg });
const heel = (heelDeg: number) => ({ 'runStates.sailing': { name: 'Sailing', use: 'sailing', heelDeg } });

describe('what must stand upright', () => {
  it('is fitted within 5 degrees where its data sheet says nothing (from memory)', () => {
    expect(verdict(bent(RULE, {}), `${KEY}fitted`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'notUpright',
      measured: { value: expect.closeTo(8, 6), unit: 'deg' },
      limit: { value: 5, bound: 'atMost' },
    });
    expect(verdict(bent(RULE, lean(5)), `${KEY}fitted`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, lean(180)), `${KEY}fitted`)).toMatchObject({
      measured: { value: expect.closeTo(180, 6) },
    });
  });

  it('follows its data sheet', () => {
    expect(verdict(bent(RULE, { 'parts.pump.mounting.levelDeg': 8 }), `${KEY}fitted`)).toMatchObject({
      outcome: 'pass',
    });
    expect(verdict(bent(RULE, { 'parts.pump.mounting.levelDeg': 7.9 }), `${KEY}fitted`)).toMatchObject({
      outcome: 'fail',
    });
  });

  it('runs within its tilt: own lean and heel together, on the worse tack (derived)', () => {
    const runs = (tiltDeg: number) =>
      verdict(bent(RULE, { ...lean(3), ...heel(10), 'parts.pump.mounting.tiltDeg': tiltDeg }), `${KEY}running`);
    expect(runs(13)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(13, 6) } });
    expect(runs(12.9)).toMatchObject({
      outcome: 'fail',
      reason: 'tiltsTooFar',
      data: { state: 'Sailing', heelDeg: 10 },
    });
  });

  it('does not apply to what is not placed, and is not asked of what may lie', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'parts.pump.mounting.upright': false }), RULE)).toEqual([]);
  });
});
