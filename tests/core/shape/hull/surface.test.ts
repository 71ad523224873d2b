import type { Vec3 } from '@core/base/vec';
import type { Hull } from '@core/boat/schema/boat';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { describe, expect, it } from 'vitest';
import { box, canoe, evenly, hullOf, vPrism, wedge, wigley, wineglass } from '../../../support/hull-shapes';
import { randomFrom } from '../../../support/random';

const vertex = (surface: HullSurface, k: number): Vec3 => [
  surface.vertices[3 * k] ?? Number.NaN,
  surface.vertices[3 * k + 1] ?? Number.NaN,
  surface.vertices[3 * k + 2] ?? Number.NaN,
];

const HULLS: [string, Hull][] = [
  ['box', box(8, 3, 0.5)],
  ['V prism', vPrism(6, 2.4, 0.6, 0.6)],
  ['wedge', wedge(6, 2, 0.5)],
  ['Wigley', wigley(9, 3, 0.6, 21, 15, 0.8)],
  ['wineglass', wineglass()],
  ['canoe', canoe()],
  ['three coarse stations', wineglass(9, 3)],
  [
    'two stations, a transom and a stem that is one point',
    hullOf([
      {
        xM: 0,
        points: [
          [0, -0.3],
          [1.2, 0.2],
          [1.4, 1],
        ],
      },
      {
        xM: 7,
        points: [
          [0, 1.2],
          [0, 1.2],
        ],
      },
    ]),
  ],
  [
    'chines on some stations only',
    hullOf([
      {
        xM: 0,
        points: [
          [0, -0.4],
          [1, -0.2],
          [1.3, 0.8],
        ],
        knuckles: [1],
      },
      {
        xM: 3,
        points: [
          [0, -0.5],
          [0.6, -0.35],
          [1.2, -0.1],
          [1.5, 0.9],
        ],
        knuckles: [2],
      },
      {
        xM: 6,
        points: [
          [0, -0.3],
          [0.5, 0.2],
          [0.9, 1.1],
        ],
      },
      {
        xM: 8,
        points: [
          [0, 0.1],
          [0, 1.3],
        ],
      },
    ]),
  ],
  ['taken inside, with shell and lining', { ...wineglass(), measuredTo: 'inside', shellM: 0.015, liningM: 0.03 }],
  ['half of a catamaran', { ...canoe(8), offsetM: 2.1 }],
];

