import { expect, it } from 'vitest';
import { type Compared, compared } from './graph-search';

/** Derived, as in graph-search.test.ts: twenty scenes, what looking ahead costs, and how long both take. */
const SCENES = Array.from({ length: 20 }, (_, k) => 1 + k);

it('finds ways of 20 scenes that cost as much as those of a library for shortest paths', () => {
  const lines: Compared[] = SCENES.flatMap(compared);
  const sum = (pick: (one: Compared) => number): number => lines.reduce((total, one) => total + pick(one), 0);
  const dearer = (pick: (one: Compared) => number) => {
    const over = lines.map((one) => (pick(one) === one.theirs ? 0 : pick(one) / one.theirs - 1)).sort((a, b) => a - b);
    return {
      equal: over.filter((one) => one < 1e-9).length,
      p95: over[Math.floor(0.95 * over.length)],
      most: over.at(-1),
    };
  };
  console.log(
    JSON.stringify({
      lines: lines.length,
      deepDearer: dearer((one) => one.deep),
      boldDearer: dearer((one) => one.bold),
      deepTimeOverTheirs: sum((one) => one.oursMs) / sum((one) => one.theirsMs),
    }),
  );
  expect(lines.length).toBeGreaterThan(60);
  for (const { what, ours, theirs, deep, bold } of lines) {
    const same = ours === theirs || Math.abs(ours - theirs) < 1e-9;
    expect(same, `${what}: ${ours} beside ${theirs}`).toBe(true);
    for (const guided of [deep, bold])
      expect(guided === theirs || (guided >= theirs - 1e-9 && guided <= 1.15 * theirs), what).toBe(true);
  }
});
