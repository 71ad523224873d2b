import { readBoat } from '@core/boat/read';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** That a valve in mid-line without relief is the fault, and what is accepted at the hull: common practice, no source. */
const RULE = 'water/dead-head';
const KEY = `${RULE}|pump|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);

const noStop = {
  'parts.stop': undefined,
  'lines.b1b': undefined,
  'lines.b1': line('station.brine', 'brine-out.tail'),
};

describe('a valve that leaves the pressure pump no way out', () => {
  it('is a danger in mid-line, with the valve named', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'midLine',
      related: ['stop'],
      measured: { value: 1, unit: 'count' },
      hazards: ['highPressure'],
    });
  });

  it('is found whatever its two states are called, and as a seacock, a diverter or a service valve', () => {
    for (const states of [
      ['inline', 'across'],
      ['Open', 'Closed'],
      ['on', 'off'],
      ['a', 'b'],
    ])
      expect(told({ 'parts.stop.valve': { states, kind: 'ball' } })).toMatchObject({ reason: 'midLine' });
    for (const kind of ['serviceValve', 'flushValve', 'tee'])
      expect(told({ 'parts.stop.kind': kind })).toMatchObject({ reason: 'midLine' });
    expect(told({ 'parts.stop.kind': 'seacock' })).toMatchObject({ outcome: 'fail', related: ['stop'] });
  });

  it('is found with passages that are drawn', () => {
    const passages = { through: { ports: ['in', 'out'], when: ['open'] } };
    expect(told({ 'parts.stop.passages': passages })).toMatchObject({ reason: 'midLine' });
    // One that opens to both sides in each of its states shuts nothing.
    const always = { through: { ports: ['in', 'out'], when: ['open', 'shut'] } };
    expect(told({ 'parts.stop.passages': always })).toMatchObject({ outcome: 'pass' });
  });

  it('is none where a relief stands before it: on the pump, as a flag on the way, as a part, as a passage', () => {
    expect(told({ 'parts.pump.relief': {} })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.station.relief': { opensBar: 65 } })).toMatchObject({ outcome: 'pass' });
    const tee = part('tee', { a: port('brine', 'in', -1), b: port('brine', 'out'), c: port('brine', 'both') });
    const withRelief = (outlet: object) => ({
      'parts.tee': tee,
      'parts.relief': part(
        'other',
        { in: port('brine', 'in', -1), out: port('brine', 'out') },
        { valve: { states: ['set'], kind: 'relief' } },
      ),
      'lines.b1': line('station.brine', 'tee.a'),
      'lines.b2': line('tee.b', 'stop.in'),
      'lines.b3': line('tee.c', 'relief.in'),
      ...outlet,
    });
    expect(told(withRelief({}))).toMatchObject({ outcome: 'pass' });
    const sink = part('sink', { in: port('brine', 'in') });
    expect(told(withRelief({ 'parts.basin': sink, 'lines.b4': line('relief.out', 'basin.in') }))).toMatchObject({
      outcome: 'pass',
    });
    const bypass = {
      'parts.station.ports.spill': port('brine', 'out'),
      'parts.station.passages': {
        main: { ports: ['press', 'brine'] },
        spill: { ports: ['press', 'spill'], oneWay: true, opensBar: 65 },
      },
      'parts.basin': sink,
      'lines.b4': line('station.spill', 'basin.in'),
    };
    expect(told(bypass)).toMatchObject({ outcome: 'pass' });
    const { 'lines.b4': _, 'parts.basin': __, ...loose } = bypass;
    expect(told(loose)).toMatchObject({ outcome: 'fail' });
  });

  it('stays one where the relief comes behind it, or the relief itself can be shut in', () => {
    expect(told({ 'parts.brine-out.relief': {} })).toMatchObject({ reason: 'midLine' });
    const tee = part('tee', { a: port('brine', 'in', -1), b: port('brine', 'out'), c: port('brine', 'both') });
    const cock = part(
      'other',
      { in: port('brine', 'in', -1), out: port('brine', 'out') },
      { valve: { states: ['open', 'shut'] } },
    );
    const relief = part(
      'other',
      { in: port('brine', 'in', -1), out: port('brine', 'out') },
      { valve: { states: ['set'], kind: 'relief' } },
    );
    expect(
      told({
        'parts.tee': tee,
        'parts.cock2': cock,
        'parts.relief': relief,
        'lines.b1': line('station.brine', 'tee.a'),
        'lines.b2': line('tee.b', 'stop.in'),
        'lines.b3': line('tee.c', 'cock2.in'),
        'lines.b4': line('cock2.out', 'relief.in'),
      }),
    ).toMatchObject({ outcome: 'fail', reason: 'midLine', related: ['cock2', 'stop'] });
  });

  it('is none where the other way stays open, and one where two valves shut both', () => {
    const tee = part('tee', { a: port('brine', 'in', -1), b: port('brine', 'out'), c: port('brine', 'both') });
    const second = {
      'parts.tee': tee,
      'parts.basin': part('sink', { in: port('brine', 'in') }),
      'lines.b1': line('station.brine', 'tee.a'),
      'lines.b2': line('tee.b', 'stop.in'),
      'lines.b3': line('tee.c', 'basin.in'),
    };
    expect(told(second)).toMatchObject({ outcome: 'pass' });
    const cock = part(
      'other',
      { in: port('brine', 'in', -1), out: port('brine', 'out') },
      { valve: { states: ['open', 'shut'] } },
    );
    expect(
      told({
        ...second,
        'parts.cock2': cock,
        'lines.b3': line('tee.c', 'cock2.in'),
        'lines.b4': line('cock2.out', 'basin.in'),
      }),
    ).toMatchObject({ outcome: 'fail', reason: 'midLine', related: ['cock2', 'stop'] });
  });

  it('is a three-way valve with a way that leads nowhere, and not one whose ways all lead out', () => {
    const ports = { in: port('brine', 'in', -1), out: port('brine', 'out'), service: port('brine', 'out') };
    const passages = {
      out: { ports: ['in', 'out'], when: ['run'] },
      service: { ports: ['in', 'service'], when: ['service'] },
    };
    const turned = {
      'parts.stop.ports': ports,
      'parts.stop.passages': passages,
      'parts.stop.valve': { states: ['run', 'service'], kind: 'threeWay' },
    };
    expect(told(turned)).toMatchObject({
      outcome: 'fail',
      reason: 'midLine',
      data: { valves: 'Brine stop valve (service)' },
    });
    const basin = {
      'parts.basin': part('sink', { in: port('brine', 'in') }),
      'lines.b4': line('stop.service', 'basin.in'),
    };
    expect(told({ ...turned, ...basin })).toMatchObject({ outcome: 'pass' });
  });
});

describe('what is right', () => {
  it('is a pressure line to the control station and on overboard, and valves that regulate', () => {
    expect(told(noStop)).toMatchObject({ outcome: 'pass', measured: { value: 0 } });
    expect(told({ ...noStop, 'parts.station.valve': { states: ['open', 'shut'] } })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.stop.valve': { states: ['open', 'shut'], kind: 'needle' } })).toMatchObject({
      outcome: 'pass',
    });
    expect(told({ 'parts.stop.valve': { states: ['open'], kind: 'check' } })).toMatchObject({ outcome: 'pass' });
  });

  it('is a seacock at the hull with a relief, or a label and a step of the checklist', () => {
    const cock = { ...noStop, 'parts.brine-out.valve': { states: ['open', 'shut'], normally: 'shut' } };
    expect(told(cock)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'hullShut',
      related: ['brine-out'],
    });
    expect(told({ ...cock, 'parts.brine-out.valve.labelled': true })).toMatchObject({ outcome: 'pass' });
    expect(told({ ...cock, 'parts.pump.relief': {} })).toMatchObject({ outcome: 'pass' });
    // A label helps nothing in mid-line.
    expect(told({ 'parts.stop.valve.labelled': true })).toMatchObject({ reason: 'midLine' });
  });

  it('is brine that goes down a sink drain which can be shut: the basin takes it', () => {
    const tee = part('tee', { a: port('waste', 'both', -1), b: port('waste', 'both'), c: port('brine', 'both') });
    const drain = {
      ...noStop,
      'parts.tee': tee,
      'parts.basin': part('sink', { drain: port('waste', 'out') }),
      'parts.brine-out.valve': { states: ['open', 'shut'] },
      'lines.b1': line('station.brine', 'tee.c'),
      'lines.b2': line('basin.drain', 'tee.a', 'waste'),
      'lines.b3': line('tee.b', 'brine-out.tail', 'waste'),
    };
    expect(told(drain)).toMatchObject({ outcome: 'pass' });
  });

  it('takes an operating state at its word, labels or none', () => {
    const cock = { ...noStop, 'parts.brine-out.valve': { states: ['open', 'shut'], labelled: true } };
    expect(told({ ...cock, 'operatingStates.making.valves.brine-out': 'shut' })).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'shutInState',
      related: ['brine-out'],
      data: { state: 'Making water' },
    });
    expect(told({ ...cock, 'operatingStates.flushing.valves.brine-out': 'shut' })).toMatchObject({ outcome: 'pass' });
  });
});

describe('the brine of a pump that takes its energy back', () => {
  const recovering = {
    ...noStop,
    'parts.pump.ports.return': port('brine', 'in'),
    'parts.pump.ports.spent': port('brine', 'out'),
    'parts.station': undefined,
    'lines.h2': line('membrane.brine', 'pump.return'),
    'lines.b1': line('pump.spent', 'brine-out.tail'),
  };
  it('passes the pump on its way out, and not the inlet', () => {
    expect(told(recovering)).toMatchObject({ outcome: 'pass' });
    expect(
      told({
        ...recovering,
        'lines.b1': line('pump.spent', 'stop.in'),
        'parts.stop': part(
          'other',
          { in: port('brine', 'in', -1), out: port('brine', 'out') },
          { valve: { states: ['open', 'shut'] } },
        ),
        'lines.b1b': line('stop.out', 'brine-out.tail'),
      }),
    ).toMatchObject({ reason: 'midLine' });
  });
});

describe('what cannot be told', () => {
  it('is where the brine is not drawn to its end', () => {
    expect(told({ ...noStop, 'lines.b1': undefined })).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noWayOut',
      enterNext: 'Draw where the brine goes from Control station',
    });
  });

  it('is a check valve that looks the wrong way: no way out at all', () => {
    const backwards = { in: port('brine', 'out', -1), out: port('brine', 'in') };
    expect(
      told({ 'parts.stop.valve': { states: ['open'], kind: 'check' }, 'parts.stop.ports': backwards }),
    ).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'backwards',
    });
  });

  it('does not apply to a pump without a pressure line, nor to other pumps', () => {
    expect(told({ ...noStop, 'lines.h1': undefined })).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'parts.pump.kind': 'feedPump' }), RULE)).toEqual([]);
  });

  it('is more valves than can be tried, where no two of them shut it', () => {
    // Seven ways out side by side, each with three stops one behind the other: 2^21 settings, and seven valves at once would shut it.
    const changes: Record<string, unknown> = { ...noStop };
    const ports: Record<string, unknown> = { a: port('brine', 'in', -1) };
    for (let k = 0; k < 7; k++) {
      ports[`p${k}`] = port('brine', 'out');
      for (let j = 0; j < 3; j++) {
        changes[`parts.c${k}${j}`] = part(
          'other',
          { in: port('brine', 'in', -1), out: port('brine', 'out') },
          { valve: { states: ['open', 'shut'] } },
        );
        changes[`lines.c${k}${j}`] = line(j === 0 ? `tee.p${k}` : `c${k}${j - 1}.out`, `c${k}${j}.in`);
      }
      changes[`parts.basin${k}`] = part('sink', { in: port('brine', 'in') });
      changes[`lines.d${k}`] = line(`c${k}2.out`, `basin${k}.in`);
    }
    changes['parts.tee'] = part('tee', ports);
    changes['lines.b1'] = line('station.brine', 'tee.a');
    expect(told(changes)).toMatchObject({ outcome: 'cannotTell', reason: 'tooMany' });
  });
});

describe('what mends a dead end', () => {
  const offered = (changes: Readonly<Record<string, unknown>>) => {
    const read = readBoat(JSON.stringify(bent(RULE, changes)));
    if (!read.ok) throw new Error('not a boat');
    return mends(read.boat, KEY).map(({ change, what }) => [change, what.item]);
  };

  it('is the valve taken out, or a relief', () => {
    expect(offered({})).toEqual([
      ['remove', 'valve'],
      ['add', 'reliefValve'],
    ]);
  });

  it('is a label too, at the hull', () => {
    const cock = { ...noStop, 'parts.brine-out.valve': { states: ['open', 'shut'] } };
    expect(offered(cock)).toContainEqual(['add', 'label']);
    expect(offered({ ...noStop, 'parts.brine-out.kind': 'seacock' })).toContainEqual(['add', 'label']);
  });
});
