import type { Opening } from '@core/boat/schema/boat';
import { PLAN, PROFILE } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import { describe, expect, it } from 'vitest';

/** A door 0.5 wide and 0.8 high in a bulkhead at x = 3, seen from forward of it. */
const door: Opening = {
  name: 'door',
  compartment: 'heads',
  to: 'saloon',
  at: [3, 0.2, 0.4],
  normal: [1, 0, 0],
  widthM: 0.5,
  heightM: 0.8,
  shape: 'rectangle',
  how: 'hinged',
  swing: { hingeAlong: 'left', angleDeg: 90 },
  moveFirst: [],
  grade: 'measured',
};
const points = (id: string, opening: Opening, frame = PLAN) => {
  const line = openingLines('d', opening, frame).find((p) => p.id === id);
  return line?.kind === 'stroke' ? line.points : [];
};

describe('an opening on paper', () => {
  it('is its clear width edge on in plan, its height in profile', () => {
    // derived: y from 0.2 - 0.25 to 0.2 + 0.25 at x = 3; z from 0 to 0.8
    const rim = points('d/rim', door);
    expect(rim.every(([x]) => Math.abs(x - 3) < 1e-12)).toBe(true);
    expect(Math.min(...rim.map((p) => p[1]))).toBeCloseTo(-0.05, 12);
    expect(Math.max(...rim.map((p) => p[1]))).toBeCloseTo(0.45, 12);
    const side = points('d/rim', door, PROFILE);
    expect(Math.max(...side.map((p) => p[1])) - Math.min(...side.map((p) => p[1]))).toBeCloseTo(0.8, 12);
  });

  it('swings its leaf outwards by its angle, about the hinge on the left of who looks in', () => {
    // derived: looking aft from forward, left is starboard: the hinge is at y = -0.05; a quarter turn stands along x
    const [hinge, free] = points('d/leaf', door);
    expect(hinge?.[0]).toBeCloseTo(3, 12);
    expect(hinge?.[1]).toBeCloseTo(-0.05, 12);
    expect(free?.[0]).toBeCloseTo(3.5, 12);
    expect(free?.[1]).toBeCloseTo(-0.05, 12);
    const arc = points('d/arc', door);
    expect(arc[0]?.[1]).toBeCloseTo(0.45, 12);
    for (const [x, y] of arc) expect(Math.hypot(x - 3, y + 0.05)).toBeCloseTo(0.5, 12);
  });

  it('has no leaf when it lifts out', () => {
    expect(openingLines('d', { ...door, how: 'liftOut' }, PLAN)).toHaveLength(1);
  });
});
