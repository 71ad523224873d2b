import { dot } from '@core/base/vec';
import type { Hull } from '@core/boat/schema/boat';
import { heeled } from '@core/shape/hull/attitude';
import { floatAt, type Hydrostatics, hydrostatics, immersionPerCm } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import type { WaterPlane } from '@core/shape/hull/types';
import { describe, expect, it } from 'vitest';
import { box, circular, evenly, halfEllipsoid, hullOf, sineHull, vPrism, wedge, wigley } from '../support/hull-shapes';

const UPRIGHT: WaterPlane = { up: [0, 0, 1], levelM: 0 };
const state = (hull: Hull, water = UPRIGHT): Hydrostatics => hydrostatics(hullSurface(hull), water);
const DEGREE = Math.PI / 180;
/** Axis on the centreline at z = 0, starboard side down. */
const heel = (deg: number, levelM = 0): WaterPlane => ({
  up: [0, Math.sin(deg * DEGREE), Math.cos(deg * DEGREE)],
  levelM: levelM * Math.cos(deg * DEGREE),
});
const off = (got: number, want: number): number => Math.abs(got / want - 1);
function expectShare(got: number, want: number, share: number, what: string): void {
  expect(off(got, want), `${what}: got ${got}, want ${want}`).toBeLessThan(share);
}

interface Closed {
  readonly volume: number;
  readonly waterplane: number;
  readonly kb: number;
  readonly draught: number;
  readonly bm: number;
  readonly bml?: number;
  readonly wetted?: number;
}

/** Derived: closed forms of the textbook bodies; Wigley y = B/2 (1 - (2x/L)^2)(1 - (z/T)^2), IT = 4 B^3 L / 105, IL = B L^3 / 30. */
const CLOSED: [string, Hull, Closed, number][] = [
  [
    'box 8 x 3 x 0.5',
    box(8, 3, 0.5),
    { volume: 12, waterplane: 24, kb: 0.25, draught: 0.5, bm: 1.5, bml: 64 / 6, wetted: 24 + 8 + 3 },
    1e-9,
  ],
  [
    'box with its corner not marked',
    box(8, 3, 0.5, 1, 21, false),
    { volume: 12, waterplane: 24, kb: 0.25, draught: 0.5, bm: 1.5, bml: 64 / 6 },
    1e-9,
  ],
  [
    'V prism 6 x 2.4 x 0.6',
    vPrism(6, 2.4, 0.6, 0.4),
    { volume: 4.32, waterplane: 14.4, kb: 0.4, draught: 0.6, bm: 1.6 },
    1e-9,
  ],
  [
    'wedge 6 x 2 x 0.5',
    wedge(6, 2, 0.5),
    { volume: 3, waterplane: 6, kb: 0.25, draught: 0.5, bm: 1 / 3, bml: 4 },
    1e-9,
  ],
  [
    'wedge at 21 stations of 15 levels',
    wedge(6, 2, 0.5, 1, 21, 15),
    { volume: 3, waterplane: 6, kb: 0.25, draught: 0.5, bm: 1 / 3, bml: 4 },
    1e-9,
  ],
  [
    'half cylinder R 1 at 21 stations of 15 points',
    circular(5, 1, 15, 90, 21),
    {
      volume: (Math.PI / 2) * 5,
      waterplane: 10,
      kb: 1 - 4 / (3 * Math.PI),
      draught: 1,
      bm: 4 / (3 * Math.PI),
      bml: (2 * 5 ** 3) / 12 / ((Math.PI / 2) * 5),
      wetted: 5 * Math.PI + Math.PI,
    },
    1e-3,
  ],
  [
    'half ellipsoid 3, 1, 0.5, stations at cosine spacing',
    halfEllipsoid(3, 1, 0.5, 21, 15),
    { volume: Math.PI, waterplane: 3 * Math.PI, kb: 0.3125, draught: 0.5, bm: 0.75, bml: 6.75 },
    1e-3,
  ],
  [
    'half ellipsoid 3, 1, 0.5, stations evenly spaced',
    halfEllipsoid(3, 1, 0.5, 21, 15, true),
    { volume: Math.PI, waterplane: 3 * Math.PI, kb: 0.3125, draught: 0.5, bm: 0.75, bml: 6.75 },
    4e-3,
  ],
  [
    'Wigley 10 x 1 x 0.625',
    wigley(10, 1, 0.625, 21, 15),
    {
      volume: (4 * 10 * 0.625) / 9,
      waterplane: 20 / 3,
      kb: 0.390625,
      draught: 0.625,
      bm: 3 / 35 / 0.625,
      bml: 12,
      wetted: 14.87906,
    },
    1e-3,
  ],
  [
    'Wigley 9 x 3 x 0.6',
    wigley(9, 3, 0.6, 21, 15),
    { volume: 7.2, waterplane: 18, kb: 0.375, draught: 0.6, bm: 27 / 35 / 0.6, bml: 10.125, wetted: 22.74405 },
    1e-3,
  ],
  [
    'Wigley 2.5 x 0.25 x 0.15625',
    wigley(2.5, 0.25, 0.15625, 21, 15),
    {
      volume: 0.04340278,
      waterplane: 0.4166667,
      kb: 0.09765625,
      draught: 0.15625,
      bm: 0.03428571,
      bml: 3,
      wetted: 0.9299414,
    },
    1e-3,
  ],
];

