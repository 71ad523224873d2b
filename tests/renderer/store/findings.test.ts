import type { Report } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';
import { findingNumbers, markOfFinding, sortedFindings } from '@renderer/store/findings';
import { describe, expect, it } from 'vitest';

const base = (key: string, cause: Finding['cause'] = 'arrangement') => ({
  key,
  rule: 'access/overlap',
  subject: key,
  related: [],
  at: null,
  cause,
  profile: 'isoSmallCraft' as const,
  sources: [],
  cannotSee: [],
  hazards: [],
  data: {},
});
const measured = {
  measured: { value: 1, unit: 'm' as const },
  limit: { value: 2, unit: 'm' as const, bound: 'atLeast' as const },
};
const closeCall = { gradeM: 0.02, passProbability: [0.2, 0.6] as const };
const fail = (key: string, severity: 'danger' | 'fault' | 'advice', cause?: Finding['cause']): Finding => ({
  ...base(key, cause),
  ...measured,
  outcome: 'fail',
  severity,
  reason: 'tooNear',
});
const FINDINGS: readonly Finding[] = [
  { ...base('pass'), ...measured, outcome: 'pass' },
  { ...base('close'), ...measured, outcome: 'pass', closeCall },
  fail('old danger', 'danger', 'existing'),
  fail('old fault', 'fault', 'existing'),
  fail('advice', 'advice'),
  fail('fault', 'fault'),
  { ...fail('lived with', 'danger'), accepted: { by: 'owner', why: 'seen', on: '2026-01-01' } },
  { ...base('unknown'), outcome: 'cannotTell', reason: 'notMeasured', enterNext: 'Enter its height' },
  fail('danger', 'danger'),
  { ...base('nothing'), outcome: 'notApplicable', reason: 'noEngine' },
];

describe('findings', () => {
  it('stand apart by cause, what the plan causes first, each by weight', () => {
    const { open, accepted, passed, notApplicable } = sortedFindings(FINDINGS);
    expect(open.map(({ key }) => key)).toEqual([
      'danger',
      'fault',
      'unknown',
      'advice',
      'close',
      'old danger',
      'old fault',
    ]);
    expect(accepted.map(({ key }) => key)).toEqual(['lived with']);
    expect(passed.map(({ key }) => key)).toEqual(['pass']);
    expect(notApplicable.map(({ key }) => key)).toEqual(['nothing']);
  });

  it('have the same number in list and drawing: the place in the list', () => {
    const numbers = findingNumbers({ findings: FINDINGS } as unknown as Report);
    expect([...numbers]).toEqual(sortedFindings(FINDINGS).open.map(({ key }, index) => [key, index + 1]));
    expect(findingNumbers(null).size).toBe(0);
  });

  it('never show a pass inside the tape as a clean pass', () => {
    const close = FINDINGS[1];
    expect(close && markOfFinding(close)).toBe('closeCall');
  });
});
