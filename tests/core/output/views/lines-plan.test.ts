import {
  bodyPlan,
  bodyPlanExtent,
  buttocksEvery,
  curveOfAreas,
  levelsEvery,
  profileOf,
  sectionsAlong,
  sheerInPlan,
  waterlinesEvery,
} from '@core/output/views/lines-plan';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { wigley } from '../../../support/hull-shapes';

const LENGTH = 10;
const BEAM = 3;
const DRAUGHT = 1.2;
const LEVEL = { up: [0, 0, 1], levelM: 0 } as const;
const hull = wigley(LENGTH, BEAM, DRAUGHT, 21, 15);
const surface = hullSurface(hull);
const sections = sectionsAlong(surface);
/** published: Wigley's form, half-breadth at x from aft and z. */
const halfBreadth = (x: number, z: number): number =>
  (BEAM / 2) * (1 - ((2 * x) / LENGTH - 1) ** 2) * (1 - (z / DRAUGHT) ** 2);

describe('the lines plan of a Wigley hull', () => {
  it('lays its stations over each other, aft ones in one half and forward ones in the other', () => {
    const lines = bodyPlan(hull, surface);
    expect(lines.map(({ number }) => number)).toEqual(Array.from({ length: 21 }, (_, i) => i));
    expect(
      lines
        .filter(({ end }) => end === 'aft')
        .map(({ xM }) => xM)
        .at(-1),
    ).toBe(4.5);
    for (const { xM, points } of lines)
      for (const [y, z] of points) expect(Math.abs(y - halfBreadth(xM, z))).toBeLessThan(0.003);
    expect(bodyPlanExtent(lines)).toEqual({ lowM: -DRAUGHT, highM: 0, halfBreadthM: BEAM / 2 });
  });

  it('draws waterlines and buttocks at multiples of the spacing, on the form', () => {
    const waterlines = waterlinesEvery(surface, 0.3, -DRAUGHT, 0);
    expect(waterlines.map(({ zM }) => Number(zM.toFixed(6)))).toEqual([-1.2, -0.9, -0.6, -0.3, 0]);
    for (const { zM, points } of waterlines)
      for (const [x, y] of points) expect(Math.abs(y - halfBreadth(x, zM))).toBeLessThan(0.004);
    const buttocks = buttocksEvery(sections, 0.5, BEAM / 2);
    expect(buttocks.map(({ yM }) => yM)).toEqual([0.5, 1]);
    for (const { yM, points } of buttocks)
      for (const [x, z] of points) expect(Math.abs(halfBreadth(x, z) - yM)).toBeLessThan(0.01);
  });

  it('has keel, sheer and curve of areas of the form', () => {
    const { keel, sheer } = profileOf(sections);
    for (const [, z] of keel) expect(z).toBeCloseTo(-DRAUGHT, 9);
    for (const [, z] of sheer) expect(z).toBeCloseTo(0, 9);
    for (const [x, y] of sheerInPlan(sections)) expect(Math.abs(y - halfBreadth(x, 0))).toBeLessThan(0.003);
    for (const [x, area] of curveOfAreas(sections, LEVEL)) {
      // derived: a section is a parabola, two thirds of its breadth times its draught
      expect(Math.abs(area - (4 / 3) * halfBreadth(x, 0) * DRAUGHT)).toBeLessThan(0.006);
    }
  });

  it('draws no lines for a spacing that would fill the sheet', () => {
    expect(levelsEvery(0.001, -1, 1)).toEqual([]);
    expect(levelsEvery(0, -1, 1)).toEqual([]);
    expect(levelsEvery(0.5, -1, 1)).toEqual([-1, -0.5, 0, 0.5, 1]);
  });
});
