import { UNIT_TEXT } from '@core/output/text/quantity-text';
import type { CloseCall, Limit, Measured, MeasureUnit } from '@core/rules/finding';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthUnit, wholeLength } from '../format';

/** Lengths are in what the screen shows; the heading of the list says in what. */
const unitOf = (unit: Exclude<MeasureUnit, 'm'>): string =>
  unit === 'count' ? '' : unit === 'share' ? '%' : UNIT_TEXT[unit].unit;

function quantity({ value, unit }: Measured, units: DisplayUnits): string {
  switch (unit) {
    case 'm':
      return wholeLength(value, units);
    case 'share':
      return figure(value * 100, Number.isInteger(Math.round(value * 1000) / 10) ? 0 : 1);
    case 'count':
      return figure(value, Number.isInteger(value) ? 0 : 1);
    default:
      return figure(value, Number.isInteger(value) ? 0 : UNIT_TEXT[unit].decimals);
  }
}

/** `85`, `at least 90 ±10`. Capped: nothing was met as far as was looked, so there is more than that. */
export function measuredWords(
  measured: Measured,
  limit: Limit,
  closeCall: CloseCall | undefined,
  units: DisplayUnits,
  isCapped = false,
): { readonly measured: string; readonly limit: string } {
  const unit = limit.unit === 'm' ? '' : unitOf(limit.unit);
  const grade = closeCall ? `\u00b1${wholeLength(closeCall.gradeM, units)}` : '';
  const band = closeCall && limit.unit === 'm' && !closeCall.hangsOn ? ` ${grade}` : '';
  const ends = closeCall?.hangsOn ? `, its ends known to ${grade}\u2009${lengthUnit(units)}` : '';
  const space = unit === '' || unit === '\u00b0' ? '' : '\u2009';
  return {
    measured: `${isCapped ? '>' : ''}${quantity(measured, units)}`,
    limit: `at ${limit.bound === 'atMost' ? 'most' : 'least'} ${quantity(limit, units)}${band}${space}${unit}${ends}`,
  };
}