describe('the one hull surface', () => {
  it.each(HULLS)('has a port side that mirrors the starboard side: %s', (_name, hull) => {
    const surface = hullSurface(hull);
    const places = new Set<string>();
    const count = surface.vertices.length / 3;
    for (let k = 0; k < count; k += 1) places.add(vertex(surface, k).join(' '));
    let lonely = 0;
    for (let k = 0; k < count; k += 1) {
      const [x, y, z] = vertex(surface, k);
      if (!places.has([x, y === 0 ? 0 : -y, z].join(' '))) lonely += 1;
    }
    expect(lonely).toBe(0);
    const tilted = { up: [0, 0.2, 1] as const, levelM: 0 };
    const mirrored = { up: [0, -0.2, 1] as const, levelM: 0 };
    const a = hydrostatics(surface, tilted);
    const b = hydrostatics(surface, mirrored);
    expect(Math.abs(a.volumeM3 - b.volumeM3)).toBeLessThan(1e-12 * Math.max(1, a.volumeM3));
    expect(Math.abs(a.buoyancy[1] + b.buoyancy[1])).toBeLessThan(1e-11);
  });

  it.each(HULLS)('is closed below the sheer, and faces outward: %s', (_name, hull) => {
    const surface = hullSurface(hull);
    const count = surface.vertices.length / 3;
    const first = new Map<string, number>();
    const welded = Array.from({ length: count }, (_, k) => {
      const place = vertex(surface, k).join(' ');
      if (!first.has(place)) first.set(place, k);
      return first.get(place) ?? k;
    });
    const open = new Map<number, [Vec3, Vec3]>();
    for (let t = 0; t < surface.triangles.length; t += 3)
      for (let k = 0; k < 3; k += 1) {
        const a = welded[surface.triangles[t + k] ?? -1] ?? -1;
        const b = welded[surface.triangles[t + ((k + 1) % 3)] ?? -1] ?? -1;
        if (!open.delete(b * count + a)) open.set(a * count + b, [vertex(surface, a), vertex(surface, b)]);
      }
    for (const [a, b] of open.values())
      for (const p of [a, b]) expect(p[2], `open at ${p}`).toBeCloseTo(surface.sheerAt(p[0]), 9);
    // Volume up to the highest sheer, closed by a flat top, is positive only if the skin faces outward.
    expect(hydrostatics(surface, { up: [0, 0, 1], levelM: 0.3 }).volumeM3).toBeGreaterThan(0.05);
  });

  it.each(HULLS)('holds a point exactly where its sections say: %s', (_name, hull) => {
    const surface = hullSurface(hull);
    const random = randomFrom(5);
    let inside = 0;
    for (let k = 0; k < 400; k += 1) {
      const x = surface.aftM + random() * (surface.forwardM - surface.aftM);
      const z = -1.8 + 3.4 * random();
      const y = surface.offsetM + 3.6 * (random() - 0.5);
      const section = surface.sectionAt(x);
      // A ray to port in the plane of the section, closed over the top.
      let crossings = 0;
      section.forEach(([ya, za], i) => {
        const [yb, zb] = section[(i + 1) % section.length] ?? [ya, za];
        if (za > z !== zb > z && y < ya + ((yb - ya) * (z - za)) / (zb - za)) crossings += 1;
      });
      const held = surface.contains([x, y, z]);
      expect(held, `${x} ${y} ${z}`).toBe(crossings % 2 === 1);
      if (held) inside += 1;
      if (z > surface.keelAt(x) && z < surface.sheerAt(x))
        expect(held).toBe(Math.abs(y - surface.offsetM) < surface.halfBreadthAt(x, z));
    }
    expect(inside).toBeGreaterThan(10);
  });

  it('passes through the points that were entered', () => {
    for (const hull of [wigley(9, 3, 0.6, 21, 15), canoe(), box(8, 3, 0.5)]) {
      const surface = hullSurface(hull);
      for (const station of Object.values(hull.stations))
        for (const [y, z] of station.points)
          if (y > 0) expect(Math.abs(surface.halfBreadthAt(station.xM, z) - y)).toBeLessThan(1e-6);
    }
  });

  it('gives empty sections and no breadth beyond its ends, below the keel and above the sheer', () => {
    const surface = hullSurface(wineglass());
    expect(surface.sectionAt(-0.01)).toEqual([]);
    expect(surface.sectionAt(11.01)).toEqual([]);
    expect(surface.halfBreadthAt(-0.01, 0)).toBe(0);
    expect(surface.halfBreadthAt(5, surface.keelAt(5) - 0.001)).toBe(0);
    expect(surface.halfBreadthAt(5, surface.sheerAt(5) + 0.001)).toBe(0);
    expect(surface.contains([5, 0, surface.sheerAt(5) + 0.01])).toBe(false);
  });

  it('draws waterlines and buttocks on the same skin', () => {
    const surface = hullSurface(wineglass());
    const waterline = surface.waterlineAt(0.1);
    expect(waterline.length).toBeGreaterThan(50);
    for (const [x, y] of waterline) expect(y).toBeCloseTo(surface.halfBreadthAt(x, 0.1), 9);
    const low = surface.waterlineAt(-1.5);
    expect(low[low.length - 1]?.[0]).toBeLessThan(8);
    expect(surface.keelAt(low[low.length - 1]?.[0] ?? 0)).toBeCloseTo(-1.5, 6);
    for (const [x, z] of surface.buttockAt(0.6)) expect(surface.halfBreadthAt(x, z + 1e-9)).toBeCloseTo(0.6, 5);
  });
});

