import { compartmentVolume } from '@core/shape/layout/room';
import { describe, expect, it } from 'vitest';
import { vHull } from '../space/scenes';
import { boxIn, layoutOf } from './boats';

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
