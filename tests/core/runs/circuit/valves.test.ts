import type { Thing } from '@core/boat/schema/boat';
import { part } from '@core/boat/schema/things';
import {
  canBeShut,
  combinationsOf,
  handStates,
  isShutIn,
  MOST_COMBINATIONS,
  openState,
  shutStates,
  usualState,
} from '@core/runs/circuit/valves';
import { describe, expect, it } from 'vitest';

const thing = (valve?: object, kind = 'other'): Thing =>
  part.parse({ name: 'Valve', kind, shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] }, ...(valve ? { valve } : {}) });

describe('what a hand can do to a valve', () => {
  it('is told by the names of its states', () => {
    expect(shutStates(thing({ states: ['open', 'shut'] }))).toEqual(['shut']);
    expect(shutStates(thing({ states: ['Offen', 'CLOSED', 'off'] }))).toEqual(['CLOSED', 'off']);
    expect(shutStates(thing({ states: ['sea', 'fresh', 'shut'], kind: 'threeWay' }))).toEqual(['shut']);
  });

  it('is told by where it usually stands, where two states have other names', () => {
    expect(shutStates(thing({ states: ['along', 'across'] }))).toEqual(['across']);
    expect(shutStates(thing({ states: ['along', 'across'], normally: 'across' }))).toEqual(['along']);
    expect(shutStates(thing({ states: ['sea', 'fresh'], kind: 'threeWay' }))).toEqual([]);
  });

  it('is no shutting where a state is called open and none is called shut', () => {
    for (const states of [
      ['open', 'half'],
      ['half', 'On'],
    ]) {
      expect(shutStates(thing({ states }))).toEqual([]);
      expect(canBeShut(thing({ states }, 'seacock'))).toBe(false);
    }
  });

  it('is nothing with a check, a relief, or what has one state', () => {
    for (const kind of ['check', 'relief', 'needle']) {
      expect(handStates(thing({ states: ['open', 'shut'], kind }))).toEqual([]);
      expect(shutStates(thing({ states: ['open', 'shut'], kind }))).toEqual([]);
    }
    expect(handStates(thing({ states: ['open'] }))).toEqual([]);
    expect(handStates(thing())).toEqual([]);
    expect(handStates(undefined)).toEqual([]);
  });

  it('is opening and shutting of a seacock, whether or not its valve was entered', () => {
    expect(handStates(thing(undefined, 'seacock'))).toEqual(['open', 'shut']);
    expect(isShutIn(thing(undefined, 'seacock'), 'shut')).toBe(true);
    expect(isShutIn(thing(undefined, 'seacock'), undefined)).toBe(false);
    expect(canBeShut(thing(undefined, 'seacock'))).toBe(true);
    expect(canBeShut(thing(undefined, 'skinFitting'))).toBe(false);
  });

  it('is shutting it where it has a state that lets nothing through', () => {
    expect(canBeShut(thing({ states: ['along', 'across'] }))).toBe(true);
    expect(canBeShut(thing({ states: ['sea', 'fresh', 'shut'], kind: 'threeWay' }))).toBe(true);
    expect(canBeShut(thing({ states: ['sea', 'fresh'], kind: 'threeWay' }))).toBe(false);
    for (const kind of ['check', 'relief', 'needle'])
      expect(canBeShut(thing({ states: ['open', 'shut'], kind }))).toBe(false);
    expect(canBeShut(undefined)).toBe(false);
  });
});

describe('how a valve stands', () => {
  it('is as usual, else open', () => {
    expect(usualState(thing({ states: ['shut', 'open'] }))).toBe('open');
    expect(usualState(thing({ states: ['shut', 'open'], normally: 'shut' }))).toBe('shut');
    expect(openState(thing({ states: ['shut', 'open'], normally: 'shut' }))).toBe('open');
    expect(usualState(thing())).toBeNull();
  });
});

describe('combinations of states', () => {
  const valves = (count: number): Record<string, Thing> =>
    Object.fromEntries(Array.from({ length: count }, (_, k) => [`v${k}`, thing({ states: ['open', 'shut'] })]));

  it('are all there, each once, the nearest to the usual first', () => {
    const { all, isBounded } = combinationsOf(valves(3), ['v2', 'v0', 'v1']);
    expect(isBounded).toBe(false);
    expect(all[0]).toEqual({ v0: 'open', v1: 'open', v2: 'open' });
    expect(all.map((one) => Object.values(one).filter((state) => state === 'shut').length)).toEqual([
      0, 1, 1, 1, 2, 2, 2, 3,
    ]);
    expect(new Set(all.map((one) => JSON.stringify(one))).size).toBe(8);
  });

  it('of more than can be tried are those with two valves turned at most', () => {
    const ids = Object.keys(valves(13));
    expect(2 ** 13).toBeGreaterThan(MOST_COMBINATIONS);
    const { all, isBounded } = combinationsOf(valves(13), ids);
    expect(isBounded).toBe(true);
    expect(all.length).toBe(1 + 13 + (13 * 12) / 2);
  });

  it('of nothing is one', () => expect(combinationsOf({}, []).all).toEqual([{}]));
});
