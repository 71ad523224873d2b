import { seatOn } from '@core/assess/access/seat';
import type { MountingSurface, Shape } from '@core/boat/schema/boat';
import { describe, expect, it } from 'vitest';

const BOX: Shape = { type: 'box', sizeM: [0.5, 0.3, 0.2] };
const SIDE: MountingSurface = {
  compartment: 'locker',
  at: [1, 1, 0],
  normal: [0, -1, 0],
  widthM: 0.6,
  heightM: 0.4,
  material: 'ply',
  thicknessM: 0.018,
  behind: 'air',
};
const SHELF: MountingSurface = { ...SIDE, at: [1, 0.5, -0.2], normal: [0, 0, 1], widthM: 0.4, heightM: 0.6 };
const LEVEL = { yawDeg: 0, pitchDeg: 0, rollDeg: 0 };

describe('how a part lies on a surface', () => {
  it('is measured from the face that is screwed on', () => {
    // Derived: the port side of the box is 150 mm from its middle, and 30 mm short of the surface.
    const seat = seatOn(BOX, { at: [1.1, 0.82, 0.05], ...LEVEL }, '+y', SIDE);
    expect(seat.gapM).toBeCloseTo(0.03, 12);
    expect(seat.aslantDeg).toBeCloseTo(0, 9);
    // 100 mm off the middle and 250 mm to its end, 300 mm to the edge; upward 50 and 100 within 200
    expect(seat.overhangM).toBeCloseTo(0.05, 12);
    expect(seat.at[1]).toBeCloseTo(0.97, 12);
  });

  it('takes the face that looks at it where none is named, and follows a turn of the part', () => {
    // Derived: turned by a quarter the forward end looks to port.
    const seat = seatOn(BOX, { at: [1, 0.7, 0], ...LEVEL, yawDeg: 90 }, undefined, SIDE);
    expect(seat.gapM).toBeCloseTo(0.05, 12);
    expect(seat.halfM[0]).toBeCloseTo(0.15, 12);
    expect(seatOn(BOX, { at: [1, 0.7, 0], ...LEVEL, yawDeg: 10 }, '+y', SIDE).aslantDeg).toBeCloseTo(10, 9);
    expect(seatOn(BOX, { at: [1, 0.7, 0], ...LEVEL }, '-y', SIDE).aslantDeg).toBeCloseTo(180, 9);
  });

  it('lets the width of a shelf lie either way', () => {
    const on = (widthM: number, heightM: number) =>
      seatOn(BOX, { at: [1, 0.5, -0.1], ...LEVEL }, '-z', { ...SHELF, widthM, heightM });
    expect(on(0.4, 0.6).overhangM).toBeCloseTo(on(0.6, 0.4).overhangM, 12);
    expect(on(0.4, 0.6).overhangM).toBeCloseTo(-0.05, 12);
    expect(on(0.4, 0.6).gapM).toBeCloseTo(0, 12);
  });

  it('takes the box about something round', () => {
    const seat = seatOn(
      { type: 'cylinder', diameterM: 0.08, lengthM: 0.5, axis: 'x' },
      { at: [1, 0.96, 0], ...LEVEL },
      '+y',
      SIDE,
    );
    expect(seat.gapM).toBeCloseTo(0, 12);
    expect(seat.halfM[0]).toBeCloseTo(0.25, 12);
    expect(seat.halfM[1]).toBeCloseTo(0.04, 12);
  });
});
