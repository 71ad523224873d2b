import { checkBoat } from '@core/boat/read';
import type { Boat, Hull } from '@core/boat/schema/boat';
import { referenceAttitude } from '@core/shape/hull/attitude';
import { draughtScale, draughtSeries, hydrostaticTable, tableOfBoat } from '@core/shape/hull/hydrostatic-table';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import type { WaterPlane } from '@core/shape/hull/types';
import { describe, expect, it } from 'vitest';
import { box, wigley, wineglass } from '../../../support/hull-shapes';

const UPRIGHT: WaterPlane = { up: [0, 0, 1], levelM: 0 };
const SEA = { waterDensityKgM3: 1025 };
const DEGREE = Math.PI / 180;
/** Trimmed by the bow, down by so much over a metre of length, at z = 0 amidships of a boat 9 m long. */
const trimmed = (slope: number): WaterPlane => {
  const size = Math.hypot(1, slope);
  return { up: [-slope / size, 0, 1 / size], levelM: (-slope * 4.5) / size };
};

describe('the table', () => {
  // Derived: closed forms of the Wigley hull 9 x 3 x 0.6; moment to trim rho g IL / (100 L) with IL = B L^3 / 30.
  it('gives the closed forms at the design draught', () => {
    const [row] = hydrostaticTable(hullSurface(wigley(9, 3, 0.6, 21, 15, 1.2)), UPRIGHT, { ...SEA, draughtsM: [0.6] });
    const want = {
      draughtM: 0.6,
      heelDeg: 0,
      displacementKg: 7380,
      volumeM3: 7.2,
      waterplaneAreaM2: 18,
      lcbM: 4.5,
      lcfM: 4.5,
      kbM: 0.375,
      bmM: 27 / 35 / 0.6,
      bmlM: 10.125,
      wettedSurfaceM2: 22.74405,
      immersionKgPerCm: 184.5,
      momentToTrimNmPerCm: (1025 * 9.80665 * 72.9) / 900,
      zBM: -0.225,
    };
    for (const [key, value] of Object.entries(want))
      expect(Math.abs((row?.[key as keyof typeof want] ?? 0) - value), key).toBeLessThanOrEqual(1e-3 * Math.abs(value));
    expect([row?.sinkageM, row?.yBM]).toEqual([expect.closeTo(0, 12), expect.closeTo(0, 9)]);
  });

  it('goes by round draughts to the sheer, with that of the reference attitude among them', () => {
    const scale = draughtScale(hullSurface(box(8, 3, 0.53, 0.7)), UPRIGHT);
    const series = draughtSeries(scale);
    expect(scale.referenceM).toBeCloseTo(0.53, 9);
    expect(scale.sheerM).toBeCloseTo(1.23, 9);
    expect(series.map((d) => Math.round(d * 1000) / 1000)).toEqual([0.2, 0.4, 0.53, 0.6, 0.8, 1, 1.2]);
  });

  it('measures draught, KB and sinkage square to the reference waterline, on the centre plane', () => {
    const surface = hullSurface(wineglass(9));
    const reference = trimmed(0.04);
    const scale = draughtScale(surface, reference);
    for (const heelDeg of [-25, 0, 10]) {
      const water = scale.waterAt(scale.referenceM, heelDeg);
      // The line in which it meets the centre plane is that of the reference water.
      for (const x of [0, 9]) {
        const z = (reference.levelM - reference.up[0] * x) / reference.up[2];
        expect(water.up[0] * x + water.up[2] * z - water.levelM).toBeCloseTo(0, 9);
      }
      expect(scale.draughtOf(water)).toBeCloseTo(scale.referenceM, 9);
    }
    const [row] = hydrostaticTable(surface, reference, { ...SEA, heelDeg: 20 });
    const same = hydrostaticTable(surface, reference, { ...SEA, heelDeg: 20, draughtsM: [row?.draughtM ?? 0] })[0];
    expect(same?.volumeM3).toBeCloseTo(hydrostatics(surface, reference).volumeM3, 6);
    expect(row?.sinkageM).toBeCloseTo((row?.draughtM ?? 0) - scale.referenceM, 12);
  });

  it('is mirrored from tack to tack', () => {
    const surface = hullSurface(wineglass());
    const [port, starboard] = [-15, 15].map((heelDeg) => hydrostaticTable(surface, UPRIGHT, { ...SEA, heelDeg })[0]);
    expect(starboard?.yBM).toBeLessThan(0);
    expect(starboard?.yBM).toBeCloseTo(-(port?.yBM ?? 0), 9);
    for (const key of ['draughtM', 'bmM', 'kbM', 'wettedSurfaceM2', 'momentToTrimNmPerCm'] as const)
      expect(starboard?.[key]).toBeCloseTo(port?.[key] ?? 0, 6);
  });

  it('says how far the sheer of a boat is under water', () => {
    const table = tableOfBoat(boatOf(box(8, 3, 0.5, 0.3)), { heelDeg: 30, draughtM: 0.5 });
    expect(table.ok && table.sheerUnderM).toBeCloseTo(1.5 * Math.sin(30 * DEGREE) - 0.3 * Math.cos(30 * DEGREE), 6);
  });
});

