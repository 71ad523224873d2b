import { expect, it } from 'vitest';
import { compared } from './graph-search';

/**
 * Derived: ngraph.path's A* with the straight distance as its guide gives the cheapest way of a graph; the search without a guide
 * must cost the same. A look ahead trades cost for time: by 1.15 of the way left at most, so by no more can a way be dearer.
 */
it.each([1])('finds ways of scene %i that cost as much as those of a library for shortest paths', (seed) => {
  const lines = compared(seed);
  expect(lines.length).toBeGreaterThan(2);
  for (const { what, ours, theirs, deep, bold } of lines) {
    expect(theirs, what).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(ours, what).toBeCloseTo(theirs, 9);
    for (const guided of [deep, bold]) {
      expect(guided, what).toBeGreaterThanOrEqual(theirs - 1e-9);
      expect(guided, what).toBeLessThanOrEqual(1.15 * theirs);
    }
  }
});
