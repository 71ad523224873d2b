import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/mains';
const KEY = `${RULE}|pump|`;
const drivenBy = (by: string | undefined) => bent(RULE, { 'fixtures.pump.electric.drivenBy': by });
const fromSource = (volts: number) =>
  bent(RULE, {
    'fixtures.pump.electric.drivenBy': undefined,
    'fixtures.pump.ports': { in: { at: [-0.1, 0, 0], direction: [-1, 0, 0], medium: 'dcPower' } },
    'fixtures.source': {
      name: 'Source',
      kind: 'inverterCharger',
      shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] },
      pose: { at: [1, 0.5, -0.25] },
      ports: { out: { at: [0.1, 0, 0], direction: [1, 0, 0], medium: 'dcPower' } },
      electric: { sourceV: volts },
    },
    'lines.feed': {
      name: 'Feed',
      kind: 'cable-pair-10',
      medium: 'dcPower',
      from: { thing: 'source', port: 'out' },
      to: { thing: 'pump', port: 'in' },
    },
  });

describe('a set on mains or on the engine', () => {
  it('is for an electrician, with the caution for faults', () => {
    expect(verdict(drivenBy('ac'), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'mains',
      hazards: ['dcFault'],
      enterNext: expect.stringContaining('electrician'),
    });
  });

  it('is for a mechanic where the engine turns it', () => {
    expect(verdict(drivenBy('engine'), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'engine',
      enterNext: expect.stringContaining('mechanic'),
    });
  });

  it('is mains from 50 V on, whatever it says', () => {
    expect(verdict(fromSource(230), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'mains' });
    expect(verdict(fromSource(50), KEY)).toMatchObject({ outcome: 'cannotTell' });
    expect(verdict(fromSource(48), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('does not matter for direct current, nor for what is no pump of the set', () => {
    expect(verdict(drivenBy('dc'), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'lowVoltage' });
    expect(verdict(drivenBy(undefined), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'notSaid' });
    expect(verdicts(bent(RULE, { 'fixtures.pump.kind': 'other' }), RULE)).toEqual([]);
  });
});
