import type { Vec3 } from '@core/base/vec';
import type { Hull } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { describe, expect, it } from 'vitest';
import { seeded, segmentTriangleDistance } from '../../../support/brute-distance';
import { canoe, wigley, wineglass } from '../../../support/hull-shapes';

/** The upright sides above the sheer that the surface promises, as triangles of their own. */
function skirt(surface: HullSurface): number[][] {
  const faces: number[][] = [];
  const edges = new Map<string, [Vec3, Vec3]>();
  const at = (k: number): Vec3 => [
    surface.vertices[3 * k] as number,
    surface.vertices[3 * k + 1] as number,
    surface.vertices[3 * k + 2] as number,
  ];
  for (let t = 0; t < surface.triangles.length; t += 3) {
    for (let k = 0; k < 3; k += 1) {
      const a = at(surface.triangles[t + k] as number);
      const b = at(surface.triangles[t + ((k + 1) % 3)] as number);
      const key = [a.join(), b.join()].sort().join('|');
      if (edges.has(key)) edges.delete(key);
      else edges.set(key, [a, b]);
    }
  }
  for (const [a, b] of edges.values()) {
    // Open edges are the sheer; an end on the centre plane closes at the bow and has no width.
    faces.push([...a, ...b, b[0], b[1], 80], [...a, b[0], b[1], 80, a[0], a[1], 80]);
  }
  return faces;
}

function allFaces(surface: HullSurface): number[][] {
  const faces: number[][] = [];
  for (let t = 0; t < surface.triangles.length; t += 3)
    faces.push(
      [0, 1, 2].flatMap((k) => {
        const v = surface.triangles[t + k] as number;
        return [...surface.vertices.slice(3 * v, 3 * v + 3)];
      }),
    );
  return [...faces, ...skirt(surface)];
}

const bruteDistance = (faces: number[][], a: Vec3, b: Vec3): number =>
  faces.reduce((least, face) => Math.min(least, segmentTriangleDistance(a, b, face)), Number.POSITIVE_INFINITY);

const insideOf = (surface: HullSurface, p: Vec3): boolean => {
  if (p[0] < surface.aftM || p[0] > surface.forwardM) return false;
  const sheer = surface.sheerAt(p[0]);
  return p[2] <= sheer ? surface.contains(p) : Math.abs(p[1]) < surface.halfBreadthAt(p[0], sheer - 1e-12);
};

function randomSegments(surface: HullSurface, seed: number, count: number): [Vec3, Vec3][] {
  const random = seeded(seed);
  const segments: [Vec3, Vec3][] = [];
  while (segments.length < count) {
    const x = surface.aftM + random() * (surface.forwardM - surface.aftM);
    const low = surface.keelAt(x);
    const z = low + random() * (surface.sheerAt(x) + 0.3 - low);
    const y = (2 * random() - 1) * 1.7;
    const p: Vec3 = [x, y, z];
    if (!insideOf(surface, p)) continue;
    const reach = 0.05 + 0.8 * random();
    const turn: Vec3 = [random() - 0.5, random() - 0.5, random() - 0.5];
    const q: Vec3 = [x + 2 * reach * turn[0], y + 2 * reach * turn[1], z + reach * turn[2]];
    segments.push([p, q]);
  }
  return segments;
}

const HULLS: [string, Hull][] = [
  ['convex canoe body', canoe()],
  ['wineglass with a keel trunk', wineglass()],
  ['Wigley hull', wigley(9, 3, 0.6, 9, 6, 0.8)],
];

describe('clearance from the skin', () => {
  it.each(HULLS)('equals the closest point on all triangles, tried one by one: %s', (_, hull) => {
    const surface = hullSurface(hull);
    const faces = allFaces(surface);
    let near = 0;
    let crossing = 0;
    let worst = 0;
    for (const [a, b] of randomSegments(surface, 7, 60)) {
      for (const cutoff of [0.05, 2]) {
        const got = surface.clearance(a, b, cutoff);
        const brute = bruteDistance(faces, a, b);
        if (brute < 1e-12 || !insideOf(surface, b)) {
          expect(got, `${a} ${b}`).toBeLessThan(0);
          crossing += 1;
        } else if (brute < cutoff) {
          worst = Math.max(worst, Math.abs(got - brute));
          near += 1;
        } else expect(got).toBeGreaterThanOrEqual(cutoff);
      }
    }
    expect(worst).toBeLessThan(1e-9);
    expect(near).toBeGreaterThan(20);
    expect(crossing).toBeGreaterThan(5);
  });
});
