import { rotationOf, type Vec3 } from '@core/base/vec';
import { type AnySolid, SolidPack, segmentToSolid } from '@core/shape/space/kernel';
import { describe, expect, it } from 'vitest';

/** Seeded numbers in [0, 1): a linear congruence, so that a failure comes back. */
function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const tags = { id: 's', owner: 'o', label: 's', layer: 'furnishing' } as const;
const upright = rotationOf({ yawDeg: 0, pitchDeg: 0, rollDeg: 0 });

/** Distance from a point by definition of each solid, without the kernel: what the segment's distance is sampled from. */
function pointDistance(p: Vec3, solid: AnySolid): number {
  if (solid.type === 'box') {
    const d = [0, 1, 2].map((k) => {
      const axis = solid.axes[k] as Vec3;
      const along =
        (p[0] - solid.centre[0]) * axis[0] + (p[1] - solid.centre[1]) * axis[1] + (p[2] - solid.centre[2]) * axis[2];
      return Math.max(0, Math.abs(along) - (solid.half[k] as number));
    });
    return Math.hypot(...d);
  }
  if (solid.type === 'plate') {
    // Project on the plane, then on the polygon by its edges: independent of the kernel's own frame.
    const o = solid.polygon[0] as Vec3;
    const n = solid.normal;
    const h = (p[0] - o[0]) * n[0] + (p[1] - o[1]) * n[1] + (p[2] - o[2]) * n[2];
    const flat: Vec3 = [p[0] - n[0] * h, p[1] - n[1] * h, p[2] - n[2] * h];
    let inside = true;
    let edge = Number.POSITIVE_INFINITY;
    solid.polygon.forEach((a, k) => {
      const b = solid.polygon[(k + 1) % solid.polygon.length] as Vec3;
      const e = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
      const w = [flat[0] - a[0], flat[1] - a[1], flat[2] - a[2]] as const;
      const turn =
        (e[1] * w[2] - e[2] * w[1]) * n[0] + (e[2] * w[0] - e[0] * w[2]) * n[1] + (e[0] * w[1] - e[1] * w[0]) * n[2];
      if (turn < 0) inside = false;
      const t = Math.max(
        0,
        Math.min(1, (e[0] * w[0] + e[1] * w[1] + e[2] * w[2]) / (e[0] ** 2 + e[1] ** 2 + e[2] ** 2)),
      );
      edge = Math.min(edge, Math.hypot(w[0] - e[0] * t, w[1] - e[1] * t, w[2] - e[2] * t));
    });
    return Math.hypot(Math.max(0, Math.abs(h) - solid.thicknessM / 2), inside ? 0 : edge);
  }
  const axis = [solid.to[0] - solid.from[0], solid.to[1] - solid.from[1], solid.to[2] - solid.from[2]] as const;
  const length = Math.hypot(...axis);
  const w = [p[0] - solid.from[0], p[1] - solid.from[1], p[2] - solid.from[2]] as const;
  const s = (w[0] * axis[0] + w[1] * axis[1] + w[2] * axis[2]) / length;
  const radial = Math.sqrt(Math.max(0, w[0] ** 2 + w[1] ** 2 + w[2] ** 2 - s * s));
  const beyond = Math.max(0, -s, s - length);
  if (solid.type === 'cylinder') return Math.hypot(beyond, Math.max(0, radial - solid.radius));
  return Math.max(0, Math.hypot(beyond, radial) - solid.radius);
}

/** Sampled distance: at most half a sample step above the true one, never below it. */
function sampled(a: Vec3, b: Vec3, solid: AnySolid, steps = 4000): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= steps; k += 1) {
    const t = k / steps;
    const p: Vec3 = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
    least = Math.min(least, pointDistance(p, solid));
  }
  return least;
}

