import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { describe, expect, it } from 'vitest';
import { leastRadiusOf } from '../support/run-oracle';

/**
 * Published: EN 853, types 1SN and 2SN: nominal size, bore and least bend radius in millimetres, working pressure in bar.
 * Taken from a transcription of a hose catalogue to EN 853 (quoted, not read in the standard). The radius is measured to the
 * inside of the bend (EN 853:2015 clause 6.2).
 */
const EN_853 = [
  { size: '1/4', boreMm: 6.4, radiusMm: 100, bar1SN: 225, bar2SN: 400 },
  { size: '5/16', boreMm: 8, radiusMm: 115, bar1SN: 215, bar2SN: 350 },
  { size: '3/8', boreMm: 9.5, radiusMm: 130, bar1SN: 180, bar2SN: 330 },
  { size: '1/2', boreMm: 12.7, radiusMm: 180, bar1SN: 160, bar2SN: 275 },
  { size: '5/8', boreMm: 16, radiusMm: 200, bar1SN: 130, bar2SN: 250 },
  { size: '3/4', boreMm: 19, radiusMm: 240, bar1SN: 105, bar2SN: 215 },
] as const;

const pressureHoses = Object.entries(LINE_KINDS).filter(([, kind]) => /Pressure hose .* [12]SN$/.test(kind.name));

describe('pressure hoses of the catalogue, against EN 853', () => {
  it('are there in both braids', () => {
    expect(pressureHoses.filter(([, kind]) => kind.name.endsWith('1SN')).length).toBeGreaterThanOrEqual(6);
    expect(pressureHoses.filter(([, kind]) => kind.name.endsWith('2SN')).length).toBeGreaterThanOrEqual(3);
  });

  it.each(pressureHoses)('%s has the radius, the bore and the pressure of its size', (_, kind) => {
    const row = EN_853.find((one) => kind.name.includes(` ${one.size} in `));
    expect(row).toBeDefined();
    if (!row) return;
    expect(kind.bendRadiusM).toBeCloseTo(row.radiusMm / 1000, 9);
    expect(kind.boreM).toBeCloseTo(row.boreMm / 1000, 9);
    expect(kind.pressureBar).toBe(kind.name.endsWith('1SN') ? row.bar1SN : row.bar2SN);
    expect(kind.radiusTo).toBe('inside');
    // Derived: the centre line runs half an outside diameter farther out.
    expect(leastRadiusOf(kind)).toBeCloseTo(row.radiusMm / 1000 + kind.outsideM / 2, 9);
  });
});

describe('the length of a bent hose', () => {
  it('is measured along the centre line', () => {
    // Published: a maker's example of a quarter bend, inside radius 450 mm, outside diameter 70 mm, prints 762 mm.
    const quarter = ((450 + 70 / 2) * Math.PI) / 2;
    expect(quarter).toBeCloseTo(761.8, 1);
    expect(Math.round(quarter)).toBe(762);
    const kind = {
      ...(LINE_KINDS['hose-pressure-10'] as (typeof LINE_KINDS)[string]),
      outsideM: 0.07,
      bendRadiusM: 0.45,
    };
    expect((leastRadiusOf(kind) * Math.PI) / 2).toBeCloseTo(0.7618, 4);
  });
});

describe('tubes and helix hoses of the catalogue', () => {
  // Common practice: plastics pipe is bent to 8 times its outside diameter, mandrel-smooth helix hose to 8 times its bore.
  it.each(Object.entries(LINE_KINDS).filter(([, kind]) => kind.what === 'tube'))(
    '%s bends to 8 outside diameters',
    (_, kind) => {
      expect(leastRadiusOf(kind)).toBeGreaterThanOrEqual(8 * kind.outsideM - 1e-9);
    },
  );
  it.each(Object.entries(LINE_KINDS).filter(([id]) => id.startsWith('hose-suction')))(
    '%s bends to 8 bores',
    (_, kind) => {
      expect(kind.bendRadiusM).toBeGreaterThanOrEqual(8 * (kind.boreM ?? 0) - 1e-9);
    },
  );
});
