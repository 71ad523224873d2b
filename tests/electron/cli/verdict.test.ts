import type { Report } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';
import { exitCodeOf } from '@electron/cli/verdict';
import { describe, expect, it } from 'vitest';

const base = {
  key: 'access/service|pump|',
  rule: 'access/service',
  subject: 'pump',
  related: [],
  at: null,
  cause: 'arrangement',
  profile: 'isoSmallCraft',
  sources: [],
  cannotSee: [],
  hazards: [],
  data: {},
} as const;
const measured = { measured: { value: 0.1, unit: 'm' }, limit: { value: 0.2, unit: 'm', bound: 'atLeast' } } as const;
const fail = (severity: 'danger' | 'fault' | 'advice'): Finding => ({
  ...base,
  ...measured,
  outcome: 'fail',
  severity,
  reason: 'narrow',
});
const cannotTell: Finding = { ...base, outcome: 'cannotTell', reason: 'notPlaced', enterNext: 'a place' };
const accepted = { by: 'owner', why: 'known', on: '2026-01-01' };
const reportOf = (...findings: Finding[]): Report => ({
  engineVersion: '0',
  boat: 'b',
  arrangement: null,
  attitude: { up: [0, 0, 1], levelM: 0, source: 'frame', sinkageM: 0, trimDeg: 0, listDeg: 0, residualM: 0, gradeM: 0 },
  places: {},
  runs: [],
  findings,
  takeoff: [],
  summary: {
    danger: 0,
    fault: 0,
    advice: 0,
    cannotTell: 0,
    pass: 0,
    closeCalls: 0,
    routed: 0,
    blocked: 0,
    hoseM: 0,
    newHoles: 0,
  },
});

describe('the exit code of a check', () => {
  it.each<[string, Finding, number, number]>([
    ['a danger', fail('danger'), 1, 1],
    ['a fault', fail('fault'), 1, 1],
    ['advice', fail('advice'), 0, 0],
    ['a pass', { ...base, ...measured, outcome: 'pass' }, 0, 0],
    ['a cannot-tell', cannotTell, 0, 1],
    ['what does not apply', { ...base, outcome: 'notApplicable', reason: 'noPump' }, 0, 0],
    ['an accepted danger', { ...fail('danger'), accepted }, 0, 0],
    ['an accepted cannot-tell', { ...cannotTell, accepted }, 0, 0],
    ['a danger that was there before', { ...fail('danger'), cause: 'existing' }, 0, 0],
    ['a cannot-tell on what was there before', { ...cannotTell, cause: 'existing' }, 0, 0],
  ])('for %s', (_what, finding, plain, strict) => {
    expect([exitCodeOf(reportOf(finding), false), exitCodeOf(reportOf(finding), true)]).toEqual([plain, strict]);
  });

  it('is 1 when one of many stands', () => {
    expect(exitCodeOf(reportOf({ ...fail('danger'), accepted }, fail('advice'), fail('fault')), false)).toBe(1);
    expect(exitCodeOf(reportOf(), true)).toBe(0);
  });
});
