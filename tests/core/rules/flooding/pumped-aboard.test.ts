import { describe, expect, it } from 'vitest';
import { bent, put, verdict, verdicts } from '../judged';

/** The boat: a fresh-water pump of 9 litres a minute with a hose to a tap, in a locker without a bilge pump. */
const RULE = 'flooding/pumped-aboard';
const KEY = `${RULE}|pump|`;
const bilge = (flowLMin: number | undefined, more: object = {}) => ({
  'fixtures.bilge': {
    name: 'Bilge pump',
    kind: 'bilgePump',
    shape: { type: 'box', sizeM: [0.12, 0.12, 0.17] },
    pose: { at: [0.6, 0.6, -0.4] },
    electric: { dripProof: 'sealed' },
    ...(flowLMin === undefined ? {} : { flowLMin }),
    ...more,
  },
});

describe('floods that are pumped aboard', () => {
  it('nothing empties the locker: 9 litres a minute are advice while somebody is there', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'tooMuch',
      measured: { value: 9, unit: 'LMin' },
      limit: { value: 0, bound: 'atMost' },
    });
  });

  it('half of a label counts: 18 litres a minute are just enough, 17 are not', () => {
    expect(verdict(bent(RULE, bilge(18)), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 9 } });
    expect(verdict(bent(RULE, bilge(17)), KEY)).toMatchObject({ outcome: 'fail', limit: { value: 8.5 } });
  });

  it('a pump that says nothing counts with 10 litres a minute (ISO 15083 for the smallest boats, quoted)', () => {
    expect(verdict(bent(RULE, bilge(undefined)), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 10 } });
    expect(verdict(bent(RULE, { 'compartments.locker.bilgePumped': true }), KEY)).toMatchObject({
      limit: { value: 10 },
    });
  });

  it('with nobody awake only pumps that start by themselves count, and the lack of one is a fault', () => {
    const night = { 'flooding.cases': { night: { kind: 'poweredLine', crew: 'asleep' } } };
    const of = (more: object) => verdict(bent(RULE, { ...night, ...bilge(18, more) }), `${KEY}night`);
    expect(of({})).toMatchObject({ outcome: 'pass' });
    expect(of({ automatic: false })).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'nobodyThere',
      limit: { value: 0 },
    });
    expect(of({ electric: undefined })).toMatchObject({ outcome: 'fail' });
  });

  it('is judged with limber holes clogged, and with the bilge pump dead', () => {
    const json = bent(RULE, {
      ...bilge(18),
      'compartments.sump': {
        name: 'Sump',
        view: 'plan',
        outline: [
          [1.01, 0],
          [2, 0],
          [2, 1],
          [1.01, 1],
        ],
        rangeM: [-0.5, 0.5],
      },
      'flooding.limberHoles': { limber: { between: ['locker', 'sump'], at: [1.005, 0.5, -0.48], diameterM: 0.02 } },
      'flooding.cases': {
        clogged: { kind: 'poweredLine', limbersBlocked: true },
        dead: { kind: 'poweredLine', bilgePumpDead: true },
        other: { kind: 'poweredLine', subject: 'somethingElse' },
      },
    });
    put(json, 'fixtures.bilge.pose.at', [1.5, 0.5, -0.4]);
    expect(Object.fromEntries(verdicts(json, RULE).map(({ key, outcome }) => [key, outcome]))).toEqual({
      [KEY]: 'pass',
      [`${KEY}clogged`]: 'fail',
      [`${KEY}dead`]: 'fail',
    });
  });

  it('cannot be told without the flow of the pump, and does not arise without a hose', () => {
    expect(verdict(bent(RULE, { 'fixtures.pump.flowLMin': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noFlow',
      missing: { path: 'fixtures.pump.flowLMin', unit: 'LMin' },
    });
    expect(verdict(bent(RULE, { lines: {} }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noPressedLine',
    });
  });

  it('is not asked of a boat of which no bilge is drawn, unless a case asks', () => {
    const silent = { 'compartments.locker.bilgePumped': undefined };
    expect(verdict(bent(RULE, silent), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noBilgeDrawn' });
    const asked = bent(RULE, { ...silent, 'flooding.cases': { day: { kind: 'poweredLine' } } });
    expect(verdicts(asked, RULE).map(({ outcome }) => outcome)).toEqual(['fail', 'fail']);
  });

  it('comes from the set through its brine hose, above the waterline too', () => {
    const json = bent(RULE, {
      'fixtures.pump.kind': 'pumpModule',
      'fixtures.pump.flowLMin': 7,
      'lines.hose.medium': 'brine',
    });
    expect(verdict(json, KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: 7 },
      data: { isSet: true, lines: 'hose' },
    });
  });
});
