import type { Pose, Vec3 } from '../base/vec';
import { type BoatRecipe, type Draft, freeId } from './edits';
import { newBoat } from './new-boat';
import { type Problem, problemOf } from './problem';
import { checkBoat, readBoat } from './read';
import type { Arrangement, Boat, Fixture, Line, Part } from './schema/boat';
import { writeBoat } from './write';

/**
 * Things that are taken out of a boat to be put in again, here or in another one, with the lines between them. A piece is a boat file
 * of its own that holds nothing else, so that what comes from outside is read and judged as any boat file is.
 */

const NAME = 'Piece of a boat';

export type TakenPiece =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * The text of a piece: parts with their places in an arrangement, fixtures, and the lines that begin and end on them, with their
 * kinds and clip points. What says how a thing stood among others (surface, way in, holes, acceptances) stays behind.
 */
export function pieceOf(boat: Boat, arrangementId: string | null, things: readonly string[]): TakenPiece {
  const arrangement = arrangementId === null ? undefined : boat.arrangements[arrangementId];
  const lines = Object.fromEntries(
    Object.entries(boat.lines).filter(([, line]) => things.includes(line.from.thing) && things.includes(line.to.thing)),
  );
  const kinds = new Set(Object.values(lines).map(({ kind }) => kind));
  const own = <T>(records: Readonly<Record<string, T>>, ids: (id: string) => boolean): Record<string, T> =>
    Object.fromEntries(Object.entries(records).filter(([id]) => ids(id)));
  const isTaken = (id: string): boolean => things.includes(id);
  const places = own(arrangement?.places ?? {}, isTaken);
  const result = checkBoat({
    ...newBoat(NAME),
    parts: own(boat.parts, isTaken),
    fixtures: Object.fromEntries(
      Object.entries(own(boat.fixtures, isTaken)).map(([id, one]) => [id, { ...one, pose: alone(one.pose) }]),
    ),
    lines,
    lineKinds: own(boat.lineKinds, (id) => kinds.has(id)),
    arrangements: {
      first: {
        ...newBoat(NAME).arrangements.first,
        places: Object.fromEntries(Object.entries(places).map(([id, place]) => [id, alone(place)])),
        clipPoints: own(arrangement?.clipPoints ?? {}, (id) => Object.hasOwn(lines, id)),
      },
    },
  });
  return result.ok ? { ok: true, text: writeBoat(result.boat) } : result;
}

/** A pose without what it says of the boat round it. */
function alone<T extends Pose>(pose: T): T {
  const { wayIn: _way, mountedOn: _surface, ...rest } = pose as T & { wayIn?: unknown; mountedOn?: unknown };
  return rest as unknown as T;
}

