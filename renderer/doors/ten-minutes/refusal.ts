import type { Problem } from '@core/boat/problem';
import { figure } from '../../panels/format';

/** What is wrong with a field, in the field's own sense and unit. */
export function refusalOf({ value: text, limit }: Problem, field: string): string {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) return `${text}: ${limit}`;
  if (field === 'displacementKg') return `${figure(value)} kg: ${limit}`;
  if (field === 'soleBelowM')
    return `${figure(Math.abs(value), 2)} m ${value < 0 ? 'below' : 'above'} the water: ${limit}`;
  return `${figure(value, 2)} m: ${limit}`;
}
