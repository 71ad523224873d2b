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

/** Every kind of the catalogue with the sizes that a run is planned with, millimetres. */
function lineKindDescription(): string {
  const mm = (metres: number | undefined) => (metres === undefined ? 'unknown' : String(Math.round(metres * 1e4) / 10));
  const kinds = Object.entries(LINE_KINDS).map(([id, kind]) => {
    const radius = `bend radius ${mm(kind.bendRadiusM)} to ${kind.radiusTo === 'inside' ? 'the inside of the bend' : 'the centre line'}`;
    const end = kind.end
      ? `, ends ${mm(kind.end.diameterM)} wide, ${mm(kind.end.rigidM)} rigid${kind.end.crimped ? ', crimped on' : ''}`
      : '';
    const bore = kind.boreM === undefined ? '' : `, bore ${mm(kind.boreM)}`;
    const warm = kind.temperatureC === undefined ? '' : `, insulation ${kind.temperatureC} C`;
    return `${id} (${kind.name}: outside ${mm(kind.outsideM)}${bore}, ${radius}${end}${warm})`;
  });
  return `Id of a record of lineKinds of this boat, or of the catalogue, sizes in mm: ${kinds.join('; ')}.`;
}
