import { expect, it } from 'vitest';
import { compared } from './graph-search';

/**
 * Derived: ngraph.path's A* with the straight distance as its guide gives the cheapest way of a graph. The search looks ahead more
 * boldly, by 1.15 of the way left: it may be dearer by that and no more, and never cheaper.
 */
it.each([1])('finds ways of scene %i that cost as much as those of a library for shortest paths', (seed) => {
  const lines = compared(seed);
  expect(lines.length).toBeGreaterThan(2);
  for (const { what, ours, theirs } of lines) {
    expect(theirs, what).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(ours, what).toBeGreaterThanOrEqual(theirs - 1e-9);
    expect(ours, what).toBeLessThanOrEqual(1.15 * theirs);
  }
});
