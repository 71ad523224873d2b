import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'water/loop-rise';
const KEY = `${RULE}|loop|`;
const riseTo = (z: number | undefined) => bent(RULE, { 'lines.loop.riseToM': z });

describe('a line that must rise', () => {
  it('fails where the compartment is too low: top at 500, half of 33 mm off it (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'tooLow',
      measured: { value: expect.closeTo(0.4835, 3) },
      limit: { value: 0.7, bound: 'atLeast' },
    });
  });

  it('is led up to where it must go, and passes at the limit', () => {
    for (const z of [0.2, 0.4, 0.48]) {
      const found = verdict(riseTo(z), KEY);
      expect(found).toMatchObject({ outcome: 'pass', limit: { value: z } });
      if (found.outcome === 'pass') expect(found.measured.value).toBeLessThan(z + 0.03);
    }
  });

  it('counts the height above the water, not above the frame', () => {
    const water = { 'reference.levelMarks': { mark: { at: [1, 0.5, -0.3] } } };
    expect(verdict(bent(RULE, water), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.7 } });
  });

  it('cannot be told without a run', () => {
    const fat = {
      'lines.loop.kind': 'fat',
      'lineKinds.fat': { name: 'Fat hose', what: 'hose', outsideM: 0.9, bendRadiusM: 4 },
    };
    expect(verdict(bent(RULE, fat), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noRun' });
  });

  it('is not asked of other lines', () => {
    expect(verdicts(riseTo(undefined), RULE)).toEqual([]);
  });
});
