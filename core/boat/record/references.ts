import { LINE_KINDS } from '../catalogue/line-kinds';
import { OUTSIDE, SKIN, thingOf, UNDRAWN } from '../check-references';
import type { PathPart } from '../problem';
import type { Boat } from '../schema/boat';
import { isPlain } from '../schema-walk';
import { valueAt } from './fields';

/** What an id in a boat file may name. */
export type Named =
  | 'thing'
  | 'part'
  | 'valve'
  | 'port'
  | 'state'
  | 'compartment'
  | 'opening'
  | 'surface'
  | 'standingPlace'
  | 'line'
  | 'lineKind'
  | 'arrangement';

interface Reference {
  /** Path with `*` for ids and places in lists; `things` stands for parts and fixtures. */
  readonly path: string;
  readonly names: readonly Named[];
  /** Words that may stand there instead of an id. */
  readonly words?: readonly string[];
  /** Any other text may stand there too. */
  readonly free?: boolean;
}

/** Ids of one record that another holds as a value. A key that is an id stands under `KEYS`. */
const VALUES: readonly Reference[] = [
  { path: 'lines.*.kind', names: ['lineKind'] },
  { path: 'suppliedLengths.*.kind', names: ['lineKind'] },
  { path: 'lines.*.from.thing', names: ['thing'] },
  { path: 'lines.*.to.thing', names: ['thing'] },
  { path: 'lines.*.from.port', names: ['port'] },
  { path: 'lines.*.to.port', names: ['port'] },
  { path: 'things.*.passages.*.ports.*', names: ['port'] },
  { path: 'things.*.passages.*.when.*', names: ['state'] },
  { path: 'things.*.valve.normally', names: ['state'] },
  { path: 'openings.*.compartment', names: ['compartment'] },
  { path: 'openings.*.to', names: ['compartment'], words: [OUTSIDE, UNDRAWN] },
  { path: 'openings.*.standing', names: ['standingPlace'] },
  { path: 'panels.*.between.0', names: ['compartment'] },
  { path: 'panels.*.between.1', names: ['compartment'], words: [SKIN, UNDRAWN] },
  { path: 'mountingSurfaces.*.compartment', names: ['compartment'] },
  { path: 'standingPlaces.*.compartment', names: ['compartment'] },
  { path: 'pictures.*.compartment', names: ['compartment'] },
  { path: 'arrangements.*.places.*.wayIn.*', names: ['opening'] },
  { path: 'arrangements.*.places.*.mountedOn', names: ['surface'] },
  { path: 'things.*.pose.mountedOn', names: ['surface'] },
  { path: 'arrangements.*.newHoles.*.between.0', names: ['compartment'] },
  { path: 'arrangements.*.newHoles.*.between.1', names: ['compartment'], words: [SKIN, UNDRAWN] },
  { path: 'arrangements.*.newHoles.*.for.*', names: ['line'] },
  { path: 'arrangements.*.asBuilt.*', names: ['part'] },
  { path: 'arrangements.*.forbidden.*.*', names: ['compartment'] },
  { path: 'arrangements.*.operatingState.*', names: ['state'] },
  { path: 'operatingStates.*.valves.*', names: ['state'] },
  { path: 'operatingStates.*.running.*', names: ['thing'] },
  { path: 'demands.*.subject', names: ['thing', 'line'], free: true },
  { path: 'demands.*.place', names: ['standingPlace'] },
  { path: 'stowageBoxes.*.near', names: ['compartment', 'thing'], free: true },
  { path: 'flooding.limberHoles.*.between.*', names: ['compartment'], words: [UNDRAWN] },
  { path: 'flooding.cases.*.subject', names: ['thing', 'line', 'opening'], free: true },
  { path: 'currentArrangement', names: ['arrangement'] },
];

const KEYS: readonly Reference[] = [
  { path: 'arrangements.*.places', names: ['part'] },
  { path: 'arrangements.*.clipPoints', names: ['line'] },
  { path: 'arrangements.*.forbidden', names: ['line'] },
  { path: 'arrangements.*.pins', names: ['line'] },
  { path: 'arrangements.*.operatingState', names: ['valve'] },
  { path: 'operatingStates.*.valves', names: ['valve'] },
];

const patternMatches = (pattern: string, path: readonly PathPart[]): boolean => {
  const parts = pattern.split('.');
  return (
    parts.length === path.length &&
    parts.every((part, index) => {
      const own = String(path[index]);
      return part === '*' || part === own || (part === 'things' && (own === 'parts' || own === 'fixtures'));
    })
  );
};

