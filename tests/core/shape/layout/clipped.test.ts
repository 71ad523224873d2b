import type { Vec2 } from '@core/base/vec';
import type { HullSurface } from '@core/shape/hull/types';
import { clippedOutline, compartmentVolume, hullCut } from '@core/shape/layout/clipped';
import { areaOf } from '@core/shape/layout/polygon';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from './boats';

/**
 * A wedge of a hull in closed form: straight V sections of half-breadth 1.5 m at the sheer z = 1 and keel at z = -0.5, the
 * breadth growing with the square root of nothing: constant over 0 <= x <= 8.
 */
const vHull = (insetM = 0): HullSurface => ({
  aftM: 0,
  forwardM: 8,
  insetM,
  offsetM: 0,
  halfBreadthAt: (_x, z) => (z < -0.5 || z > 1 ? 0 : z + 0.5),
  keelAt: () => -0.5,
  sheerAt: () => 1,
  sectionAt: () => [
    [1.5, 1],
    [0, -0.5],
    [-1.5, 1],
  ],
  waterlineAt: (z) => [
    [0, z + 0.5],
    [8, z + 0.5],
  ],
  buttockAt: (y) => [
    [0, Math.abs(y) - 0.5],
    [8, Math.abs(y) - 0.5],
  ],
  contains: () => true,
  clearance: () => 0,
  vertices: new Float64Array(),
  triangles: new Uint32Array(),
});

const areaSum = (rings: readonly (readonly Vec2[])[]): number => rings.reduce((s, r) => s + areaOf(r), 0);

describe('room of a compartment inside the hull', () => {
  // derived: box 2 m long, y 0..1, z -0.5..0.5. The skin y = z + 0.5 takes the triangle above it: room is half, 1 m3.
  const boat = layoutOf({
    a: boxIn('section', [1, 0, -0.5], [3, 1, 0.5]),
    s: boxIn('plan', [1, -1, -0.5], [3, 0, 0.5]),
  });

  it('is the part of the prism inside the skin', () => {
    const room = compartmentVolume(boat, vHull(), 'a');
    expect(room.volumeM3).toBeCloseTo(1, 9);
    // derived: centroid of the triangle (0,-0.5), (1,0.5), (0,0.5)
    expect(room.centre?.map((v) => Math.round(v * 1e6) / 1e6)).toEqual([2, 0.333333, 0.166667]);
    expect(room.high[1]).toBeCloseTo(1, 9);
  });

  it('is the same to port and to starboard', () => {
    const [port, starboard] = ['a', 's'].map((id) => compartmentVolume(boat, vHull(0.03), id));
    expect(starboard?.volumeM3).toBeCloseTo(port?.volumeM3 as number, 12);
    expect(starboard?.centre?.[1]).toBeCloseTo(-(port?.centre?.[1] as number), 12);
  });

  it('loses the inset along the skin', () => {
    // derived: moving the 45 degree side in by 0.03 m lifts it by 0.03 sqrt 2: the triangle's legs shrink by that.
    const leg = 1 - 0.03 * Math.SQRT2;
    expect(compartmentVolume(boat, vHull(0.03), 'a').volumeM3).toBeCloseTo(leg * leg, 5);
  });

  it('counts nothing beyond the ends and goes on upright above the sheer', () => {
    const far = layoutOf({ a: boxIn('plan', [7, 0, 0], [9, 3, 2]) });
    // derived: 1 m of length; below the sheer y < z + 0.5 gives 1 m2, above it 1.5 x 1 m2.
    expect(compartmentVolume(far, vHull(), 'a').volumeM3).toBeCloseTo(2.5, 9);
  });

  it('without a hull is the prism itself', () => {
    expect(compartmentVolume(boat, null, 'a').volumeM3).toBeCloseTo(2, 9);
  });
});

describe('outline of a compartment in a view', () => {
  const boat = layoutOf({ a: boxIn('profile', [1, -2, -1], [3, 2, 0.5]) });
  it('is cut by the hull in plan, profile and section', () => {
    // derived: at z = 0 the hull is 1 m wide and the box 2 m long; at y = 0.5 it reaches from z = 0 to 0.5;
    // the section is the V from -0.5 to 0.5, 1 m high and 2 m wide at the top.
    expect(areaSum(clippedOutline(boat, vHull(), 'a', 'plan', 0))).toBeCloseTo(2, 6);
    expect(areaSum(clippedOutline(boat, vHull(), 'a', 'profile', 0.5))).toBeCloseTo(1, 6);
    expect(areaSum(clippedOutline(boat, vHull(), 'a', 'section', 2))).toBeCloseTo(1, 6);
  });
  it('shows one ring without seams for a compartment of several pieces', () => {
    const l: [number, number][] = [
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ];
    const layout = layoutOf({ l: { ...boxIn('plan', [0, 0, 0], [1, 1, 1]), outline: l } });
    const rings = clippedOutline(layout, null, 'l', 'plan');
    expect(layout.cells.length).toBe(2);
    expect(rings.length).toBe(1);
    expect(areaSum(rings)).toBeCloseTo(3, 9);
  });
  it('is empty where the plane misses it', () => {
    expect(clippedOutline(boat, vHull(), 'a', 'section', 5)).toEqual([]);
    expect(hullCut(vHull(), 'section', 2).length).toBe(1);
  });
});
