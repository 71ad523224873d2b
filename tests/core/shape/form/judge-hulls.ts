import { checkBoat } from '@core/boat/read';
import { hullOfForm } from '@core/shape/form/hull-of-form';
import { hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { expect, test } from 'vitest';
import { dice } from '../../../support/dice';
import { type ALL_FORMS, type DrawnDimensions, drawnDimensions } from '../../../support/forms';

const LEVEL = { up: [0, 0, 1], levelM: 0 } as const;

function made(d: DrawnDimensions) {
  const answer = hullOfForm(d);
  if (!answer.ok) throw new Error(`${JSON.stringify(d)}: ${answer.problems.map(({ message }) => message).join('; ')}`);
  const surface = hullSurface(answer.hull);
  return { ...answer, surface, afloat: hydrostatics(surface, LEVEL) };
}

/** Ends of the hull at z = 0, from the keel line alone. */
export function waterlineEnds(surface: ReturnType<typeof hullSurface>, lengthM: number): readonly [number, number] {
  let [aft, forward] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k <= 4000; k += 1) {
    const x = (lengthM * k) / 4000;
    if (surface.keelAt(x) > 0) continue;
    aft = Math.min(aft, x);
    forward = Math.max(forward, x);
  }
  return [aft, forward];
}

/** What every generated hull must be; the same for a few at each commit and for many in the long suite. */
export function judgeHulls(form: (typeof ALL_FORMS)[number], seeds: readonly number[]): void {
  const all = seeds.map((seed) => {
    const d = drawnDimensions(form, dice(1000 * seed + form.length));
    return { d, ...made(d) };
  });

  test('float with the water at z = 0 at the stated displacement, and come out in their stated dimensions', () => {
    for (const { d, surface, afloat, dimensions } of all) {
      const what = JSON.stringify(d);
      // Derived: mass = volume x density. 0.1 % is asked for.
      expect(Math.abs((afloat.volumeM3 * 1025) / d.displacementKg - 1), what).toBeLessThan(0.001);
      let beam = 0;
      let lowest = 0;
      for (let k = 0; k <= 800; k += 1)
        for (const [y, z] of surface.sectionAt((d.lengthM * k) / 800)) {
          beam = Math.max(beam, 2 * Math.abs(y));
          lowest = Math.min(lowest, z);
        }
      expect(Math.abs(beam - d.beamM), `beam ${beam} ${what}`).toBeLessThan(0.01);
      expect(Math.abs(-lowest - d.draughtM), `draught ${lowest} ${what}`).toBeLessThan(0.01);
      expect(Math.abs(surface.forwardM - surface.aftM - d.lengthM), what).toBeLessThan(0.001);
      const [aft, forward] = waterlineEnds(surface, d.lengthM);
      expect(Math.abs(forward - aft - dimensions.waterlineLengthM), `waterline ${aft} ${forward} ${what}`).toBeLessThan(
        0.012,
      );
      expect(Math.abs(surface.sheerAt(d.lengthM) - dimensions.bowFreeboardM), what).toBeLessThan(0.01);
      expect(Math.abs(surface.sheerAt(0) - dimensions.sternFreeboardM), what).toBeLessThan(0.01);
    }
  });

  test('balance where such boats do: centre of buoyancy 39 to 54 % of the waterline from aft (common practice, no source)', () => {
    for (const { d, surface, afloat } of all) {
      const [aft, forward] = waterlineEnds(surface, d.lengthM);
      const share = (afloat.buoyancy[0] - aft) / (forward - aft);
      expect(share, JSON.stringify(d)).toBeGreaterThan(0.39);
      expect(share, JSON.stringify(d)).toBeLessThan(0.54);
    }
  });

  test('have stations in order that a boat file takes, points from keel to sheer, everything guessed', () => {
    for (const { hull } of all) {
      const checked = checkBoat({ format: 'underberth-boat', schemaVersion: 1, name: 'x', hull });
      expect(checked.ok, JSON.stringify(checked)).toBe(true);
      expect([hull.grade, hull.form]).toEqual(['guessed', form]);
      const stations = Object.values(hull.stations);
      expect(stations.length).toBeGreaterThanOrEqual(11);
      expect(stations.length).toBeLessThanOrEqual(24);
      for (const { points } of stations)
        points.forEach(([y, z], i) => {
          expect(y).toBeGreaterThanOrEqual(0);
          if (i > 0) expect(z).toBeGreaterThanOrEqual(points[i - 1]?.[1] ?? 0);
        });
    }
  });

  test('have a waterline and a sheer without wiggles: each turns inward, then never back but for the hollow of an end', () => {
    for (const { d, surface } of all) {
      const [aft, forward] = waterlineEnds(surface, d.lengthM);
      const bends = (at: (x: number) => number, from: number, to: number): number => {
        // Second differences over a fiftieth of the length; those below a millimetre are no bend to the eye.
        const h = (to - from) / 50;
        let changes = 0;
        let last = 0;
        for (let k = 2; k <= 48; k += 1) {
          const x = from + k * h;
          const second = at(x - h) - 2 * at(x) + at(x + h);
          if (Math.abs(second) < 0.001) continue;
          const sign = Math.sign(second);
          if (last !== 0 && sign !== last) changes += 1;
          last = sign;
        }
        return changes;
      };
      expect(
        bends((x) => surface.halfBreadthAt(x, 0.001), aft, forward),
        `waterline ${JSON.stringify(d)}`,
      ).toBeLessThanOrEqual(2);
      expect(
        bends((x) => surface.halfBreadthAt(x, surface.sheerAt(x)), 0, d.lengthM),
        `sheer ${JSON.stringify(d)}`,
      ).toBeLessThanOrEqual(1);
    }
  });
}
