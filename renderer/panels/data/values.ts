import { formatQuantity } from '@core/base/entry';
import { quantised, unitOf } from '@core/base/quantity';
import { type Field, fieldsOf } from '@core/boat/record/fields';
import { isPlain } from '@core/boat/schema-walk';
import { fieldWords } from '@core/output/text/field-words';
import type { z } from 'zod';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthFigure, lengthUnit } from '../format';
import { choiceWords, labelOfKey } from '../record/words';

/** One single value as a person reads it; null for what is more than one value. */
function shownValue({ key, shape }: Field, value: unknown, units: DisplayUnits): string | null {
  switch (shape.type) {
    case 'number': {
      if (typeof value !== 'number') return null;
      const { quantity } = shape;
      if (quantity === null)
        return `${figure(value, Number.isInteger(value) ? 0 : 2)} ${fieldWords(key).unit ?? ''}`.trim();
      if (quantity.quantity === 'length' && quantity.kept === 'm')
        return `${lengthFigure(value, units)} ${lengthUnit(units)}`;
      const kept = unitOf(quantity.quantity, quantity.kept);
      const inBase = kept ? quantised(value * kept.each + kept.zero) : value;
      return formatQuantity(inBase, quantity.quantity, quantity.shown);
    }
    case 'choice':
      return typeof value === 'string' ? choiceWords(value) : null;
    case 'switch':
      return typeof value === 'boolean' ? (value ? 'Yes' : 'No') : null;
    default:
      return null;
  }
}

/** The single values of a record and of its groups, for a table of facts. What is a default of no interest is left out. */
export function factsOf(
  schema: z.core.$ZodType,
  record: unknown,
  units: DisplayUnits,
  skip: ReadonlySet<string>,
): readonly (readonly [string, string])[] {
  if (!isPlain(record)) return [];
  return fieldsOf(schema, record).flatMap((field): (readonly [string, string])[] => {
    const value = record[field.key];
    if (value === undefined || skip.has(field.key)) return [];
    if (field.shape.type === 'group' || field.shape.type === 'forms')
      return [...factsOf(field.schema, value, units, skip)];
    const words = shownValue(field, value, units);
    return words === null ? [] : [[labelOfKey(field.key), words]];
  });
}
