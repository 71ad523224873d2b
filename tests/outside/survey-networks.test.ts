import type { Boat } from '@core/boat/schema/boat';
import { resected } from '@core/shape/survey/start';
import { surveyed } from '@core/shape/survey/survey';
import { describe, expect, it } from 'vitest';

const judged = (survey: unknown, accuracy: Boat['accuracy']) => {
  const result = surveyed({ survey, accuracy } as Boat);
  if (!result) throw new Error('judged: expected a survey, got none');
  return result;
};

/**
 * published: F. Krumm, Geodetic Network Adjustment Examples, Rev. 3.5, Stuttgart 2020, example 3.1.1, after Benning 2011, 8-2;
 * quoted by an open adjustment package that replays it. A plane: here every point is held level by a height of 0, which adds one
 * reading and one unknown each.
 */
describe('a trilateration of two fixed and two new points', () => {
  const SIGMA_M = 0.01;
  const distances: readonly (readonly [string, string, number])[] = [
    ['1', '3', 1000.02],
    ['1', '4', 1414.2],
    ['2', '3', 1414.24],
    ['2', '4', 999.98],
    ['3', '4', 1000],
  ];
  const level = ['3', '4'].map((to) => ({ from: 'level', to, kind: 'height', valueM: 0 }));
  const near = { '3': [0, 0], '4': [1000, 0] };
  const survey = {
    points: { '1': { at: [0, 1000, 0] }, '2': { at: [1000, 1000, 0] }, '3': {}, '4': {} },
    datums: { level: { at: [0, 0, 0], axis: 'z' } },
    readings: Object.fromEntries(
      [...distances.map(([from, to, valueM]) => ({ from, to, kind: 'distance', valueM })), ...level].map(
        (reading, index) => [`r${index + 1}`, reading],
      ),
    ),
  };
  const { points, residuals, fit, suspects } = judged(survey, { measured: 2 * SIGMA_M });

  it('finds the published places, or their mirror image across the fixed line', () => {
    // The example starts below the line 1-2; distances alone fit above it as well, and that is said.
    const side = (points['3']?.at[1] ?? 0) < 1000 ? 1 : -1;
    const y = (id: string): number => 1000 - side * (1000 - (points[id]?.at[1] ?? 0));
    expect(points['3']?.at[0]).toBeCloseTo(-0.0096, 4);
    expect(y('3')).toBeCloseTo(-0.0226, 4);
    expect(points['4']?.at[0]).toBeCloseTo(999.993, 4);
    expect(y('4')).toBeCloseTo(0.0174, 4);
    for (const id of ['3', '4'] as const) {
      const mirror = points[id]?.mirror;
      expect(mirror?.[0]).toBeCloseTo(near[id][0] as number, 1);
      expect((mirror?.[1] ?? 0) - 1000).toBeCloseTo(1000 - (points[id]?.at[1] ?? 0), 1);
    }
  });

  it('leaves the published residuals, observed less adjusted', () => {
    expect(residuals.slice(0, 5).map(({ residualM }) => Math.round(residualM * 1e5) / 1e3)).toEqual([
      -0.26, 0.368, 0.368, -0.26, -0.26,
    ]);
  });

  it('has one reading to spare, the published scatter, and the published deviations', () => {
    expect(fit?.spare).toBe(1);
    expect(SIGMA_M * (fit?.scatter ?? 0)).toBeCloseTo(0.006882, 6);
    // The example scales its deviations by that scatter; ours stand as graded while the scatter allows it.
    const published = [0.00901, 0.00637, 0.00901, 0.00637].map((deviation) => deviation / (fit?.scatter ?? 1));
    const found = ['3', '4'].flatMap((id) => points[id]?.sdM.slice(0, 2) ?? []);
    found.forEach((deviation, i) => {
      expect(deviation).toBeCloseTo(published[i] ?? 0, 4);
    });
    expect(suspects).toEqual([]);
  });
});

