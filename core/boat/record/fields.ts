import { z } from 'zod';
import { type KeyQuantity, quantityOfKey } from '../key-quantity';
import { bare, isPlain, itemSchema, objectFor, recordValue } from '../schema-walk';

type Schema = z.core.$ZodType;

/** What a field of a record can hold: enough to choose the control that edits it. */
export type FieldShape =
  | { readonly type: 'number'; readonly quantity: KeyQuantity | null; readonly whole: boolean }
  | { readonly type: 'text'; readonly long: boolean }
  | { readonly type: 'choice'; readonly options: readonly string[] }
  | { readonly type: 'switch' }
  /** One value that the kind of record fixes. */
  | { readonly type: 'fixed' }
  /** A place in metres, a direction, sizes, or another short row of numbers. */
  | { readonly type: 'numbers'; readonly of: 'place' | 'direction' | 'lengths' | 'plain'; readonly count: number }
  /** A short row of texts: two compartments, two ports. */
  | { readonly type: 'texts'; readonly count: number }
  | { readonly type: 'list' }
  /** Records by id. */
  | { readonly type: 'records' }
  | { readonly type: 'group' }
  /** One of several forms; the key tells which. */
  | { readonly type: 'forms'; readonly key: string; readonly options: readonly string[] };

export interface Field {
  readonly key: string;
  readonly schema: Schema;
  readonly shape: FieldShape;
  /** May be left out, and then says nothing. */
  readonly optional: boolean;
  readonly hint: string | null;
}

/** The fields of a record or group, in the order of the schema. A record of several forms has those of its own form. */
export function fieldsOf(schema: Schema, value: unknown): readonly Field[] {
  const object = objectFor(schema, isPlain(value) ? value : {});
  if (!object) return [];
  return Object.entries(object.shape).map(([key, member]) => fieldOf(key, member));
}

/** A member of an object of the schema as a field of a form. */
export const fieldOf = (key: string, schema: Schema): Field => ({
  key,
  schema,
  shape: shapeOf(key, bare(schema)),
  optional: schema instanceof z.ZodOptional,
  hint: descriptionOf(schema),
});

/** The schema at a path of a value; null where the schema knows nothing there. */
export function schemaAt(schema: Schema, value: unknown, path: readonly (string | number)[]): Schema | null {
  let at: Schema | null = schema;
  let here = value;
  for (const part of path) {
    if (!at) return null;
    at =
      typeof part === 'number'
        ? itemSchema(at, part)
        : (recordValue(at) ?? objectFor(at, isPlain(here) ? here : {})?.shape[part] ?? null);
    here = memberOf(here, part);
  }
  return at;
}

/** What stands at a path; undefined where nothing does. */
export const valueAt = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>(memberOf, value);

function memberOf(value: unknown, part: string | number): unknown {
  if (Array.isArray(value)) return value[Number(part)];
  return isPlain(value) && Object.hasOwn(value, part) ? value[part] : undefined;
}

/** What is right here, in the schema's own words: of the outermost wrapper that says something. */
function descriptionOf(schema: Schema): string | null {
  if (schema instanceof z.ZodType && schema.description !== undefined) return schema.description;
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) return descriptionOf(schema.def.innerType);
  return null;
}

/** Texts from this length on are written in several lines. */
const LONG_TEXT = 1000;

function shapeOf(key: string, schema: Schema): FieldShape {
  if (schema instanceof z.ZodEnum) return { type: 'choice', options: schema.options.map(String) };
  if (schema instanceof z.ZodBoolean) return { type: 'switch' };
  if (schema instanceof z.ZodLiteral) return { type: 'fixed' };
  if (schema instanceof z.ZodNumber)
    return { type: 'number', quantity: quantityOfKey(key), whole: schema.format?.includes('int') ?? false };
  if (schema instanceof z.ZodString) return { type: 'text', long: (schema.maxLength ?? 0) >= LONG_TEXT };
  if (schema instanceof z.ZodRecord) return { type: 'records' };
  if (schema instanceof z.ZodArray) return { type: 'list' };
  if (schema instanceof z.ZodObject) return { type: 'group' };
  if (schema instanceof z.ZodDiscriminatedUnion) {
    const { discriminator, options } = schema.def;
    return { type: 'forms', key: discriminator, options: options.flatMap((form) => formNames(form, discriminator)) };
  }
  if (schema instanceof z.ZodTuple) {
    const { items } = schema.def;
    const isNumbers = items.every((item) => bare(item) instanceof z.ZodNumber);
    if (!isNumbers) return { type: 'texts', count: items.length };
    return { type: 'numbers', of: rowOf(key, schema), count: items.length };
  }
  return { type: 'text', long: false };
}

function formNames(form: Schema, discriminator: string): string[] {
  const literal = form instanceof z.ZodObject ? form.shape[discriminator] : null;
  return literal instanceof z.ZodLiteral ? [...literal.values].map(String) : [];
}

/** Keys of rows of numbers that are no lengths. */
const DIRECTIONS: ReadonlySet<string> = new Set(['direction', 'normal', 'up', 'across', 'axis']);
const PLAIN: ReadonlySet<string> = new Set(['pixel', 'straightenPoints']);

function rowOf(key: string, schema: z.ZodTuple): 'place' | 'direction' | 'lengths' | 'plain' {
  if (DIRECTIONS.has(key)) return 'direction';
  if (PLAIN.has(key)) return 'plain';
  if (quantityOfKey(key) !== null) return 'lengths';
  return schema.def.items.length === 3 ? 'place' : 'lengths';
}

/** Keys that records may have where the schema names them; null where they are ids. Keys of free text are none of one's own. */
export function keyChoices(schema: Schema): readonly string[] | null {
  const records = bare(schema);
  if (!(records instanceof z.ZodRecord)) return null;
  const { keyType } = records.def;
  if (keyType instanceof z.ZodEnum) return keyType.options.map(String);
  return keyType instanceof z.ZodString && keyType.maxLength !== null ? [] : null;
}
