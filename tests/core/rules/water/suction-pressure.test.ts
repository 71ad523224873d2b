import { WATER_TEXT } from '@core/output/text/rules/water-text';
import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** Losses are held to published and derived figures in tests/outside/hose-hydraulics.test.ts. Limit 0.2 bar: common practice, from memory. */
const RULE = 'water/suction-pressure';
const KEY = `${RULE}|pump|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const drawnBar = (changes: Readonly<Record<string, unknown>>): number => {
  const one = told(changes);
  return one.outcome === 'fail' || one.outcome === 'pass' ? one.measured.value : Number.NaN;
};
/** One metre of sea water of 1025 kg/m3, bar (derived). */
const BAR_PER_M = (1025 * 9.80665) / 1e5;

describe('what a pump has to draw', () => {
  it('is the dirty strainer, the hoses, the entrance and the height together', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'drawsTooHard',
      limit: { value: 0.2 },
    });
    // Derived: 0.25 dirty - 0.25 m of water; entrance 0.5 and valve 0.0711 of 177.1 Pa; two hoses at 285 Pa/m, their bends at 58.8 Pa each quarter.
    const hoses = drawnBar({}) - (0.25 - 0.25 * BAR_PER_M + (0.5711 * 177.1) / 1e5);
    expect(hoses).toBeGreaterThan((0.4 * 285) / 1e5);
    expect(hoses).toBeLessThan(0.004);
  });

  it('says apart what is lost and what the height gives, and that they are the sum', () => {
    const found = told({});
    const { lostBar = 0, liftBar = 0, liftM = 0 } = found.data as Record<string, number>;
    expect(liftM).toBeCloseTo(-0.25, 9);
    expect(liftBar).toBeCloseTo(-0.25 * BAR_PER_M, 9);
    expect(lostBar + liftBar).toBeCloseTo(drawnBar({}), 12);
    const { why } = WATER_TEXT[RULE]?.fail?.drawsTooHard?.({
      subject: 'Pump',
      name: (id) => id,
      obstacle: (id) => id,
      finding: found,
      data: found.data,
    }) ?? { why: '' };
    expect(why).toContain(`loses ${lostBar.toFixed(3)} bar`);
    expect(why).toContain(`Together it has to draw ${drawnBar({}).toFixed(3)} bar`);
  });

  it('grows with the flow, by the law of each part', () => {
    const base = drawnBar({ 'parts.pump.flowLMin': 5 }) + 0.25 * BAR_PER_M;
    const twice = drawnBar({}) + 0.25 * BAR_PER_M;
    expect(twice / base).toBeGreaterThan(3.9);
    expect(twice / base).toBeLessThan(4.05);
    const linear = { 'parts.strainer.pressureLoss.law': 'linear' };
    expect(drawnBar({ ...linear, 'parts.pump.flowLMin': 5 })).toBeCloseTo(0.125 - 0.25 * BAR_PER_M + 0.0007, 3);
  });

  it('counts the height of the inlet in the worst of the states in which the set runs', () => {
    const high = { 'arrangements.plan.places.pump.at': [1.8, 0.5, 0.1] };
    expect(drawnBar(high) - drawnBar({})).toBeCloseTo(0.35 * BAR_PER_M, 2);
    const heeled = { 'runStates.s': { name: 'Sailing', use: 'sailing', heelDeg: 10 } };
    const upBy = 0.5 * Math.sin(Math.PI / 18) + 0.25 * (1 - Math.cos(Math.PI / 18));
    expect(drawnBar(heeled) - drawnBar({})).toBeCloseTo(upBy * BAR_PER_M, 6);
  });

  it('is held against the rated lift where there is one', () => {
    expect(told({ 'parts.pump.liftM': 2.5 })).toMatchObject({ outcome: 'pass', limit: { unit: 'bar' } });
    const rated = told({ 'parts.pump.liftM': 1 });
    expect(rated.outcome === 'fail' && rated.limit.value).toBeCloseTo(BAR_PER_M, 9);
  });

  it('takes typical figures where none are entered, and says so', () => {
    expect(told({ 'parts.strainer.pressureLoss': undefined })).toMatchObject({
      outcome: 'pass',
      data: { typical: 'Strainer' },
    });
  });

  it('must leave the head that the pump needs', () => {
    const head = (npshM: number) =>
      verdict(bent(RULE, { 'parts.strainer.pressureLoss.dirtyBar': 0.1, 'parts.pump.npshM': npshM }), `${KEY}head`);
    expect(head(7)).toMatchObject({ outcome: 'pass', limit: { value: 7.7 } });
    expect(head(8.5)).toMatchObject({ outcome: 'fail', reason: 'tooLittleHead', measured: { unit: 'm' } });
  });

  it('is said part by part, the greatest first', () => {
    expect(String(told({}).data.parts)).toMatch(/^Strainer 0\.2500; To pump module 0\.\d{4}; /);
  });
});

describe('what cannot be told', () => {
  it('is a hose without a bore or without a run', () => {
    const kind = { name: 'Some hose', what: 'hose', outsideM: 0.026, bendRadiusM: 0.15, suction: true };
    expect(told({ 'lineKinds.some': kind, 'lines.to-pump.kind': 'some' })).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noBore',
      enterNext: 'Enter the bore of Some hose',
    });
    expect(told({ 'arrangements.plan.places.pump.at': [1.05, 0.5, 0.9] })).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noRun',
    });
  });

  it('is not asked without a flow or a place', () => {
    expect(told({ 'parts.pump.flowLMin': undefined })).toMatchObject({ outcome: 'notApplicable', reason: 'noFlow' });
    expect(told({ 'arrangements.plan.places.pump': undefined })).toMatchObject({
      outcome: 'notApplicable',
      reason: 'notPlaced',
    });
    expect(verdicts(bent(RULE, { lines: {} }), RULE)).toEqual([]);
  });
});
