import { expect, it } from 'vitest';
import { type Compared, compared } from './graph-search';

/** Derived, as in graph-search.test.ts: twenty scenes, and how long both take. */
const SCENES = Array.from({ length: 20 }, (_, k) => 1 + k);

it('finds ways of 20 scenes that cost as much as those of a library for shortest paths', () => {
  const lines: Compared[] = SCENES.flatMap(compared);
  const sum = (pick: (one: Compared) => number): number => lines.reduce((total, one) => total + pick(one), 0);
  const over = lines.map((one) => (one.ours === one.theirs ? 0 : one.ours / one.theirs - 1)).sort((a, b) => a - b);
  console.log(
    JSON.stringify({
      lines: lines.length,
      equal: over.filter((one) => one < 1e-9).length,
      overP50: over[over.length >> 1],
      overP95: over[Math.floor(0.95 * over.length)],
      overMost: over.at(-1),
      timeRatio: sum((one) => one.oursMs) / sum((one) => one.theirsMs),
    }),
  );
  expect(lines.length).toBeGreaterThan(60);
  for (const { what, ours, theirs } of lines) {
    expect(ours === theirs || ours >= theirs - 1e-9, what).toBe(true);
    expect(ours === theirs || ours <= 1.15 * theirs, what).toBe(true);
  }
});