/**
 * published: sample levelling of GNU Gama, eight height differences of four points, each leg levelled twice; the adjustment
 * output of version 1.5 as posted by a user (vrmapper.com, 1doutput.html). A priori deviation 5 mm a leg.
 */
describe('a levelling loop of four points, each leg taken both ways', () => {
  const legs: readonly (readonly [string, string, number])[] = [
    ['1a', '4', -1.225],
    ['4', '3', -0.848],
    ['3', '2', 1.342],
    ['2', '1a', 0.72],
    ['1a', '2', -0.724],
    ['2', '3', -1.335],
    ['3', '4', 0.842],
    ['4', '1a', 1.231],
  ];
  const readings = Object.fromEntries(
    legs.map(([from, to, valueM], index) => [String(index + 1), { from, to, kind: 'height', valueM }]),
  );
  const survey = { points: { '1a': { at: [0, 0, 1000] }, '2': {}, '3': {}, '4': {} }, readings };
  const { points, residuals, fit, suspects, loose } = judged(survey, { measured: 0.01 });

  it('finds the published heights and their deviations', () => {
    const published = { '4': [998.77513, 3.1], '3': [997.93325, 3.5], '2': [999.27487, 3.1] } as const;
    for (const [id, [height, deviation]] of Object.entries(published)) {
      expect(points[id]?.at[2]).toBeCloseTo(height, 5);
      expect(1000 * (points[id]?.sdM[2] ?? 0)).toBeCloseTo(deviation, 1);
    }
  });

  it('has the published sum of squares, five readings to spare, and the published greatest normalised residual', () => {
    expect(fit?.spare).toBe(5);
    expect((fit?.chiSquare ?? 0) * 25).toBeCloseTo(146.625, 3);
    const greatest = residuals.reduce((a, b) => (Math.abs(b.standardised) > Math.abs(a.standardised) ? b : a));
    expect(greatest.reading).toBe('6');
    expect(Math.abs(greatest.standardised)).toBeCloseTo(1.68, 2);
    expect(suspects).toEqual([]);
  });

  it('says that heights alone leave the points loose in plan', () => {
    expect(points['3']?.sdM.slice(0, 2)).toEqual([null, null]);
    expect(loose.points.map(({ point, axes }) => [point, axes])).toEqual([
      ['4', ['x', 'y']],
      ['3', ['x', 'y']],
      ['2', ['x', 'y']],
    ]);
  });
});

/** published: A. Norrdine, An algebraic solution to the multilateration problem, 2012, example A: three spheres meet in two points. */
describe('three distances from three known places', () => {
  const anchors = [
    { at: [27.297, -4.953, 1.47], lengthM: 3.851 },
    { at: [25.475, -6.124, 2.36], lengthM: 3.875 },
    { at: [22.59, 0.524, 1.2], lengthM: 3.514 },
  ] as const;
  it('give two places, each at all three distances and mirror images in the plane of the known ones', () => {
    const found = resected(
      [null, null, null],
      anchors.map((anchor) => ({ ...anchor, sigmaM: 0.01 })),
    );
    expect(found).toHaveLength(2);
    for (const at of found) {
      for (const anchor of anchors) {
        expect(Math.hypot(...at.map((part, axis) => part - (anchor.at[axis] ?? 0)))).toBeCloseTo(anchor.lengthM, 9);
      }
    }
    const [a = [], b = []] = found as readonly (readonly number[])[];
    const half = a.map((part, axis) => (part + (b[axis] ?? 0)) / 2);
    // derived: what joins mirror images is square to every line within the mirror
    for (const { at } of anchors) {
      const within = at.map((part, axis) => part - (half[axis] ?? 0));
      expect(within.reduce((sum, part, axis) => sum + part * ((a[axis] ?? 0) - (b[axis] ?? 0)), 0)).toBeCloseTo(0, 8);
    }
  });
});
