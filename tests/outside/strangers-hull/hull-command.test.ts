import { readBoat } from '@core/boat/read';
import { type HydrostaticRow, tableOfBoat } from '@core/shape/hull/hydrostatic-table';
import { describe, expect, it } from 'vitest';

/*
 * Whole boat files of hulls with closed forms, through the same door as the command `hull`: read, floated, tabled. Derived, where
 * nothing else is said: integrals of the closed forms and rigid-body geometry.
 */
type Point = readonly [number, number];
type Asked = { readonly draughtM?: number; readonly heelDeg?: number };

function rowOf(stations: readonly { xM: number; points: Point[]; knuckles?: number[] }[], more: object, asked: Asked) {
  const { hull, ...rest } = more as { hull?: object };
  const text = JSON.stringify({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Closed form',
    hull: { stations: Object.fromEntries(stations.map((station, i) => [`s${i}`, station])), ...hull },
    ...rest,
  });
  const read = readBoat(text);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const table = tableOfBoat(read.boat, asked);
  if (!table.ok) throw new Error(table.why.kind);
  const [row] = table.rows;
  if (!row || table.rows.length !== 1) throw new Error(`expected one row, got ${table.rows.length}`);
  return row;
}

/** Each value within so many parts of one; a nought within as many metres. */
function expectRow(row: HydrostaticRow, wanted: Partial<HydrostaticRow>, within: number): void {
  for (const [key, value] of Object.entries(wanted) as [keyof HydrostaticRow, number][])
    expect(Math.abs(row[key] - value) / (Math.abs(value) || 1), `${key}: ${row[key]}, by hand ${value}`).toBeLessThan(
      within,
    );
}

const boxed = (lengthM: number, halfM: number, bottomM: number, sheerM: number) =>
  [0, lengthM].map((xM) => ({
    xM,
    points: [
      [0, bottomM],
      [halfM, bottomM],
      [halfM, sheerM],
    ] as Point[],
    knuckles: [1],
  }));

/** Wigley's form with upright sides above the water; `by`: levels at even heights, or closer where the section turns. */
function wigley(count: number, levels: number, by: 'waterlines' | 'girth', originM = 0) {
  const [length, beam, draught, sheer] = [9, 3, 0.6, 1.5];
  return Array.from({ length: count }, (_, i) => {
    const share = (2 * i) / (count - 1) - 1;
    const points = Array.from({ length: levels }, (_, j): Point => {
      const t = j / (levels - 1);
      const z = j === levels - 1 ? 0 : -draught * (by === 'waterlines' ? 1 - t : Math.cos((t * Math.PI) / 2));
      return [(beam / 2) * (1 - share ** 2) * (1 - (z / draught) ** 2), z];
    });
    const half = points.at(-1)?.[0] ?? 0;
    return { xM: originM + (length * (share + 1)) / 2, points: [...points, [half, sheer] as Point] };
  });
}
const WIGLEY = { volumeM3: 7.2, waterplaneAreaM2: 18, kbM: 0.375, bmM: 9 / 7, bmlM: 10.125 };

describe('Wigley 9 x 3 x 0.6 m as a stranger would give it', () => {
  it.each([
    [5, 7, 'waterlines', 1e-3],
    [5, 7, 'girth', 1e-3],
    [11, 11, 'girth', 2e-4],
    [21, 15, 'waterlines', 1e-4],
    [21, 15, 'girth', 1e-4],
  ] as const)('%i stations of %i points by %s', (count, levels, by, within) => {
    const row = rowOf(wigley(count, levels, by), {}, { draughtM: 0.6 });
    expectRow(
      row,
      { ...WIGLEY, lcfM: 4.5, sinkageM: 0, yBM: 0, displacementKg: 7380, immersionKgPerCm: 184.5 },
      within,
    );
    expect(Math.abs(row.lcbM - 4.5)).toBeLessThan(1e-3);
  });

  it.each([-4.5, 100, -900])('its aft end at x = %d moves the centres along and nothing else', (originM) => {
    const row = rowOf(wigley(21, 15, 'waterlines', originM), {}, { draughtM: 0.6 });
    expectRow(row, WIGLEY, 1e-4);
    expect(Math.abs(row.lcfM - originM - 4.5)).toBeLessThan(1e-3);
  });

  // derived: V/V0 = 1 - (3a - a^3)/2 and Awp/Awp0 = 1 - a^2 with a = 1 - d/T
  it.each([
    [0.15, 0.0859375, 0.4375],
    [0.3, 0.3125, 0.75],
    [0.45, 0.6328125, 0.9375],
  ])('at the lower draught of %d m', (draughtM, ofVolume, ofPlane) => {
    const row = rowOf(wigley(21, 15, 'girth'), {}, { draughtM });
    expectRow(row, { volumeM3: 7.2 * ofVolume, waterplaneAreaM2: 18 * ofPlane, sinkageM: draughtM - 0.6 }, 1e-3);
  });

  // derived: the shift of the water line at constant volume and the centre, by two independent integrations that agree to 2e-6
  it.each([
    [5, -0.000612, 0.110428, -0.220214],
    [10, -0.004493, 0.212094, -0.206904],
    [20, -0.029054, 0.381339, -0.162091],
    [30, -0.082204, 0.517513, -0.098821],
  ])('heeled to %i degrees either way with its displacement kept', (heelDeg, shiftM, yM, zM) => {
    for (const [sign, levels] of [
      [1, 'waterlines'],
      [-1, 'girth'],
    ] as const) {
      const row = rowOf(wigley(21, 15, levels), {}, { heelDeg: sign * heelDeg });
      expect(Math.abs(row.sinkageM - shiftM)).toBeLessThan(1e-4);
      expectRow(row, { volumeM3: 7.2, yBM: -sign * yM, zBM: zM }, 3e-3);
    }
  });
});

