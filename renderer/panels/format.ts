import { formatLength } from '@core/base/entry';

import { digits } from '@core/output/text/quantity-text';
import type { DisplayUnits } from '../store/types';

/** A number with a real minus and thin spaces between thousands; a dash for what is no number. */
export const figure = (value: number, decimals = 0): string =>
  Number.isFinite(value) ? digits(value, decimals) : '\u2013';

/** A length without its unit, in what is shown: millimetres with thin spaces, or inches to the sixteenth. */
export function lengthFigure(metres: number, units: DisplayUnits): string {
  if (units === 'mm') {
    const off = Math.abs(metres * 1000 - Math.round(metres * 1000));
    return figure(metres * 1000, off < 0.05 ? 0 : 1);
  }
  return formatLength(metres, 'in', 'drawn').replace(/ in$/, '').replace('-', '\u2212');
}

/** To the whole millimetre: for what is computed, where tenths would promise too much. */
export const wholeLength = (metres: number, units: DisplayUnits): string =>
  lengthFigure(Math.round(metres * 1000) / 1000, units);

export const lengthUnit = (units: DisplayUnits): string => (units === 'mm' ? 'mm' : 'in');

/** A run's length: metres with centimetres, or feet with a decimal. */
export const runFigure = (metres: number, units: DisplayUnits): string =>
  units === 'mm' ? figure(metres, 2) : figure(metres / 0.3048, 1);
export const runUnit = (units: DisplayUnits): string => (units === 'mm' ? 'm' : 'ft');

/** `620 x 440` with a real multiplication sign. */
export const sizesText = (sizes: readonly number[], units: DisplayUnits): string =>
  sizes.map((size) => lengthFigure(size, units)).join(' \u00d7 ');

export const degreesText = (deg: number, digits = 0): string => `${figure(deg, digits)}\u00b0`;

/** Displacement: tonnes from 1 t on. */
export const massText = (kg: number): string =>
  kg >= 1000 ? `${figure(kg / 1000, 2)} t` : `${figure(kg, kg < 100 ? 1 : 0)} kg`;
