import { afloat, type Told } from '@core/assess/weights/afloat';
import { gmFromRollPeriod } from '@core/base/formulas/roll-period';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { floatAt, hydrostatics } from '@core/shape/hull/hydrostatics';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { box } from '../../../support/hull-shapes';

const DEGREE = Math.PI / 180;

/** A box 8 x 3 m that draws 0.5 m: 12,300 kg, KM = 0.25 + 1.5 over the bottom, so z of the metacentre is 1.25. */
function boatWith(
  weights: Partial<NonNullable<Boat['weights']>>,
  parts: Record<string, { massKg: number; at: [number, number, number]; kind?: string; liquidL?: number }>,
): Boat {
  const result = checkBoat({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Box',
    weights,
    parts: Object.fromEntries(
      Object.entries(parts).map(([id, { massKg, kind, liquidL }]) => [
        id,
        {
          name: id,
          kind: kind ?? 'other',
          shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] },
          massKg,
          ...(liquidL === undefined ? {} : { liquidL }),
        },
      ]),
    ),
    arrangements: {
      first: { name: 'First', places: Object.fromEntries(Object.entries(parts).map(([id, { at }]) => [id, { at }])) },
    },
  });
  if (!result.ok) throw new Error(result.problems[0]?.message ?? '');
  return result.boat;
}
const SURFACE = hullSurface(box(8, 3, 0.5));
const AFLOAT = { surface: SURFACE, water: { up: [0, 0, 1] as const, levelM: 0 } };
const known = <T>(told: Told<T>): T => {
  if (!told.known) throw new Error(told.enterNext);
  return told;
};

describe('list, trim and sinkage by what is placed', () => {
  // Derived: tan(list) = m y / (M GM + m (water - z)); kg at z = 0.5 gives GM = 0.75.
  it('follow from moments about metacentre and centre of flotation', () => {
    const boat = boatWith({ kgM: 0.5 }, { pump: { massKg: 100, at: [6, -1, 0.25] } });
    const { placed, stability } = afloat(boat, 'first', AFLOAT);
    expect(known(stability).gmM).toBeCloseTo(0.75, 9);
    const righting = 12300 * 0.75 + 100 * (0 - 0.25);
    expect(known(placed.list).listDeg).toBeCloseTo(Math.atan(100 / righting) / DEGREE, 9);
    expect(known(placed.sinkage).sinkageM).toBeCloseTo(100 / (1025 * 24), 9);
    // Derived: 100 kg 2 m forward of amidships; BML = 64 / 6.
    const slope = (100 * 2) / (12300 * (64 / 6));
    expect(known(placed.trim).trimDeg).toBeCloseTo(Math.atan(slope) / DEGREE, 9);
    expect(known(placed.trim).trimM).toBeCloseTo(8 * slope, 9);
    expect(placed.centre).toEqual([6, -1, 0.25]);
  });

  // Derived by another way: the hull heeled and sunk until the mass and the moment across balance, by its own hydrostatics.
  it('agree with the hull in equilibrium', () => {
    const massKg = 150;
    const at: [number, number, number] = [4, 0.9, 0.1];
    const { placed } = afloat(boatWith({ kgM: 0.2 }, { tank: { massKg, at } }), 'first', AFLOAT);
    const whole = 12300 + massKg;
    const gravity = [(massKg * at[1]) / whole, (12300 * 0.2 + massKg * at[2]) / whole] as const;
    const lever = (deg: number): number => {
      const up = [0, -Math.sin(deg * DEGREE), Math.cos(deg * DEGREE)] as const;
      const levelM = floatAt(SURFACE, { volumeM3: whole / 1025, up }) ?? 0;
      const [, y, z] = hydrostatics(SURFACE, { up, levelM }).buoyancy;
      return (y - gravity[0]) * Math.cos(deg * DEGREE) + (z - gravity[1]) * Math.sin(deg * DEGREE);
    };
    let [low, high] = [0, 10];
    for (let k = 0; k < 50; k++) {
      const middle = (low + high) / 2;
      if (lever(middle) < 0) low = middle;
      else high = middle;
    }
    expect(low).toBeGreaterThan(0.3);
    expect(Math.abs(-known(placed.list).listDeg / low - 1)).toBeLessThan(1e-3);
  });

  // Common practice, no source: 200 litres one metre off the centre list a boat of 9 tonnes with a GM of 0.98 m by 1.3 degrees,
  // a pump of 35 kg there by 0.23.
  it('are of the size that is usual aboard', () => {
    const gmM = 9000 / 12300;
    for (const [massKg, deg, kgM] of [
      [200, 1.3, 1.25 - 0.98 * gmM],
      [35, 0.23, 1.25 - 0.98 * gmM],
    ] as const) {
      const { placed } = afloat(boatWith({ kgM }, { it: { massKg, at: [4, 1, 0] } }), 'first', AFLOAT);
      expect(Math.abs(known(placed.list).listDeg + deg)).toBeLessThan(0.02);
    }
  });

  it('are mirrored with the arrangement', () => {
    const list = (y: number): number =>
      known(afloat(boatWith({ kgM: 0.4 }, { a: { massKg: 60, at: [3, y, 0] } }), 'first', AFLOAT).placed.list).listDeg;
    expect(list(-0.8)).toBeGreaterThan(0);
    expect(list(0.8)).toBe(-list(-0.8));
    expect(list(0)).toBe(0);
  });

  it('cannot be told without what they rest on, and say what to enter', () => {
    const boat = boatWith({}, { a: { massKg: 60, at: [3, 1, 0] } });
    const bare = afloat(boat, 'first', null);
    expect(bare.placed.sinkage).toMatchObject({ known: false, enterNext: expect.stringContaining('hull') });
    expect(bare.placed.list).toMatchObject({ known: false, enterNext: expect.stringContaining('roll period') });
    const drawn = afloat(boat, 'first', AFLOAT);
    expect(drawn.placed.sinkage.known && drawn.placed.trim.known).toBe(true);
    expect(drawn.placed.list).toMatchObject({ known: false, enterNext: expect.stringContaining('weights.kgM') });
    const tender = afloat(boatWith({ kgM: 3 }, { a: { massKg: 1, at: [3, 1, 0] } }), 'first', AFLOAT);
    expect(tender.placed.list).toMatchObject({ known: false, enterNext: expect.stringContaining('stay upright') });
  });

  it('names parts that are not placed or weigh nothing, and every tank by itself', () => {
    const boat = boatWith(
      { kgM: 0.5 },
      {
        tank: { massKg: 20, at: [4, 1, 0], kind: 'waterTank', liquidL: 200 },
        box: { massKg: 0, at: [4, 0, 0] },
      },
    );
    const got = afloat(boat, 'first', AFLOAT);
    expect(got.massless).toEqual(['box']);
    expect(got.placed.massKg).toBe(220);
    expect(got.tanks.map(({ id, effect }) => [id, effect.massKg])).toEqual([['tank', 200]]);
    expect(afloat(boat, null, AFLOAT).unplaced).toEqual(['box', 'tank']);
  });
});

