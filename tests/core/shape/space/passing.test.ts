import { rotationOf, type Vec3 } from '@core/base/vec';
import { type OpeningSize, passOpening, rectangleInRectangle } from '@core/shape/space/passing';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const opening = (widthM: number, heightM: number, shape: 'rectangle' | 'round' = 'rectangle'): OpeningSize => ({
  widthM,
  heightM,
  shape,
});
const boxShape = (x: number, y: number, z: number) => ({
  type: 'box' as const,
  sizeM: [x, y, z] as [number, number, number],
});
const rod = (diameterM: number, lengthM: number) => ({
  type: 'cylinder' as const,
  diameterM,
  lengthM,
  axis: 'x' as const,
});

describe('a thing through an opening, by hand', () => {
  it('goes with its two smaller sides leading, and tells the spare', () => {
    // derived: 0.30 x 0.25 through 0.40 x 0.27: 0.27 - 0.25 is least
    const found = passOpening(boxShape(0.6, 0.3, 0.25), opening(0.4, 0.27));
    expect(found).toMatchObject({ outcome: 'passes', turnedDeg: 0 });
    expect(found.spareM).toBeCloseTo(0.02, 9);
  });
  it('does not depend on how the opening or the thing is named', () => {
    for (const shape of [boxShape(0.25, 0.6, 0.3), boxShape(0.3, 0.25, 0.6)])
      for (const o of [opening(0.4, 0.27), opening(0.27, 0.4)])
        expect(passOpening(shape, o).spareM).toBeCloseTo(0.02, 9);
  });
  it('goes turned in the plane where only that serves', () => {
    // derived: a plank 1.35 x 0.02 does not lie in 1 x 1 but fits its diagonal: p cos t + q sin t = 1 at t = 45 degrees
    // gives a plank of (1.35 + 0.02) / sqrt 2 = 0.969 across both sides.
    const found = passOpening(boxShape(1.35, 0.02, 2), opening(1, 1));
    if (found.outcome !== 'passes') throw new Error('expected a way');
    expect(found.turnedDeg).toBeCloseTo(45, 0);
    // (1.35 + s + 0.02 + s) / sqrt 2 = 1
    expect(found.spareM).toBeCloseTo((Math.SQRT2 - 1.37) / 2, 5);
  });
  it('cannot when its smallest side is greater than the smaller side of the opening', () => {
    const found = passOpening(boxShape(0.31, 0.35, 0.4), opening(0.5, 0.3));
    expect(found).toMatchObject({ outcome: 'cannot', proof: 'side' });
    expect(found.spareM).toBeCloseTo(-0.01, 9);
  });
  it('cannot when two sides exceed the diagonal', () => {
    // derived: 0.2 x 0.5: 0.04 + 0.25 = 0.29 > 0.3^2 + 0.4^2 = 0.25
    expect(passOpening(boxShape(0.2, 0.5, 0.6), opening(0.3, 0.4))).toMatchObject({
      outcome: 'cannot',
      proof: 'diagonal',
    });
  });
  it('is not told between the two', () => {
    // derived: 0.28 x 0.41 through 0.3 x 0.4: one centimetre too long, 0.0784 + 0.1681 = 0.2465 < 0.25: no proof
    const found = passOpening(boxShape(0.28, 0.41, 0.6), opening(0.3, 0.4));
    expect(found.outcome).toBe('cannotTell');
    expect(found.spareM).toBeCloseTo(-0.01, 9);
  });
  it('sends a cylinder through end first, or sideways when it is short', () => {
    const end = passOpening(rod(0.11, 1.05), opening(0.3, 0.12));
    expect(end.outcome).toBe('passes');
    expect(end.spareM).toBeCloseTo(0.01, 9);
    const disc = passOpening(rod(0.4, 0.1), opening(0.42, 0.13));
    expect(disc.outcome).toBe('passes');
    expect(disc.spareM).toBeCloseTo(0.02, 9);
  });
  it('knows round openings', () => {
    // derived: 0.12 x 0.09 has a diagonal of 0.15
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.151, 0.151, 'round')).outcome).toBe('passes');
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.15, 0.15, 'round')).spareM).toBeCloseTo(0, 9);
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.149, 0.149, 'round'))).toMatchObject({
      outcome: 'cannot',
      proof: 'diagonal',
      spareM: expect.closeTo(-0.001, 9),
    });
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.119, 0.119, 'round'))).toMatchObject({
      outcome: 'cannot',
      proof: 'side',
    });
    // An ellipse of 200 x 149: the circle within lets 150 of diagonal not pass, the circle around proves nothing.
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.2, 0.149, 'round')).outcome).toBe('cannotTell');
    expect(passOpening(boxShape(0.12, 0.09, 0.5), opening(0.2, 0.15, 'round')).outcome).toBe('passes');
    expect(passOpening(rod(0.11, 1), opening(0.112, 0.112, 'round')).spareM).toBeCloseTo(0.002, 9);
  });
});

