import { ampacity, bundleFactor, gaugeAreaMm2, gaugeWithin } from '@core/base/formulas/ampacity';
import { CIRCULAR_MIL_MM2, circularMilsNeeded, conductorResistance, RESISTIVITY } from '@core/base/formulas/conductor';
import { describe, expect, it } from 'vitest';

describe('ampacity against 33 CFR 183.425 Table 5 (published federal text)', () => {
  const columns = [60, 75, 80, 90, 105, 125, 200] as const;
  const rows: [string, readonly number[]][] = [
    ['18', [10, 10, 15, 20, 20, 25, 25]],
    ['16', [15, 15, 20, 25, 25, 30, 35]],
    ['14', [20, 20, 25, 30, 35, 40, 45]],
    ['12', [25, 25, 35, 40, 45, 50, 55]],
    ['10', [40, 40, 50, 55, 60, 70, 70]],
    ['8', [55, 65, 70, 70, 80, 90, 100]],
    ['6', [80, 95, 100, 100, 120, 125, 135]],
    ['4', [105, 125, 130, 135, 160, 170, 180]],
    ['3', [120, 145, 150, 155, 180, 195, 210]],
    ['2', [140, 170, 175, 180, 210, 225, 240]],
    ['1', [165, 195, 210, 210, 245, 265, 280]],
    ['0', [195, 230, 245, 245, 285, 305, 325]],
    ['00', [225, 265, 285, 285, 330, 355, 370]],
    ['000', [260, 310, 330, 330, 385, 410, 430]],
    ['0000', [300, 360, 385, 385, 445, 475, 510]],
  ];
  it.each(rows)('AWG %s in all seven columns', (gauge, printed) => {
    expect(columns.map((ratingC) => ampacity({ gauge, ratingC, engineSpace: false }))).toEqual(printed);
  });

  it('is derated in engine spaces as the printed 105 C column, within the ampere that the table rounds to', () => {
    const printed = { 18: 17, 16: 21, 14: 30, 12: 38, 10: 51, 8: 68, 6: 102, 4: 136, 3: 153, 2: 178, 1: 208 };
    const larger = { '0': 242, '00': 280, '000': 327, '0000': 378 };
    for (const [gauge, amperes] of [...Object.entries(printed), ...Object.entries(larger)]) {
      expect(Math.abs((ampacity({ gauge, ratingC: 105, engineSpace: true }) ?? 0) - amperes)).toBeLessThanOrEqual(1);
    }
  });

  it('is derated in bundles as UL 1426 boat cable: 10 AWG 42, 36 and 30 A, in an engine space 35.7, 30.6 and 25.5 (quoted cable table)', () => {
    const bundled = (n: number, engineSpace: boolean) =>
      ampacity({ gauge: '10', ratingC: 105, engineSpace, bundled: n }) ?? 0;
    for (const [n, outside, inside] of [
      [3, 42, 35.7],
      [4, 36, 30.6],
      [6, 36, 30.6],
      [7, 30, 25.5],
      [24, 30, 25.5],
    ] as const) {
      expect(bundled(n, false)).toBeCloseTo(outside, 9);
      expect(bundled(n, true)).toBeCloseTo(inside, 9);
    }
    expect([1, 2].map(bundleFactor)).toEqual([1, 1]);
  });

  it('knows no gauge that the table does not print', () => {
    expect(ampacity({ gauge: '5', ratingC: 60, engineSpace: false })).toBeNull();
  });
});

describe('American gauges by ASTM B258, d = 0.127 x 92^((36 - n) / 39) mm (definition)', () => {
  const areas = { 16: 1.309, 14: 2.081, 12: 3.309, 10: 5.261, 8: 8.366, 6: 13.302, 4: 21.151, 2: 33.631, 0: 53.475 };
  it.each(Object.entries(areas))('AWG %s has %s mm2', (gauge, areaMm2) => {
    expect(gaugeAreaMm2(gauge)).toBeCloseTo(areaMm2, 3);
    expect(gaugeWithin(areaMm2)).toBe(gauge);
  });
  it('the largest of the table has 107.219 mm2', () => expect(gaugeAreaMm2('0000')).toBeCloseTo(107.219, 3));

  it('a metric cable counts as the largest gauge that it holds: 2.5 mm2 as 14, 10 as 8, 16 as 6, 25 as 4, 35 as 2, 50 as 1 (derived)', () => {
    expect([1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70].map(gaugeWithin)).toEqual([
      '16',
      '14',
      '12',
      '10',
      '8',
      '6',
      '4',
      '2',
      '1',
      '00',
    ]);
    expect(gaugeWithin(0.75)).toBeNull();
    // printed rounded: 13.3, 21.1, 33.6
    expect([13.3, 21.1, 33.6, 5.26, 8.3].map(gaugeWithin)).toEqual(['6', '4', '2', '10', '8']);
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
