import { bundles, type LaidCable } from '@core/assess/power/bundles';
import type { Prim } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';

const straight = (from: readonly [number, number, number], to: readonly [number, number, number]): Prim => ({
  kind: 'line',
  from,
  to,
});
const cable = (id: string, y: number, fromX: number, toX: number, more: Partial<LaidCable> = {}): LaidCable => ({
  id,
  conductors: 2,
  radiusM: 0.006,
  bundle: null,
  prims: [straight([fromX, y, 0], [toX, y, 0])],
  ...more,
});
const counted = (cables: readonly LaidCable[]) =>
  Object.fromEntries([...bundles(cables)].map(([id, { conductors }]) => [id, conductors]));

/** 10 mm and 24 in (0.61 m) are common practice without a source; the counts are conductors added by hand. */
describe('cables in one bundle', () => {
  it('lie within 10 mm of one another, sheath to sheath, over more than 0.61 m', () => {
    // 12 mm from middle to middle touch; 21 mm leave 9 mm
    expect(counted([cable('a', 0, 0, 3), cable('b', 0.021, 0, 3)])).toEqual({ a: 4, b: 4 });
    expect(counted([cable('a', 0, 0, 3), cable('b', 0.03, 0, 3)])).toEqual({ a: 2, b: 2 });
    expect(counted([cable('a', 0, 0, 3), cable('b', 0.02, 2.5, 5)])).toEqual({ a: 2, b: 2 });
    expect(counted([cable('a', 0, 0, 3), cable('b', 0.02, 2.3, 5)])).toEqual({ a: 4, b: 4 });
  });

  it('count together only where they lie together', () => {
    // b beside the first half of a, c beside the second
    const [a, b, c] = [cable('a', 0, 0, 4), cable('b', 0.02, 0, 2), cable('c', 0.02, 2, 4)];
    expect(counted([a, b, c])).toMatchObject({ a: 4 });
    expect(counted([a, cable('b', 0.02, 0, 4), cable('c', -0.02, 0, 4)])).toEqual({ a: 6, b: 4, c: 4 });
  });

  it('are those of one word where it is given, wherever they lie', () => {
    const loom = { bundle: 'loom' };
    expect(
      counted([cable('a', 0, 0, 3, loom), cable('b', 1, 0, 3, { ...loom, conductors: 1 }), cable('c', 0.02, 0, 3)]),
    ).toEqual({ a: 3, b: 3, c: 2 });
  });
});