describe('upright bodies of closed form', () => {
  it.each(CLOSED)('%s', (_name, hull, want, share) => {
    const got = state(hull);
    expectShare(got.volumeM3, want.volume, share, 'volume');
    expectShare(got.waterplaneM2, want.waterplane, share, 'water plane');
    expectShare(got.buoyancy[2] + want.draught, want.kb, share, 'KB');
    expectShare(got.transverseRadiusM, want.bm, share, 'BM');
    if (want.bml) expectShare(got.longitudinalRadiusM, want.bml, share, 'BML');
    if (want.wetted) expectShare(got.wettedM2, want.wetted, share, 'wetted surface');
    expect(Math.abs(got.buoyancy[1])).toBeLessThan(1e-12);
  });

  // Derived: centroid of a triangular water plane, two thirds from the apex.
  it('finds the centres of the wedge two thirds from its apex', () => {
    const got = state(wedge(6, 2, 0.5));
    expect(got.buoyancy[0]).toBeCloseTo(4, 9);
    expect(got.flotation[0]).toBeCloseTo(4, 9);
  });

  // Derived: a = 1 - d/T; V/V0 = 1 - (3a - a^3)/2, A/A0 = 1 - a^2.
  it.each([0.25, 0.5, 0.75])('follows a Wigley hull down to %f of its draught', (share) => {
    const a = 1 - share;
    const got = state(wigley(9, 3, 0.6, 21, 15), { up: [0, 0, 1], levelM: -0.6 * a });
    expectShare(got.volumeM3, 7.2 * (1 - (3 * a - a ** 3) / 2), 1e-3, 'volume');
    expectShare(got.waterplaneM2, 18 * (1 - a * a), 1e-3, 'water plane');
  });

  // Derived: circular segment, A = R^2 acos((R - T)/R) - (R - T) sqrt(2RT - T^2); the metacentre stays on the axis, KM = R.
  it.each([0.25, 0.5, 0.75])('keeps the metacentre of a circular section on its axis at draught %f', (t) => {
    const got = state(circular(5, 1, 15), { up: [0, 0, 1], levelM: t - 1 });
    const area = Math.acos(1 - t) - (1 - t) * Math.sqrt(2 * t - t * t);
    expectShare(got.volumeM3, 5 * area, 1e-3, 'volume');
    expect(Math.abs(got.buoyancy[2] + got.transverseRadiusM)).toBeLessThan(5e-4);
  });

  // Derived: 7.2 m3 of sea water at 1025 kg/m3, 18 m2 of water plane.
  it('gives immersion per centimetre', () => {
    expectShare(immersionPerCm(state(wigley(9, 3, 0.6, 21, 15)), 1025), 184.5, 1e-3, 'kg per cm');
  });
});

