import { readBoat } from '@core/boat/read';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** That in the reject state the tap gets the product and the tank can't: common practice, no source. */
const RULE = 'water/reject-to-tap';
const KEY = `${RULE}|diverter|`;
/** The tubes the right way round. */
const RIGHT = { 'lines.w2.to': { thing: 'tank', port: 'fill' }, 'lines.w3.to': { thing: 'tap', port: 'in' } };
const told = (changes: Readonly<Record<string, unknown>>, key = KEY) => verdict(bent(RULE, changes), key);

describe('a diverter', () => {
  it('that leads bad water into the tank is a fault, in its state and in the operating state', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'rejectToTank',
      data: { state: 'reject', tank: 'Water tank' },
      hazards: ['drinkingWater'],
    });
    expect(told({}, `${KEY}testing`)).toMatchObject({ outcome: 'fail', reason: 'stateToTank' });
  });

  it('passes with its tubes the right way round', () => {
    for (const { outcome } of verdicts(bent(RULE, RIGHT), RULE)) expect(outcome).toBe('pass');
  });

  it('is judged by its passages where the states are changed round', () => {
    const passages = { a: { ports: ['in', 'tank'], when: ['reject'] }, b: { ports: ['in', 'tap'], when: ['tank'] } };
    expect(told({ ...RIGHT, 'parts.diverter.passages': passages })).toMatchObject({ reason: 'rejectToTank' });
    // Open to both at once in the reject state.
    const both = { a: { ports: ['in', 'tank'] }, b: { ports: ['in', 'tap'], when: ['reject'] } };
    expect(told({ ...RIGHT, 'parts.diverter.passages': both })).toMatchObject({ reason: 'rejectToTank' });
  });

  it('needs passages: without them all its ports are joined in every state, whatever they are called', () => {
    const plain = { 'parts.diverter.passages': undefined };
    expect(told({ ...RIGHT, ...plain })).toMatchObject({
      outcome: 'fail',
      reason: 'rejectToTank',
      data: { joinsAll: true },
    });
    const renamed = {
      'parts.diverter.ports': { x: port('product', 'in'), y: port('product', 'out'), z: port('product', 'out') },
      'lines.w1.to.port': 'x',
      'lines.w2': line('diverter.y', 'tank.fill', 'product'),
      'lines.w3': line('diverter.z', 'tap.in', 'product'),
    };
    expect(told({ ...plain, ...renamed })).toMatchObject({
      outcome: 'fail',
      reason: 'rejectToTank',
      data: { joinsAll: true },
    });
  });

  it('is told by its passages where its states have other names', () => {
    const unclear = {
      'parts.diverter.passages': undefined,
      'parts.diverter.valve': { states: ['one', 'two'], kind: 'threeWay' },
      operatingStates: {},
    };
    expect(told({ ...RIGHT, ...unclear })).toMatchObject({ outcome: 'fail', reason: 'tankAlways' });
    const passages = { a: { ports: ['in', 'tank'], when: ['one'] }, b: { ports: ['in', 'tap'], when: ['two'] } };
    const drawn = { ...RIGHT, ...unclear, 'parts.diverter.passages': passages };
    expect(told(drawn)).toMatchObject({ outcome: 'pass' });
    expect(told({ ...drawn, 'parts.diverter.valve.reject': 'two' })).toMatchObject({ outcome: 'pass' });
    expect(told({ ...drawn, 'parts.diverter.valve.reject': 'one' })).toMatchObject({
      outcome: 'fail',
      reason: 'rejectToTank',
    });
  });

  it('must lead bad water somewhere, and good water to the tank', () => {
    expect(told({ ...RIGHT, 'lines.w3': undefined })).toMatchObject({ outcome: 'fail', reason: 'rejectNowhere' });
    const sink = { 'parts.tap': part('sink', { in: port('product', 'in') }) };
    expect(told({ ...RIGHT, ...sink })).toMatchObject({ outcome: 'pass' });
    const never = { a: { ports: ['in', 'tank'], when: [] }, b: { ports: ['in', 'tap'] } };
    expect(told({ ...RIGHT, 'parts.diverter.passages': never })).toMatchObject({
      outcome: 'fail',
      reason: 'neverAccepts',
    });
  });

  it('may sit in the control station', () => {
    const station = part(
      'controlStation',
      {
        press: port('brine', 'in'),
        brine: port('brine', 'out'),
        made: port('product', 'in'),
        toTank: port('product', 'out'),
        toTap: port('product', 'out'),
      },
      {
        valve: { states: ['tank', 'reject'], kind: 'threeWay' },
        passages: {
          press: { ports: ['press', 'brine'] },
          tank: { ports: ['made', 'toTank'], when: ['tank'] },
          tap: { ports: ['made', 'toTap'], when: ['reject'] },
        },
      },
    );
    const changes = {
      'parts.diverter': undefined,
      operatingStates: {},
      'parts.station': station,
      'lines.w1': line('membrane.product', 'station.made', 'product'),
      'lines.w2': line('station.toTank', 'tank.fill', 'product'),
      'lines.w3': line('station.toTap', 'tap.in', 'product'),
    };
    expect(told(changes, `${RULE}|station|`)).toMatchObject({ outcome: 'pass' });
    expect(
      told(
        {
          ...changes,
          'lines.w2': line('station.toTank', 'tap.in', 'product'),
          'lines.w3': line('station.toTap', 'tank.fill', 'product'),
        },
        `${RULE}|station|`,
      ),
    ).toMatchObject({ outcome: 'fail', reason: 'rejectToTank' });
  });
});

