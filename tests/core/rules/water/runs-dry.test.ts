import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** A dry run kills an impeller within a minute: common practice, no source. */
const RULE = 'water/runs-dry';
const KEY = `${RULE}|pump|making`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);

describe('a pump that runs in an operating state', () => {
  it('with its intake shut runs dry, with the valve named', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'dry',
      related: ['cock'],
      data: { state: 'Making water' },
    });
  });

  it('gets water with the intake open, whether or not the state says so', () => {
    expect(told({ 'operatingStates.making.valves.cock': 'open' })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'operatingStates.making.valves.cock': undefined })).toMatchObject({ outcome: 'pass' });
  });

  it('has its seacock opened for it, though that usually stands shut, unless the state names it shut', () => {
    const usually = { 'parts.cock.valve.normally': 'shut' };
    const found = told({ ...usually, 'operatingStates.making.valves.cock': undefined });
    expect(found).toMatchObject({ outcome: 'pass' });
    expect(found.cannotSee.some((text) => /open it first/.test(text))).toBe(true);
    expect(told(usually)).toMatchObject({ outcome: 'fail', related: ['cock'] });
  });

  it('gets water from the tank through the flush, and none while the flush valve is shut', () => {
    const flushing = { 'operatingStates.making.valves.service': 'fresh' };
    expect(told({ ...flushing, 'operatingStates.making.valves.flush-valve': 'open' })).toMatchObject({
      outcome: 'pass',
    });
    expect(told(flushing)).toMatchObject({ outcome: 'fail' });
  });

  it('is not asked where it has no way of water at all', () => {
    expect(verdicts(bent(RULE, { lines: {} }), RULE)).toMatchObject([{ outcome: 'notApplicable' }]);
  });

  it('must be reached by sea water in some setting of the valves, where no operating state is entered', () => {
    const none = { operatingStates: {} };
    expect(verdict(bent(RULE, none), `${RULE}|pump|`)).toMatchObject({ outcome: 'pass' });
    // The valve joins sea with fresh, and fresh with the pump, never the sea with the pump.
    const crossed = {
      ...none,
      'parts.service.passages': {
        a: { ports: ['sea', 'fresh'], when: ['sea'] },
        b: { ports: ['fresh', 'out'], when: ['fresh'] },
      },
    };
    expect(verdict(bent(RULE, crossed), `${RULE}|pump|`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'noSetting',
      related: expect.arrayContaining(['service']),
    });
  });

  it('is kept dry by a check valve that looks the wrong way, with operating states and without', () => {
    const states = [{}, { operatingStates: {} }];
    for (const turned of [true, false])
      for (const more of states) {
        const check = part(
          'other',
          { a: port('seaWater', turned ? 'out' : 'in', -1), b: port('seaWater', turned ? 'in' : 'out') },
          { valve: { states: ['set'], kind: 'check' } },
        );
        const fitted = {
          'parts.one-way': check,
          'lines.s1': line('cock.tail', 'one-way.a', 'seaWater'),
          'lines.on': line('one-way.b', 'strainer.in', 'seaWater'),
          'lines.f4': undefined,
          'operatingStates.making.valves.cock': 'open',
          ...more,
        };
        const found = verdicts(bent(RULE, fitted), RULE).filter(({ subject }) => subject === 'pump');
        if (turned) expect(found).toMatchObject([{ outcome: 'fail', reason: 'backwards', related: ['one-way'] }]);
        else for (const one of found) expect(one).toMatchObject({ outcome: 'pass' });
        expect(found.length).toBeGreaterThan(0);
      }
  });
});
