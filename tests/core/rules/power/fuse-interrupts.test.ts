import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/fuse-interrupts';
const KEY = `${RULE}|fuse|`;

describe('the first fuse behind a bank', () => {
  it('must break some 20 kA of a lithium bank that says nothing (common practice, no source)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      measured: { value: 10_000, unit: 'A' },
      limit: { value: 20_000, bound: 'atLeast' },
      related: ['bank'],
      sources: [{ key: 'practice', standing: 'commonPractice' }],
      data: { isAssumed: true },
    });
    expect(verdict(bent(RULE, { 'fixtures.fuse.electric.interruptsA': 20_000 }), KEY)).toMatchObject({
      outcome: 'pass',
    });
  });

  it('must break what the bank is said to drive, whatever it is made of', () => {
    const said = (amperes: number) => ({
      'fixtures.bank.electric.shortCircuitA': amperes,
      'fixtures.bank.electric.chemistry': 'floodedLead',
    });
    expect(verdict(bent(RULE, said(10_000)), KEY)).toMatchObject({
      outcome: 'pass',
      sources: [{ key: 'boat-file', standing: 'boatFile' }],
    });
    expect(verdict(bent(RULE, said(10_001)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('cannot tell without what it interrupts, and names where to enter that', () => {
    expect(verdict(bent(RULE, { 'fixtures.fuse.electric.interruptsA': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noInterrupting',
      missing: { path: 'fixtures.fuse.electric.interruptsA', unit: 'A' },
    });
  });

  it('does not apply to a bank of lead that says nothing, nor to what stands behind another fuse', () => {
    expect(verdict(bent(RULE, { 'fixtures.bank.electric.chemistry': 'sealedLead' }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'bankUnknown',
    });
    const second = bent(RULE, {
      'fixtures.motor.kind': 'breaker',
      'fixtures.motor.electric': { ratingA: 30, interruptsA: 3000 },
    });
    expect(verdicts(second, RULE).map(({ key }) => key)).toEqual([KEY]);
  });

  it('offers a fuse that breaks it', () => {
    expect(mends(boatOf(bent(RULE, {})), KEY)).toContainEqual(
      expect.objectContaining({
        change: 'value',
        what: { id: 'fuse', field: 'electric.interruptsA', from: 10_000, to: 20_000 },
        hazards: ['dcFault'],
      }),
    );
  });
});
