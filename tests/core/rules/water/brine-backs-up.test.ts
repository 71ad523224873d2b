import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line } from './pieces';

/** A brine tee into a sink drain backs up when the drain is under water at heel: common practice, no source. */
const RULE = 'water/brine-backs-up';
const KEY = `${RULE}|drain|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const radians = (deg: number) => (deg * Math.PI) / 180;

describe('a drain that takes the brine', () => {
  it('is advice where it goes under, at the depth that arithmetic gives', () => {
    const found = told({});
    expect(found).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'backsUp', related: ['basin'] });
    expect(found.outcome === 'fail' && found.measured.value).toBeCloseTo(
      0.5 * Math.sin(radians(20)) - 0.05 * Math.cos(radians(20)),
      9,
    );
  });

  it('passes upright, and on the other tack', () => {
    expect(told({ runStates: {} })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'runStates.sailing.sideDown': 'starboard' })).toMatchObject({ outcome: 'pass' });
  });

  it('is none where the brine has an outlet of its own', () => {
    expect(verdicts(bent(RULE, { 'lines.b1': undefined }), RULE)).toEqual([]);
    const own = {
      'fixtures.drain.opensToSea.discharges': undefined,
      'fixtures.drain.name': 'Outlet',
      'lines.b1': line('station.brine', 'drain.tail'),
      'lines.b2': undefined,
      'lines.b3': undefined,
    };
    expect(verdicts(bent(RULE, own), RULE)).toEqual([]);
  });

  it('is not asked where it has no place', () => {
    expect(
      told({
        'parts.drain': {
          name: 'Drain',
          kind: 'seacock',
          shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
          ports: { tail: { at: [0, 0, 0.05], direction: [0, 0, 1], medium: 'waste' } },
          opensToSea: { at: [0, 0, 0], boreM: 0.038, use: 'outlet', discharges: ['sink'] },
        },
        fixtures: {},
      }),
    ).toMatchObject({ outcome: 'notApplicable', reason: 'notPlaced' });
  });
});
