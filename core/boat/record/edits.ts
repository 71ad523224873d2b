import type { BoatRecipe, Draft } from '../edits';
import { freeId, lineDeleted, thingDeleted } from '../edits';
import { compartmentDeleted, openingDeleted, surfaceDeleted } from '../interior/removing';
import { type PathPart, pathText } from '../problem';
import type { Boat } from '../schema/boat';
import { isPlain } from '../schema-walk';
import { valueAt } from './fields';
import { alsoNamed, keyReferenceAt, namedAt, ownerAt, referenceAt } from './references';
import { isUnder } from './typed';

type Path = readonly PathPart[];
type Plain = Record<string, unknown>;

/** Edits of any value of a boat by its path. Each is one recipe: one edit, one undo step. */

const copied = <T>(value: T): T => (value === undefined ? value : (JSON.parse(JSON.stringify(value)) as T));

/** The object or list that holds the last part of a path; what is missing on the way is made. */
function holderOf(boat: Draft<Boat>, path: Path): Plain | unknown[] {
  let here: unknown = boat;
  for (const part of path.slice(0, -1)) {
    if (Array.isArray(here)) here = here[Number(part)];
    else if (isPlain(here)) {
      here[part] ??= {};
      here = here[part];
    }
  }
  if (!Array.isArray(here) && !isPlain(here))
    throw new Error(`edit of ${pathText(path)}: expected a record to hold it`);
  return here;
}

/** Sets the value at a path; groups on the way that are not there yet are made. */
export const valueSet =
  (path: Path, value: unknown): BoatRecipe =>
  (boat) => {
    const holder = holderOf(boat, path);
    const key = path.at(-1) ?? '';
    if (Array.isArray(holder)) holder[Number(key)] = copied(value);
    else holder[key] = copied(value);
  };

/** Takes a value out: of a list its member, of a record its key. What was typed for it goes, and so does its grade. */
export const valueRemoved =
  (path: Path): BoatRecipe =>
  (boat) => {
    const holder = holderOf(boat, path);
    const key = path.at(-1) ?? '';
    if (Array.isArray(holder)) {
      // Words of the members behind it would stand at the wrong ones.
      forgotten(boat, path.slice(0, -1));
      holder.splice(Number(key), 1);
    } else {
      forgotten(boat, path);
      delete holder[key];
    }
  };

/** Adds a record to the records at a path. */
export const recordAdded = (path: Path, id: string, value: unknown): BoatRecipe => valueSet([...path, id], value);

/** A copy beside the original under another id. A mark is for one thing alone, and names tell two apart. */
export const recordDuplicated =
  (path: Path, id: string, newId: string, more: Plain = {}): BoatRecipe =>
  (boat) => {
    const copy = copied(valueAt(boat, [...path, id]));
    if (!isPlain(copy)) return;
    delete copy.tag;
    if (typeof copy.name === 'string' && more.name === undefined) copy.name = copyName(copy.name);
    recordAdded(path, newId, { ...copy, ...more })(boat);
  };

const LONGEST_NAME = 120;
/** `Name, copy`: at most as long as a name may be. */
export const copyName = (name: string): string => `${name.slice(0, LONGEST_NAME - 6)}, copy`;

/** Removes a record with what hangs on it: the lines of a thing, the openings of a compartment. */
export const recordRemoved =
  (path: Path, id: string): BoatRecipe =>
  (boat) => {
    const known = path.length === 1 ? REMOVALS[String(path[0])] : undefined;
    if (known) known(id)(boat);
    else if (namedAt(path) === 'port') portRemoved(String(path[1]), id)(boat);
    else if (path.length === 1 && path[0] === 'arrangements') arrangementRemoved(id)(boat);
    else valueRemoved([...path, id])(boat);
    forgotten(boat, [...path, id]);
  };

const REMOVALS: Readonly<Record<string, (id: string) => BoatRecipe>> = {
  parts: thingDeleted,
  fixtures: thingDeleted,
  lines: lineDeleted,
  compartments: compartmentDeleted,
  openings: openingDeleted,
  mountingSurfaces: surfaceDeleted,
};

/** A port goes with the lines that end at it and the ways inside its thing that lead to it. */
const portRemoved =
  (thingId: string, port: string): BoatRecipe =>
  (boat) => {
    const thing = boat.parts[thingId] ?? boat.fixtures[thingId];
    if (!thing) return;
    delete thing.ports[port];
    for (const [key, passage] of Object.entries(thing.passages ?? {}))
      if (passage.ports.includes(port)) delete thing.passages?.[key];
    for (const [lineId, line] of Object.entries(boat.lines))
      if ([line.from, line.to].some((end) => end.thing === thingId && end.port === port)) lineDeleted(lineId)(boat);
  };