describe('stability from a roll period', () => {
  // Derived: T = 2 pi k / sqrt(g GM); k = 1.2 m, GM = 1 m gives T = 2.408 s.
  it('turns the equation of a pendulum round', () => {
    const periodS = (2 * Math.PI * 1.2) / Math.sqrt(9.80665);
    expect(gmFromRollPeriod({ beamM: 3, periodS, radiusShare: 0.4 })).toBeCloseTo(1, 12);
  });

  it('gives a band of list, wider than the figure by the radius of gyration', () => {
    const boat = boatWith({ rollPeriodS: 2.4 }, { pump: { massKg: 50, at: [4, -1, 1] } });
    const { placed, stability } = afloat(boat, 'first', AFLOAT);
    const { leastM, gmM, greatestM, source } = known(stability);
    expect(source).toBe('practice');
    expect([leastM / gmM, greatestM / gmM]).toEqual([
      expect.closeTo((35 / 40) ** 2, 9),
      expect.closeTo((45 / 40) ** 2, 9),
    ]);
    const { leastDeg, listDeg, greatestDeg } = known(placed.list);
    expect(leastDeg).toBeLessThan(listDeg);
    expect(greatestDeg).toBeGreaterThan(listDeg);
  });

  it('says nothing of two hulls', () => {
    const twin = { surface: hullSurface({ ...box(6, 1, 0.5), offsetM: 2 }), water: AFLOAT.water };
    const got = afloat(boatWith({ rollPeriodS: 2 }, {}), 'first', twin);
    expect(got.stability).toMatchObject({ known: false, enterNext: expect.stringContaining('two hulls') });
  });
});
