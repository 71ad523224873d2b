import { straightFrom } from '@core/runs/end-straight';
import type { Prim } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';

/** 100 mm forward, a quarter of radius 100 to port, 50 mm to port, in two pieces. */
const RUN: readonly Prim[] = [
  { kind: 'line', from: [0, 0, 0], to: [0.1, 0, 0] },
  { kind: 'arc', centre: [0.1, 0.1, 0], radius: 0.1, from: [0.1, 0, 0], to: [0.2, 0.1, 0], normal: [0, 0, 1] },
  { kind: 'line', from: [0.2, 0.1, 0], to: [0.2, 0.12, 0] },
  { kind: 'line', from: [0.2, 0.12, 0], to: [0.2, 0.15, 0] },
];

describe('the straight at an end', () => {
  it('goes as far as the first bend, from either end', () => {
    expect(straightFrom(RUN, 'from')).toBeCloseTo(0.1, 12);
    expect(straightFrom(RUN, 'to')).toBeCloseTo(0.05, 12);
  });

  it('is the whole of a run that never bends, and nothing of one that begins bent', () => {
    expect(straightFrom(RUN.slice(2), 'from')).toBeCloseTo(0.05, 12);
    expect(straightFrom(RUN.slice(1), 'from')).toBe(0);
  });
});
