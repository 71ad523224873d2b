import { add, distance, scale, type Vec3 } from '@core/base/vec';
import type { Hull } from '@core/boat/schema/boat';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { describe, expect, it } from 'vitest';
import { segmentTriangleDistance } from '../../../support/brute-distance';
import { box, canoe, hullOf, wigley, wineglass } from '../../../support/hull-shapes';
import { randomFrom } from '../../../support/random';

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

function allFaces(surface: HullSurface): Face[] {
  const faces: number[][] = [];
  for (let t = 0; t < surface.triangles.length; t += 3)
    faces.push(
      [0, 1, 2].flatMap((k) => {
        const v = surface.triangles[t + k] as number;
        return [...surface.vertices.slice(3 * v, 3 * v + 3)];
      }),
    );
  return [...faces, ...skirt(surface)].map(faceOf);
}

interface Face {
  readonly corners: number[];
  readonly centre: Vec3;
  readonly radius: number;
}

function faceOf(corners: number[]): Face {
  const [px = 0, py = 0, pz = 0, qx = 0, qy = 0, qz = 0, rx = 0, ry = 0, rz = 0] = corners;
  const centre: Vec3 = [(px + qx + rx) / 3, (py + qy + ry) / 3, (pz + qz + rz) / 3];
  const radius = Math.max(
    distance(centre, [px, py, pz]),
    distance(centre, [qx, qy, qz]),
    distance(centre, [rx, ry, rz]),
  );
  return { corners, centre, radius };
}

/** Every triangle is tried, but those whose enclosing sphere lies beyond the best. */
function bruteDistance(faces: readonly Face[], a: Vec3, b: Vec3): number {
  const middle = scale(add(a, b), 0.5);
  const reach = distance(a, b) / 2;
  let least = Number.POSITIVE_INFINITY;
  for (const { corners, centre, radius } of faces) {
    if (distance(centre, middle) - radius - reach > least) continue;
    least = Math.min(least, segmentTriangleDistance(a, b, corners));
  }
  return least;
}

const insideOf = (surface: HullSurface, p: Vec3): boolean => {
  if (p[0] < surface.aftM || p[0] > surface.forwardM) return false;
  const sheer = surface.sheerAt(p[0]);
  return p[2] <= sheer ? surface.contains(p) : Math.abs(p[1]) < surface.halfBreadthAt(p[0], sheer - 1e-12);
};