export type ReadPiece =
  | { readonly ok: true; readonly piece: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads what may be a piece, or a whole boat, from an untrusted text. Refused where there is nothing in it to put into a boat. */
export function readPiece(text: string): ReadPiece {
  const read = readBoat(text);
  if (!read.ok) return read;
  const { parts, fixtures } = read.boat;
  if (Object.keys(parts).length + Object.keys(fixtures).length === 0)
    return { ok: false, problems: [problemOf([], 'without parts and fixtures', 'there is nothing in it to put in')] };
  return { ok: true, piece: read.boat, notes: read.notes };
}

/** Ids that the things and lines of a piece get in a boat. */
export interface PutIn {
  readonly things: Readonly<Record<string, string>>;
  readonly lines: Readonly<Record<string, string>>;
  readonly recipe: BoatRecipe;
}

/** Puts a piece into an arrangement of a boat, shifted by metres; ids, tags and words that are taken there get the next free number. */
export function pieceAdded(boat: Boat, arrangementId: string, piece: Boat, by: Vec3): PutIn {
  const from = arrangementOf(piece);
  const taken = { ...boat.parts, ...boat.fixtures };
  const things = renamed({ ...piece.parts, ...piece.fixtures }, taken);
  const lines = renamed(piece.lines, boat.lines);
  const kinds = kindsFor(boat, piece);
  const groups = groupsFor(boat, piece);
  const tagOf = tagger([...Object.values(taken), ...Object.values(boat.lines)]);
  const shifted = (at: Vec3): [number, number, number] => [at[0] + by[0], at[1] + by[1], at[2] + by[2]];
  const asNew = <T extends Part | Fixture>({ tag, group, ...rest }: T) => ({
    ...rest,
    ...(tag === undefined ? {} : { tag: tagOf(tag) }),
    ...(group === undefined ? {} : { group: groups.get(group) ?? group }),
  });
  return {
    things,
    lines,
    recipe: (draft) => {
      const arrangement = draft.arrangements[arrangementId];
      for (const [id, part] of Object.entries(piece.parts)) {
        const newId = things[id] ?? id;
        draft.parts[newId] = copied(asNew(part)) as Draft<Part>;
        const place = from?.places[id];
        if (place && arrangement) arrangement.places[newId] = copied({ ...alone(place), at: shifted(place.at) });
      }
      for (const [id, fixture] of Object.entries(piece.fixtures)) {
        const pose = { ...fixture.pose, at: shifted(fixture.pose.at) };
        draft.fixtures[things[id] ?? id] = copied({ ...asNew(fixture), pose }) as Draft<Fixture>;
      }
      for (const [id, kind] of kinds.added) draft.lineKinds[id] = copied(kind);
      for (const [id, line] of Object.entries(piece.lines)) {
        const newId = lines[id] ?? id;
        draft.lines[newId] = copied(joinedAnew(line, things, kinds.names, tagOf));
        const clips = from?.clipPoints[id];
        if (clips && arrangement)
          arrangement.clipPoints[newId] = copied(
            Object.fromEntries(Object.entries(clips).map(([key, clip]) => [key, { ...clip, at: shifted(clip.at) }])),
          );
      }
    },
  };
}

const arrangementOf = (piece: Boat): Arrangement | undefined =>
  piece.arrangements[piece.currentArrangement ?? Object.keys(piece.arrangements).sort()[0] ?? ''];

function joinedAnew(
  { tag, ...line }: Line,
  things: PutIn['things'],
  kinds: ReadonlyMap<string, string>,
  tagOf: (tag: string) => string,
): Line {
  const end = ({ thing, port }: Line['from']) => ({ thing: things[thing] ?? thing, port });
  return {
    ...line,
    ...(tag === undefined ? {} : { tag: tagOf(tag) }),
    kind: kinds.get(line.kind) ?? line.kind,
    from: end(line.from),
    to: end(line.to),
  };
}

/** A free id for each record, also free of those given before. */
function renamed(
  records: Readonly<Record<string, unknown>>,
  taken: Readonly<Record<string, unknown>>,
): Record<string, string> {
  const now: Record<string, unknown> = { ...taken };
  return Object.fromEntries(
    Object.keys(records).map((id) => {
      const free = freeId(now, id);
      now[free] = true;
      return [id, free];
    }),
  );
}

/** Line kinds that the boat lacks; one that it has under the same id with other values comes under another. */
function kindsFor(boat: Boat, piece: Boat) {
  const names = new Map<string, string>();
  const added: (readonly [string, Boat['lineKinds'][string]])[] = [];
  const now: Record<string, unknown> = { ...boat.lineKinds };
  for (const [id, kind] of Object.entries(piece.lineKinds)) {
    const known = boat.lineKinds[id];
    if (known && JSON.stringify(known) === JSON.stringify(kind)) continue;
    const free = freeId(now, id);
    now[free] = true;
    names.set(id, free);
    added.push([free, kind]);
  }
  return { names, added };
}

/** What stayed together in the piece does so in the boat, and not with what it was copied from. */
function groupsFor(boat: Boat, piece: Boat): ReadonlyMap<string, string> {
  const words = ({ parts, fixtures }: Boat): string[] =>
    [...Object.values(parts), ...Object.values(fixtures)].flatMap(({ group }) => group ?? []);
  const taken: Record<string, true> = Object.fromEntries(words(boat).map((word) => [word, true]));
  const names = new Map<string, string>();
  for (const word of words(piece)) {
    if (names.has(word)) continue;
    const free = freeId(taken, word);
    taken[free] = true;
    names.set(word, free);
  }
  return names;
}

/** Tags that are not taken: `PM-1` becomes `PM-2`, a tag without a number gets one. */
function tagger(things: readonly { readonly tag?: string | undefined }[]): (tag: string) => string {
  const taken = new Set(things.flatMap(({ tag }) => tag ?? []));
  return (tag) => {
    const [, stem = tag, digits = ''] = /^(.*?)(\d*)$/.exec(tag) ?? [];
    let number = digits === '' ? 2 : Number(digits);
    let next = tag;
    while (taken.has(next) && next.length <= LONGEST_TAG) next = `${stem}${digits === '' ? '-' : ''}${number++}`;
    const free = next.length > LONGEST_TAG ? tag : next;
    taken.add(free);
    return free;
  };
}

/** As the schema has it. */
const LONGEST_TAG = 12;

/** The draft must not share what the piece holds. */
const copied = <T>(value: T): Draft<T> => JSON.parse(JSON.stringify(value)) as Draft<T>;