describe('published worked example', () => {
  // Published: Derrett and Barrass, Ship Stability for Masters and Mates, ch. 10: L 120 m, half-ordinates
  // 0 3.7 5.9 7.6 7.5 4.6 0.1; area 1207 m2 and TPC 12.37 t by Simpson's first rule. The surface is no Simpson parabola:
  // half-ordinates at a sixth of the length leave that much to the fairing.
  it('water plane of 120 m from seven half-ordinates', () => {
    const halves = [0, 3.7, 5.9, 7.6, 7.5, 4.6, 0.1];
    const hull = hullOf(
      evenly(0, 120, 7).map((xM, i) => ({
        xM,
        points: [
          [halves[i] ?? 0, -5],
          [halves[i] ?? 0, 5],
        ],
      })),
    );
    const got = state(hull);
    expectShare(got.waterplaneM2, 1207, 0.01, 'area');
    expectShare(got.waterplaneM2 / 97.56, 12.37, 0.01, 'TPC');
  });

  const fromHalves = (lengthM: number, halves: readonly number[], shares: readonly number[]): Hydrostatics =>
    state(
      hullOf(
        halves.map((half, i) => ({
          xM: lengthM * (shares[i] ?? 0),
          points: [
            [half, -5],
            [half, 5],
          ],
        })),
      ),
    );

  // Published: the same, ch. on centres of flotation: L 75 m, half-ordinates 0 1 2 4 5 5 5 4 3 2 0 with half stations at both ends;
  // the centre lies 1.26 m forward of amidships, the area by the sums printed is 534.4 m2. Within what the fairing makes of it.
  it('water plane of 75 m with half stations at its ends', () => {
    const shares = [0, 0.5, 1, 2, 3, 4, 5, 6, 7, 7.5, 8].map((k) => k / 8);
    const got = fromHalves(75, [0, 1, 2, 4, 5, 5, 5, 4, 3, 2, 0], shares);
    expectShare(got.waterplaneM2, 534.375, 0.01, 'area');
    expect(Math.abs(got.flotation[0] - 37.5 - 1.26)).toBeLessThan(0.002 * 75);
  });

  // Published: the same, ch. on inertia: half-ordinates 0 1.2 1.5 1.8 1.8 1.5 1.2 at 3 m; area 51.6 m2 by Simpson's rule.
  it('water plane of 18 m', () => {
    expectShare(fromHalves(18, [0, 1.2, 1.5, 1.8, 1.8, 1.5, 1.2], evenly(0, 1, 7)).waterplaneM2, 51.6, 0.01, 'area');
  });

  // Published: midship section of the tonnage survey of a clipper, 1869 (University of Southampton, EdShare 4624): half-widths
  // 17.15 17.40 17.45 17.30 16.10 10.65 0.60 ft over 20.4 ft of depth; 603.5 square feet by Simpson's rule.
  it('area of a midship section', () => {
    const feet = [0.6, 10.65, 16.1, 17.3, 17.45, 17.4, 17.15];
    const points = feet.map((y, i): [number, number] => [y, -20.4 + 3.4 * i]);
    expectShare(state(hullOf([0, 10].map((xM) => ({ xM, points })))).volumeM3 / 10, 603.5, 0.01, 'area');
  });
});

describe('what comes nearer with more numbers', () => {
  // Derived: V = B L / pi x T x 8 / 5, A = 2 B L / pi, IT = B^3 L / (9 pi) of y = B/2 sin(pi x / L) (1 - (z/T)^4).
  it('is a hull with twice the stations and points: by the third order at least', () => {
    const errors = [
      [11, 9],
      [21, 17],
      [41, 33],
    ].map(([stations = 0, levels = 0]) => {
      const got = hydrostatics(hullSurface(sineHull(9, 3, 0.6, stations, levels), 4), UPRIGHT);
      return [
        off(got.volumeM3, ((27 / Math.PI) * 0.6 * 8) / 5),
        off(got.waterplaneM2, 54 / Math.PI),
        off(got.transverseM4, (27 * 9) / (9 * Math.PI)),
      ];
    });
    errors.slice(1).forEach((finer, k) => {
      finer.forEach((error, i) => {
        const order = Math.log2((errors[k]?.[i] ?? 0) / error);
        expect(order, `${errors[k]?.[i]} to ${error}`).toBeGreaterThan(3);
      });
    });
  });

  const BODIES: [string, Hull][] = [
    ['Wigley', wigley(9, 3, 0.6, 21, 15)],
    ['Wigley with upright sides', wigley(9, 3, 0.6, 21, 14, 1.2)],
    ['slender Wigley', wigley(10, 1, 0.625, 21, 15)],
    ['box', box(8, 3, 0.5)],
    ['wedge', wedge(6, 2, 0.5, 1, 21, 15)],
    ['half cylinder', circular(5, 1, 15, 90, 21)],
    ['half ellipsoid', halfEllipsoid(3, 1, 0.5, 21, 15)],
    ['half ellipsoid, evenly spaced', halfEllipsoid(3, 1, 0.5, 21, 15, true)],
  ];
  // The facets leave out next to nothing: four times as many each way change no figure of an upright body by a hundredth of a per cent.
  it.each(BODIES)('is not the facets of a %s', (_name, hull) => {
    const [usual, fine] = [hullSurface(hull), hullSurface(hull, 4)];
    for (const deg of [0, 20]) {
      const water = heel(deg);
      const [a, b] = [hydrostatics(usual, water), hydrostatics(fine, water)];
      const share = 1e-4;
      expectShare(a.volumeM3, b.volumeM3, share, 'volume');
      expectShare(a.waterplaneM2, b.waterplaneM2, share, 'water plane');
      expectShare(a.wettedM2, b.wettedM2, share, 'wetted surface');
      expectShare(a.longitudinalM4, b.longitudinalM4, share, 'second moment lengthwise');
      // Heeled, a water plane cuts a facet anywhere, and breadth counts three times.
      expectShare(a.transverseM4, b.transverseM4, deg === 0 ? share : 2e-4, 'second moment athwart');
      a.buoyancy.forEach((value, k) => {
        expect(Math.abs(value - (b.buoyancy[k] ?? 0))).toBeLessThan(1e-4 * 9);
      });
    }
  });
});

