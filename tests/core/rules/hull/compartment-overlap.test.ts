import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/compartment-overlap';
const outline = (x0: number, x1: number) => [
  [x0, 0],
  [x1, 0],
  [x1, 1],
  [x0, 1],
];

describe('compartments that share space', () => {
  it('are told once, with the depth of what they share: 1 200 - 1 100 (derived)', () => {
    expect(verdicts(bent(RULE, {}), RULE).filter((f) => f.outcome === 'fail')).toMatchObject([
      {
        key: `${RULE}|aft|fore`,
        severity: 'fault',
        cause: 'existing',
        measured: { value: expect.closeTo(0.1, 6), unit: 'm' },
        limit: { value: 0, bound: 'atMost' },
      },
    ]);
  });

  it('follow their outlines', () => {
    expect(verdict(bent(RULE, { 'compartments.fore.outline': outline(1.13, 2) }), `${RULE}|aft|fore`)).toMatchObject({
      measured: { value: expect.closeTo(0.07, 6) },
    });
  });

  it('pass where they touch, or stand apart', () => {
    for (const x of [1.2, 1.22])
      expect(verdicts(bent(RULE, { 'compartments.fore.outline': outline(x, 2) }), RULE).map((f) => f.outcome)).toEqual([
        'pass',
        'pass',
        'pass',
      ]);
  });

  it('say nothing of a boat without compartments', () => {
    expect(verdicts(bent(RULE, { compartments: {}, openings: {} }), RULE)).toEqual([]);
  });
});