describe('a set without a diverter', () => {
  const membrane = `${RULE}|membrane|`;
  const none = { 'parts.diverter': undefined, operatingStates: {}, 'lines.w1': undefined, 'lines.w3': undefined };
  it('fills the tank with whatever comes', () => {
    expect(told({ ...none, 'lines.w2': line('membrane.product', 'tank.fill', 'product') }, membrane)).toMatchObject({
      outcome: 'fail',
      reason: 'noTap',
    });
  });

  it('needs more than a tee to the tap; two hand valves behind it will do', () => {
    const tee = part('tee', {
      in: port('product', 'in', -1),
      tank: port('product', 'out'),
      tap: port('product', 'out'),
    });
    const teed = { ...RIGHT, 'parts.diverter': tee, operatingStates: {} };
    expect(told(teed, membrane)).toMatchObject({ outcome: 'fail', reason: 'tankAlways' });
    const stop = part(
      'other',
      { in: port('product', 'in', -1), out: port('product', 'out') },
      { valve: { states: ['open', 'shut'] } },
    );
    const stopped = {
      ...teed,
      'parts.stop': stop,
      'lines.w2': line('diverter.tank', 'stop.in', 'product'),
      'lines.w4': line('stop.out', 'tank.fill', 'product'),
    };
    expect(told(stopped, membrane)).toMatchObject({ outcome: 'pass' });
  });

  it('is not asked where there is no tank', () => {
    expect(told({ ...RIGHT, 'parts.tank.kind': 'sink' })).toMatchObject({ outcome: 'notApplicable' });
  });
});

describe('an operating state', () => {
  it('that means to fill the tank and misses it is a fault', () => {
    const states = { 'operatingStates.making.product': 'tank', 'operatingStates.making.valves.diverter': 'reject' };
    expect(told({ ...RIGHT, ...states }, `${KEY}making`)).toMatchObject({ outcome: 'fail', reason: 'stateMissesTank' });
  });

  it('that means to keep water from it and does not is one, by its word or its name', () => {
    const wrong = { 'operatingStates.testing.valves.diverter': 'tank' };
    expect(told({ ...RIGHT, ...wrong }, `${KEY}testing`)).toMatchObject({ outcome: 'fail', reason: 'stateToTank' });
    expect(told({ ...RIGHT, ...wrong, 'operatingStates.testing.product': undefined }, `${KEY}testing`)).toMatchObject({
      outcome: 'fail',
    });
    expect(
      verdicts(bent(RULE, { ...RIGHT, ...wrong, 'operatingStates.testing.product': 'none' }), RULE).map(
        ({ key }) => key,
      ),
    ).toEqual([KEY]);
  });
});

describe('tubes that are changed round', () => {
  it('are offered the other way, which heals the operating state too', () => {
    const read = readBoat(JSON.stringify(bent(RULE, {})));
    if (!read.ok) throw new Error('not a boat');
    for (const key of [KEY, `${KEY}testing`])
      expect(mends(read.boat, key)).toMatchObject([
        { change: 'swap', what: { line: 'w2', other: 'w3', thing: 'diverter' } },
      ]);
  });
});
