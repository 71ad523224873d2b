import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** A strainer may stand above or below the water: it must be isolated by a seacock. Common practice, no source. */
const RULE = 'water/isolated';
const KEY = `${RULE}|strainer|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const radians = (deg: number) => (deg * Math.PI) / 180;

describe('a strainer below the waterline', () => {
  it('with nothing to shut before it is a danger, at the depth of its joints at the greatest heel', () => {
    const found = told({});
    expect(found).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'openToSea',
      related: ['cock'],
      hazards: ['hullHole'],
    });
    expect(found.outcome === 'fail' && found.measured.value).toBeCloseTo(
      0.25 * Math.cos(radians(20)) + 0.5 * Math.sin(radians(20)),
      6,
    );
  });

  it('is opened at its lid where that is drawn', () => {
    const lid = { task: 'basket', at: [0, 0, 0.1], direction: [0, 0, 1], acrossM: [0.1, 0.1], clearM: 0.1 };
    const found = told({ 'parts.strainer.services': { lid } });
    expect(found.outcome === 'fail' && found.measured.value).toBeCloseTo(
      0.15 * Math.cos(radians(20)) + 0.5 * Math.sin(radians(20)),
      6,
    );
  });

  it('passes behind a seacock, behind a valve of its own, and above the water', () => {
    expect(told({ 'fixtures.cock.kind': 'seacock' })).toMatchObject({
      outcome: 'pass',
      measured: { value: 0, unit: 'count' },
    });
    expect(told({ 'fixtures.cock.valve': { states: ['open', 'shut'] } })).toMatchObject({ outcome: 'pass' });
    expect(told({ greatestHeelDeg: 0, 'arrangements.plan.places.strainer.at': [0.55, 0.5, 0.2] })).toMatchObject({
      outcome: 'pass',
      measured: { unit: 'm' },
    });
  });

  it('is not isolated by a check valve', () => {
    expect(told({ 'fixtures.cock.valve': { states: ['held'], kind: 'check' } })).toMatchObject({ outcome: 'fail' });
  });

  it('is not asked where it has no place or no line', () => {
    expect(told({ 'arrangements.plan.places.strainer': undefined })).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { lines: {} }), RULE)).toEqual([]);
  });
});
