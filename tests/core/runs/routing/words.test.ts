import type { Vec3 } from '@core/base/vec';
import { wordsBetween } from '@core/runs/routing/words';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { dubins } from '../../../support/dubins-oracle';
import { angleBetween, gap, minus, type P3 } from '../../../support/geometry-oracle';

/** Length of the filleted polygon, and whether all bends fit: derived from the corners alone. */
function filleted(points: readonly P3[], radius: number): { readonly length: number; readonly missing: number } {
  let length = 0;
  let missing = 0;
  let taken = 0;
  for (let k = 0; k + 1 < points.length; k++) {
    const [p, q, next] = [points[k] as P3, points[k + 1] as P3, points[k + 2]];
    const edge = gap(p, q);
    const isPoint = edge < 1e-9 || !next || gap(q, next) < 1e-9;
    const turn = isPoint ? 0 : angleBetween(minus(q, p), minus(next as P3, q));
    const tangent = radius * Math.tan(turn / 2);
    length += edge - 2 * tangent + radius * turn;
    missing = Math.max(missing, taken + tangent - edge);
    taken = tangent;
  }
  return { length, missing };
}

describe('words between two poses', () => {
  it('are as short as the closed forms, and their corners make them (Dubins 1957; derived)', () => {
    const d = dice(9);
    for (let n = 0; n < 400; n++) {
      const [a, b, apart] = [d.from(0, 2 * Math.PI), d.from(0, 2 * Math.PI), d.from(1, 8)];
      const radius = d.from(0.02, 0.3);
      const tilt = d.from(0, Math.PI);
      const inSpace = (x: number, y: number): Vec3 => [x, y * Math.cos(tilt), y * Math.sin(tilt)];
      const [t0, t1] = [inSpace(Math.cos(a), Math.sin(a)), inSpace(Math.cos(b), Math.sin(b))];
      const end = inSpace(apart * radius, 0);
      const words = wordsBetween({ at: [0, 0, 0], direction: t0 }, { at: end, direction: t1 }, radius);
      expect(words[0]?.lengthM).toBeCloseTo(dubins(a, b, apart).length * radius, 6);
      for (const { lengthM, firstM, lastM, corners } of words) {
        const on = (p: P3, t: P3, k: number): P3 => [p[0] + t[0] * k, p[1] + t[1] * k, p[2] + t[2] * k];
        const points = [[0, 0, 0], on([0, 0, 0], t0, firstM), ...corners, on(end, t1, -lastM), end] as P3[];
        const distinct = points.filter((p, k) => k === 0 || gap(p, points[k - 1] as P3) > 1e-9);
        const { length, missing } = filleted(distinct, radius);
        expect(length).toBeCloseTo(lengthM, 5);
        expect(missing).toBeLessThan(1e-5);
      }
    }
  });

  it('lead straight from one to the other where they face each other (derived)', () => {
    const [word] = wordsBetween({ at: [0, 0, 0], direction: [1, 0, 0] }, { at: [2, 0, 0], direction: [1, 0, 0] }, 0.1);
    expect(word).toMatchObject({ firstM: 0, lastM: 0, corners: [] });
    expect(word?.lengthM).toBeCloseTo(2, 12);
  });
});
