import { type Entry, parseEntry } from '@core/base/entry';
import type { DisplayUnits } from '../../store/types';
import { lengthUnit } from '../format';
import type { Read } from './QuantityField';

/** The screen groups thousands by a thin space; an entry that starts from what is shown still carries it. */
export const ungrouped = (typed: string): string => typed.replace(/[\u00a0\u2009\u202f]/g, '');

const answerOf = (entry: Entry): Read =>
  entry.ok ? { ok: true, value: entry.value } : { ok: false, message: `Expected ${entry.problem.expected}` };

/** Metres, typed in any unit of length; a bare number is in what the screen shows. */
export const readLength = (typed: string, units: DisplayUnits): Read =>
  answerOf(parseEntry(ungrouped(typed), 'length', lengthUnit(units)));

export const readAngle = (typed: string): Read => answerOf(parseEntry(ungrouped(typed), 'angle', '\u00b0'));

/** Kilograms, typed in any unit of mass. */
export const readMass = (typed: string): Read => answerOf(parseEntry(ungrouped(typed), 'mass', 'kg'));

/** Watts, typed in any unit of power. */
export const readWatts = (typed: string): Read => answerOf(parseEntry(ungrouped(typed), 'power', 'W'));
