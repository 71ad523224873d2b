import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** A flush passes filters, pump and membrane; bowls that it can't reach rot at lay-up: common practice, no source. */
const RULE = 'water/flush-reaches';
const KEY = `${RULE}|pump|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
/** The service valve before both filters. */
const BEFORE = {
  'lines.s2': line('strainer.out', 'service.sea', 'seaWater'),
  'lines.s3': line('service.out', 'coarse.in', 'seaWater'),
  'lines.s4': line('coarse.out', 'fine.in', 'seaWater'),
  'lines.s5': line('fine.out', 'pump.in', 'seaWater'),
};

describe('a flush', () => {
  it('that misses bowls is advice, and counts them', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'bowlMissed',
      measured: { value: 2 },
      related: ['coarse', 'fine', 'service'],
    });
    const between = {
      ...BEFORE,
      'lines.s2': line('strainer.out', 'coarse.in', 'seaWater'),
      'lines.s3': line('coarse.out', 'service.sea', 'seaWater'),
      'lines.s4': line('service.out', 'fine.in', 'seaWater'),
    };
    expect(told(between)).toMatchObject({ severity: 'advice', measured: { value: 1 }, related: ['coarse', 'service'] });
  });

  it('that comes in before the filters passes; the strainer may be left out', () => {
    expect(told(BEFORE)).toMatchObject({ outcome: 'pass' });
  });

  it('that comes in behind the pump, or behind a feed pump, misses a machine', () => {
    const tee = part('tee', {
      in: port('seaWater', 'in', -1),
      out: port('seaWater', 'out'),
      fresh: port('freshWater', 'in'),
    });
    const behind = {
      'parts.service': part('bulkheadUnion', { sea: port('seaWater', 'in', -1), out: port('seaWater', 'out') }),
      operatingStates: {},
      'parts.tee': tee,
      'lines.h1': line('pump.pressure', 'tee.in', 'seaWater'),
      'lines.h3': line('tee.out', 'membrane.feed', 'seaWater'),
      'lines.f5': line('carbon.out', 'tee.fresh', 'freshWater'),
    };
    expect(told(behind)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'machineMissed',
      measured: { value: 1 },
    });
    expect(told({ 'parts.coarse.kind': 'feedPump', 'parts.coarse.micron': undefined })).toMatchObject({
      reason: 'machineMissed',
      related: ['coarse', 'service'],
    });
  });

  it('that a check valve holds back is a fault', () => {
    const back = { in: port('freshWater', 'out', -1), out: port('freshWater', 'in') };
    expect(told({ 'parts.check.ports': back })).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'blocked',
    });
  });

  it('that is not drawn is not asked about, nor one that joins elsewhere', () => {
    expect(verdicts(bent(RULE, { 'lines.f5': undefined }), RULE)).toEqual([]);
    expect(told({ 'lines.s1': undefined })).toMatchObject({ outcome: 'notApplicable', reason: 'noWayFromSea' });
  });
});
