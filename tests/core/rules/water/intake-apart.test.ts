import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** Danger only on the same side, downstream, within about 1 m and used in the same run-state: common practice, no source. */
const RULE = 'water/intake-apart';
const KEY = `${RULE}|cock|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const at = (x: number, y = 0.5) => ({ 'fixtures.outlet.pose.at': [x, y, -0.25] });
const lets = (...discharges: string[]) => ({ 'fixtures.outlet.opensToSea.discharges': discharges });

describe('an outlet and the intake', () => {
  it('just ahead on the same side is a danger, at the distance between the holes', () => {
    const found = told({});
    expect(found).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'foulAhead',
      related: ['outlet'],
      data: { what: 'head' },
      hazards: ['hullHole', 'drinkingWater'],
    });
    expect(found.outcome === 'fail' && found.measured.value).toBeCloseTo(Math.hypot(0.3, 0.3), 9);
  });

  it('a metre ahead, behind, or on the other side is none', () => {
    expect(told(at(1.25))).toMatchObject({ outcome: 'pass' });
    expect(told(at(1.24))).toMatchObject({ outcome: 'fail' });
    expect(told(at(0.1))).toMatchObject({ outcome: 'notApplicable', reason: 'noneAhead' });
    expect(told(at(0.55, -0.5))).toMatchObject({ outcome: 'notApplicable' });
  });

  it('counts an exhaust only where the set runs under engine', () => {
    const motoring = { 'runStates.m': { name: 'Motoring', use: 'motoring' } };
    expect(told({ runStates: {}, ...lets('exhaust') })).toMatchObject({ outcome: 'notApplicable' });
    expect(told({ ...motoring, ...lets('exhaust') })).toMatchObject({ outcome: 'fail', data: { what: 'exhaust' } });
    expect(told(lets('sink'))).toMatchObject({ outcome: 'fail', data: { what: 'sink' } });
    for (const clean of ['deck', 'brine', 'cooling'])
      expect(told({ runStates: {}, ...lets(clean) })).toMatchObject({ outcome: 'notApplicable' });
  });

  it('tells what comes out by who uses it, and asks where nobody says', () => {
    const unsaid = { 'fixtures.outlet.opensToSea.discharges': undefined, 'fixtures.outlet.name': 'Old through-hull' };
    expect(told({ 'fixtures.outlet.opensToSea.discharges': undefined })).toMatchObject({
      outcome: 'fail',
      data: { what: 'head' },
    });
    expect(verdict(bent(RULE, unsaid), `${KEY}outlet`)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'unknownOutlet',
    });
    expect(told({ ...unsaid, 'fixtures.outlet.sharedBy': ['galley sink'] })).toMatchObject({
      outcome: 'fail',
      data: { what: 'sink' },
    });
  });

  it('is not asked about where the set has no intake', () => {
    expect(verdicts(bent(RULE, { 'lines.to-strainer': undefined }), RULE)).toEqual([]);
  });
});
