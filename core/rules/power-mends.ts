import { LINE_KINDS } from '../boat/catalogue/line-kinds';
import type { Boat, LineKind } from '../boat/schema/boat';
import type { Mend } from './mend';

type Value = number | boolean;

/** Another value of a record: of a fixture, part, line or compartment. `field` is a path in it, such as `electric.ratingA`. */
export function valueMend(boat: Boat, id: string, field: string, to: Value): Mend {
  const from = valueAt(recordOf(boat, id), field);
  return {
    id: `value ${id} ${field} ${to}`,
    change: 'value',
    what: { id, field, ...(from === undefined ? {} : { from: told(from) }), to: told(to) },
    recipe: (draft) => put(recordOf(draft as Boat, id), field, to),
  };
}

const told = (value: Value): number | string => (typeof value === 'boolean' ? (value ? 'yes' : 'no') : value);

type Tree = Record<string, unknown>;

function recordOf(boat: Boat, id: string): Tree {
  for (const records of [boat.parts, boat.fixtures, boat.lines, boat.compartments])
    if (Object.hasOwn(records, id)) return records[id] as Tree;
  throw new Error(`recordOf: expected a record of the boat, got ${id}`);
}

function valueAt(record: Tree, field: string): Value | undefined {
  let at: unknown = record;
  for (const key of field.split('.')) at = (at as Tree | undefined)?.[key];
  return typeof at === 'number' || typeof at === 'boolean' ? at : undefined;
}

function put(record: Tree, field: string, to: Value): void {
  const keys = field.split('.');
  const last = keys.pop() as string;
  let at = record;
  for (const key of keys) {
    at[key] ??= {};
    at = at[key] as Tree;
  }
  at[last] = to;
}

/** Cables with as many conductors and more copper, of the boat and of the catalogue, the thinnest first. */
export function thickerKinds(boat: Boat, lineId: string): readonly (readonly [id: string, kind: LineKind])[] {
  const line = boat.lines[lineId];
  const known = { ...LINE_KINDS, ...boat.lineKinds };
  const own = line && known[line.kind];
  if (!own) return [];
  return Object.entries(known)
    .filter(
      ([, { what, areaMm2, conductors = 1 }]) =>
        what === 'cable' && conductors === (own.conductors ?? 1) && (areaMm2 ?? 0) > (own.areaMm2 ?? 0),
    )
    .sort(([a, one], [b, other]) => (one.areaMm2 ?? 0) - (other.areaMm2 ?? 0) || (a < b ? -1 : 1));
}

/** The same line of another kind. */
export function kindMend(boat: Boat, lineId: string, to: string): Mend {
  return {
    id: `kind ${lineId} ${to}`,
    change: 'kind',
    what: { line: lineId, from: boat.lines[lineId]?.kind ?? '', to },
    recipe: (draft) => {
      const line = draft.lines[lineId];
      if (line) line.kind = to;
    },
  };
}
