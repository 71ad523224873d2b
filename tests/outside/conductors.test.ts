import {
  ampacity,
  CIRCULAR_MIL_MM2,
  circularMilsNeeded,
  conductorResistance,
  RESISTIVITY,
} from '@core/base/formulas/conductor';
import { describe, expect, it } from 'vitest';

describe('ampacity against 33 CFR 183.425 Table 5 (published federal text)', () => {
  const rows: [string, number, number, number, number][] = [
    ['18', 10, 10, 20, 20],
    ['16', 15, 15, 25, 25],
    ['14', 20, 20, 30, 35],
    ['12', 25, 25, 40, 45],
    ['10', 40, 40, 55, 60],
    ['8', 55, 65, 70, 80],
    ['6', 80, 95, 100, 120],
    ['4', 105, 125, 135, 160],
    ['3', 120, 145, 155, 180],
    ['2', 140, 170, 180, 210],
    ['1', 165, 195, 210, 245],
    ['0', 195, 230, 245, 285],
    ['00', 225, 265, 285, 330],
    ['000', 260, 310, 330, 385],
    ['0000', 300, 360, 385, 445],
  ];
  it.each(rows)('AWG %s', (gauge, at60, at75, at90, at105) => {
    const outside = (ratingC: 60 | 75 | 90 | 105) => ampacity({ gauge, ratingC, engineSpace: false });
    expect([outside(60), outside(75), outside(90), outside(105)]).toEqual([at60, at75, at90, at105]);
  });

  it('is derated in engine spaces as the printed 105 C column, within the ampere that the table rounds to', () => {
    const printed: Record<string, number> = { '18': 17, '14': 30, '10': 51, '4': 136, '2': 178, '000': 327, '00': 280 };
    for (const [gauge, amperes] of Object.entries(printed)) {
      expect(Math.abs((ampacity({ gauge, ratingC: 105, engineSpace: true }) ?? 0) - amperes)).toBeLessThanOrEqual(1);
    }
  });

  it('knows no gauge that the table does not print, and no engine-space factor that was not seen', () => {
    expect(ampacity({ gauge: '5', ratingC: 60, engineSpace: false })).toBeNull();
    expect(ampacity({ gauge: '10', ratingC: 60, engineSpace: true })).toBeNull();
  });
});

describe('conductor size, CM = K I L / E with K 10.75 (ABYC E-11 as quoted)', () => {
  it('30 A over 10 m out and back needs 29 391 circular mils at 3 % of 12 V and 8 817 at 10 % (derived)', () => {
    expect(circularMilsNeeded({ currentA: 30, lengthOutAndBackM: 10, dropV: 0.36 })).toBeCloseTo(29391, -1);
    expect(circularMilsNeeded({ currentA: 30, lengthOutAndBackM: 10, dropV: 1.2 })).toBeCloseTo(8817, -1);
  });

  it('the chandlery case, 10 A over 21 ft at 12 V, needs 6 271 circular mils at 3 % (formula; the printed table rounds up to its 25 ft row)', () => {
    expect(circularMilsNeeded({ currentA: 10, lengthOutAndBackM: 21 * 0.3048, dropV: 0.36 })).toBeCloseTo(6271, -1);
  });

  it('the ISO 10133 form E = 0.0164 I L / S gives the worked 0.385 V for 1.6 A, 22 m, 1.5 mm2 (published worked example)', () => {
    const ohm = conductorResistance({ lengthM: 22, areaMm2: 1.5, ohmMm2PerM: RESISTIVITY.isoSmallCraft.ohmMm2PerM });
    expect(1.6 * ohm).toBeCloseTo(0.385, 3);
  });

  it('both constants are one formula: 10.75 ohm circular mil per foot is 0.017871 ohm mm2 per metre (unit conversion)', () => {
    expect(10.75 * CIRCULAR_MIL_MM2 * (1 / 0.3048)).toBeCloseTo(RESISTIVITY.usVoluntary.ohmMm2PerM, 6);
  });

  it('the verdict on 16 mm2 flips with the source of the resistance: 30 A, 10 m, 3 % of 12 V (derived)', () => {
    const drop = (ohmMm2PerM: number) => 30 * conductorResistance({ lengthM: 10, areaMm2: 16, ohmMm2PerM });
    expect(drop(RESISTIVITY.isoSmallCraft.ohmMm2PerM)).toBeCloseTo(0.3075, 4);
    expect(drop(RESISTIVITY.usVoluntary.ohmMm2PerM)).toBeCloseTo(0.3351, 4);
    // IEC 60228 class 5 tinned copper, 1.24 ohm/km at 16 mm2: 0.372 V, over the 0.36 V allowed
    expect(30 * 10 * 0.00124).toBeGreaterThan(0.36);
  });
});
