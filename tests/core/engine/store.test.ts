import { type ComputedStage, type InputStage, identical, Store } from '@core/engine/store';
import { describe, expect, it } from 'vitest';

interface Numbers {
  readonly [name: string]: number;
}

const number: InputStage<Numbers, number> = { id: 'number', select: (all, key) => all[key] ?? 0, same: identical };
const isEven: ComputedStage<boolean> = {
  id: 'isEven',
  compute: (key, read) => read(number, key) % 2 === 0,
  same: identical,
};
const verdict: ComputedStage<string> = {
  id: 'verdict',
  compute: (_, read) => (read(isEven, 'a') ? `b is ${read(number, 'b')}` : 'a is odd'),
  same: identical,
};

const countsOf = (store: Store<Numbers>) => Object.fromEntries(store.computed());

describe('a store of keyed stages', () => {
  it('computes what is asked for, once', () => {
    const store = new Store<Numbers>({ a: 2, b: 5 });
    expect(store.read(verdict)).toBe('b is 5');
    expect(store.read(verdict)).toBe('b is 5');
    expect(countsOf(store)).toEqual({ isEven: 1, verdict: 1 });
  });

  it('computes again only what reads a value that changed', () => {
    const store = new Store<Numbers>({ a: 2, b: 5 });
    store.read(verdict);
    store.set({ a: 2, b: 6 });
    expect(store.read(verdict)).toBe('b is 6');
    expect(countsOf(store)).toEqual({ isEven: 1, verdict: 2 });
  });

  it('stops where a value comes out the same', () => {
    const store = new Store<Numbers>({ a: 2, b: 5 });
    store.read(verdict);
    store.set({ a: 4, b: 5 });
    store.read(verdict);
    expect(countsOf(store)).toEqual({ isEven: 2, verdict: 1 });
  });

  it('forgets reads that were not made again', () => {
    const store = new Store<Numbers>({ a: 2, b: 5 });
    store.read(verdict);
    store.set({ a: 3, b: 5 });
    expect(store.read(verdict)).toBe('a is odd');
    store.set({ a: 3, b: 9 });
    store.read(verdict);
    expect(countsOf(store).verdict).toBe(2);
  });

  it('costs nothing when a value changes and changes back, even when it was looked at in between', () => {
    const chosen: ComputedStage<number> = {
      id: 'chosen',
      compute: (_, read) => read(number, 'b') * 10,
      same: identical,
    };
    const store = new Store<Numbers>({ a: 2, b: 5 });
    store.read(chosen);
    store.set({ a: 2, b: 6 });
    store.read(number, 'b');
    store.set({ a: 2, b: 5 });
    expect(store.read(chosen)).toBe(50);
    expect(countsOf(store).chosen).toBe(1);
  });

  it('keeps the old object when the new one is the same', () => {
    const pair: ComputedStage<readonly number[]> = {
      id: 'pair',
      compute: (_, read) => [read(number, 'a'), Math.sign(read(number, 'b'))],
      same: (a, b) => a.join() === b.join(),
    };
    const store = new Store<Numbers>({ a: 1, b: 5 });
    const before = store.read(pair);
    store.set({ a: 1, b: 7 });
    expect(store.read(pair)).toBe(before);
    store.set({ a: 2, b: 7 });
    expect(store.read(pair)).not.toBe(before);
  });

  it('keeps nothing of a computation that throws', () => {
    const careful: ComputedStage<number> = {
      id: 'careful',
      compute: (_, read) => {
        if (read(number, 'a') < 0) throw new Error('negative');
        return read(number, 'a');
      },
      same: identical,
    };
    const store = new Store<Numbers>({ a: -1 });
    expect(() => store.read(careful)).toThrow('negative');
    store.set({ a: 3 });
    expect(store.read(careful)).toBe(3);
  });

  it('refuses a stage that reads itself', () => {
    const circle: ComputedStage<number> = { id: 'circle', compute: (_, read) => read(circle), same: identical };
    expect(() => new Store<Numbers>({}).read(circle)).toThrow('reads itself');
  });

  it('forgets nodes that the present answer does not touch', () => {
    const store = new Store<Numbers>({ a: 1 });
    store.read(isEven, 'a');
    store.sweep();
    for (let key = 0; key < 20; key++) store.read(isEven, `x${key}`);
    store.set({ a: 2 });
    store.read(isEven, 'a');
    store.sweep();
    expect(store.size).toBe(2);
  });

  it('forked, begins with what is known; from then on neither learns of the other', () => {
    const store = new Store<Numbers>({ a: 2, b: 5 });
    store.read(verdict);
    const twin = store.fork();
    expect(twin.read(verdict)).toBe('b is 5');
    expect(countsOf(twin)).toEqual({});
    twin.set({ a: 2, b: 7 });
    store.set({ a: 3, b: 5 });
    expect([twin.read(verdict), store.read(verdict)]).toEqual(['b is 7', 'a is odd']);
    twin.setFew({ a: 2, b: 9 }, [[number, 'b']]);
    expect([twin.read(verdict), store.read(verdict)]).toEqual(['b is 9', 'a is odd']);
    expect(countsOf(twin)).toEqual({ verdict: 2 });
  });
});
