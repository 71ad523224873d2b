import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** Depth of a hole d deep and y off the centreline at heel h: d cos h - y sin h (derived). Least depth 50 mm: common practice, from memory. */
const RULE = 'water/intake-immersion';
const KEY = `${RULE}|cock|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const measured = (changes: Readonly<Record<string, unknown>>) => {
  const one = told(changes);
  return one.outcome === 'fail' || one.outcome === 'pass' ? one.measured.value : Number.NaN;
};
const radians = (deg: number) => (deg * Math.PI) / 180;

describe('an intake', () => {
  it('that comes out of the water on the wrong tack is a fault, at the depth that arithmetic gives', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'dry',
      data: { state: 'Sailing', down: 'starboard', heelDeg: 20 },
    });
    expect(measured({})).toBeCloseTo(0.17 * Math.cos(radians(20)) - 0.5 * Math.sin(radians(20)), 9);
  });

  // Common practice, derived there: .30 deep, .90 off centre: +.14, +.06, -.03 m at 10, 15, 20 degrees.
  it.each([
    [10, 0.14, 'pass'],
    [15, 0.06, 'pass'],
    [20, -0.03, 'fail'],
  ])('0.30 m deep and 0.90 m off centre at %d degrees', (heelDeg, depthM, outcome) => {
    const at = { 'fixtures.cock.pose.at': [0.25, 0.9, -0.2], 'runStates.sailing.heelDeg': heelDeg };
    expect(told(at).outcome).toBe(outcome);
    expect(Math.abs(measured(at) - depthM)).toBeLessThan(0.006);
  });

  it('is judged only in the states in which the set is run: at anchor nobody cares about 20 degrees', () => {
    expect(told({ runStates: { anchored: { name: 'At anchor', use: 'anchored', heelDeg: 0 } } })).toMatchObject({
      outcome: 'pass',
    });
    expect(told({ runStates: {} })).toMatchObject({ outcome: 'pass', measured: { value: 0.17 } });
    expect(told({ 'runStates.sailing.sideDown': 'port' })).toMatchObject({ outcome: 'pass' });
  });

  it('that is only just under is advice', () => {
    expect(told({ 'runStates.sailing.heelDeg': 15 })).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'shallow',
    });
  });

  it('of others is not asked, nor one that has no place', () => {
    expect(verdicts(bent(RULE, { 'lines.to-strainer': undefined }), RULE)).toEqual([]);
    expect(verdicts(bent(RULE, { 'fixtures.cock.opensToSea.use': 'outlet' }), RULE)).toEqual([]);
  });

  it('comes out when the bow goes down, about the middle of the compartments (derived: d cos 5 - (1.2 - x) sin 5)', () => {
    const bowDown = (x: number) => ({
      runStates: { r: { name: 'Motoring', use: 'motoring', trimDeg: 5 } },
      'fixtures.cock.pose.at': [x, 0.5, -0.07],
    });
    const depthM = (x: number) => 0.17 * Math.cos(radians(5)) - (1.2 - x) * Math.sin(radians(5));
    for (const x of [-1, 0.25, 2.2]) expect(measured(bowDown(x))).toBeCloseTo(depthM(x), 9);
    expect(told(bowDown(-1))).toMatchObject({ outcome: 'fail', reason: 'dry', data: { down: 'upright', trimDeg: 5 } });
    expect(told(bowDown(0.25))).toMatchObject({ outcome: 'pass' });
  });

  it('is lifted by heel on top of trim (derived: the plane pitched, then rolled about its own line ahead)', () => {
    const both = { 'runStates.sailing.trimDeg': 5, 'runStates.sailing.sideDown': 'starboard' };
    const heightM = -0.17 * Math.cos(radians(5)) + (1.2 - 0.25) * Math.sin(radians(5));
    expect(measured(both)).toBeCloseTo(-heightM * Math.cos(radians(20)) - 0.5 * Math.sin(radians(20)), 9);
  });
});