const arrangementRemoved =
  (id: string): BoatRecipe =>
  (boat) => {
    delete boat.arrangements[id];
    if (boat.currentArrangement === id) delete boat.currentArrangement;
  };

/** Gives a record another id; whatever names it follows, and so do grades, typed words and accepted findings. */
export const recordRenamed =
  (path: Path, id: string, newId: string): BoatRecipe =>
  (boat) => {
    const holder = holderOf(boat, [...path, id]);
    if (Array.isArray(holder) || id === newId || !Object.hasOwn(holder, id)) return;
    const named = namedAt(path);
    if (named !== null)
      followed(boat, [], new Set<string>(alsoNamed(named)), named === 'port' ? String(path[1]) : null, id, newId);
    rekeyed(holder, id, newId);
    const head = pathText([...path, id]);
    for (const records of [boat.typed, boat.gradeOf] as (Plain | undefined)[])
      for (const key of Object.keys(records ?? {}))
        if (records && isUnder(key, head))
          rekeyed(records, key, `${pathText([...path, newId])}${key.slice(head.length)}`);
    for (const point of Object.values(boat.survey?.points ?? {}))
      if (point.of)
        point.of = point.of.map((link) =>
          isUnder(link, head) ? `${pathText([...path, newId])}${link.slice(head.length)}` : link,
        );
    if (named === null || named === 'port') return;
    for (const records of [boat.accepted, boat.stock] as (Plain | undefined)[])
      for (const key of Object.keys(records ?? {}))
        if (records)
          rekeyed(
            records,
            key,
            key
              .split('|')
              .map((part) => (part === id ? newId : part))
              .join('|'),
          );
  };

/** Follows every id in the boat that names the record. */
function followed(
  boat: Draft<Boat>,
  path: Path,
  named: ReadonlySet<string>,
  owner: string | null,
  id: string,
  newId: string,
): void {
  const here = valueAt(boat, path);
  const isMeant = (at: Path) => owner === null || ownerAt(boat as Boat, at) === owner;
  const member = (key: PathPart, value: unknown): void => {
    const at = [...path, key];
    const reference = typeof value === 'string' && value === id ? referenceAt(at) : null;
    if (reference?.names.some((one) => named.has(one)) && isMeant(at)) (here as Record<PathPart, unknown>)[key] = newId;
    else if (typeof value === 'object' && value !== null) followed(boat, at, named, owner, id, newId);
  };
  if (Array.isArray(here)) for (const [index, value] of here.entries()) member(index, value);
  else if (isPlain(here)) {
    for (const [key, value] of Object.entries(here)) member(key, value);
    if (keyReferenceAt(path)?.names.some((one) => named.has(one))) rekeyed(here, id, newId);
  }
}

/** Another key for the same value, at the same place in the order. */
function rekeyed(records: Plain, from: string, to: string): void {
  if (from === to || !Object.hasOwn(records, from)) return;
  const entries = Object.entries(records);
  for (const [key] of entries) delete records[key];
  for (const [key, value] of entries) records[key === from ? to : key] = value;
}

/** What was typed and graded at a path and below it: the values there are other ones now. */
function forgotten(boat: Draft<Boat>, path: Path): void {
  const head = pathText(path);
  for (const records of [boat.typed, boat.gradeOf] as (Plain | undefined)[])
    for (const key of Object.keys(records ?? {})) if (records && isUnder(key, head)) delete records[key];
}

/** The grade of one value, where it differs from that of its record; null takes the word for it away. */
export const valueGraded =
  (path: string, grade: string | null): BoatRecipe =>
  (boat) => {
    const grades: Plain = (boat.gradeOf as Plain | undefined) ?? {};
    if (grade === null) delete grades[path];
    else grades[path] = grade;
    if (Object.keys(grades).length > 0) boat.gradeOf = grades as NonNullable<typeof boat.gradeOf>;
    else delete boat.gradeOf;
  };

/** Makes an arrangement the one that is judged. */
export const arrangementChosen =
  (id: string): BoatRecipe =>
  (boat) => {
    if (Object.hasOwn(boat.arrangements, id)) boat.currentArrangement = id;
  };

/** A copy of an arrangement under a name of its own, and the one that is judged from then on. */
export const arrangementDuplicated =
  (id: string, newId: string, name: string): BoatRecipe =>
  (boat) => {
    recordDuplicated(['arrangements'], id, newId, { name })(boat);
    arrangementChosen(newId)(boat);
  };

/** An id made of a name: what is no letter or digit becomes a dash. */
export function idFrom(records: Readonly<Record<string, unknown>>, name: string): string {
  const plain = name
    .normalize('NFD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 50)
    .toLowerCase();
  return freeId(records, plain === '' || plain === 'constructor' ? 'one' : plain);
}
