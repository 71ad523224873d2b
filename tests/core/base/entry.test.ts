import { formatLength, formatQuantity, parseEntry } from '@core/base/entry';
import type { Quantity } from '@core/base/quantity';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const read = (text: string, quantity: Quantity, unit: string): number => {
  const entry = parseEntry(text, quantity, unit);
  if (!entry.ok) throw new Error(`${text}: ${entry.problem.code}, expected ${entry.problem.expected}`);
  return entry.value;
};
const problem = (text: string, quantity: Quantity, unit: string): string => {
  const entry = parseEntry(text, quantity, unit);
  return entry.ok ? `ok ${entry.value}` : entry.problem.code;
};

describe('what people type', () => {
  // Derived: 1 in = 25.4 mm exactly. 2-3-4 = 2 ft 3 4/8 in = 27.5 in = 698.5 mm (notation of offset tables, common practice).
  it.each([
    ['450 mm', 0.45],
    ['450', 0.45],
    ['450mm', 0.45],
    ['45 cm', 0.45],
    ['4,5 m', 4.5],
    ['0,125 m', 0.125],
    ['.5 m', 0.5],
    ['17 3/4 in', 0.45085],
    ['17-3/4 in', 0.45085],
    ['17¾"', 0.45085],
    ['1/2"', 0.0127],
    ['3/4 in', 0.01905],
    ['1\' 6 1/2"', 0.4699],
    ['1\'-6 1/2"', 0.4699],
    ['1’6½”', 0.4699],
    ["1' 6", 0.4572],
    ["6'", 1.8288],
    ['5 ft 11 in', 1.8034],
    ['2-3-4', 0.6985],
    ['-12 mm', -0.012],
    ['−1\' 6"', -0.4572],
    ['12 MM', 0.012],
  ])('%s', (text, metres) => {
    expect(read(text, 'length', 'mm')).toBeCloseTo(metres, 9);
  });

  // Derived: US gallon 3.785411784 L, psi 6894.757 Pa, pound 0.45359237 kg, knot 1852 m an hour.
  it.each<[string, Quantity, string, number]>([
    ['7.5 gph', 'flow', 'L/h', 0.473176],
    ['28 L/h', 'flow', 'L/min', 0.466667],
    ['28', 'flow', 'L/h', 0.466667],
    ['10 gpm', 'flow', 'L/h', 37.854118],
    ['800 psi', 'pressure', 'bar', 55.158058],
    ['55 bar', 'pressure', 'psi', 55],
    ['5.5 MPa', 'pressure', 'bar', 55],
    ['15°', 'angle', '°', 15],
    ["12° 30'", 'angle', '°', 12.5],
    ['32 A', 'current', 'A', 32],
    ['20 kA', 'current', 'A', 20000],
    ['12,8 V', 'voltage', 'V', 12.8],
    ['390 W', 'power', 'W', 390],
    ['0.4 kW', 'power', 'W', 400],
    ['55 lb', 'mass', 'kg', 24.94758],
    ['2 lb 8 oz', 'mass', 'kg', 1.133981],
    ['53 gal', 'volume', 'L', 200.626825],
    ['10 imp gal', 'volume', 'L', 45.4609],
    ['6 kn', 'speed', 'm/s', 3.086667],
    ['35 mm²', 'area', 'mm2', 35],
    ['90 min', 'time', 's', 5400],
  ])('%s', (text, quantity, unit, value) => {
    expect(read(text, quantity, unit)).toBeCloseTo(value, 6);
  });
});

describe('what cannot be read', () => {
  it.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['abc', 'number'],
    ['12 kg', 'unit'],
    ['12 3', 'unit'],
    ['1/0 in', 'number'],
    ['17 5/4 in', 'number'],
    ['1,200 mm', 'thousands'],
    ['1.2.3', 'number'],
    ['6 in 1 ft', 'order'],
    ['1\' 14"', 'parts'],
    ['2-13-4', 'parts'],
    ['2-3-9', 'parts'],
    ['1e3 mm', 'unit'],
    ["1'-", 'number'],
    ['--5', 'number'],
    ['NaN', 'number'],
    ['Infinity', 'number'],
  ])('"%s" is refused: %s', (text, code) => {
    expect(problem(text, 'length', 'mm')).toBe(code);
  });

  it('names the text and what is expected', () => {
    const entry = parseEntry('12 kg', 'length', 'mm');
    expect(entry).toEqual({
      ok: false,
      problem: { text: '12 kg', code: 'unit', expected: 'one of m, cm, mm, ft, in, not "kg"' },
    });
  });

  it('reads no unit of another quantity', () => {
    expect(problem('5 psi', 'flow', 'L/h')).toBe('unit');
    expect(problem('2-3-4', 'mass', 'kg')).toBe('unit');
  });
});

