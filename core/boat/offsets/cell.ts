import { parseEntry } from '../../base/entry';
import { quantised } from '../../base/quantity';

/** How the figures of a table of offsets are written. `ft-in-8`: feet, inches and eighths, as in 2-3-4. */
export const OFFSET_UNITS = ['mm', 'cm', 'm', 'ft-in-8'] as const;
export type OffsetUnit = (typeof OFFSET_UNITS)[number];
export type DecimalSign = '.' | ',';

export type OffsetCell =
  | { readonly kind: 'none' }
  | { readonly kind: 'value'; readonly valueM: number }
  | { readonly kind: 'fault'; readonly words: string };

/** Feet-inches-eighths; a plus adds half an eighth. */
const LOFTED = /^([-−])?(\d+)\s*-\s*(\d+)\s*-\s*(\d+)(\+)?$/;
/** What stands where a line does not meet a station. */
const NOTHING = /^(?:[-−–—.·]*|n\/?a)$/i;
const METRES: Readonly<Record<Exclude<OffsetUnit, 'ft-in-8'>, number>> = { mm: 0.001, cm: 0.01, m: 1 };
const FOOT_M = 0.3048;
const INCH_M = 0.0254;

/** True for `2-3-4` and the like: such a cell says the unit of the whole table. */
export const isLofted = (text: string): boolean => LOFTED.test(text.trim());

/**
 * One figure of a table of offsets, in metres. Feet-inches-eighths are read whatever the unit of the table; so are entries with
 * a unit of their own (`2' 3 1/2"`, `45 cm`). A fault says what is wrong with the figure and what would be right.
 */
export function readOffsetCell(text: string, unit: OffsetUnit, decimal: DecimalSign): OffsetCell {
  const written = text.trim().replace(/[\u00a0\u2009\u202f]/g, '');
  if (NOTHING.test(written)) return { kind: 'none' };
  const lofted = LOFTED.exec(written);
  if (lofted) {
    const [, minus, feet = '0', inches = '0', eighths = '0', plus] = lofted;
    if (Number(inches) > 11) return fault(`'${written}' has ${inches} inches, at most 11`);
    if (Number(eighths) > 7) return fault(`'${written}' has ${eighths} eighths, at most 7`);
    const size = Number(feet) * FOOT_M + (Number(inches) + (Number(eighths) + (plus ? 0.5 : 0)) / 8) * INCH_M;
    return value(minus ? -size : size);
  }
  const plain = decimal === ',' ? written.replace(',', '.') : written;
  if (/^[-−+]?(?:\d+\.?\d*|\.\d+)$/.test(plain)) {
    if (unit === 'ft-in-8' && !/^[-−+]?0*\.?0*$/.test(plain))
      return fault(`'${written}' is not feet, inches and eighths, as in 2-3-4`);
    return value(Number(plain.replace('−', '-')) * (unit === 'ft-in-8' ? 0 : METRES[unit]));
  }
  const entry = parseEntry(written, 'length', unit === 'ft-in-8' ? 'in' : unit);
  if (entry.ok) return value(entry.value);
  return fault(
    `'${written}' is no length: ${unit === 'ft-in-8' ? 'feet, inches and eighths, as in 2-3-4' : `a number in ${unit}`}`,
  );
}

/** A length as the trade's tables write it, to the eighth of an inch: `2-3-4`; to the sixteenth with a plus. */
export function loftedText(metres: number): string {
  const sixteenths = Math.round((Math.abs(metres) / INCH_M) * 16);
  const feet = Math.floor(sixteenths / 192);
  const inches = Math.floor((sixteenths % 192) / 16);
  const rest = sixteenths % 16;
  const sign = metres < 0 && sixteenths > 0 ? '-' : '';
  return `${sign}${feet}-${inches}-${Math.floor(rest / 2)}${rest % 2 === 1 ? '+' : ''}`;
}

const value = (metres: number): OffsetCell => ({ kind: 'value', valueM: quantised(metres) });
const fault = (words: string): OffsetCell => ({ kind: 'fault', words });
