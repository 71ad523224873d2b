import type { Boat } from '@core/boat/schema/boat';
import { boatSchema } from '@core/boat/schema/boat';
import { circuitOf, pathTo, portsOf, suctionLines } from '@core/runs/circuit/circuit';
import { describe, expect, it } from 'vitest';

const box = { type: 'box', sizeM: [0.1, 0.1, 0.1] };
const port = (medium: string, role = 'both') => ({ at: [0.05, 0, 0], direction: [1, 0, 0], medium, role });
const line = (from: string, to: string, medium = 'seaWater') => {
  const [fromThing, fromPort] = from.split('.');
  const [toThing, toPort] = to.split('.');
  return {
    name: `${from} to ${to}`,
    kind: 'hose-suction-19',
    medium,
    from: { thing: fromThing, port: fromPort },
    to: { thing: toThing, port: toPort },
  };
};

function boatWith(parts: object, lines: object): Boat {
  return boatSchema.parse({ format: 'underberth-boat', schemaVersion: 1, name: 'Test', parts, lines });
}

const SEACOCK = {
  name: 'Seacock',
  kind: 'seacock',
  shape: box,
  ports: { tail: port('seaWater') },
  opensToSea: { at: [0, 0, -0.1], boreM: 0.019 },
  valve: { states: ['open', 'shut'] },
};
const STRAINER = {
  name: 'Strainer',
  kind: 'strainer',
  shape: box,
  ports: { a: port('seaWater'), b: port('seaWater') },
};
const PUMP = {
  name: 'Pump',
  kind: 'pumpModule',
  shape: box,
  ports: { in: port('seaWater', 'in'), out: port('seaWater', 'out') },
};
const MEMBRANE = {
  name: 'Membrane',
  kind: 'membrane',
  shape: box,
  ports: { feed: port('seaWater', 'in'), brine: port('brine', 'out'), product: port('product', 'out') },
};

describe('the circuit', () => {
  const boat = boatWith(
    { cock: SEACOCK, strainer: STRAINER, pump: PUMP, membrane: MEMBRANE },
    {
      one: line('cock.tail', 'strainer.a'),
      two: line('strainer.b', 'pump.in'),
      three: line('pump.out', 'membrane.feed'),
    },
  );
  const circuit = circuitOf(boat);

  it('walks through things from the sea to the product port of the membrane', () => {
    const path = pathTo(
      circuit,
      portsOf(circuit, 'cock'),
      (node) => node.thing === 'membrane' && node.port === 'product',
      () => true,
    );
    expect(path?.steps.map((step) => step.edge.id)).toEqual([
      'one',
      'strainer/a-b',
      'two',
      'pump/in-out',
      'three',
      'membrane/feed-product',
    ]);
  });

  it('does not walk a pump backwards', () => {
    expect(
      pathTo(
        circuit,
        portsOf(circuit, 'membrane'),
        (node) => node.thing === 'cock',
        () => true,
      ),
    ).toBeNull();
  });

  it('calls suction what the sea fills before the first pump', () => {
    expect([...suctionLines(circuit)].sort()).toEqual(['one', 'two']);
  });

  it('shuts a plain valve in its shut position', () => {
    const valved = boatWith(
      {
        cock: SEACOCK,
        valve: {
          name: 'Valve',
          kind: 'serviceValve',
          shape: box,
          ports: { a: port('seaWater'), b: port('seaWater') },
          valve: { states: ['open', 'shut'] },
        },
        pump: PUMP,
      },
      { one: line('cock.tail', 'valve.a'), two: line('valve.b', 'pump.in') },
    );
    const c = circuitOf(valved);
    const reach = (state: string) =>
      pathTo(
        c,
        portsOf(c, 'cock'),
        (node) => node.thing === 'pump',
        () => true,
        { valve: state },
      );
    expect(reach('open')).not.toBeNull();
    expect(reach('shut')).toBeNull();
  });

  it('obeys drawn passages: a three-way valve joins what its position says', () => {
    const threeWay = {
      name: 'Three-way',
      kind: 'serviceValve',
      shape: box,
      ports: { sea: port('seaWater'), fresh: port('freshWater'), feed: port('seaWater') },
      passages: {
        run: { ports: ['sea', 'feed'], when: ['sea'] },
        flush: { ports: ['fresh', 'feed'], when: ['fresh'] },
      },
      valve: { states: ['sea', 'fresh'], kind: 'threeWay' },
    };
    const c = circuitOf(
      boatWith(
        { cock: SEACOCK, valve: threeWay, pump: PUMP },
        { one: line('cock.tail', 'valve.sea'), two: line('valve.feed', 'pump.in') },
      ),
    );
    const reach = (state: string) =>
      pathTo(
        c,
        portsOf(c, 'cock'),
        (node) => node.thing === 'pump',
        () => true,
        { valve: state },
      );
    expect(reach('sea')?.steps.length).toBe(3);
    expect(reach('fresh')).toBeNull();
  });

  it('does not depend on the order of records', () => {
    const shuffled = boatWith(
      { pump: PUMP, membrane: MEMBRANE, strainer: STRAINER, cock: SEACOCK },
      {
        three: line('pump.out', 'membrane.feed'),
        two: line('strainer.b', 'pump.in'),
        one: line('cock.tail', 'strainer.a'),
      },
    );
    const way = (c: ReturnType<typeof circuitOf>) =>
      pathTo(
        c,
        portsOf(c, 'cock'),
        (node) => node.port === 'product',
        () => true,
      )?.steps.map((step) => step.edge.id);
    expect(way(circuitOf(shuffled))).toEqual(way(circuit));
  });
});