describe('heeled bodies', () => {
  // Derived: wall-sided body, exact while no bilge or deck edge crosses: yB = BM tan, zB = T/2 + BM tan^2 / 2 above the keel.
  it.each([5, 10, 15])('box 8 x 3 x 0.5 at %f degrees', (deg) => {
    const got = state(box(8, 3, 0.5), heel(deg));
    const tangent = Math.tan(deg * DEGREE);
    expect(got.volumeM3).toBeCloseTo(12, 9);
    expect(-got.buoyancy[1]).toBeCloseTo(1.5 * tangent, 9);
    expect(got.buoyancy[2] + 0.5).toBeCloseTo(0.25 + 0.75 * tangent * tangent, 9);
  });

  // Derived: at 30 degrees the bilge is out; the section is a triangle of area 1.5 m2 with b = sqrt(2 A / tan), h = b tan.
  it('box 8 x 3 x 0.5 at 30 degrees floats on a triangle', () => {
    const surface = hullSurface(box(8, 3, 0.5, 2));
    const water = heeled(UPRIGHT, 30, 'starboard', surface);
    const got = hydrostatics(surface, water);
    const b = Math.sqrt(3 / Math.tan(30 * DEGREE));
    expectShare(got.volumeM3, 12, 1e-9, 'volume');
    expect(b).toBeCloseTo(2.279507, 6);
    expect(-got.buoyancy[1]).toBeCloseTo(1.5 - b / 3, 6);
    expect(got.buoyancy[2] + 0.5).toBeCloseTo((b * Math.tan(30 * DEGREE)) / 3, 6);
  });

  // Derived: V prism, t = tan of the half angle from the vertical: area with centreline draught T at heel = t T^2 / (1 - t^2 tan^2).
  it.each([
    [5, 4.456443, 0.590743, 0.142175, 0.406268],
    [10, 4.933561, 0.561452, 0.301493, 0.427463],
    [15, 6.060496, 0.506569, 0.507791, 0.473775],
  ])('V prism at %f degrees', (deg, atFixedAxis, draught, yB, zB) => {
    const surface = hullSurface(vPrism(6, 2.4, 0.6, 1.2));
    expect(hydrostatics(surface, heel(deg)).volumeM3).toBeCloseTo(atFixedAxis, 5);
    const water = heeled(UPRIGHT, deg, 'starboard', surface);
    const got = hydrostatics(surface, water);
    expect(Math.abs(water.levelM / Math.cos(deg * DEGREE) - (draught - 0.6))).toBeLessThan(1e-5);
    expect(-got.buoyancy[1]).toBeCloseTo(yB, 5);
    expect(got.buoyancy[2] + 0.6).toBeCloseTo(zB, 5);
  });

  // Derived: Wigley 9 x 3 x 0.6 with upright sides above z = 0, by two independent numerical integrations that agree to 2e-6.
  const WIGLEY: [number, number, number, number, number][] = [
    [5, 7.210841, -0.000612, 0.110428, -0.220214],
    [10, 7.276622, -0.004493, 0.212094, -0.206904],
    [15, 7.421386, -0.013634, 0.302009, -0.187046],
    [20, 7.647938, -0.029054, 0.381339, -0.162091],
    [30, 8.343949, -0.082204, 0.517513, -0.098821],
  ];
  it.each(WIGLEY)('Wigley 9 x 3 x 0.6 at %f degrees', (deg, atFixedAxis, shift, yB, zB) => {
    const surface = hullSurface(wigley(9, 3, 0.6, 21, 15, 1.2));
    const fixed = hydrostatics(surface, heel(deg)).volumeM3;
    const water = heeled(UPRIGHT, deg, 'starboard', surface);
    const got = hydrostatics(surface, water);
    const moved = water.levelM / Math.cos(deg * DEGREE);
    expectShare(fixed, atFixedAxis, 1e-3, 'volume about a fixed axis');
    // To a tenth of a millimetre.
    expect(Math.abs(moved - shift)).toBeLessThan(1e-4);
    expectShare(-got.buoyancy[1], yB, 1e-3, 'yB');
    expect(Math.abs(got.buoyancy[2] - zB)).toBeLessThan(1e-4);
  });

  it.each([
    [10, 2.778937],
    [20, 2.787253],
    [30, 2.811217],
  ])('Wigley 10 x 1 x 0.625 about a fixed axis at %f degrees', (deg, volume) => {
    expectShare(state(wigley(10, 1, 0.625, 21, 15, 0.6), heel(deg)).volumeM3, volume, 1e-3, 'volume');
  });

  // Derived: a circular section keeps its volume when heeled about its axis, and its centre of buoyancy turns with the water.
  it('half cylinder keeps its volume and metacentre', () => {
    const got = state(circular(5, 1, 25, 150), heel(25));
    expectShare(got.volumeM3, 2.5 * Math.PI, 1e-3, 'volume');
    const radius = 4 / (3 * Math.PI);
    expect(-got.buoyancy[1]).toBeCloseTo(radius * Math.sin(25 * DEGREE), 3);
    expect(got.buoyancy[2]).toBeCloseTo(-radius * Math.cos(25 * DEGREE), 3);
  });

  // Derived: trim of 0.2 m over 8 m moves the centre of buoyancy of the box by BML x 0.2 / 8 and raises KB by half of that times the slope.
  it('box trimmed by 0.2 m', () => {
    const slope = 0.2 / 8;
    const size = Math.hypot(1, slope);
    const got = state(box(8, 3, 0.5), { up: [-slope / size, 0, 1 / size], levelM: (-slope * 4) / size });
    expect(got.volumeM3).toBeCloseTo(12, 9);
    expect(got.buoyancy[0] - 4).toBeCloseTo((64 / 6) * slope, 6);
    expect(got.buoyancy[2] + 0.5).toBeCloseTo(0.253333, 5);
  });
});