const hexagon = (n: Vec3, u: Vec3, v: Vec3): AnySolid => ({
  type: 'plate',
  id: 'p',
  label: 'p',
  normal: n,
  thicknessM: 0.08,
  polygon: [0, 1, 2, 3, 4, 5].map((k) => {
    const c = 0.5 * Math.cos((k * Math.PI) / 3);
    const s = 0.3 * Math.sin((k * Math.PI) / 3);
    return [u[0] * c + v[0] * s, u[1] * c + v[1] * s, u[2] * c + v[2] * s];
  }),
});
const turned = rotationOf({ yawDeg: 31, pitchDeg: -17, rollDeg: 52 });
const SOLIDS: Record<string, AnySolid> = {
  'an upright box': { ...tags, type: 'box', centre: [0.1, 0, 0], half: [0.3, 0.2, 0.4], axes: upright },
  'a turned box': { ...tags, type: 'box', centre: [0, 0.1, -0.1], half: [0.5, 0.15, 0.2], axes: turned },
  'a cylinder with flat ends': { ...tags, type: 'cylinder', from: [-0.3, 0, 0.1], to: [0.2, 0.3, 0.4], radius: 0.25 },
  'a flat disc': { ...tags, type: 'cylinder', from: [0, 0, 0], to: [0, 0, 0.01], radius: 0.5 },
  'a capsule': { ...tags, type: 'capsule', from: [-0.3, 0, 0.1], to: [0.4, 0.3, -0.2], radius: 0.12 },
  'a plate with thickness': hexagon(turned[2], turned[0], turned[1]),
};

describe('distance from a segment to a solid', () => {
  for (const [name, solid] of Object.entries(SOLIDS)) {
    // Derived: samples of the distance of points, which only errs upwards and by less than half a step.
    it(`to ${name} agrees with dense sampling of points, on both sides of touching`, () => {
      const random = randomOf(7);
      let entering = 0;
      for (let k = 0; k < 150; k += 1) {
        const a: Vec3 = [random() * 2 - 1, random() * 2 - 1, random() * 2 - 1];
        const reach = k % 3 === 0 ? 0.3 : 1.5;
        const b: Vec3 = [
          a[0] + (random() - 0.5) * reach,
          a[1] + (random() - 0.5) * reach,
          a[2] + (random() - 0.5) * reach,
        ];
        const step = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) / 4000;
        const truth = sampled(a, b, solid);
        const got = segmentToSolid(a, b, solid);
        if (got <= 0) {
          entering += 1;
          expect(truth).toBeLessThanOrEqual(step);
        } else {
          expect(got).toBeLessThanOrEqual(truth + 1e-9);
          expect(got).toBeGreaterThanOrEqual(truth - step);
        }
      }
      expect(entering).toBeGreaterThan(1);
    });
  }

  // Derived: shifting a segment by the depth along a face normal must just take it out.
  it('says how deep a segment enters a box', () => {
    const box = SOLIDS['an upright box'] as AnySolid;
    expect(segmentToSolid([0.1, -1, 0.35], [0.1, 1, 0.35], box)).toBeCloseTo(-0.05, 12);
    expect(segmentToSolid([0.1, -1, 0.4 + 1e-9], [0.1, 1, 0.4 + 1e-9], box)).toBeGreaterThan(0);
  });

  // Derived by hand: an edge-parallel segment, a corner and a face.
  it('is exact at faces, edges and corners of a box', () => {
    const box = SOLIDS['an upright box'] as AnySolid;
    expect(segmentToSolid([0.6, -1, 0], [0.6, 1, 0], box)).toBeCloseTo(0.2, 12);
    expect(segmentToSolid([0.7, -1, 0.8], [0.7, 1, 0.8], box)).toBeCloseTo(0.5, 12);
    expect(segmentToSolid([0.5, 0.3, 0.5], [0.9, 0.9, 0.9], box)).toBeCloseTo(Math.sqrt(0.03), 12);
  });

  it('answers the cutoff, and nothing else, for what is farther', () => {
    const pack = new SolidPack(Object.values(SOLIDS));
    for (let k = 0; k < pack.size; k += 1) expect(pack.distance(k, 9, 9, 9, 9, 9, 8, 0.05)).toBe(0.05);
  });
});
