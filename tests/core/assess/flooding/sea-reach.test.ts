import { seaReach } from '@core/assess/flooding/sea-reach';
import { boatSchema } from '@core/boat/schema/boat';
import { circuitOf } from '@core/runs/circuit/circuit';
import { describe, expect, it } from 'vitest';

const box = { type: 'box', sizeM: [0.1, 0.1, 0.1] };
const port = (medium = 'seaWater') => ({ at: [0, 0, 0], direction: [1, 0, 0], medium });
const thing = (kind: string, ports: readonly string[], more: object = {}) => ({
  name: kind,
  kind,
  shape: box,
  pose: { at: [0, 0, 0] },
  ports: Object.fromEntries(ports.map((id) => [id, port()])),
  ...more,
});
const line = (from: string, to: string, medium = 'seaWater') => {
  const [a = '', b = ''] = from.split('.');
  const [c = '', d = ''] = to.split('.');
  return { name: 'Line', kind: 'hose-suction-19', medium, from: { thing: a, port: b }, to: { thing: c, port: d } };
};
const reach = (fixtures: object, lines: object) => {
  const boat = boatSchema.parse({ format: 'underberth-boat', schemaVersion: 1, name: 'Circuit', fixtures, lines });
  return seaReach(circuitOf(boat), 'hole').map(({ line: id, stoppedBy, isOpen, loops, lines: way }) => ({
    id,
    stoppedBy,
    isOpen,
    loops,
    way,
  }));
};
const HOLE = thing('skinFitting', ['tail'], { opensToSea: { at: [0, 0, 0], boreM: 0.019 } });
const VALVE = { states: ['open', 'shut'], kind: 'ball' };

describe('what the sea reaches', () => {
  it('stops at nothing before a valve in the hose, and at that valve behind it', () => {
    const fixtures = { hole: HOLE, cock: thing('other', ['a', 'b'], { valve: VALVE }), end: thing('sink', ['in']) };
    expect(reach(fixtures, { l1: line('hole.tail', 'cock.a'), l2: line('cock.b', 'end.in') })).toMatchObject([
      { id: 'l1', stoppedBy: null, isOpen: true, way: ['l1'] },
      { id: 'l2', stoppedBy: 'cock', isOpen: true, way: ['l1', 'l2'] },
    ]);
  });

  it('knows how valves normally stand', () => {
    const fixtures = {
      hole: HOLE,
      cock: thing('other', ['a', 'b'], { valve: { ...VALVE, normally: 'shut' } }),
      end: thing('sink', ['in']),
    };
    const [first, second] = reach(fixtures, { l1: line('hole.tail', 'cock.a'), l2: line('cock.b', 'end.in') });
    expect([first?.isOpen, second?.isOpen]).toEqual([true, false]);
  });

  it('passes a three-way valve in one position at a time: sea and flush are never open to each other', () => {
    const valve = thing('serviceValve', ['sea', 'feed', 'fresh'], {
      valve: { states: ['sea', 'fresh'], kind: 'threeWay' },
      passages: {
        run: { ports: ['sea', 'feed'], when: ['sea'] },
        flush: { ports: ['fresh', 'feed'], when: ['fresh'] },
      },
    });
    const fixtures = { hole: HOLE, valve, pump: thing('deckWashPump', ['in']), tank: thing('waterTank', ['out']) };
    const lines = {
      l1: line('hole.tail', 'valve.sea'),
      l2: line('valve.feed', 'pump.in'),
      l3: line('tank.out', 'valve.fresh', 'freshWater'),
    };
    expect(reach(fixtures, lines).map(({ id }) => id)).toEqual(['l1', 'l2']);
  });

  it('does not trust check valves, and passes no high-pressure pump backwards', () => {
    const through = (kind: string) => ({ passages: { way: { ports: ['in', 'out'], oneWay: true } }, kind });
    const back = { l1: line('hole.tail', 'box.out'), l2: line('box.in', 'end.in') };
    const with_ = (kind: string) =>
      reach({ hole: HOLE, box: thing(kind, ['in', 'out'], through(kind)), end: thing('sink', ['in']) }, back);
    expect(with_('other').map(({ id }) => id)).toEqual(['l1', 'l2']);
    expect(with_('pumpModule').map(({ id }) => id)).toEqual(['l1']);
  });

  it('tells of the vented loops on the way', () => {
    const fixtures = { hole: HOLE, loop: thing('ventedLoop', ['a', 'b']), end: thing('sink', ['in']) };
    const found = reach(fixtures, { l1: line('hole.tail', 'loop.a'), l2: line('loop.b', 'end.in') });
    expect(found.map(({ id, loops }) => [id, loops])).toEqual([
      ['l1', []],
      ['l2', ['loop']],
    ]);
  });
});
