import { describe, expect, it } from 'vitest';
import { dice } from '../support/dice';
import { DUBINS_WORDS, dubins, dubinsEnd, dubinsWord } from '../support/dubins-oracle';
import { type PoseResult, poses, quantile } from './dubins-poses';

describe('the reference: six words in closed form (Dubins 1957; Shkel and Lumelsky 2001)', () => {
  it('ends each word where it should', () => {
    const d = dice(3);
    let drawn = 0;
    for (let n = 0; n < 2000; n++) {
      const [a, b, apart] = [d.from(0, 2 * Math.PI), d.from(0, 2 * Math.PI), d.from(0.2, 8)];
      for (const word of DUBINS_WORDS) {
        const pieces = dubinsWord(word, a, b, apart);
        if (!pieces) continue;
        drawn += 1;
        const [x, y, h] = dubinsEnd(word, pieces, a);
        expect(Math.hypot(x - apart, y)).toBeLessThan(1e-9);
        expect(Math.abs(Math.sin((h - b) / 2))).toBeLessThan(1e-9);
      }
    }
    expect(drawn).toBeGreaterThan(8000);
  });

  it('knows the plain cases (derived)', () => {
    // Straight ahead.
    expect(dubins(0, 0, 3).length).toBeCloseTo(3, 12);
    // To the left and back on the same circle: half a turn, 2 radii across.
    expect(dubins(Math.PI / 2, -Math.PI / 2, 2).length).toBeCloseTo(Math.PI, 12);
  });
});

// Derived: the reference is the closed form. A curve that leaves the plane may be shorter than the plane word.
describe('runs in an empty hall, against Dubins words', () => {
  const results = poses(5, 200);

  it.each(DUBINS_WORDS)(
    'are found for 200 poses of %s: within 2 %% of it for 95 of 100, within 5 %% for all',
    (word) => {
      const some = results.filter((one) => one.word === word);
      expect(some).toHaveLength(200);
      expect(some.filter((one) => one.routed === null)).toEqual([]);
      expect(quantile(some, 0.95)).toBeLessThan(0.02);
      expect(quantile(some, 1)).toBeLessThan(0.05);
    },
  );

  it('are smooth curves of that radius, straight at both ends and as long as they say', () => {
    expect(results.flatMap((one) => one.faults)).toEqual([]);
  });

  it('are never shorter than the certified bound, nor is the plane word', () => {
    const above = (one: PoseResult): boolean =>
      Math.max(one.bound, one.plain) > Math.min(one.plane, one.routed ?? Number.POSITIVE_INFINITY);
    expect(results.filter(above)).toEqual([]);
  });

  it('are bounded closely where a word is arc, straight, arc of less than half a turn', () => {
    // Derived: the bound's inequality is an equality for such words.
    const slack = results.filter((one) => one.word.includes('S')).map((one) => one.plane / one.bound - 1);
    expect(slack.filter((one) => one < 0.001).length).toBeGreaterThan(slack.length / 4);
  });
});
