import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { boatJsonSchema } from '@core/boat/json-schema';
import { describe, expect, it } from 'vitest';

interface Json {
  readonly description?: string;
  readonly const?: unknown;
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, Json>>;
  readonly additionalProperties?: Json;
  readonly items?: Json;
  readonly oneOf?: readonly Json[];
}

const nestedIn = ({ additionalProperties, items, oneOf }: Json): readonly Json[] =>
  [additionalProperties, items, ...(oneOf ?? [])].filter((node): node is Json => typeof node === 'object');

/** Paths of fields without a description. */
function undescribed(node: Json, path: string): string[] {
  const found: string[] = [];
  for (const [key, field] of Object.entries(node.properties ?? {})) {
    const isDiscriminator = field.const !== undefined;
    if (!isDiscriminator && typeof field.description !== 'string') found.push(`${path}.${key}`);
    found.push(...undescribed(field, `${path}.${key}`));
  }
  for (const nested of nestedIn(node)) found.push(...undescribed(nested, `${path}.*`));
  return found;
}

/** Paths of numbers whose name ends in a unit of length and whose words name no unit. */
function withoutUnit(node: Json, path: string): string[] {
  const found: string[] = [];
  for (const [key, field] of Object.entries(node.properties ?? {})) {
    if (/M$/.test(key) && !/metre/.test(field.description ?? '')) found.push(`${path}.${key}`);
    found.push(...withoutUnit(field, `${path}.${key}`));
  }
  for (const nested of nestedIn(node)) found.push(...withoutUnit(nested, `${path}.*`));
  return found;
}

describe('the JSON Schema of a boat', () => {
  const schema = boatJsonSchema() as Json;

  it('describes every field, so that a boat can be written from it alone', () => {
    expect(undescribed(schema, 'boat')).toEqual([]);
  });

  it('names the unit of every length', () => {
    expect(withoutUnit(schema, 'boat')).toEqual([]);
  });

  it('asks for what has no default only', () => {
    expect(schema.required).toEqual(['format', 'schemaVersion', 'name']);
  });

  it('names the line kinds of the catalogue where a line takes one', () => {
    const words = schema.properties?.lines?.additionalProperties?.properties?.kind?.description ?? '';
    for (const kind of Object.keys(LINE_KINDS)) expect(words).toContain(kind);
  });
});