const side = fc.double({ min: 0.05, max: 1, noNaN: true });

describe('against brute force', () => {
  it('finds a rectangle in a rectangle exactly when some of 4,000 turns fits', () => {
    fc.assert(
      fc.property(side, side, side, side, (s, t, u, v) => {
        const [p, q, a, b] = [Math.max(s, t), Math.min(s, t), Math.max(u, v), Math.min(u, v)];
        let room = Number.NEGATIVE_INFINITY;
        for (let k = 0; k <= 4000; k++) {
          const angle = (k / 4000) * (Math.PI / 2);
          const [c, n] = [Math.cos(angle), Math.sin(angle)];
          room = Math.max(room, Math.min(a - p * c - q * n, b - p * n - q * c));
        }
        if (Math.abs(room) > 1e-6) expect(rectangleInRectangle(p, q, a, b)).toBe(room > 0);
      }),
      { numRuns: 400, seed: 31 },
    );
  });
  it('never proves impossible what some turn would let through: central sections of 300 turns are all too large', () => {
    fc.assert(
      fc.property(side, side, side, side, side, fc.integer({ min: 0, max: 1e6 }), (x, y, z, w, h, start) => {
        const found = passOpening(boxShape(x, y, z), opening(w, h));
        const fits = turns(start).some((axes) => {
          const section = centralSection([x, y, z], axes);
          const extent = (k: 0 | 1): number =>
            Math.max(...section.map((p) => p[k])) - Math.min(...section.map((p) => p[k]));
          return extent(0) <= w && extent(1) <= h;
        });
        if (found.outcome === 'cannot') expect(fits).toBe(false);
      }),
      { numRuns: 150, seed: 32 },
    );
  });
  it('tells the spare by which both sides of some pair may grow, and of none by more', () => {
    fc.assert(
      fc.property(side, side, side, side, side, (x, y, z, w, h) => {
        const found = passOpening(boxShape(x, y, z), opening(w, h));
        if (found.outcome !== 'passes') return;
        const pairs = [
          [x, y],
          [y, z],
          [z, x],
        ] as const;
        const grown = (s: number) =>
          pairs.some(([p, q]) =>
            rectangleInRectangle(Math.max(p, q) + s, Math.min(p, q) + s, Math.max(w, h), Math.min(w, h)),
          );
        expect(grown(found.spareM - 2e-6)).toBe(true);
        expect(grown(found.spareM + 2e-6)).toBe(false);
      }),
      { numRuns: 300, seed: 33 },
    );
  });
});

/** 300 turns from a counted sequence. */
const turns = (start: number) =>
  Array.from({ length: 300 }, (_, i) => {
    const n = start + i;
    return rotationOf({ yawDeg: (n * 137.50776) % 360, pitchDeg: (n * 61.8034) % 180, rollDeg: (n * 97.1352) % 360 });
  });

/** Corners of the section of a box about the origin by the plane x = 0, as [y, z]. */
function centralSection(
  size: readonly [number, number, number],
  axes: readonly [Vec3, Vec3, Vec3],
): [number, number][] {
  const corner = (i: number): Vec3 => {
    const k = [0, 1, 2].map((m) => (i & (1 << m) ? 0.5 : -0.5) * (size[m] as number));
    return [0, 1, 2].map((m) =>
      k.reduce((s, value, n) => s + value * ((axes[n] as Vec3)[m] as number), 0),
    ) as unknown as Vec3;
  };
  const out: [number, number][] = [];
  for (let i = 0; i < 8; i++)
    for (let m = 0; m < 3; m++) {
      if (i & (1 << m)) continue;
      const [p, q] = [corner(i), corner(i | (1 << m))];
      if (p[0] * q[0] > 0) continue;
      const t = p[0] === q[0] ? 0 : p[0] / (p[0] - q[0]);
      out.push([p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t]);
    }
  return out;
}