describe('floating level', () => {
  it('displaces what was asked, upright, heeled and trimmed', () => {
    const surface = hullSurface(wigley(9, 3, 0.6, 21, 15, 1.2));
    for (const up of [
      [0, 0, 1],
      [0, 0.3, 1],
      [0.05, -0.2, 1],
    ] as const)
      for (const volumeM3 of [0.5, 4, 7.2, 11]) {
        const levelM = floatAt(surface, { volumeM3, up });
        expect(levelM).not.toBeNull();
        const size = Math.sqrt(dot(up, up));
        const got = hydrostatics(surface, { up: [up[0] / size, up[1] / size, up[2] / size], levelM: levelM ?? 0 });
        expect(off(got.volumeM3, volumeM3)).toBeLessThan(1e-7);
      }
  });

  it('says so when the hull cannot carry that much', () => {
    expect(floatAt(hullSurface(box(8, 3, 0.5, 0.5)), { volumeM3: 24.1, up: [0, 0, 1] })).toBeNull();
    expect(floatAt(hullSurface(box(8, 3, 0.5, 0.5)), { volumeM3: 23.9, up: [0, 0, 1] })).toBeGreaterThan(0.49);
  });

  // Derived: two boxes 6 x 1 x 0.5 whose centres are 4 m apart: I = 2 (6 x 1 / 12 + 6 x 2^2), V = 6.
  it('counts both hulls of a catamaran', () => {
    const got = state({ ...box(6, 1, 0.5), offsetM: 2 });
    expect(got.volumeM3).toBeCloseTo(6, 9);
    expect(got.transverseRadiusM).toBeCloseTo((2 * (0.5 + 24)) / 6, 9);
  });
});