/** What the value at a path names; null for a text or number of its own. */
export const referenceAt = (path: readonly PathPart[]): Reference | null =>
  VALUES.find((one) => patternMatches(one.path, path)) ?? null;

/** What the keys of the records at a path name; null where they are ids of their own. */
export const keyReferenceAt = (path: readonly PathPart[]): Reference | null =>
  KEYS.find((one) => patternMatches(one.path, path)) ?? null;

/** The thing that a port or valve state at a path belongs to. */
export function ownerAt(boat: Boat, path: readonly PathPart[]): string | null {
  if (path[0] === 'parts' || path[0] === 'fixtures') return String(path[1]);
  if (path[0] === 'lines') {
    const thing = valueAt(boat, [...path.slice(0, 3), 'thing']);
    return typeof thing === 'string' ? thing : null;
  }
  return path[0] === 'operatingStates' || path[0] === 'arrangements' ? String(path[3]) : null;
}

/** Ids with their names that may stand at a path, in the order in which they are offered. */
export function choicesAt(
  boat: Boat,
  path: readonly PathPart[],
  reference: Reference,
): readonly (readonly [id: string, words: string])[] {
  const owner = ownerAt(boat, path);
  const found = reference.names.flatMap((named) => namedRecords(boat, named, owner));
  const words = (reference.words ?? []).map((word) => [word, word] as const);
  return [...found.sort(([, a], [, b]) => a.localeCompare(b, 'en', { numeric: true })), ...words];
}

function namedRecords(boat: Boat, named: Named, owner: string | null): (readonly [string, string])[] {
  const thing = owner === null ? undefined : thingOf(boat, owner);
  switch (named) {
    case 'thing':
      return [...labelled(boat.parts), ...labelled(boat.fixtures)];
    case 'part':
      return labelled(boat.parts);
    case 'valve':
      return [...labelled(withValve(boat.parts)), ...labelled(withValve(boat.fixtures))];
    case 'port':
      return Object.keys(thing?.ports ?? {}).map((id) => [id, id] as const);
    case 'state':
      return (thing?.valve?.states ?? []).map((id) => [id, id] as const);
    case 'compartment':
      return labelled(boat.compartments);
    case 'opening':
      return labelled(boat.openings);
    case 'surface':
      return labelled(boat.mountingSurfaces);
    case 'standingPlace':
      return labelled(boat.standingPlaces);
    case 'line':
      return labelled(boat.lines);
    case 'lineKind':
      return labelled({ ...LINE_KINDS, ...boat.lineKinds });
    case 'arrangement':
      return labelled(boat.arrangements);
  }
}

const withValve = <T extends { readonly valve?: unknown }>(records: Readonly<Record<string, T>>): Record<string, T> =>
  Object.fromEntries(Object.entries(records).filter(([, { valve }]) => valve !== undefined));

const labelled = (records: Readonly<Record<string, { readonly name?: unknown; readonly tag?: unknown }>>) =>
  Object.entries(records).map(([id, record]) => [id, labelOf(id, record)] as const);

/** A record in a list: its mark and name where it has them, else its id. */
export function labelOf(id: string, record: unknown): string {
  if (!isPlain(record)) return id;
  const name = typeof record.name === 'string' ? record.name : null;
  const tag = typeof record.tag === 'string' ? record.tag : null;
  return [tag, name].filter((word) => word !== null).join(' ') || id;
}

/** What the records at a path are called by others; null where nothing else names them. */
export function namedAt(path: readonly PathPart[]): Named | null {
  if (path.length === 1) return NAMED[String(path[0])] ?? null;
  const [group, , member] = path;
  return path.length === 3 && (group === 'parts' || group === 'fixtures') && member === 'ports' ? 'port' : null;
}

const NAMED: Readonly<Record<string, Named>> = {
  parts: 'part',
  fixtures: 'thing',
  compartments: 'compartment',
  openings: 'opening',
  mountingSurfaces: 'surface',
  standingPlaces: 'standingPlace',
  lines: 'line',
  lineKinds: 'lineKind',
  arrangements: 'arrangement',
};

/** Kinds of naming that reach the same records: a part is named as a thing and as a valve, too. */
export const alsoNamed = (named: Named): readonly Named[] =>
  named === 'part' || named === 'thing' ? ['part', 'thing', 'valve'] : [named];
