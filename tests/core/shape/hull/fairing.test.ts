import { fairHalf } from '@core/shape/hull/fairing';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hullOf, wigley } from '../../../support/hull-shapes';

const millimetres = (least: number, most: number) => fc.integer({ min: least, max: most }).map((mm) => mm / 1000);
const station = fc
  .record({
    keel: millimetres(-1500, -100),
    steps: fc.array(
      fc.tuple(
        fc.constantFrom(0, 0, 1).chain((still) => (still ? fc.constant(0) : millimetres(-300, 600))),
        millimetres(0, 500),
      ),
      { minLength: 1, maxLength: 9 },
    ),
    first: fc.constantFrom(0, 0, 0.11),
    knuckle: fc.nat(9),
    kind: fc.constantFrom('shaped', 'shaped', 'shaped', 'stem', 'point'),
  })
  .map(({ keel, steps, first, knuckle, kind }) => {
    let y: number = first;
    let z = keel;
    const points: [number, number][] = [[y, z]];
    for (const [out, up] of steps) {
      y = Math.max(0, y + out);
      z += up;
      points.push([y, z]);
    }
    points.push([y + 0.05, z + 0.3]);
    return { points, knuckles: knuckle > 0 && knuckle < points.length - 1 ? [knuckle] : [], kind };
  });
/** Stations as the reader of boat files lets them through: the sheer above the keel, breadth between the ends. */
const hulls = fc
  .tuple(
    fc.array(station, { minLength: 2, maxLength: 7 }),
    fc.array(millimetres(50, 3000), { minLength: 7, maxLength: 7 }),
  )
  .map(([stations, gaps]) => {
    let xM = 0;
    return hullOf(
      stations.map(({ points, knuckles, kind }, i) => {
        xM += gaps[i] ?? 1;
        const sheer = points[points.length - 1]?.[1] ?? 0;
        if (i === stations.length - 1 && kind === 'point')
          return {
            xM,
            points: [
              [0, sheer - 0.001],
              [0, sheer],
            ] as [number, number][],
          };
        if (i === stations.length - 1 && kind === 'stem')
          return { xM, points: points.map(([, z]): [number, number] => [0, z]) };
        return { xM, points, knuckles };
      }),
    );
  });

describe('fairing', () => {
  it('makes of any stations a grid with breadths >= 0 and z that never falls, within reach of what was entered', () => {
    fc.assert(
      fc.property(hulls, (hull) => {
        const grid = fairHalf(hull);
        const widest = Math.max(...Object.values(hull.stations).flatMap(({ points }) => points.map(([y]) => y)));
        let bad = 0;
        for (let k = 0; k < grid.y.length; k += 1) {
          const y = grid.y[k] ?? Number.NaN;
          const z = grid.z[k] ?? Number.NaN;
          if (!(y >= 0 && y <= 2 * widest + 0.2) || !Number.isFinite(z)) bad += 1;
          if (k % grid.rows > 0 && z < (grid.z[k - 1] ?? 0)) bad += 1;
        }
        expect(bad).toBe(0);
        for (let i = 1; i < grid.columns; i += 1) expect((grid.x[i] ?? 0) > (grid.x[i - 1] ?? 0)).toBe(true);
      }),
      { seed: 21, numRuns: 150, endOnFailure: true },
    );
  });

  it('gives surfaces whose volume rises with the water, whatever the stations', () => {
    fc.assert(
      fc.property(hulls, fc.double({ min: -0.4, max: 0.4, noNaN: true }), (hull, slope) => {
        const surface = hullSurface(hull);
        const size = Math.hypot(1, slope);
        let last = 0;
        for (const levelM of [-1, -0.5, 0, 0.5, 1.5]) {
          const { volumeM3, waterplaneM2, wettedM2 } = hydrostatics(surface, {
            up: [0, slope / size, 1 / size],
            levelM,
          });
          expect(volumeM3).toBeGreaterThanOrEqual(last - 1e-9);
          expect(waterplaneM2).toBeGreaterThanOrEqual(0);
          expect(wettedM2).toBeGreaterThanOrEqual(0);
          last = volumeM3;
        }
      }),
      { seed: 22, numRuns: 25, endOnFailure: true },
    );
  });

  // Derived: closed form of the Wigley hull; a table of offsets is written in whole millimetres.
  it('loses less than 0.1 % where offsets are rounded to the millimetre', () => {
    const exact = wigley(9, 3, 0.6, 21, 15);
    const rounded = hullOf(
      Object.values(exact.stations).map(({ xM, points }) => ({
        xM,
        points: points.map(([y, z]): [number, number] => [Math.round(y * 1000) / 1000, Math.round(z * 1000) / 1000]),
      })),
    );
    const { volumeM3, waterplaneM2 } = hydrostatics(hullSurface(rounded), { up: [0, 0, 1], levelM: 0 });
    expect(Math.abs(volumeM3 / 7.2 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(waterplaneM2 / 18 - 1)).toBeLessThan(1e-3);
  });

  // Derived: the same closed form; five stations of five levels are what a first survey gives.
  it('makes do with a coarse table', () => {
    const { volumeM3 } = hydrostatics(hullSurface(wigley(9, 3, 0.6, 5, 5)), { up: [0, 0, 1], levelM: 0 });
    expect(Math.abs(volumeM3 / 7.2 - 1)).toBeLessThan(0.003);
  });
});