describe('boxes', () => {
  const two = boxed(8, 0.5, -0.5, 1.5);
  it('two of them 2 m off the centreline are a catamaran, upright and heeled', () => {
    // derived: I = 2 (L b^3/12 + L b 2^2), V = 8 m3; wall-sided: yB = BM tan h, zB up by BM tan^2 h / 2
    const bmM = (2 * (8 / 12 + 8 * 4)) / 8;
    const more = { hull: { offsetM: 2 } };
    expectRow(rowOf(two, more, { draughtM: 0.5 }), { volumeM3: 8, waterplaneAreaM2: 16, kbM: 0.25, bmM }, 1e-9);
    const slope = Math.tan(Math.PI / 36);
    const heeled = rowOf(two, more, { heelDeg: 5 });
    expectRow(heeled, { volumeM3: 8, yBM: -bmM * slope, zBM: -0.25 + (bmM * slope ** 2) / 2, sinkageM: 0 }, 1e-6);
  });

  it('measured inside, shell and lining come on outward, at the ends as well', () => {
    // derived: 8 x 2.96 m inside, 20 mm all round, drawn to 0.48 m below the water
    const row = rowOf(
      boxed(8, 1.48, -0.48, 0.7),
      { hull: { measuredTo: 'inside', shellM: 0.012, liningM: 0.008 } },
      { draughtM: 0.5 },
    );
    expectRow(row, { volumeM3: 8.04 * 3 * 0.5, waterplaneAreaM2: 8.04 * 3, kbM: 0.25, bmM: 1.5, lcbM: 4 }, 1e-9);
  });

  it('trim from freeboards: the centre goes to the deep end', () => {
    // derived: a trim of 0.2 m in 8 m moves the centre of a box by L t / (12 T) = 0.266667 m; freeboards stand square to the water
    const upright = 8 / Math.hypot(8, 0.2);
    const freeboards = Object.fromEntries(
      [0, 8].flatMap((x) =>
        [1.5, -1.5].map((y) => [
          `f${x}${y > 0 ? 'p' : 's'}`,
          { at: [x, y, 0.7], freeboardM: (0.8 - x / 40) * upright },
        ]),
      ),
    );
    const row = rowOf(boxed(8, 1.5, -0.5, 0.7), { reference: { freeboards } }, { heelDeg: 0 });
    expectRow(row, { volumeM3: 12, lcbM: 4.266667, zBM: -0.246667, waterplaneAreaM2: 24 / upright }, 1e-5);
  });

  it('list from freeboards, and heel on top of it', () => {
    // derived: wall-sided, BM 1.5 m
    const slope = Math.tan(Math.PI / 36);
    const more = {
      reference: {
        freeboards: Object.fromEntries(
          [
            [0, 1.5],
            [0, -1.5],
            [8, 1.5],
          ].map(([x = 0, y = 0], i) => [
            `f${i}`,
            { at: [x, y, 0.7], freeboardM: (0.7 + y * slope) * Math.cos(Math.PI / 36) },
          ]),
        ),
      },
    };
    const lies = rowOf(boxed(8, 1.5, -0.5, 0.7), more, { heelDeg: 0 });
    expectRow(lies, { volumeM3: 12, yBM: -1.5 * slope, zBM: -0.25 + 0.75 * slope ** 2, heelDeg: 0 }, 1e-5);
    const heeled = rowOf(boxed(8, 1.5, -0.5, 0.7), more, { heelDeg: 10 });
    const steeper = Math.tan(Math.PI / 12);
    expectRow(heeled, { volumeM3: 12, yBM: -1.5 * steeper, zBM: -0.25 + 0.75 * steeper ** 2, heelDeg: 10 }, 1e-5);
  });

  it('the mass entered floats it, on an even keel and with its centre forward', () => {
    const more = (weights: object) => ({ weights: { displacementKg: 12300, ...weights } });
    expectRow(
      rowOf(boxed(8, 1.5, -0.5, 0.7), more({}), { heelDeg: 0 }),
      { draughtM: 0.5, volumeM3: 12, lcbM: 4 },
      1e-6,
    );
    const forward = rowOf(boxed(8, 1.5, -0.5, 0.7), more({ lcgM: 4.266667 }), { heelDeg: 0 });
    expectRow(forward, { volumeM3: 12, lcbM: 4.266667, zBM: -0.246667 }, 1e-5);
    const lake = rowOf(boxed(8, 1.5, -0.5, 0.7), more({ waterDensityKgM3: 1000 }), { heelDeg: 0 });
    expectRow(lake, { volumeM3: 12.3, displacementKg: 12300 }, 1e-6);
  });
});
