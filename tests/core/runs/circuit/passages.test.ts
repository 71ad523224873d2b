import type { Medium, Thing } from '@core/boat/schema/boat';
import { part } from '@core/boat/schema/things';
import { joinsAllWays, type LineUse, passagesOf } from '@core/runs/circuit/passages';
import { describe, expect, it } from 'vitest';

const port = (medium: Medium | undefined, role = 'both') => ({
  at: [0, 0, 0],
  direction: [1, 0, 0],
  role,
  ...(medium ? { medium } : {}),
});
const thing = (kind: string, ports: object, more: object = {}): Thing =>
  part.parse({ name: 'Thing', kind, shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] }, ports, ...more });
const none = (): undefined => undefined;
const joined = (one: Thing, lineAt: (port: string) => LineUse | undefined = none) =>
  passagesOf(one, lineAt).map(
    ({ ports, oneWay, when }) => `${ports.join('>')}${oneWay ? '!' : ''} ${when?.join() ?? '*'}`,
  );

describe('what is joined inside a thing', () => {
  it('of a tee is every water; of a membrane the feed with brine and product', () => {
    expect(joined(thing('tee', { a: port('seaWater'), b: port('seaWater'), c: port('freshWater') }))).toEqual([
      'a>b *',
      'a>c *',
      'b>c *',
    ]);
    expect(
      joined(
        thing('membrane', { feed: port('seaWater', 'in'), brine: port('brine', 'out'), made: port('product', 'out') }),
      ),
    ).toEqual(['feed>brine *', 'brine>made *', 'feed>made *']);
  });

  it('of a control station is the pressure side by itself and made water by itself', () => {
    const station = thing('controlStation', {
      press: port('seaWater', 'in'),
      out: port('brine', 'out'),
      made: port('product', 'in'),
      tank: port('product', 'out'),
    });
    expect(joined(station)).toEqual(['made>tank *', 'press>out *']);
  });

  it('of a check valve goes from in to out, else as the lines on it do', () => {
    const valve = { valve: { states: ['open'], kind: 'check' } };
    expect(joined(thing('other', { a: port('freshWater', 'out'), b: port('freshWater', 'in') }, valve))).toEqual([
      'b>a! *',
    ]);
    const byLines = (name: string): LineUse => ({ medium: 'freshWater', begins: name === 'a' });
    expect(joined(thing('other', { a: port(undefined), b: port(undefined) }, valve), byLines)).toEqual(['b>a! *']);
  });

  it('of a plain valve is shut in its shut state', () => {
    expect(
      joined(thing('other', { a: port('brine'), b: port('brine') }, { valve: { states: ['open', 'shut'] } })),
    ).toEqual(['a>b open']);
  });

  it('of a three-way valve without passages is everything in each open state, whatever states and ports are called', () => {
    const states = ['sea', 'fresh', 'shut'];
    for (const [a, b, c] of [
      ['fresh', 'out', 'sea'],
      ['p', 'q', 'r'],
    ] as const) {
      const ports = { [a]: port('freshWater'), [b]: port('seaWater'), [c]: port('seaWater') };
      const valve = thing('serviceValve', ports, { valve: { states, kind: 'threeWay' } });
      expect(joined(valve)).toEqual([`${a}>${b} sea,fresh`, `${a}>${c} sea,fresh`, `${b}>${c} sea,fresh`]);
      expect(joinsAllWays(valve, none)).toBe(true);
    }
  });

  it('is told to be drawn by passages, by two ports, or by one open state', () => {
    const ports = { a: port('product'), b: port('product'), c: port('product') };
    const valve = { states: ['one', 'two'], kind: 'threeWay' };
    const passages = { x: { ports: ['a', 'b'], when: ['one'] }, y: { ports: ['a', 'c'], when: ['two'] } };
    expect(joinsAllWays(thing('diverter', ports, { valve }), none)).toBe(true);
    expect(joinsAllWays(thing('diverter', ports, { valve, passages }), none)).toBe(false);
    expect(joinsAllWays(thing('other', { a: ports.a, b: ports.b }, { valve }), none)).toBe(false);
    expect(joinsAllWays(thing('other', ports, { valve: { states: ['open', 'shut'] } }), none)).toBe(false);
  });

  it('of what regulates is never shut, of a relief only opens under pressure', () => {
    const ports = { a: port('brine', 'in'), b: port('brine', 'out') };
    expect(joined(thing('controlStation', ports, { valve: { states: ['open', 'shut'] } }))).toEqual(['a>b *']);
    expect(joined(thing('other', ports, { valve: { states: ['open', 'shut'], kind: 'needle' } }))).toEqual(['a>b *']);
    const [relief] = passagesOf(thing('other', ports, { valve: { states: ['set'], kind: 'relief' } }), none);
    expect(relief?.isRelief).toBe(true);
  });
});
