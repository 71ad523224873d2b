import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** A dry run kills an impeller within a minute: common practice, no source. */
const RULE = 'water/runs-dry';
const KEY = `${RULE}|pump|making`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);

describe('a pump that runs in an operating state', () => {
  it('with its intake shut runs dry, with the valve named', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'dry',
      related: ['cock'],
      data: { state: 'Making water' },
    });
  });

  it('gets water with the intake open, whether or not the state says so', () => {
    expect(told({ 'operatingStates.making.valves.cock': 'open' })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'operatingStates.making.valves.cock': undefined })).toMatchObject({ outcome: 'pass' });
  });

  it('gets water from the tank through the flush, and none while the flush valve is shut', () => {
    const flushing = { 'operatingStates.making.valves.service': 'fresh' };
    expect(told({ ...flushing, 'operatingStates.making.valves.flush-valve': 'open' })).toMatchObject({
      outcome: 'pass',
    });
    expect(told(flushing)).toMatchObject({ outcome: 'fail' });
  });

  it('is not asked where it has no way of water at all, nor of pumps that never run', () => {
    expect(verdicts(bent(RULE, { lines: {} }), RULE)).toMatchObject([{ outcome: 'notApplicable' }]);
    expect(verdicts(bent(RULE, { operatingStates: {} }), RULE)).toEqual([]);
  });
});