describe('what lies between the stations', () => {
  // Derived: half-breadth, keel and sheer that are quadratic in x; whatever the spacing, the surface must hold them.
  it('is quadratic where the stations are', () => {
    const breadth = (x: number): number => 0.4 + 0.5 * x - 0.055 * x * x;
    const keel = (x: number): number => -0.9 + 0.01 * x * x;
    const sheer = (x: number): number => 1.2 - 0.1 * x + 0.013 * x * x;
    const hull = hullOf(
      [0, 0.7, 2.4, 3, 5.5, 8].map((xM) => ({
        xM,
        points: [
          [0, keel(xM)],
          [breadth(xM), keel(xM)],
          [breadth(xM), sheer(xM)],
        ],
        knuckles: [1],
      })),
    );
    const surface = hullSurface(hull);
    // Derived: at a station the points themselves; between, nodes stand out by at most h^2 / 8 of the second derivative, so that
    // chords of h <= 8 m / 60 enclose what the parabola does.
    const columns = [...new Set(surface.buttockAt(0.1).map(([x]) => x))];
    expect(columns.length).toBeGreaterThan(60);
    for (const x of columns) {
      const stands = [0, 0.7, 2.4, 3, 5.5, 8].includes(x) ? 0 : (8 / 60) ** 2 / 8;
      expect(Math.abs(surface.keelAt(x) - keel(x))).toBeLessThanOrEqual(stands * 0.02 + 1e-10);
      expect(Math.abs(surface.sheerAt(x) - sheer(x))).toBeLessThanOrEqual(stands * 0.026 + 1e-10);
      expect(Math.abs(surface.halfBreadthAt(x, 0.3) - breadth(x))).toBeLessThanOrEqual(stands * 0.11 + 1e-10);
    }
    // Derived: area of the water plane z = 0.3, 2 (0.4 x + 0.25 x^2 - 0.055 x^3 / 3) from 0 to 8.
    const water = hydrostatics(surface, { up: [0, 0, 1], levelM: 0.3 });
    expect(water.waterplaneM2).toBeCloseTo(2 * (3.2 + 16 - (0.055 * 512) / 3), 9);
  });

  it('holds the waterlines of a table of offsets whatever their spacing', () => {
    const surface = hullSurface(wigley(9, 3, 0.6, 4, 7));
    for (const x of surface.waterlineAt(-0.2).map(([at]) => at)) {
      const want = 1.5 * (1 - ((2 * x) / 9 - 1) ** 2) * (1 - (0.2 / 0.6) ** 2);
      // Derived: chords of at most 9 m / 60, second derivative 1.5 x 8 / 81 x 8 / 9.
      expect(Math.abs(surface.halfBreadthAt(x, -0.2) - want)).toBeLessThan((0.15 ** 2 / 8) * 0.132);
    }
  });

  it('comes eight times nearer with twice the points of a parabolic section', () => {
    const error = (count: number): number => {
      const surface = hullSurface(
        hullOf([0, 1].map((xM) => ({ xM, points: evenly(-1, 0, count).map((z): [number, number] => [1 - z * z, z]) }))),
      );
      return Math.abs(surface.halfBreadthAt(0.5, -0.53) - (1 - 0.53 ** 2));
    };
    expect(error(5)).toBeLessThan(4e-3);
    expect(error(17)).toBeLessThan(5e-4);
  });

  it('keeps a knuckle as a corner, and rounds where none is marked', () => {
    const points: [number, number][] = [
      [0, -0.6],
      [0.5, -0.55],
      [1, -0.4],
      [1.2, 0.2],
      [1.25, 0.8],
    ];
    const chined = hullSurface(hullOf([0, 6].map((xM) => ({ xM, points, knuckles: [2] }))));
    const round = hullSurface(hullOf([0, 6].map((xM) => ({ xM, points }))));
    const turn = (surface: HullSurface): number => {
      const section = surface.sectionAt(3).filter(([y]) => y >= 0);
      let greatest = 0;
      section.forEach((point, i) => {
        const before = section[i - 1];
        const after = section[i + 1];
        if (!before || !after) return;
        const a = Math.atan2(point[1] - before[1], point[0] - before[0]);
        const b = Math.atan2(after[1] - point[1], after[0] - point[0]);
        const bend = Math.abs(a - b);
        greatest = Math.max(greatest, Math.min(bend, 2 * Math.PI - bend));
      });
      return greatest;
    };
    expect(turn(chined)).toBeGreaterThan(0.6);
    expect(turn(round)).toBeLessThan(0.35);
  });

  it('never leaves a flat bottom or an upright side, marked or not', () => {
    const surface = hullSurface(box(8, 3, 0.5, 1, 5, false));
    for (let k = 0; k < surface.vertices.length; k += 3) {
      expect(Math.abs(surface.vertices[k + 1] ?? 9)).toBeLessThanOrEqual(1.5);
      expect(surface.vertices[k + 2]).toBeGreaterThanOrEqual(-0.5);
    }
  });

  it('does not swing beside a parallel middle body', () => {
    const halves = [0.5, 1.5, 1.5, 1.5, 1.5, 1.2, 0];
    const surface = hullSurface(
      hullOf(
        halves.map((y, xM) => ({
          xM,
          points: [
            [y, -0.5],
            [y, 0.5],
          ] as [number, number][],
        })),
      ),
    );
    for (const [, y] of surface.waterlineAt(0)) expect(y).toBeLessThan(1.53);
    expect(surface.halfBreadthAt(2.5, 0)).toBeCloseTo(1.5, 3);
  });
});

describe('offsets taken inside', () => {
  const inner = box(6, 2, 0.5);
  const outer = hullSurface({ ...inner, measuredTo: 'inside', shellM: 0.02, liningM: 0.03 });

  it('are moved outward by shell and lining', () => {
    expect(outer.insetM).toBeCloseTo(0.05, 12);
    expect(outer.halfBreadthAt(3, 0)).toBeCloseTo(1.05, 9);
    expect(outer.keelAt(3)).toBeCloseTo(-0.55, 9);
    expect(outer.aftM).toBeCloseTo(-0.05, 9);
  });

  it('leave the free interior where it was measured', () => {
    expect(outer.clearance([3, 0.9, 0], [3, 0.9, 0], 0.5)).toBeCloseTo(0.1, 9);
    expect(outer.clearance([3, 0, -0.4], [3, 0, -0.4], 0.5)).toBeCloseTo(0.1, 9);
    expect(outer.clearance([3, 0.99, 0], [3, 1.01, 0], 0.5)).toBeCloseTo(-0.01, 9);
  });

  it('square to a slanting side', () => {
    const v = { ...vPrism(6, 2.4, 0.6, 0.6), measuredTo: 'inside' as const, shellM: 0.02, liningM: 0.03 };
    const surface = hullSurface(v);
    // The V is 2 across to 1 up: a point 0.1 above the inner keel is 0.1 cos(26.565 deg) off either side.
    expect(surface.clearance([3, 0, -0.5], [3, 0, -0.5], 0.5)).toBeCloseTo(0.1 * Math.cos(Math.atan(0.5)), 6);
  });
});
