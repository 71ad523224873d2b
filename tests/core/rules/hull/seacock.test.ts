import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/seacock';
const KEY = `${RULE}|hole|`;
const VALVE = { states: ['open', 'shut'], handle: { at: [0, 0, 0.05] } };

describe('seacocks', () => {
  it('a hole below the heeled waterline without a valve: 400 cos 20 + 500 sin 20 = 546.9 mm under (derived)', () => {
    const depth = 0.4 * Math.cos(Math.PI / 9) + 0.5 * Math.sin(Math.PI / 9);
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      cause: 'existing',
      reason: 'noSeacock',
      measured: { value: expect.closeTo(depth, 6), unit: 'm' },
      limit: { value: 0, bound: 'atMost' },
    });
  });

  it('follows the heel for which the boat is judged', () => {
    expect(verdict(bent(RULE, { greatestHeelDeg: 0 }), KEY)).toMatchObject({
      measured: { value: expect.closeTo(0.4, 6) },
    });
  });

  it('follows a run-state that heels more than that (derived: 400 cos 30 + 500 sin 30 = 596.4 mm)', () => {
    const heeled = (heelDeg: number) => ({
      greatestHeelDeg: 8,
      runStates: { s: { name: 'Sailing', use: 'sailing', heelDeg, sideDown: 'port' } },
    });
    const depthM = (deg: number) => 0.4 * Math.cos((deg * Math.PI) / 180) + 0.5 * Math.sin((deg * Math.PI) / 180);
    expect(verdict(bent(RULE, heeled(30)), KEY)).toMatchObject({ measured: { value: expect.closeTo(depthM(30), 6) } });
    expect(verdict(bent(RULE, heeled(3)), KEY)).toMatchObject({ measured: { value: expect.closeTo(depthM(8), 6) } });
  });

  it('is content with no valve that can only stand open or half open', () => {
    const never = { ...VALVE, states: ['open', 'half'] };
    expect(verdict(bent(RULE, { 'fixtures.hole.kind': 'seacock', 'fixtures.hole.valve': never }), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'noSeacock',
    });
  });

  it('is content with a valve, wherever it is: how it is reached is told apart', () => {
    expect(verdict(bent(RULE, { 'fixtures.hole.valve': VALVE }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'fixtures.hole.valve': VALVE, openings: {} }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('does not trust a check valve', () => {
    expect(verdict(bent(RULE, { 'fixtures.hole.valve': { ...VALVE, kind: 'check' } }), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'noSeacock',
    });
  });

  it('takes a seacock for one, and a valve with two positions whatever they are called', () => {
    expect(verdict(bent(RULE, { 'fixtures.hole.kind': 'seacock' }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'fixtures.hole.valve': { ...VALVE, states: ['o', 's'] } }), KEY)).toMatchObject({
      outcome: 'pass',
    });
    const threeWay = { ...VALVE, kind: 'threeWay', states: ['sea', 'fresh'] };
    expect(verdict(bent(RULE, { 'fixtures.hole.valve': threeWay }), KEY)).toMatchObject({ reason: 'noSeacock' });
  });

  it('does not apply above the heeled waterline', () => {
    expect(verdict(bent(RULE, { 'fixtures.hole.pose': { at: [0.4, 0.5, 0.6] } }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'aboveWater',
    });
  });

  it('is a close call where the hole is dry by less than the tape tells', () => {
    // Derived: without freeboards the water is good to 100 mm, so a hole that is dry by under 150 mm may be wet.
    expect(verdict(bent(RULE, { 'fixtures.hole.pose': { at: [0.4, 0.5, 0.35] } }), KEY)).toMatchObject({
      outcome: 'pass',
      closeCall: { gradeM: expect.any(Number) },
      limit: { value: 0, bound: 'atMost' },
    });
  });

  it('is told once, at the line that hangs on the through-hull', () => {
    const tee = {
      name: 'Tee',
      kind: 'tee',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      ports: { a: { at: [0, 0, 0.05], direction: [0, 0, 1], medium: 'seaWater' } },
    };
    const json = bent(RULE, {
      'fixtures.hole.ports': { tail: { at: [0, 0, 0.05], direction: [0, 0, 1], medium: 'seaWater' } },
      'parts.tee': tee,
      'arrangements.plan': { name: 'Plan', places: { tee: { at: [1, 0.5, -0.3] } } },
      currentArrangement: 'plan',
      'lines.hose': {
        name: 'To the tee',
        kind: 'hose-fresh-13',
        medium: 'seaWater',
        from: { thing: 'hole', port: 'tail' },
        to: { thing: 'tee', port: 'a' },
      },
    });
    expect(
      verdicts(json, RULE)
        .filter((f) => f.outcome === 'fail')
        .map((f) => f.key),
    ).toEqual([`${RULE}|hose|`]);
    expect(verdict(json, KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'toldAtItsLine' });
  });
});
