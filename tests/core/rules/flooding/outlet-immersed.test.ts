import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** The boat: a brine outlet at y 500, z 50 mm, run at 15 degrees of heel. */
const RULE = 'flooding/outlet-immersed';
const KEY = `${RULE}|outlet|`;
const TURN = Math.PI / 12;

describe('outlets that go under', () => {
  it('500 sin 15 - 50 cos 15 = 81.1 mm under, heeled to port (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'under',
      measured: { value: expect.closeTo(0.5 * Math.sin(TURN) - 0.05 * Math.cos(TURN), 6), unit: 'm' },
      limit: { value: 0, bound: 'atMost' },
      data: { state: 'Sailing', down: 'port', heelDeg: 15 },
    });
  });

  it('passes at the water itself and fails a millimetre lower', () => {
    const at = (z: number) =>
      verdict(bent(RULE, { 'fixtures.outlet.pose': { at: [0.5, 0.465, z], grade: 'measured' } }), KEY);
    const least = 0.5 * Math.tan(TURN);
    expect(at(Math.ceil(least * 1e6) / 1e6)).toMatchObject({ outcome: 'pass', closeCall: {} });
    expect(at(least - 0.001)).toMatchObject({ outcome: 'fail' });
  });

  it('counts only the heel in which the set runs, and upright', () => {
    expect(verdict(bent(RULE, { runStates: {} }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(-0.05, 6) },
    });
  });

  it('with a valve is advice, 81.1 mm under (derived): the valve is open while the set runs', () => {
    const valve = { states: ['open', 'shut'], normally: 'open' };
    expect(verdict(bent(RULE, { 'fixtures.outlet.valve': valve }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'openUnder',
      measured: { value: expect.closeTo(0.0811, 4), unit: 'm' },
      data: { valve: 'outlet' },
    });
    const under = {
      outcome: 'pass',
      measured: { value: 0, unit: 'count' },
      data: { depthM: expect.closeTo(0.0811, 4) },
    };
    const labelled = { ...valve, labelled: true };
    expect(verdict(bent(RULE, { 'fixtures.outlet.valve': labelled }), KEY)).toMatchObject(under);
    const listed = { run: { name: 'Making water', running: [], valves: { outlet: 'open' } } };
    expect(verdict(bent(RULE, { 'fixtures.outlet.valve': valve, operatingStates: listed }), KEY)).toMatchObject(under);
  });

  it('of other water than brine may have its seacock open or shut', () => {
    const valve = { states: ['open', 'shut'], normally: 'open' };
    const sink = {
      'fixtures.outlet.valve': valve,
      'fixtures.outlet.opensToSea.discharges': ['sink'],
      'fixtures.outlet.opensToSea.use': 'outlet',
      lines: {},
    };
    expect(verdict(bent(RULE, sink), KEY)).toMatchObject({
      outcome: 'pass',
      data: { depthM: expect.closeTo(0.0811, 4) },
    });
  });

  it('does not speak of exhausts', () => {
    expect(verdicts(bent(RULE, { 'fixtures.outlet.opensToSea.discharges': ['exhaust'] }), RULE)).toEqual([]);
  });
});
