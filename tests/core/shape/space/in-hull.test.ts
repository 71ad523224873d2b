import type { Vec3 } from '@core/base/vec';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { compartmentVolume } from '@core/shape/layout/room';
import { freeDepth } from '@core/shape/space/free-depth';
import { overlapWithHull } from '@core/shape/space/overlap';
import type { Solid } from '@core/shape/space/solids';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { box as boxHull, wigley, wineglass } from '../../../support/hull-shapes';
import { boxIn, layoutOf } from '../layout/boats';
import { box, cylinder, flip, mirroredSolid } from './scenes';

const hollow = hullSurface({ ...wineglass(), shellM: 0.012, liningM: 0.02 });
const number = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
const inTheHull = fc.tuple(number(2, 8), number(-1.2, 1.2), number(-0.6, 0.8));
const everywhere = layoutOf({ all: boxIn('plan', [-2, -5, -5], [20, 5, 5]) });

/** Points spread over the surface of a solid, by the definition of its shape. */
function surfacePoints(s: Solid, n: number): Vec3[] {
  const out: Vec3[] = [];
  const mix = (o: Vec3, ...terms: (readonly [Vec3, number])[]): Vec3 =>
    terms.reduce<Vec3>((p, [v, k]) => [p[0] + v[0] * k, p[1] + v[1] * k, p[2] + v[2] * k], o);
  if (s.type === 'box') {
    const steps = Array.from({ length: n + 1 }, (_, i) => (2 * i) / n - 1);
    for (const k of [0, 1, 2] as const)
      for (const sign of [-1, 1])
        for (const a of steps)
          for (const b of steps) {
            const [i, j] = [((k + 1) % 3) as 0 | 1 | 2, ((k + 2) % 3) as 0 | 1 | 2];
            out.push(
              mix(s.centre, [s.axes[k], sign * s.half[k]], [s.axes[i], a * s.half[i]], [s.axes[j], b * s.half[j]]),
            );
          }
    return out;
  }
  const span: Vec3 = [s.to[0] - s.from[0], s.to[1] - s.from[1], s.to[2] - s.from[2]];
  const length = Math.hypot(...span);
  const w: Vec3 = [span[0] / length, span[1] / length, span[2] / length];
  const other: Vec3 = Math.abs(w[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0];
  const d = other[0] * w[0] + other[1] * w[1] + other[2] * w[2];
  const flat = mix(other, [w, -d]);
  const u = mix([0, 0, 0], [flat, 1 / Math.hypot(...flat)]);
  const v: Vec3 = [w[1] * u[2] - w[2] * u[1], w[2] * u[0] - w[0] * u[2], w[0] * u[1] - w[1] * u[0]];
  for (let k = 0; k < 4 * n; k++) {
    const angle = (Math.PI * k) / (2 * n);
    for (let i = 0; i <= n; i++)
      out.push(mix(s.from, [span, i / n], [u, s.radius * Math.cos(angle)], [v, s.radius * Math.sin(angle)]));
  }
  return out;
}

describe('a solid in a hull with hollow sections', () => {
  const solids = fc.oneof(
    fc
      .tuple(inTheHull, number(0.1, 0.8), number(0.1, 0.5), number(-180, 180), number(-60, 60))
      .map(([c, a, b, yawDeg, rollDeg]) => box('s', c, [a, b, 0.3], { yawDeg, rollDeg })),
    fc
      .tuple(inTheHull, number(-0.5, 0.5), number(-0.3, 0.3), number(0.03, 0.2))
      .map(([c, dx, dz, r]) => cylinder('s', c, [c[0] + dx, c[1] + 0.2, c[2] + dz], r)),
  );
  it('is as deep outside as its deepest sampled point, and hardly deeper', () => {
    fc.assert(
      fc.property(solids, (solid) => {
        const found = overlapWithHull(solid, hollow);
        const free = Math.min(...surfacePoints(solid, 12).map((p) => hollow.clearance(p, p, 1)));
        if (free < -1e-3) {
          expect(found).not.toBeNull();
          // Samples of this test are up to 67 mm apart: at a corner they find the depth, on a round side a little less.
          expect(found?.depthM as number).toBeGreaterThan(-free - 2e-3);
          expect(found?.depthM as number).toBeLessThan(-free + 1e-2);
          const at = found?.at as Vec3;
          expect(hollow.clearance(at, at, 1)).toBeCloseTo(-(found?.depthM as number), 9);
        } else if (free > 2e-2) expect(found).toBeNull();
      }),
      { numRuns: 40, seed: 51 },
    );
  });
  it('is the same on the other side', () => {
    fc.assert(
      fc.property(solids, (solid) => {
        const [one, other] = [overlapWithHull(solid, hollow), overlapWithHull(mirroredSolid(solid), hollow)];
        expect(other?.depthM ?? 0).toBeCloseTo(one?.depthM ?? 0, 3);
      }),
      { numRuns: 40, seed: 52 },
    );
  });
});

describe('free depth down to the hull', () => {
  it('is the least depth of sampled rays, at the outline of the face in a rounded hull', () => {
    const round = hullSurface({ ...wigley(9, 3, 0.6, 21, 15, 0.8), shellM: 0.01, liningM: 0.02 });
    fc.assert(
      fc.property(number(3, 6), number(-0.8, 0.8), number(0.05, 0.3), number(0.05, 0.3), (x, y, a, b) => {
        const at: Vec3 = [x, y, 0.5];
        const face = {
          at,
          direction: [0, 0, -1] as Vec3,
          across: [1, 0, 0] as Vec3,
          sizeM: [a, b] as const,
          round: false,
        };
        const found = freeDepth(face, 2, { layout: everywhere, hull: round, solids: [] });
        let least = 2;
        for (let i = 0; i <= 8; i++)
          for (let j = 0; j <= 8; j++) {
            const p: [number, number] = [x + a * (i / 8 - 0.5), y + b * (j / 8 - 0.5)];
            let [low, high] = [0, 2];
            const free = (t: number) => round.clearance([p[0], p[1], 0.5 - t], [p[0], p[1], 0.5 - t], 1) >= 0;
            if (!free(0)) high = 0;
            while (high - low > 1e-6) {
              const middle = (low + high) / 2;
              if (free(middle)) low = middle;
              else high = middle;
            }
            least = Math.min(least, low);
          }
        // 0.1 mm of graze, which on a steep side is more along the way.
        expect(found.freeM).toBeGreaterThan(least - 1e-3);
        expect(found.freeM).toBeLessThan(least + 3e-3);
        const other = freeDepth({ ...face, at: flip(at) }, 2, { layout: everywhere, hull: round, solids: [] });
        expect(other.freeM).toBeCloseTo(found.freeM, 4);
      }),
      { numRuns: 12, seed: 53 },
    );
  });
});

describe('room of compartments in a hull', () => {
  it('of a box hull is the box, less the inset', () => {
    // derived: box 8 x 3 m, from z = -0.5 up; a compartment from x = 2 to 4 over the whole breadth, up to z = 0.3.
    const hull = hullSurface({ ...boxHull(8, 3, 0.5), shellM: 0.01, liningM: 0.03 });
    const layout = layoutOf({ a: boxIn('plan', [2, -3, -2], [4, 3, 0.3]) });
    expect(compartmentVolume(layout, hull, 'a').volumeM3).toBeCloseTo(2 * (3 - 0.08) * (0.8 - 0.04), 4);
  });
  it('adds up to the displaced volume of the hull below a level', () => {
    for (const shape of [wineglass(), wigley(9, 3, 0.6, 21, 15, 0.8)]) {
      const hull = hullSurface({ ...shape, shellM: 0, liningM: 0 });
      const length = hull.forwardM - hull.aftM;
      const parts = Object.fromEntries(
        [0, 1, 2, 3, 4, 5].map((i) => [
          `c${i}`,
          boxIn('section', [hull.aftM + (length * i) / 6, -9, -9], [hull.aftM + (length * (i + 1)) / 6, 9, 0]),
        ]),
      );
      const layout = layoutOf(parts);
      const sum = Object.keys(parts).reduce((s, id) => s + compartmentVolume(layout, hull, id).volumeM3, 0);
      const { volumeM3 } = hydrostatics(hull, { up: [0, 0, 1], levelM: 0 });
      expect(Math.abs(sum / volumeM3 - 1)).toBeLessThan(1e-3);
    }
  });
});
