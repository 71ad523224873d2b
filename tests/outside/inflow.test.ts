import { drownedFillTime, orificeFlow, SHORT_TUBE, tornHoseFlow } from '@core/base/formulas/orifice';
import { describe, expect, it } from 'vitest';

const INCH = 0.0254;
const FOOT = 0.3048;
/** US gallon, litres. */
const GALLON = 3.785411784;
const gallons = (diameterIn: number, headFt: number, cd: number): number =>
  orificeFlow({ headM: headFt * FOOT, diameterM: diameterIn * INCH, cd }) / GALLON;

describe('water through a hole, against tables of the trade', () => {
  // Published: a yacht club's page on flooding, US gallons a minute for 1, 1.5, 2, 3 and 4 in. Its basis is a coefficient of 1; its 1 ft row
  // is 1.2 % low.
  it.each([
    [1, [19.4, 43.8, 77.9, 175.3, 311.6], 0.015],
    [2, [27.8, 62.5, 111.1, 250.0, 444.4], 0.002],
    [3, [33.9, 76.3, 135.7, 305.3, 542.8], 0.004],
    [4, [39.3, 88.4, 157.1, 353.5, 628.4], 0.002],
  ] as const)('%d ft down, coefficient 1', (head, row, tolerance) => {
    [1, 1.5, 2, 3, 4].forEach((size, k) => {
      const published = row[k] as number;
      expect(Math.abs(gallons(size, head, 1) / published - 1)).toBeLessThan(tolerance);
    });
  });

  it('2 in, 1 ft down: 47 gallons a minute as another magazine has it, whose coefficient is 0.60 (published)', () => {
    expect(gallons(2, 1, 0.6)).toBeCloseTo(47.13, 1);
  });

  it('1 in, 3 ft down: about 34 gallons a minute (published, coefficient 1)', () => {
    expect(gallons(1, 3, 1)).toBeCloseTo(34.0, 1);
  });

  it('a formula without the square of the diameter, as one page has it, is told apart: 2 in at 3 ft is 136, not 69', () => {
    expect(gallons(2, 3, 1)).toBeCloseTo(136.05, 1);
  });

  it('fills 55 gallons through 2 in, 1 ft down, in 42 s (published 42.4 s, coefficient 1)', () => {
    expect(Math.abs(((55 / gallons(2, 1, 1)) * 60) / 42.4 - 1)).toBeLessThan(0.015);
  });

  it('takes 0.80 for an open through-hull, within 0.3 % of engineering tables (.798)', () => {
    expect(Math.abs(SHORT_TUBE.cd / 0.798 - 1)).toBeLessThan(0.003);
  });
});

describe('water out of a torn hose, against another program', () => {
  it('19 mm, 1.5 m long, 0.5 m down: 28.74 L/min by EPANET with K = 1.58 (tabulated)', () => {
    expect(tornHoseFlow({ headM: 0.5, boreM: 0.019, lengthM: 1.5 })).toBeCloseTo(28.74, 1);
  });

  it('is a short tube when nothing is left of the hose: coefficient 1 / sqrt 1.58 = 0.7956 (derived)', () => {
    const tube = orificeFlow({ headM: 0.5, diameterM: 0.019, cd: 1 / Math.sqrt(1.58) });
    expect(tornHoseFlow({ headM: 0.5, boreM: 0.019, lengthM: 0 })).toBeCloseTo(tube, 9);
  });

  it('never grows with length, and nothing comes without a head', () => {
    const flow = (lengthM: number) => tornHoseFlow({ headM: 0.3, boreM: 0.013, lengthM });
    expect([0, 0.5, 2, 5, 20].map(flow)).toEqual([0, 0.5, 2, 5, 20].map(flow).sort((a, b) => b - a));
    expect(tornHoseFlow({ headM: 0, boreM: 0.013, lengthM: 1 })).toBe(0);
  });
});

describe('water that drowns its own inlet', () => {
  // Derived, hull sinkage ignored: 25 mm, coefficient 0.62, 0.5 m down, 3 m2.
  const firstFlowLMin = orificeFlow({ headM: 0.5, diameterM: 0.025, cd: 0.62 });

  it('begins with 57.18 L/min', () => {
    expect(firstFlowLMin).toBeCloseTo(57.184, 2);
  });

  it.each([
    [0.1, 332.3],
    [0.2, 709.5],
    [0.3, 1156.9],
    [0.4, 1740.0],
    [0.5, 3147.7],
  ])('rises %d m in %d s', (riseM, seconds) => {
    expect(drownedFillTime({ planM2: 3, headM: 0.5, riseM, firstFlowLMin })).toBeCloseTo(seconds, 0);
  });

  it('drains as it fills: 1 m2 through 0.01 m2 from 2 m, coefficient 0.62, takes 103.0 s (published)', () => {
    const flow = orificeFlow({ headM: 2, diameterM: Math.sqrt(0.04 / Math.PI), cd: 0.62 });
    expect(drownedFillTime({ planM2: 1, headM: 2, riseM: 2, firstFlowLMin: flow })).toBeCloseTo(103.0, 0);
  });
});
