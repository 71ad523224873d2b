import { drawnSeaWay, seaWay } from '@core/assess/water/sea-way';
import { boatSchema } from '@core/boat/schema/boat';
import { circuitOf } from '@core/runs/circuit/circuit';
import { describe, expect, it } from 'vitest';
import { line, part, port } from '../../rules/water/pieces';

const sea = (role: string) => port('seaWater', role);
const valve = (passages: object) =>
  part(
    'serviceValve',
    { sea: sea('in'), fresh: sea('in'), out: sea('out') },
    { passages, valve: { states: ['one', 'two'], kind: 'threeWay' } },
  );
const cock = part('seacock', { tail: sea('both') }, { opensToSea: { at: [0, 0, 0], boreM: 0.019 } });
const circuit = (parts: object, lines: object) => {
  const {
    fixtures,
    parts: all,
    lines: led,
  } = boatSchema.parse({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'A circuit',
    parts: { cock, pump: part('pumpModule', { in: sea('in') }), ...parts },
    lines,
  });
  return circuitOf({ fixtures, parts: all, lines: led });
};
const through = { a: line('cock.tail', 'valve.sea', 'seaWater'), b: line('valve.out', 'pump.in', 'seaWater') };

describe('the way of the sea water to a pump', () => {
  it('asks of no valve to stand in two states at once', () => {
    const crossed = { x: { ports: ['sea', 'fresh'], when: ['one'] }, y: { ports: ['fresh', 'out'], when: ['two'] } };
    const apart = circuit({ valve: valve(crossed) }, through);
    expect(seaWay(apart, 'pump')).toBeNull();
    expect(drawnSeaWay(apart, 'pump')?.things).toEqual(['cock', 'valve', 'pump']);
    const together = { x: crossed.x, y: { ports: ['fresh', 'out'], when: ['one', 'two'] } };
    expect(seaWay(circuit({ valve: valve(together) }, through), 'pump')?.things).toEqual(['cock', 'valve', 'pump']);
  });

  it('takes the longer way where the shorter needs that', () => {
    const crossed = {
      x: { ports: ['sea', 'fresh'], when: ['one'] },
      y: { ports: ['fresh', 'out'], when: ['two'] },
    };
    const tee = part('tee', { a: sea('both'), b: sea('both'), c: sea('both') });
    const filter = part('filter', { in: sea('in'), out: sea('out') });
    const found = circuit(
      { valve: valve(crossed), first: tee, last: tee, one: filter, two: filter },
      {
        a: line('cock.tail', 'first.a', 'seaWater'),
        b: line('first.b', 'valve.sea', 'seaWater'),
        c: line('valve.out', 'last.a', 'seaWater'),
        d: line('first.c', 'one.in', 'seaWater'),
        e: line('one.out', 'two.in', 'seaWater'),
        f: line('two.out', 'last.b', 'seaWater'),
        g: line('last.c', 'pump.in', 'seaWater'),
      },
    );
    expect(seaWay(found, 'pump')?.things).toEqual(['cock', 'first', 'one', 'two', 'last', 'pump']);
  });

  it('does not pass a check valve backwards, and is drawn all the same', () => {
    const check = part('other', { a: sea('out'), b: sea('in') }, { valve: { states: ['set'], kind: 'check' } });
    const found = circuit(
      { check },
      { a: line('cock.tail', 'check.a', 'seaWater'), b: line('check.b', 'pump.in', 'seaWater') },
    );
    expect(seaWay(found, 'pump')).toBeNull();
    expect(drawnSeaWay(found, 'pump')?.things).toEqual(['cock', 'check', 'pump']);
  });
});
