import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/isolator';
const KEY = `${RULE}|pump|`;

describe('what shuts the pump off', () => {
  it('is within 3 m of it, middle to middle: 3.04 m are a fault (common practice, no source)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'tooFar',
      measured: { value: expect.closeTo(3.04, 6), unit: 'm' },
      limit: { value: 3, bound: 'atMost' },
      related: ['fuse'],
    });
    expect(verdict(bent(RULE, { 'arrangements.plan.places.pump.at.0': 3.659 }), KEY)).toMatchObject({
      outcome: 'pass',
    });
  });

  it('may be farther off in the same space: it is in sight', () => {
    const one = bent(RULE, {
      'compartments.fore': undefined,
      panels: undefined,
      'openings.two.compartment': 'locker',
      'compartments.locker.outline': [
        [0, 0],
        [4, 0],
        [4, 1],
        [0, 1],
      ],
    });
    expect(verdict(one, KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'inSight' });
  });

  it('is a breaker, a panel, a fuse or what says that it isolates, the nearest on the way', () => {
    const as = (kind: string, isolates?: boolean) =>
      verdict(bent(RULE, { 'fixtures.fuse.kind': kind, 'fixtures.fuse.electric.isolates': isolates }), KEY);
    for (const kind of ['breaker', 'dcPanel']) expect(as(kind)).toMatchObject({ reason: 'tooFar' });
    expect(as('busbar')).toMatchObject({ outcome: 'fail', reason: 'none', measured: { value: 0, unit: 'count' } });
    expect(as('other', true)).toMatchObject({ reason: 'tooFar' });
    expect(as('breaker', false)).toMatchObject({ reason: 'none' });
  });

  it('is not asked for where nothing feeds the pump, and of what is no pump of the set', () => {
    expect(verdict(bent(RULE, { 'lines.on': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'notFed',
    });
    expect(verdicts(bent(RULE, { 'parts.pump.kind': 'other' }), RULE)).toEqual([]);
  });

  it('cannot be told of a switch that is not placed', () => {
    const { pose: _, ...fuse } = (bent(RULE, {}) as { fixtures: { fuse: { pose: object } } }).fixtures.fuse;
    expect(verdict(bent(RULE, { 'fixtures.fuse': undefined, 'parts.fuse': fuse }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'notPlaced',
    });
  });
});
