import { gaugeMm2, type Quantity, quantised, unitNames, unitOf } from './quantity';

/**
 * Entry fields. People type as they measure: `450 mm`, `45 cm`, `4,5 m`, `17 3/4 in`, `1' 6 1/2"`, `2-3-4` (feet, inches and
 * eighths, as in a table of offsets), `7.5 gph`, `28 L/h`, `77 °F`, `6 AWG`. A bare number takes the unit of the field.
 */
export type Entry =
  | { readonly ok: true /** In the unit in which the file keeps it, to a millionth. */; readonly value: number }
  | { readonly ok: false; readonly problem: EntryProblem };

export interface EntryProblem {
  readonly text: string;
  readonly code: 'empty' | 'number' | 'unit' | 'thousands' | 'order' | 'parts';
  /** What is expected instead, in words. */
  readonly expected: string;
}

const NUMBER = String.raw`\d+(?:\s+|-)\d+/\d+|\d+/\d+|\d+(?:[.,]\d*)?|[.,]\d+`;
const UNIT = `[a-zA-Z°²³Ωµ%][a-zA-Z0-9²³Ω/]*|["']`;
const TERM = new RegExp(String.raw`^(${NUMBER})(?![\d.,/])\s*(${UNIT})?\s*-?\s*`);
const EIGHTHS = /^(\d+)-(\d+)-(\d+)$/;
/** A comma before three digits: a decimal comma to one reader, thousands to another. */
const THOUSANDS = /^[1-9]\d{0,2},\d{3}$/;
const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/**
 * Reads one entry field. The value is in the unit in which the file keeps the quantity, to a millionth, or in `keptUnit` where
 * the file keeps that one in another; a bare number takes `fieldUnit`. Throws when a unit named by the caller is none of the
 * quantity's: a bug of the caller.
 */
export function parseEntry(text: string, quantity: Quantity, fieldUnit: string, keptUnit?: string): Entry {
  const fail = (code: EntryProblem['code'], expected: string): Entry => ({
    ok: false,
    problem: { text, code, expected },
  });
  const expectsNumber = `a number with one of ${unitNames(quantity).join(', ')}, or without unit in ${fieldUnit}`;
  const own = unitOf(quantity, fieldUnit);
  if (!own) throw new Error(`parseEntry: expected a unit of ${quantity} for the field, got "${fieldUnit}"`);
  const kept = keptUnit === undefined ? { each: 1, zero: 0 } : unitOf(quantity, keptUnit);
  if (!kept) throw new Error(`parseEntry: expected a unit of ${quantity} to keep, got "${keptUnit}"`);
  const done = (sum: number, isNegative: boolean, zero = 0): Entry => ({
    ok: true,
    value: quantised(((isNegative ? -sum : sum) + zero - kept.zero) / kept.each),
  });

  let rest = plain(text);
  if (rest === '') return fail('empty', expectsNumber);
  const negative = /^[-−]/.test(rest);
  rest = rest.replace(/^[-−+]\s*/, '');

  const gauge = quantity === 'area' ? gaugeMm2(rest) : null;
  if (gauge !== null) return done(gauge, negative);
  const offsets = quantity === 'length' ? EIGHTHS.exec(rest) : null;
  if (offsets) {
    const [feet = 0, inches = 0, eighths = 0] = offsets.slice(1).map(Number);
    if (inches > 11 || eighths > 7)
      return fail('parts', 'feet-inches-eighths with inches up to 11 and eighths up to 7, as in 2-3-4');
    return done(((feet * 12 + inches + eighths / 8) * 127) / 5000, negative);
  }

  let sum = 0;
  let last: { name: string; each: number; zero: number } | null = null;
  while (rest !== '') {
    const term = TERM.exec(rest);
    if (!term) return fail('number', expectsNumber);
    const [whole, written = '', unitName] = term;
    if (THOUSANDS.test(written))
      return fail(
        'thousands',
        `${written.replace(',', '.')} or ${written.replace(',', '')}: the comma can mean either`,
      );
    const number = numberOf(written);
    if (number === null) return fail('number', expectsNumber);
    // After feet a bare number is inches; elsewhere only the first may be bare.
    const unit: NonNullable<ReturnType<typeof unitOf>> | undefined = unitName
      ? unitOf(quantity, unitName)
      : last === null
        ? own
        : last.name === 'ft'
          ? unitOf(quantity, 'in')
          : undefined;
    if (!unit)
      return fail('unit', unitName ? `one of ${unitNames(quantity).join(', ')}, not "${unitName}"` : expectsNumber);
    // Sizes add up, readings of a scale do not.
    if (last && quantity === 'temperature') return fail('unit', expectsNumber);
    if (last && unit.each >= last.each) return fail('order', `a smaller unit after ${last.name}`);
    if (last && number * unit.each >= last.each) return fail('parts', `less than one ${last.name} after ${last.name}`);
    if (last === null && unitName === undefined && whole.length < rest.length) return fail('unit', expectsNumber);
    // A minus sign inside is the dash of 1'-6", not a sign; at the end it is nothing.
    if (whole.length === rest.length && /-\s*$/.test(whole)) return fail('number', expectsNumber);
    sum += number * unit.each;
    last = unit;
    rest = rest.slice(whole.length);
  }
  if (!Number.isFinite(sum)) return fail('number', expectsNumber);
  return done(sum, negative, last?.zero);
}

