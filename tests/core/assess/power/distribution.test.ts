import { distribution } from '@core/assess/power/distribution';
import type { Boat } from '@core/boat/schema/boat';
import { circuitOf } from '@core/runs/circuit/circuit';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';

type Things = Readonly<Record<string, { kind: string; electric?: object; ports?: readonly string[] }>>;

/** Things with ports in and out of direct current, and cables by `from>to` or `from.port>to.port`. */
function boat(things: Things, cables: Readonly<Record<string, string>>): Boat {
  return boatOf({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Wires',
    fixtures: Object.fromEntries(
      Object.entries(things).map(([id, { kind, electric, ports = ['in', 'out'] }], k) => [
        id,
        {
          name: id,
          kind,
          shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
          pose: { at: [k, 0, 0] },
          ports: Object.fromEntries(
            ports.map((port) => [port, { at: [0, 0, 0], direction: [1, 0, 0], medium: 'dcPower' }]),
          ),
          ...(electric ? { electric } : {}),
        },
      ]),
    ),
    lines: Object.fromEntries(
      Object.entries(cables).map(([id, way]) => {
        const [from = '', to = ''] = way.split('>');
        const end = (text: string, port: string) => {
          const [thing, own = port] = text.split('.');
          return { thing, port: own };
        };
        return [id, { name: id, kind: 'cable-pair-10', medium: 'dcPower', from: end(from, 'out'), to: end(to, 'in') }];
      }),
    ),
  });
}

const walked = (things: Things, cables: Readonly<Record<string, string>>, conductors = 2) =>
  distribution(circuitOf(boat(things, cables)), () => conductors);

const BANK = { kind: 'battery', electric: { sourceV: 12.8 } };
const PUMP = { kind: 'feedPump', electric: { drawA: 10 } };

describe('the way of the current', () => {
  it('goes from the bank through its fuse and breaker to the pump', () => {
    const { feeds, devices } = walked(
      { bank: BANK, fuse: { kind: 'fuse' }, breaker: { kind: 'breaker' }, pump: PUMP },
      { a: 'bank>fuse', b: 'fuse>breaker', c: 'breaker>pump' },
    );
    expect(feeds.c).toEqual({
      line: 'c',
      source: 'bank',
      device: 'breaker',
      path: ['a', 'b', 'c'],
      end: 'pump',
      consumers: ['pump'],
    });
    expect(devices.fuse).toMatchObject({ before: null, path: ['a'], protects: ['b'] });
    expect(devices.breaker).toMatchObject({ before: 'fuse', protects: ['c'] });
  });

  it('is the same whichever way the cables are drawn', () => {
    const way = walked({ bank: BANK, fuse: { kind: 'fuse' }, pump: PUMP }, { a: 'bank>fuse', b: 'fuse>pump' });
    const back = walked(
      { bank: BANK, fuse: { kind: 'fuse' }, pump: PUMP },
      { a: 'fuse.in>bank.out', b: 'pump.in>fuse.out' },
    );
    expect(back).toEqual(way);
  });

  it('branches at a bar, and what hangs on the bank side of a fuse is not protected by it', () => {
    const { feeds, devices } = walked(
      {
        bank: BANK,
        fuse: { kind: 'fuse' },
        bar: { kind: 'busbar' },
        pump: PUMP,
        lamp: { kind: 'other', electric: { drawA: 1 } },
        fridge: { kind: 'fridge' },
      },
      { a: 'bank>fuse', b: 'fuse>bar', c: 'bar>pump', d: 'bar>lamp', e: 'fuse.in>fridge' },
    );
    expect(devices.fuse?.protects).toEqual(['b', 'c', 'd']);
    expect(feeds.b?.consumers).toEqual(['lamp', 'pump']);
    expect(feeds.e).toMatchObject({ device: null, path: ['a', 'e'], consumers: ['fridge'] });
  });

  it('does not go on through what draws it, nor from bank to bank', () => {
    const { ways } = walked(
      { bank: BANK, second: { kind: 'battery' }, pump: PUMP, lamp: { kind: 'other', electric: { drawA: 1 } } },
      { a: 'bank>pump', b: 'pump>lamp', link: 'bank>second' },
    );
    expect(ways.map(({ line }) => line)).toEqual(['a']);
  });

  it('comes from each source that can feed a line, the first by id in the table', () => {
    const { ways, feeds } = walked(
      { a: BANK, b: BANK, bar: { kind: 'busbar', ports: ['in', 'in2', 'out'] }, pump: PUMP },
      { one: 'a>bar', two: 'b>bar.in2', on: 'bar>pump' },
    );
    expect(ways.filter(({ line }) => line === 'on').map(({ source }) => source)).toEqual(['a', 'b']);
    expect(feeds.on?.source).toBe('a');
  });

  it('knows the return of single conductors by its port, or by the fuse in the other one', () => {
    const things = {
      bank: { ...BANK, ports: ['plus', 'minus', 'third'] },
      fuse: { kind: 'fuse' },
      pump: { ...PUMP, ports: ['in', 'back'] },
    };
    const named = walked(things, { a: 'bank.plus>fuse', b: 'fuse>pump', c: 'bank.minus>pump.back' }, 1);
    const plain = walked(things, { a: 'bank.plus>fuse', b: 'fuse>pump', c: 'bank.third>pump.back' }, 1);
    for (const { feeds } of [named, plain]) expect(Object.keys(feeds)).toEqual(['a', 'b']);
    // of a pair each cable carries both ways
    const pairs = walked(things, { a: 'bank.plus>fuse', b: 'fuse>pump', c: 'bank.third>pump.back' });
    expect(Object.keys(pairs.feeds).sort()).toEqual(['a', 'b', 'c']);
  });

  it('begins protected at a panel that stands for all before it', () => {
    const { feeds } = walked(
      { panel: { kind: 'dcPanel', electric: { sourceV: 12.5 } }, pump: PUMP },
      { a: 'panel>pump' },
    );
    expect(feeds.a).toMatchObject({ source: 'panel', device: 'panel' });
  });

  it('ends at a circle of cables', () => {
    const { ways } = walked(
      { bank: BANK, one: { kind: 'busbar' }, two: { kind: 'busbar' } },
      { a: 'bank>one', b: 'one>two', c: 'two.out>one.in' },
    );
    expect(ways.map(({ line }) => line).sort()).toEqual(['a', 'b', 'c']);
  });
});