const boatOf = (hull: Hull, weights?: Boat['weights']): Boat => {
  const result = checkBoat({ format: 'underberth-boat', schemaVersion: 1, name: 'x', hull, weights });
  if (!result.ok) throw new Error(result.problems[0]?.message ?? '');
  return result.boat;
};

describe('a boat that floats by its weights', () => {
  const hull = box(8, 3, 0.5);
  const afloat = (weights: Omit<NonNullable<Boat['weights']>, 'waterDensityKgM3'>) => {
    const boat = boatOf(hull, { ...weights, waterDensityKgM3: 1025 });
    return referenceAttitude(boat, hullSurface(hull));
  };

  // Derived: 6,150 kg in a box of 24 m2 draw 0.25 m: 0.25 m less than drawn.
  it('lies as deep as its mass asks for, and says so', () => {
    const got = afloat({ displacementKg: 6150 });
    expect(got).toMatchObject({ source: 'weights', trimDeg: 0, listDeg: 0, gradeM: 0.1 });
    expect(got.levelM).toBeCloseTo(-0.25, 9);
    expect(got.sinkageM).toBeCloseTo(-0.25, 9);
  });

  // Derived: with the centre of gravity 0.2 m forward of amidships at the height of the centre of buoyancy, slope = 0.2 / BML to the
  // first order, BML = 64 / 6 at 0.5 m; with it 0.35 m higher, BML less that.
  it('trims until its centre of buoyancy is under its centre of gravity', () => {
    const slope = (trimDeg: number): number => Math.tan(trimDeg * DEGREE);
    expect(slope(afloat({ displacementKg: 12300, lcgM: 4.2 }).trimDeg)).toBeCloseTo((0.2 * 6) / 64, 5);
    expect(slope(afloat({ displacementKg: 12300, lcgM: 4.2, kgM: 0.1 }).trimDeg)).toBeCloseTo(0.2 / (64 / 6 - 0.35), 4);
    expect(afloat({ displacementKg: 12300, lcgM: 3.8 }).trimDeg).toBeCloseTo(
      -afloat({ displacementKg: 12300, lcgM: 4.2 }).trimDeg,
      6,
    );
    const { up, levelM } = afloat({ displacementKg: 9000, lcgM: 4.3, kgM: 0 });
    const { buoyancy, volumeM3 } = hydrostatics(hullSurface(hull), { up, levelM });
    expect(volumeM3 * 1025).toBeCloseTo(9000, 3);
    expect((4.3 - buoyancy[0]) * up[2] - (0 - buoyancy[2]) * up[0]).toBeCloseTo(0, 6);
  });

  it('gives way to what was measured, and floats as drawn when its hull cannot carry it', () => {
    const boat = boatOf(hull, { displacementKg: 6150, waterDensityKgM3: 1025 });
    const measured = {
      ...boat,
      reference: { freeboards: { a: { at: [4, 0, 1] as [number, number, number], freeboardM: 0.9 } }, levelMarks: {} },
    };
    expect(referenceAttitude(measured, hullSurface(hull)).source).toBe('freeboards');
    expect(afloat({ displacementKg: 90000 }).source).toBe('frame');
    expect(tableOfBoat(boatOf(hull, { displacementKg: 90000, waterDensityKgM3: 1025 }), {})).toMatchObject({
      ok: false,
      why: { kind: 'cannotFloat', displacementKg: 90000 },
    });
    expect(tableOfBoat(boatOf(hull, { displacementKg: 12300, lcgM: 7.9, waterDensityKgM3: 1025 }), {})).toMatchObject({
      ok: false,
      why: { kind: 'cannotBalance', lcgM: 7.9 },
    });
  });
});
