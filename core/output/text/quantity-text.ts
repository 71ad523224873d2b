import type { Limit, Measured, MeasureUnit } from '../../rules/finding';

const MINUS = '−';
const THIN_SPACE = '\u2009';

/** Digits as people read them: true minus, thin spaces between thousands. */
export function digits(value: number, decimals: number): string {
  const fixed = Math.abs(value).toFixed(decimals);
  const [whole = '0', part] = fixed.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE) : whole;
  const isZero = Number(fixed) === 0;
  return `${value < 0 && !isZero ? MINUS : ''}${grouped}${part ? `.${part}` : ''}`;
}

/** Millimetres below two metres, metres above. */
export const lengthText = (metres: number): string =>
  Math.abs(metres) < 2 ? `${digits(metres * 1000, 0)} mm` : `${digits(metres, 2)} m`;

/** How each unit is written, and the decimals that it deserves. */
export const UNIT_TEXT: Readonly<
  Record<Exclude<MeasureUnit, 'm' | 'count' | 'share'>, { unit: string; decimals: number }>
> = {
  m2: { unit: 'm²', decimals: 2 },
  mm2: { unit: 'mm²', decimals: 1 },
  L: { unit: 'L', decimals: 1 },
  LMin: { unit: 'L/min', decimals: 1 },
  LDay: { unit: 'L a day', decimals: 0 },
  V: { unit: 'V', decimals: 2 },
  A: { unit: 'A', decimals: 1 },
  Ah: { unit: 'Ah', decimals: 0 },
  Wh: { unit: 'Wh', decimals: 0 },
  bar: { unit: 'bar', decimals: 2 },
  kg: { unit: 'kg', decimals: 1 },
  deg: { unit: '°', decimals: 1 },
  C: { unit: '°C', decimals: 1 },
  K: { unit: 'K', decimals: 1 },
};

/** A value with its unit, in the decimals that its unit deserves: `52 mm`, `11.69 V`, `6.5 %`. */
export function measureText(measure: Measured): string {
  if (measure.unit === 'm') return lengthText(measure.value);
  // An index is no whole number.
  if (measure.unit === 'count') return digits(measure.value, Number.isInteger(measure.value) ? 0 : 1);
  if (measure.unit === 'share') return `${digits(measure.value * 100, 1)} %`;
  // The sign of degrees stands at its figure, and a whole angle has no decimals.
  if (measure.unit === 'deg') {
    const tenths = Math.round(measure.value * 10) / 10;
    return `${digits(tenths, Number.isInteger(tenths) ? 0 : 1)}°`;
  }
  const { unit, decimals } = UNIT_TEXT[measure.unit];
  return `${digits(measure.value, decimals)} ${unit}`;
}

/** `52 mm, at least 150 mm`. `isCapped`: nothing was met as far as was looked, so the value is `more than`. */
export const comparedText = (measured: Measured, limit: Limit, isCapped = false): string =>
  `${isCapped ? 'more than ' : ''}${measureText(measured)}, ${limit.bound === 'atLeast' ? 'at least' : 'at most'} ${measureText(limit)}`;