describe('what is written can be read again', () => {
  const metres = fc.integer({ min: -30_000_000, max: 30_000_000 }).map((micrometres) => micrometres / 1e6);

  it('to the micrometre, in millimetres and inches', () => {
    fc.assert(
      fc.property(metres, fc.constantFrom('mm' as const, 'in' as const), (value, unit) => {
        expect(read(formatLength(value, unit), 'length', 'mm')).toBe(value + 0);
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  it('to half a step on drawings', () => {
    fc.assert(
      fc.property(metres, (value) => {
        expect(Math.abs(read(formatLength(value, 'mm', 'drawn'), 'length', 'mm') - value)).toBeLessThanOrEqual(
          0.000501,
        );
        expect(Math.abs(read(formatLength(value, 'in', 'drawn'), 'length', 'mm') - value)).toBeLessThanOrEqual(
          0.0254 / 32 + 1e-6,
        );
      }),
      { seed: 12, numRuns: 1000 },
    );
  });

  it('feet, inches and fractions give the same as inches alone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 11 }),
        fc.integer({ min: 0, max: 7 }),
        (feet, inches, eighths) => {
          const whole = (feet * 12 + inches + eighths / 8) * 0.0254;
          const mixed = eighths > 0 ? `${feet}' ${inches} ${eighths}/8"` : `${feet}' ${inches}"`;
          expect(read(mixed, 'length', 'mm')).toBeCloseTo(whole, 6);
          expect(read(`${feet}-${inches}-${eighths}`, 'length', 'mm')).toBe(read(mixed, 'length', 'mm'));
        },
      ),
      { seed: 13, numRuns: 500 },
    );
  });

  it('never throws on text of any kind, and reads only finite numbers', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'0123456789.,/-\'" mftincL°½eE+'), maxLength: 12 }), (text) => {
        const entry = parseEntry(text, 'length', 'mm');
        if (entry.ok) expect(Number.isFinite(entry.value)).toBe(true);
      }),
      { seed: 14, numRuns: 3000 },
    );
  });

  it.each([
    [0.45085, 'in', 'exact', '17 3/4 in'],
    [0.0127, 'in', 'exact', '1/2 in'],
    [0.45, 'mm', 'exact', '450 mm'],
    [0.0004, 'mm', 'drawn', '0 mm'],
    [-0.0004, 'mm', 'drawn', '0 mm'],
    [-0.3, 'mm', 'exact', '-300 mm'],
    [0.3048, 'in', 'drawn', '12 in'],
    [0.1, 'mm', 'drawn', '100 mm'],
  ] as const)('%f in %s, %s: %s', (value, unit, fineness, text) => {
    expect(formatLength(value, unit, fineness)).toBe(text);
  });

  it('writes other quantities in the unit asked for', () => {
    expect(formatQuantity(0.473176, 'flow', 'gph', 1)).toBe('7.5 gph');
    expect(formatQuantity(15, 'angle', 'deg', 0)).toBe('15°');
    expect(formatQuantity(-0.001, 'pressure', 'bar', 2)).toBe('0 bar');
    expect(formatQuantity(100, 'power', 'W', 0)).toBe('100 W');
  });
});

describe('quantities of the trade', () => {
  // Derived: definitions of the units, arithmetic beside each.
  it.each([
    ['77 °F', 'temperature', '°C', 25], // (77 - 32) x 5/9
    ['-40 F', 'temperature', '°C', -40],
    ['298,15 K', 'temperature', '°C', 25],
    ['24', 'temperature', '°C', 24],
    ['1 week', 'time', 'h', 604_800],
    ['0.5', 'share', '%', 0.005],
    ['15 %', 'share', '%', 0.15],
    ['12 in2', 'area', 'mm2', 7741.92], // 12 x 25.4^2
    ['0.02 m2', 'area', 'cm2', 20_000],
    ['3 mohm', 'resistance', 'ohm', 0.003],
    ['1,2 kWh', 'energy', 'Wh', 1200],
    ['64 lb/ft3', 'density', 'kg/m3', 1025.182], // 64 x 0.45359237 / 0.3048^3
  ] as const)('%s as %s', (text, quantity, unit, value) => {
    const entry = parseEntry(text, quantity, unit);
    expect(entry.ok ? entry.value : entry.problem).toBeCloseTo(value, 3);
  });

  // Published: areas of American wire gauges in square millimetres (ASTM B258, as every conductor table gives them).
  it.each([
    ['10 AWG', 5.261],
    ['6 awg', 13.3],
    ['2 AWG', 33.62],
    ['1/0 AWG', 53.49],
    ['2/0 AWG', 67.43],
    ['4/0 AWG', 107.2],
    ['0000 AWG', 107.2],
  ])('%s has %f mm2', (text, area) => {
    const entry = parseEntry(text, 'area', 'mm2');
    expect(entry.ok ? Math.abs(entry.value - area) / area : 1).toBeLessThan(0.001);
  });

  it('no gauge is read as anything else', () => {
    expect(parseEntry('99 AWG', 'area', 'mm2').ok).toBe(false);
    expect(parseEntry('10 AWG', 'length', 'mm').ok).toBe(false);
  });

  it('a value that the file keeps in a unit of its own comes out exact: 28 L/h is 28', () => {
    const entry = parseEntry('28 L/h', 'flow', 'L/h', 'L/h');
    expect(entry).toEqual({ ok: true, value: 28 });
    // derived: 7.5 x 3.785411784
    expect(parseEntry('7.5 gph', 'flow', 'L/h', 'L/h')).toEqual({ ok: true, value: 28.390588 });
    expect(parseEntry('2 weeks', 'time', 'd', 'd')).toEqual({ ok: true, value: 14 });
  });

  it('readings of a scale do not add up', () => {
    expect(parseEntry('20 °C 3 °F', 'temperature', '°C').ok).toBe(false);
  });

  it('writes a temperature in the scale asked for', () => {
    expect(formatQuantity(25, 'temperature', '°F', 0)).toBe('77 °F');
  });
});
