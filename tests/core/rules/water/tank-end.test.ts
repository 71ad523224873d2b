import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';
import { asFixtures } from './turned';

/** One tank first, vent bore, overflow that does not end in a locker, entry above it, no valve in it: common practice, no source. */
const RULE = 'water/tank-end';
const told = (changes: Readonly<Record<string, unknown>>, instance: string) =>
  verdict(bent(RULE, changes), `${RULE}|tank|${instance}`);
const second = (valve?: object) => ({
  'parts.tank2': part('waterTank', { fill: port('product', 'in') }, { name: 'Second tank' }),
  'parts.split': part(
    valve ? 'serviceValve' : 'tee',
    { in: port('product', 'in', -1), one: port('product', 'out'), two: port('product', 'out') },
    valve
      ? { valve, passages: { a: { ports: ['in', 'one'], when: ['one'] }, b: { ports: ['in', 'two'], when: ['two'] } } }
      : {},
  ),
  'lines.w2': line('diverter.tank', 'split.in', 'product'),
  'lines.w4': line('split.one', 'tank.fill', 'product'),
  'lines.w5': line('split.two', 'tank2.fill', 'product'),
});

describe('the vent', () => {
  it('must be as wide as the tube that fills the tank: catalogue, 4.3 mm', () => {
    expect(told({}, 'vent')).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'narrowVent',
      measured: { value: 0.003 },
      limit: { value: 0.0043 },
    });
    expect(told({ 'parts.tank.tank.ventBoreM': 0.0043 }, 'vent')).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.tank.tank.ventBoreM': 0 }, 'vent')).toMatchObject({ outcome: 'fail', reason: 'noVent' });
  });

  it('may be a port, of air or by what it serves', () => {
    const none = { 'parts.tank.tank': undefined };
    const vent = (boreM: number, more: object) => ({
      'parts.tank.ports.vent': { ...port('air', 'both'), boreM, ...more },
    });
    expect(told({ ...none, ...vent(0.004, {}) }, 'vent')).toMatchObject({ outcome: 'fail' });
    expect(told({ ...none, ...vent(0.016, {}) }, 'vent')).toMatchObject({
      outcome: 'pass',
      measured: { value: 0.016 },
    });
    expect(told({ ...none, ...vent(0.004, { medium: undefined, serves: 'vent' }) }, 'vent')).toMatchObject({
      outcome: 'fail',
    });
    expect(told(none, 'vent')).toMatchObject({ outcome: 'notApplicable', reason: 'nothingEntered' });
  });

  it('must not be one that can be shut', () => {
    const shut = {
      'parts.tank.ports.vent': { ...port('air', 'both'), boreM: 0.016 },
      'parts.stop': part(
        'other',
        { in: port('air', 'in', -1), out: port('air', 'out') },
        { name: 'Vent cock', valve: { states: ['open', 'shut'] } },
      ),
      'lines.v': line('tank.vent', 'stop.in', 'freshWater'),
    };
    expect(told(shut, 'shut vent')).toMatchObject({ outcome: 'fail', reason: 'ventShuts', related: ['stop', 'v'] });
  });
});

describe('the overflow', () => {
  it('must not end in a locker or a cabin', () => {
    for (const place of ['locker', 'cabin'])
      expect(told({ 'parts.tank.tank.overflowTo': place }, 'overflow')).toMatchObject({
        outcome: 'fail',
        severity: 'fault',
        reason: 'intoLocker',
      });
    for (const place of ['overboard', 'cockpit', 'sink', 'bilge', 'deck'])
      expect(told({ 'parts.tank.tank.overflowTo': place }, 'overflow')).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.tank.tank.overflowTo': undefined }, 'overflow')).toMatchObject({ outcome: 'notApplicable' });
  });

  it('is followed along its line where nothing is said', () => {
    const json = bent(RULE, {
      'parts.tank.tank': undefined,
      'parts.tank.ports.over': { ...port('freshWater', 'out'), serves: 'overflow' },
      'parts.end': part('other', { in: port('freshWater', 'in') }),
      'lines.o': line('tank.over', 'end.in', 'freshWater'),
      'compartments.locker': {
        name: 'Wet locker',
        kind: 'locker',
        view: 'plan',
        outline: [
          [-1, 15],
          [40, 15],
          [40, 25],
          [-1, 25],
        ],
        rangeM: [0, 6],
      },
    });
    expect(verdict(asFixtures(json), `${RULE}|tank|overflow`)).toMatchObject({
      outcome: 'fail',
      reason: 'intoLocker',
      data: { place: 'Wet locker' },
    });
    const out = bent(RULE, {
      'parts.tank.tank': undefined,
      'parts.tank.ports.over': { ...port('freshWater', 'out'), serves: 'overflow' },
      'lines.o': line('tank.over', 'brine-out.tail', 'freshWater'),
    });
    expect(verdict(asFixtures(out), `${RULE}|tank|overflow`)).toMatchObject({ outcome: 'pass' });
  });

  it('lies below where made water comes in', () => {
    const at = (entry: number, over: number) => ({
      'parts.tank.tank': { entryAt: [0, 0, entry], overflowAt: [0, 0, over] },
    });
    const entry = (changes: Readonly<Record<string, unknown>>) =>
      verdict(asFixtures(bent(RULE, changes)), `${RULE}|tank|entry`);
    expect(entry(at(0.05, 0.1))).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'entersBelow' });
    expect((entry(at(0.05, 0.1)) as { measured: { value: number } }).measured.value).toBeCloseTo(-0.05, 9);
    expect(entry(at(0.1, 0.1))).toMatchObject({ outcome: 'pass' });
    expect(entry({})).toMatchObject({ outcome: 'notApplicable' });
  });
});

describe('made water', () => {
  it('fills one tank at a time', () => {
    expect(told({}, 'one')).toMatchObject({ outcome: 'pass', measured: { value: 1 } });
    expect(told(second(), 'one')).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'twoTanks',
      measured: { value: 2 },
      related: ['tank2'],
    });
    expect(told(second({ states: ['one', 'two'], kind: 'threeWay' }), 'one')).toMatchObject({ outcome: 'pass' });
  });

  it('is not asked about where there is no tank', () => {
    expect(verdicts(bent(RULE, { 'parts.tank.kind': 'sink' }), RULE)).toEqual([]);
  });
});

describe('a tank without a membrane drawn', () => {
  it('is judged by the line with made water that ends in it', () => {
    const alone = {
      parts: {
        station: part('other', { out: port('product', 'out') }),
        tank: part(
          'waterTank',
          { fill: port('product', 'in', -1) },
          { tank: { ventBoreM: 0.003, overflowTo: 'locker' } },
        ),
      },
      lines: { w: line('station.out', 'tank.fill', 'product') },
      operatingStates: {},
    };
    const found = verdicts(bent(RULE, alone), RULE);
    const reasons = found.flatMap((one) => (one.outcome === 'fail' ? [`${one.subject} ${one.reason}`] : []));
    expect(reasons).toEqual(expect.arrayContaining(['tank narrowVent', 'tank intoLocker']));
  });

  it('is none of its business where no made water ends in it', () => {
    const fresh = {
      parts: { tank: part('waterTank', { fill: port('freshWater', 'in', -1) }, { tank: { overflowTo: 'locker' } }) },
      lines: {},
      operatingStates: {},
    };
    expect(verdicts(bent(RULE, fresh), RULE)).toEqual([]);
  });
});
