import type { z } from 'zod';
import { halfOf } from '../catalogue/face-places';
import { thingOf } from '../check-references';
import { freeId } from '../edits';
import type { PathPart } from '../problem';
import type { Boat, Thing } from '../schema/boat';
import { bare, itemSchema, objectFor } from '../schema-walk';
import { fieldOf, fieldsOf } from './fields';
import { choicesAt, referenceAt } from './references';

type Schema = z.core.$ZodType;
type Path = readonly PathPart[];

/**
 * What a new record, group or value begins with: the least that the schema asks for, placed so that it can be seen and is then
 * overwritten. Of things: on their own faces; of ids: the first that there is. It may still be refused by the file's own checks
 * where there is nothing to name yet.
 */
export function starterAt(boat: Boat, path: Path, schema: Schema): unknown {
  const own = ownStarter(boat, path);
  return own ?? emptyOf(boat, path, schema);
}

/** What a record of several forms begins with in one of them. */
export const formStarter = (boat: Boat, path: Path, schema: Schema, form: Readonly<Record<string, string>>): unknown =>
  groupOf(boat, path, schema, form);

function emptyOf(boat: Boat, path: Path, schema: Schema): unknown {
  const key = String(path.findLast((part) => typeof part === 'string') ?? '');
  const { shape } = fieldOf(key, schema);
  const reference = referenceAt(path);
  switch (shape.type) {
    case 'number':
      return shape.quantity?.quantity === 'length' && !shape.whole
        ? firstOf(schema, [0.1, 0])
        : firstOf(schema, [0, 1, 2000]);
    case 'choice':
      return shape.options[0];
    case 'switch':
      return true;
    case 'text':
      return reference ? (choicesAt(boat, path, reference)[0]?.[0] ?? 'none') : key === 'name' ? 'New' : 'new';
    case 'numbers':
      return shape.of === 'direction'
        ? [0, 0, 1]
        : Array.from({ length: shape.count }, (_, k) =>
            firstOf(itemSchema(schema, k), [shape.of === 'place' ? 0 : 0.1]),
          );
    case 'texts': {
      const taken = new Set<string>();
      return Array.from({ length: shape.count }, (_, k) => {
        const at = [...path, k];
        const choice = referenceAt(at);
        const id = choice ? choicesAt(boat, at, choice).find(([one]) => !taken.has(one))?.[0] : undefined;
        taken.add(id ?? '');
        return id ?? 'none';
      });
    }
    case 'list':
      return leastList(boat, path, schema);
    case 'records':
      return {};
    case 'forms':
      return groupOf(boat, path, schema, { [shape.key]: shape.options[0] });
    case 'group':
      return groupOf(boat, path, schema, {});
    case 'fixed':
      return undefined;
  }
}

/** Fields that must be there; those with a default fill themselves in. */
function groupOf(
  boat: Boat,
  path: Path,
  schema: Schema,
  form: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  const group: Record<string, unknown> = { ...form };
  const object = objectFor(schema, form);
  for (const field of fieldsOf(schema, form)) {
    const given = object?.shape[field.key]?.safeParse(undefined);
    if (field.key in form || given?.success) continue;
    group[field.key] = emptyOf(boat, [...path, field.key], field.schema);
  }
  return group;
}

function leastList(boat: Boat, path: Path, schema: Schema): unknown[] {
  const list = bare(schema);
  const item = itemSchema(schema, 0);
  for (let count = 0; item && count < 4; count += 1) {
    const found = Array.from({ length: count }, (_, k) => emptyOf(boat, [...path, k], item));
    if (accepts(list, found)) return found;
  }
  return [];
}

const firstOf = (schema: Schema | null, values: readonly number[]): number =>
  values.find((value) => schema !== null && accepts(schema, value)) ?? values[0] ?? 0;

/** Whether a schema takes a value as it is. */
export const accepts = (schema: Schema, value: unknown): boolean => (schema as z.ZodType).safeParse(value).success;

/** Records whose empty form would say nothing useful. Sizes are common practice, to be overwritten. */
function ownStarter(boat: Boat, path: Path): unknown {
  const [group, id, member] = path.map(String);
  const thing = group === 'parts' || group === 'fixtures' ? thingOf(boat, id ?? '') : undefined;
  if (thing && path.length === 4) return recordOfThing(thing, member ?? '');
  if (thing && path.length === 3) return groupOfThing(thing, member ?? '');
  if (path.length === 2) return RECORDS[group ?? ''];
  return undefined;
}

const RECORDS: Readonly<Record<string, unknown>> = {
  operatingStates: { name: 'New state' },
  runStates: { name: 'Sailing', use: 'sailing', heelDeg: 15, sideDown: 'both', trimDeg: 0 },
  arrangements: { name: 'New arrangement' },
  compartments: {
    name: 'New compartment',
    view: 'plan',
    outline: [
      [0, 0],
      [0.5, 0],
      [0.5, 0.5],
      [0, 0.5],
    ],
    rangeM: [0, 0.5],
  },
  parts: { name: 'New part', kind: 'other', shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] } },
  fixtures: {
    name: 'New fixture',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] },
    pose: { at: [0, 0, 0] },
  },
  lineKinds: { name: 'New hose', what: 'hose', outsideM: 0.026, boreM: 0.019, bendRadiusM: 0.15 },
};

function recordOfThing(thing: Thing, member: string): unknown {
  const [x, y, z] = halfOf(thing.shape);
  switch (member) {
    case 'ports':
      return { at: [x, 0, 0], direction: [1, 0, 0] };
    case 'services':
      return { task: 'other', at: [0, 0, z], direction: [0, 0, 1], acrossM: [2 * x, 2 * y], clearM: 0.2 };
    case 'sweeps':
      return { type: 'box', at: [0, 0, z + 0.1], sizeM: [2 * x, 2 * y, 0.2] };
    case 'zones':
      return { kind: 'clear', radiusM: 0.1 };
    case 'passages': {
      const [from, to] = Object.keys(thing.ports);
      return from !== undefined && to !== undefined ? { ports: [from, to] } : undefined;
    }
    default:
      return undefined;
  }
}

function groupOfThing(thing: Thing, member: string): unknown {
  const [, , z] = halfOf(thing.shape);
  switch (member) {
    case 'valve':
      return { states: ['open', 'shut'], normally: 'open' };
    case 'opensToSea':
      return { at: [0, 0, -z], boreM: thing.boreM ?? 0.019 };
    case 'mounting':
      return { face: '-z' };
    case 'electric':
    case 'zones':
    case 'passages':
      return {};
    default:
      return undefined;
  }
}

/** A free id for a new record at a path: `port`, `port-2` ... */
export function freeRecordId(records: Readonly<Record<string, unknown>>, path: Path): string {
  const group = String(path.at(-1) ?? '');
  const base =
    group === 'passages'
      ? 'way'
      : group === 'switches'
        ? 'switch'
        : group.endsWith('xes')
          ? group.slice(0, -2)
          : group.replace(/s$/, '');
  return freeId(records, base === '' ? 'one' : base);
}
