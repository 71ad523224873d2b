import { describe, expect, it } from 'vitest';
import { countOf } from '../support/vitest-count.mjs';

const file = (status: string, ...tests: string[]) => ({
  status,
  assertionResults: tests.map((test) => ({ status: test })),
});
const report = (passed: number, failed: number, ...testResults: ReturnType<typeof file>[]) => ({
  numPassedTests: passed,
  numFailedTests: failed,
  numPendingTests: 0,
  numTodoTests: 0,
  testResults,
});

describe('the count behind the closing line', () => {
  it('is what vitest counted', () => {
    expect(countOf(report(2, 0, file('passed', 'passed', 'passed')), true)).toEqual({
      passed: 2,
      failed: 0,
      skipped: 0,
    });
    expect(countOf(report(1, 1, file('failed', 'passed', 'failed')), false).failed).toBe(1);
  });
  it('counts a file that could not be loaded', () => {
    expect(countOf(report(2, 0, file('passed', 'passed'), file('failed')), false).failed).toBe(1);
  });
  it('counts an error outside any test, and a run that left no report', () => {
    expect(countOf(report(2, 0, file('passed', 'passed', 'passed')), false).failed).toBe(1);
    expect(countOf(null, false).failed).toBe(1);
    expect(countOf(null, true).failed).toBe(1);
  });
});