/** One spelling for quotes, primes, spaces, printed fractions and two-word units. */
function plain(text: string): string {
  return text
    .trim()
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? ''}`)
    .replace(/''|[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/\b(?:imp|uk)\.?\s+gal(?:lons?)?\b/gi, 'impgal')
    .trim();
}

function numberOf(written: string): number | null {
  const mixed = /^(?:(\d+)(?:\s+|-))?(\d+)\/(\d+)$/.exec(written);
  if (!mixed) return Number(written.replace(',', '.'));
  const [, whole = '0', over, under] = mixed;
  const fraction = Number(over) / Number(under);
  // A whole number is followed by a proper fraction; 17 5/4 is a slip.
  if (Number(under) === 0 || (mixed[1] !== undefined && fraction >= 1)) return null;
  return Number(whole) + fraction;
}

/**
 * A length as it is written. `exact` gives back every micrometre, so that reading it again gives the same value; `drawn` is for
 * drawings and tables: whole millimetres, or the nearest sixteenth of an inch.
 */
export function formatLength(metres: number, unit: 'mm' | 'in', fineness: 'exact' | 'drawn' = 'exact'): string {
  const sign = metres < 0 ? '-' : '';
  const size = Math.abs(metres);
  if (unit === 'mm') {
    const written = trimmed(size * 1000, fineness === 'exact' ? 3 : 0);
    return `${written === '0' ? '' : sign}${written} mm`;
  }
  const parts = fineness === 'exact' ? 64 : 16;
  const inches = (size * 5000) / 127;
  const steps = Math.round(inches * parts);
  const isFraction = fineness === 'drawn' || quantised(((steps / parts) * 127) / 5000) === quantised(size);
  if (!isFraction) return `${sign}${trimmed(inches, 5)} in`;
  if (steps === 0) return '0 in';
  const whole = Math.floor(steps / parts);
  let over = steps % parts;
  let under = parts;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const fraction = over > 0 ? `${over}/${under}` : '';
  return `${sign}${[whole > 0 || !fraction ? String(whole) : '', fraction].filter(Boolean).join(' ')} in`;
}

/** A kept value written in one of the units of its quantity, with at most so many decimals. */
export function formatQuantity(value: number, quantity: Quantity, unitName: string, decimals = 2): string {
  const unit = unitOf(quantity, unitName);
  if (!unit) throw new Error(`formatQuantity: expected a unit of ${quantity}, got "${unitName}"`);
  const inUnit = (value - unit.zero) / unit.each;
  const written = trimmed(Math.abs(inUnit), decimals);
  const gap = unit.name === '°' ? '' : ' ';
  return `${inUnit < 0 && written !== '0' ? '-' : ''}${written}${gap}${unit.name}`;
}

function trimmed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
