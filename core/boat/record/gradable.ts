import type { z } from 'zod';
import { bare, isPlain, itemSchema } from '../schema-walk';
import { fieldsOf } from './fields';

/** Values of a record that were measured, by their path behind the record's own, as `gradeOf` names them: `widthM`, `rangeM.1`. */
export function gradableValues(schema: z.core.$ZodType, value: unknown, path = '', deep = 1): readonly string[] {
  if (!isPlain(value)) return [];
  return fieldsOf(schema, value).flatMap(({ key, shape, schema: member }) => {
    const own = path === '' ? key : `${path}.${key}`;
    const here = value[key];
    if (here === undefined) return [];
    switch (shape.type) {
      case 'number':
        return shape.quantity?.quantity === 'length' ? [own] : [];
      case 'numbers':
        return shape.of === 'place' ? [own] : shape.of === 'lengths' ? [own, ...membersOf(own, here)] : [];
      case 'list':
        return isMeasuredList(key, member) ? membersOf(own, here) : [];
      case 'group':
      case 'forms':
        return deep > 0 ? gradableValues(bare(member), here, own, deep - 1) : [];
      default:
        return [];
    }
  });
}

const membersOf = (path: string, value: unknown): string[] =>
  Array.isArray(value) ? value.map((_, index) => `${path}.${index}`) : [];

const isMeasuredList = (key: string, schema: z.core.$ZodType): boolean =>
  key === 'outline' && itemSchema(schema, 0) !== null;
