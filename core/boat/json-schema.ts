import { z } from 'zod';
import { LINE_KINDS } from './catalogue/line-kinds';
import { boatSchema } from './schema/boat';

/**
 * JSON Schema (draft 2020-12) of a boat file as it may be written: defaults may be left out. The descriptions say unit,
 * frame and default of every field, so that a boat can be written from the schema alone.
 */
export function boatJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(boatSchema, {
    io: 'input',
    target: 'draft-2020-12',
    override: ({ jsonSchema, path }) => {
      if (path.at(-1) === 'kind' && path.includes('lines')) jsonSchema.description = lineKindDescription();
    },
  }) as Record<string, unknown>;
}

function lineKindDescription(): string {
  const kinds = Object.entries(LINE_KINDS).map(([id, { name }]) => `${id} (${name})`);
  return `Id of a record of lineKinds of this boat, or of the catalogue: ${kinds.join(', ')}.`;
}
