import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** That the product line must not be shut by any valve without relief: common practice, no source. */
const RULE = 'water/product-open';
const KEY = `${RULE}|membrane|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const noStop = {
  'parts.stop': undefined,
  'lines.w1b': undefined,
  'lines.w1': line('membrane.product', 'diverter.in', 'product'),
};

describe('a valve that shuts made water in', () => {
  it('is a danger, with the valve named', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'canBeShut',
      related: ['stop'],
      hazards: ['highPressure', 'drinkingWater'],
    });
  });

  it('is one at the tank too, where a diverter turns water there, and one of the diverter itself', () => {
    const atTank = {
      ...noStop,
      'parts.stop': part(
        'other',
        { in: port('product', 'in', -1), out: port('product', 'out') },
        { valve: { states: ['open', 'shut'] } },
      ),
      'lines.w2': line('diverter.tank', 'stop.in', 'product'),
      'lines.w4': line('stop.out', 'tank.fill', 'product'),
    };
    expect(told(atTank)).toMatchObject({ outcome: 'fail', related: expect.arrayContaining(['stop']) });
    expect(told({ ...noStop, 'parts.diverter.valve.states': ['reject', 'tank', 'shut'] })).toMatchObject({
      outcome: 'fail',
      data: { valves: 'Diverter (shut)' },
    });
  });

  it('is a tap that shuts where the diverter leads to it alone', () => {
    expect(told({ ...noStop, 'parts.tap.valve': { states: ['open', 'shut'] } })).toMatchObject({ outcome: 'fail' });
  });

  it('is one in spite of a label, and none with a relief before it', () => {
    expect(told({ 'parts.stop.valve.labelled': true })).toMatchObject({ outcome: 'fail' });
    for (const id of ['membrane', 'stop'])
      expect(told({ [`parts.${id}.relief`]: {} })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.diverter.relief': {} })).toMatchObject({ outcome: 'fail' });
  });
});

describe('made water that always gets out', () => {
  it('passes by a diverter that leads to the tank or to the tap', () => {
    expect(told(noStop)).toMatchObject({ outcome: 'pass', measured: { value: 0 }, data: { tried: 2 } });
  });

  it('passes by a tee to a tap that shuts, as long as the tank stays open', () => {
    const tee = part('tee', {
      in: port('product', 'in', -1),
      tank: port('product', 'out'),
      tap: port('product', 'out'),
    });
    expect(
      told({ ...noStop, 'parts.diverter': tee, operatingStates: {}, 'parts.tap.valve': { states: ['open', 'shut'] } }),
    ).toMatchObject({ outcome: 'pass' });
  });

  it('passes by a check valve, and does not where that looks the wrong way', () => {
    expect(told({ 'parts.stop.valve': { states: ['held'], kind: 'check' } })).toMatchObject({ outcome: 'pass' });
    expect(
      told({
        'parts.stop.valve': { states: ['held'], kind: 'check' },
        'parts.stop.ports': { in: port('product', 'out', -1), out: port('product', 'in') },
      }),
    ).toMatchObject({ outcome: 'fail', reason: 'backwards' });
  });

  it('cannot be told where it is not drawn to an end, and is not asked where no line leaves the membrane', () => {
    expect(told({ ...noStop, 'lines.w2': undefined, 'lines.w3': undefined })).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noWayOut',
    });
    expect(told({ ...noStop, 'lines.w1': undefined })).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'parts.membrane.kind': 'other' }), RULE)).toEqual([]);
  });
});
