import { z } from 'zod';
import type { PathPart } from './problem';

type Plain = Record<string, unknown>;
export const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A member of the object itself: `constructor` and the like may be keys of a file, and every object answers to them. */
const own = <T>(members: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(members, key) ? members[key] : undefined;

/** The schema below defaults and optionals. */
export function bare(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodDefault || schema instanceof z.ZodOptional) return bare(schema.def.innerType);
  return schema;
}

/** The object schema that holds for this value; of alternatives, the one that its discriminator names. */
export function objectFor(schema: z.core.$ZodType, value: Plain): z.ZodObject | null {
  const inner = bare(schema);
  if (inner instanceof z.ZodObject) return inner;
  if (inner instanceof z.ZodDiscriminatedUnion) {
    const { discriminator, options } = inner.def;
    for (const option of options) {
      if (!(option instanceof z.ZodObject)) continue;
      const literal = option.shape[discriminator];
      if (literal instanceof z.ZodLiteral && literal.values.has(value[discriminator] as string)) return option;
    }
  }
  return null;
}

/** Schema of a member of an array or tuple. */
export function itemSchema(schema: z.core.$ZodType, index: number): z.core.$ZodType | null {
  const inner = bare(schema);
  if (inner instanceof z.ZodArray) return inner.element;
  if (inner instanceof z.ZodTuple) return inner.def.items[index] ?? null;
  return null;
}

export function recordValue(schema: z.core.$ZodType): z.core.$ZodType | null {
  const inner = bare(schema);
  return inner instanceof z.ZodRecord ? inner.valueType : null;
}

/** Calls `visit` for every key that the schema does not know. */
export function unknownKeys(
  value: unknown,
  schema: z.core.$ZodType,
  visit: (path: readonly PathPart[]) => void,
  path: readonly PathPart[] = [],
): void {
  if (Array.isArray(value)) {
    value.forEach((item, index) => {
      const member = itemSchema(schema, index);
      if (member) unknownKeys(item, member, visit, [...path, index]);
    });
    return;
  }
  if (!isPlain(value)) return;
  const members = recordValue(schema);
  if (members) {
    for (const [key, member] of Object.entries(value)) unknownKeys(member, members, visit, [...path, key]);
    return;
  }
  const object = objectFor(schema, value);
  if (!object) return;
  for (const [key, member] of Object.entries(value)) {
    const known = own(object.shape, key);
    if (known) unknownKeys(member, known, visit, [...path, key]);
    else visit([...path, key]);
  }
}

/** The same value without what the schema would put there by itself. */
export function withoutDefaults(value: unknown, schema: z.core.$ZodType): unknown {
  if (Array.isArray(value)) {
    return value.map((item, index) => {
      const member = itemSchema(schema, index);
      return member ? withoutDefaults(item, member) : item;
    });
  }
  if (!isPlain(value)) return value;
  const members = recordValue(schema);
  if (members) {
    return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, withoutDefaults(member, members)]));
  }
  const object = objectFor(schema, value);
  if (!object) return value;
  const kept: Plain = {};
  for (const [key, member] of Object.entries(value)) {
    if (member === undefined) continue;
    const known = own(object.shape, key);
    if (!known) {
      kept[key] = member;
      continue;
    }
    if (known instanceof z.ZodDefault && sameValue(member, known.def.defaultValue)) continue;
    kept[key] = withoutDefaults(member, known);
  }
  return kept;
}

/** Deep equality of plain data; a key that is undefined counts as absent. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((item, index) => sameValue(item, b[index]));
  }
  if (!isPlain(a) || !isPlain(b)) return false;
  for (const key of Object.keys(a)) if (!sameValue(a[key], own(b, key))) return false;
  for (const key of Object.keys(b)) if (b[key] !== undefined && own(a, key) === undefined) return false;
  return true;
}
