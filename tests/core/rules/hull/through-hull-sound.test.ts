import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/through-hull-sound';
const KEY = `${RULE}|cock|`;
const DEPTH = 0.4 * Math.cos(Math.PI / 9) + 0.4 * Math.sin(Math.PI / 9);
const BALL = { 'fixtures.cock.valve.kind': 'ball' };

describe('a through-hull below the heeled waterline', () => {
  it('with a gate valve is to be replaced first (from memory)', () => {
    expect(verdict(bent(RULE, {}), `${KEY}valve`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'existing',
      reason: 'gateValve',
      measured: { value: expect.closeTo(DEPTH, 6) },
      hazards: ['hullHole'],
    });
  });

  it('of plain brass too, and of bronze not (ISO 9093 clause 4, quoted: brass must resist dezincification)', () => {
    const of = (material: string) => bent(RULE, { ...BALL, 'fixtures.cock.opensToSea.material': material });
    expect(verdict(of('brass'), `${KEY}metal`)).toMatchObject({ outcome: 'fail', reason: 'plainBrass' });
    for (const material of ['bronze', 'dzrBrass', 'plastic']) expect(verdict(of(material), KEY).outcome).toBe('pass');
  });

  it('wants a pad where it is said to have none', () => {
    expect(verdict(bent(RULE, { ...BALL, 'fixtures.cock.opensToSea.backed': false }), `${KEY}pad`)).toMatchObject({
      outcome: 'fail',
      reason: 'unbacked',
    });
  });

  it('is looked at when it is older than 25 years (from memory), where the year of the job is known', () => {
    const fitted = (year: number) =>
      bent(RULE, { ...BALL, plannedYear: 2026, 'fixtures.cock.opensToSea.fittedYear': year });
    expect(verdict(fitted(2001), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 25, unit: 'count' } });
    expect(verdict(fitted(2000), `${KEY}age`)).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'old' });
    expect(verdict(bent(RULE, { ...BALL, 'fixtures.cock.opensToSea.fittedYear': 1950 }), KEY).outcome).toBe('pass');
  });

  it('is the doing of the plan where the plan hangs on it', () => {
    const line = {
      'fixtures.cock.ports': { tail: { at: [0, 0, 0.1], direction: [0, 0, 1] } },
      'parts.tee': {
        name: 'Tee',
        kind: 'tee',
        shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
        ports: { a: { at: [0, 0, 0.05], direction: [0, 0, 1] } },
      },
      'arrangements.plan': { name: 'Plan', places: { tee: { at: [1.2, 0.4, -0.3] } } },
      'lines.hose': {
        name: 'Intake',
        kind: 'hose-suction-19',
        medium: 'seaWater',
        from: { thing: 'cock', port: 'tail' },
        to: { thing: 'tee', port: 'a' },
      },
    };
    expect(verdict(bent(RULE, line), `${KEY}valve`)).toMatchObject({ cause: 'arrangement', related: ['hose'] });
  });

  it('may have its gate valve as a thing of its own on its hose', () => {
    const gate = {
      'fixtures.cock.kind': 'skinFitting',
      'fixtures.cock.valve': undefined,
      'fixtures.cock.ports': { tail: { at: [0, 0, 0.1], direction: [0, 0, 1] } },
      'fixtures.gate': {
        name: 'Gate valve',
        kind: 'serviceValve',
        shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
        pose: { at: [1, 0.4, -0.3] },
        ports: { a: { at: [-0.05, 0, 0], direction: [-1, 0, 0] } },
        valve: { states: ['open', 'shut'], kind: 'gate' },
      },
      'lines.hose': {
        name: 'Tail',
        kind: 'hose-suction-19',
        medium: 'seaWater',
        existing: true,
        from: { thing: 'cock', port: 'tail' },
        to: { thing: 'gate', port: 'a' },
      },
    };
    expect(verdict(bent(RULE, gate), `${RULE}|gate|valve`)).toMatchObject({ outcome: 'fail', reason: 'gateValve' });
  });

  it('does not apply above the water, nor where nothing is known', () => {
    expect(verdict(bent(RULE, { 'fixtures.cock.pose.at.2': 0.6 }), KEY)).toMatchObject({ reason: 'aboveWater' });
    expect(verdict(bent(RULE, { ...BALL, 'fixtures.cock.opensToSea.material': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'nothingKnown',
    });
    expect(
      verdicts(bent(RULE, { 'fixtures.cock.kind': 'other', 'fixtures.cock.opensToSea': undefined, ...BALL }), RULE),
    ).toEqual([]);
  });
});