function randomSegments(surface: HullSurface, seed: number, count: number): [Vec3, Vec3][] {
  const random = randomFrom(seed);
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
      const brute = bruteDistance(faces, a, b);
      for (const cutoff of [0.05, 2]) {
        const got = surface.clearance(a, b, cutoff);
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

  it.each(HULLS)('is the same with and without the grid that stands in front: %s', (_, hull) => {
    const surface = hullSurface(hull);
    const wrong: string[] = [];
    let near = 0;
    for (const [a, b] of randomSegments(surface, 21, 1500)) {
      // Beyond 0.2 m the grid is not asked.
      const plain = surface.clearance(a, b, 1);
      const filtered = surface.clearance(a, b, 0.06);
      if (plain < 0.06) near += 1;
      if (plain < 0.06 ? filtered !== plain && Math.abs(filtered - plain) > 1e-12 : filtered < 0.06)
        wrong.push(`${a} ${b}: ${filtered} for ${plain}`);
    }
    expect(wrong).toEqual([]);
    expect(near).toBeGreaterThan(100);
  });

  it.each(HULLS)('does not care for side or sense: %s', (_, hull) => {
    const surface = hullSurface(hull);
    const mirror = (p: Vec3): Vec3 => [p[0], -p[1], p[2]];
    let worst = 0;
    for (const [a, b] of randomSegments(surface, 3, 500)) {
      const there = surface.clearance(a, b, 0.5);
      worst = Math.max(worst, Math.abs(there - surface.clearance(mirror(a), mirror(b), 0.5)));
      worst = Math.max(worst, Math.abs(there - surface.clearance(b, a, 0.5)));
    }
    expect(worst).toBeLessThan(1e-12);
  });

  /** Ways from the keel well up past its lip into the bilge. */
  function outOfTheWell(surface: HullSurface, count: number): [Vec3, Vec3][] {
    const random = randomFrom(17);
    const ways: [Vec3, Vec3][] = [];
    while (ways.length < count) {
      const x = 2.5 + 4 * random();
      const low: Vec3 = [x, 0.2 * (random() - 0.5), surface.keelAt(x) + 0.1 + 0.5 * random()];
      const high: Vec3 = [x + 0.6 * (random() - 0.5), 2.4 * (random() - 0.5), -0.5 + 0.9 * random()];
      if (surface.contains(low) && surface.contains(high)) ways.push([low, high]);
    }
    return ways;
  }

  it('finds the lip of a keel well that neither end is near', () => {
    const surface = hullSurface(wineglass());
    const faces = allFaces(surface);
    let atTheMiddle = 0;
    let worst = 0;
    for (const [a, b] of outOfTheWell(surface, 600)) {
      const whole = surface.clearance(a, b, 0.5);
      if (whole <= 0 || whole >= 0.5) continue;
      if (Math.min(surface.clearance(a, a, 1), surface.clearance(b, b, 1)) < whole + 0.005) continue;
      atTheMiddle += 1;
      if (atTheMiddle <= 15) worst = Math.max(worst, Math.abs(whole - bruteDistance(faces, a, b)));
    }
    expect(atTheMiddle).toBeGreaterThan(40);
    expect(worst).toBeLessThan(1e-9);
  });

  it('counts a way that leaves the hull and comes back as outside', () => {
    const surface = hullSurface(wineglass());
    let left = 0;
    for (const [a, b] of outOfTheWell(surface, 600)) {
      const along = Array.from({ length: 99 }, (_, k): Vec3 => {
        const t = (k + 1) / 100;
        return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
      });
      const leaves = along.some((p) => !surface.contains(p));
      if (leaves) {
        left += 1;
        expect(surface.clearance(a, b, 0.05)).toBeLessThan(0);
      }
    }
    expect(left).toBeGreaterThan(50);
    expect(left).toBeLessThan(550);
  });

  // Derived: plane geometry of a box 8 x 3, bottom at -0.5, sheer at 1, shell and lining 0.04.
  it('leaves shell and lining free, inside a box', () => {
    const surface = hullSurface({ ...box(8, 3, 0.5), shellM: 0.01, liningM: 0.03 });
    expect(surface.clearance([4, 1, 0], [5, 1.2, 0.2], 1)).toBeCloseTo(0.3 - 0.04, 12);
    expect(surface.clearance([0.1, 0, 0.3], [3, 0, 0.3], 1)).toBeCloseTo(0.1 - 0.04, 12);
    expect(surface.clearance([4, -1, -0.48], [5, 1, 0], 1)).toBeCloseTo(0.02 - 0.04, 12);
    expect(surface.clearance([4, 0, 0.2], [4, 1.7, 0.2], 1)).toBeCloseTo(-0.2 - 0.04, 9);
    expect(surface.clearance([4, 0, 0.2], [4, 0, -0.8], 0.1)).toBeCloseTo(-0.3 - 0.04, 9);
    expect(surface.clearance([4, 0, 0.2], [9, 0, 0.2], 0.1)).toBeCloseTo(-1 - 0.04, 9);
    expect(surface.clearance([4, 0, 0.25], [5, 0, 0.25], 0.5)).toBeGreaterThanOrEqual(0.5);
  });

  it('goes on upright above the sheer, and is open at the top', () => {
    const surface = hullSurface(box(8, 3, 0.5));
    expect(surface.clearance([4, 1.4, 1.6], [5, 1.4, 0.6], 0.5)).toBeCloseTo(0.1, 12);
    expect(surface.clearance([4, 0, 1.7], [5, 0, 1.9], 0.5)).toBeGreaterThanOrEqual(0.5);
    expect(surface.clearance([4, 1.6, 1.6], [4, 1.6, 1.7], 0.5)).toBeCloseTo(-0.1, 12);
  });

  it('keeps to both hulls of a catamaran and to no water between them', () => {
    const single = hullSurface(canoe(8));
    const twin = hullSurface({ ...canoe(8), offsetM: 2.1 });
    const random = randomFrom(4);
    for (let k = 0; k < 100; k += 1) {
      const p: Vec3 = [1 + 6 * random(), random() - 0.5, 0.1 + 0.5 * random()];
      const q: Vec3 = [p[0] + 0.3, p[1] + 0.2 * random(), p[2]];
      const want = single.clearance(p, q, 0.4);
      expect(twin.clearance([p[0], p[1] + 2.1, p[2]], [q[0], q[1] + 2.1, q[2]], 0.4)).toBeCloseTo(want, 9);
      expect(twin.clearance([p[0], -p[1] - 2.1, p[2]], [q[0], -q[1] - 2.1, q[2]], 0.4)).toBeCloseTo(want, 9);
    }
    expect(twin.clearance([4, 2.1, 0.3], [4, -2.1, 0.3], 0.4)).toBeLessThan(0);
    expect(twin.contains([4, -2.1, 0.3])).toBe(true);
    expect(twin.contains([4, 0, 0.3])).toBe(false);
  });

  it('is exact for hulls of random stations', () => {
    const random = randomFrom(99);
    for (let trial = 0; trial < 6; trial += 1) {
      const count = 2 + Math.floor(random() * 5);
      const stations = Array.from({ length: count }, (_, i) => {
        let z = -1 + 0.6 * random();
        let y = random() < 0.5 ? 0 : 0.1 * random();
        const points: [number, number][] = [[y, z]];
        const more = 1 + Math.floor(random() * 6);
        for (let k = 0; k < more; k += 1) {
          z += random() < 0.2 ? 0 : 0.05 + 0.5 * random();
          y = Math.max(0.05, y + 0.7 * (random() - 0.3));
          points.push([y, z]);
        }
        points.push([y, z + 0.2]);
        return { xM: i * (0.8 + random()), points };
      }).map((station, i) => ({ ...station, xM: i * 1.7 }));
      const surface = hullSurface(hullOf(stations));
      const faces = allFaces(surface);
      const wrong: string[] = [];
      for (const [a, b] of randomSegments(surface, trial, 12)) {
        const got = surface.clearance(a, b, 3);
        const brute = bruteDistance(faces, a, b);
        const fits = brute < 1e-12 || !insideOf(surface, b) ? got < 0 : Math.abs(got - brute) < 1e-9;
        if (!fits) wrong.push(`hull ${trial}: ${a} to ${b} gave ${got} for ${brute}`);
      }
      expect(wrong).toEqual([]);
    }
  });
});
