import { applyPatches, enablePatches, type Patch, produce } from 'immer';
import type { z } from 'zod';
import type { Pose } from '../base/vec';
import type { Problem } from './problem';
import { checkBoat } from './read';
import type { Boat, Line, Part, Place } from './schema/boat';
import type { fixture } from './schema/things';
import { isPlain, sameValue } from './schema-walk';

enablePatches();

export type { Patch };
/** A boat that a recipe may change in place. */
export type Draft<T> = T extends readonly (infer _)[]
  ? T
  : T extends object
    ? { -readonly [K in keyof T]: Draft<T[K]> }
    : T;
export type BoatRecipe = (boat: Draft<Boat>) => void;

export type Edited =
  | {
      readonly ok: true;
      readonly boat: Boat;
      /** From the old boat to the new one. */
      readonly patches: readonly Patch[];
      /** Back again. */
      readonly inverse: readonly Patch[];
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * One edit: a new boat and the patches there and back. The result is what reading the saved file would give: defaults
 * filled in, numbers to the micrometre. Whatever the edit does not touch keeps its identity. An edit after which the
 * file could not be read is refused, and the old boat stands.
 */
export function edit(boat: Boat, recipe: BoatRecipe): Edited {
  const result = checkBoat(produce(boat, (draft) => recipe(draft as Draft<Boat>)));
  if (!result.ok) return result;
  const patches = patchesBetween(boat, result.boat);
  return {
    ok: true,
    boat: applied(boat, patches),
    patches,
    inverse: patchesBetween(result.boat, boat),
    notes: result.notes,
  };
}

/** The boat as a recipe would leave it, not checked and not quantised: for what is shown while it is held. */
export const previewed = (boat: Boat, recipe: BoatRecipe): Boat =>
  produce(boat, (draft) => recipe(draft as Draft<Boat>));

/** The boat after patches that an edit gave; shares what they do not touch. */
export const applied = (boat: Boat, patches: readonly Patch[]): Boat => applyPatches(boat, patches);

/** The least patches that turn one piece of plain data into another; lists are replaced whole. */
export function patchesBetween(before: unknown, after: unknown, path: readonly (string | number)[] = []): Patch[] {
  if (sameValue(before, after)) return [];
  if (!isPlain(before) || !isPlain(after)) return [{ op: 'replace', path: [...path], value: after }];
  const patches: Patch[] = [];
  for (const key of Object.keys(before)) {
    if (before[key] !== undefined && !has(after, key)) patches.push({ op: 'remove', path: [...path, key] });
  }
  for (const key of Object.keys(after)) {
    if (after[key] === undefined) continue;
    if (!has(before, key)) patches.push({ op: 'add', path: [...path, key], value: after[key] });
    else patches.push(...patchesBetween(before[key], after[key], [...path, key]));
  }
  return patches;
}

/** A key may be a word that every object answers to. */
const has = (members: Readonly<Record<string, unknown>>, key: string): boolean =>
  Object.hasOwn(members, key) && members[key] !== undefined;

/** The arrangement that is judged when none is named: the one marked current, else the first by id. */
export function currentArrangementId(boat: Boat): string | null {
  if (boat.currentArrangement !== undefined) return boat.currentArrangement;
  return Object.keys(boat.arrangements).sort()[0] ?? null;
}

/** Where a thing is: a fixture's own pose, a part's place in the arrangement; null when it is not placed. */
export function poseOf(boat: Boat, arrangementId: string | null, thingId: string): Pose | null {
  if (Object.hasOwn(boat.fixtures, thingId)) return boat.fixtures[thingId]?.pose ?? null;
  const places = arrangementId === null ? undefined : boat.arrangements[arrangementId]?.places;
  return places && Object.hasOwn(places, thingId) ? (places[thingId] ?? null) : null;
}

/** Puts a part, or moves a fixture, to a pose; what else its place says is kept. */
export const placed =
  (arrangementId: string, thingId: string, pose: Partial<Pose> & Pick<Pose, 'at'>): BoatRecipe =>
  (boat) => {
    const fixtureThing = Object.hasOwn(boat.fixtures, thingId) ? boat.fixtures[thingId] : undefined;
    if (fixtureThing) {
      Object.assign(fixtureThing.pose, pose);
      return;
    }
    const places = boat.arrangements[arrangementId]?.places;
    if (!places) return;
    const before = Object.hasOwn(places, thingId) ? places[thingId] : undefined;
    places[thingId] = { yawDeg: 0, pitchDeg: 0, rollDeg: 0, ...before, ...pose } as Draft<Place>;
  };

/** Takes a part out of the arrangement; it is then not placed. */
export const unplaced =
  (arrangementId: string, partId: string): BoatRecipe =>
  (boat) => {
    const arrangement = boat.arrangements[arrangementId];
    if (!arrangement) return;
    delete arrangement.places[partId];
    if (arrangement.asBuilt) arrangement.asBuilt = arrangement.asBuilt.filter((id) => id !== partId);
  };

/** Accepts the finding of that key with a name, a reason and a day; null takes the acceptance back. */
export const findingAccepted =
  (key: string, acceptance: { readonly by: string; readonly why: string; readonly on: string } | null): BoatRecipe =>
  (boat) => {
    if (acceptance) boat.accepted[key] = { ...acceptance };
    else delete boat.accepted[key];
  };

/** Leads one end of a line to another port. */
export const lineEndSet =
  (lineId: string, end: 'from' | 'to', at: { readonly thing: string; readonly port: string }): BoatRecipe =>
  (boat) => {
    const line = boat.lines[lineId];
    if (line) line[end] = { ...at };
  };

/** Adds a fixture; defaults are filled in by the check of the edit. */
export const fixtureAdded =
  (id: string, thing: z.input<typeof fixture>): BoatRecipe =>
  (boat) => {
    boat.fixtures[id] = thing as Draft<Boat['fixtures'][string]>;
  };

/** Adds a part; with an arrangement and a pose it is placed there too. */
export const partAdded =
  (id: string, part: Part, arrangementId?: string, pose?: Pose): BoatRecipe =>
  (boat) => {
    boat.parts[id] = structuredCopy(part);
    if (arrangementId !== undefined && pose) placed(arrangementId, id, pose)(boat);
  };

/** Adds a line; its ports must exist. */
export const lineAdded =
  (id: string, line: Line): BoatRecipe =>
  (boat) => {
    boat.lines[id] = structuredCopy(line);
  };

/** Removes a fixture or part with its places and with the lines that end on it. */
export const thingDeleted =
  (thingId: string): BoatRecipe =>
  (boat) => {
    delete boat.fixtures[thingId];
    delete boat.parts[thingId];
    for (const [lineId, line] of Object.entries(boat.lines)) {
      if (line.from.thing === thingId || line.to.thing === thingId) lineDeleted(lineId)(boat);
    }
    for (const id of Object.keys(boat.arrangements)) {
      unplaced(id, thingId)(boat);
      delete boat.arrangements[id]?.operatingState?.[thingId];
    }
    for (const state of Object.values(boat.operatingStates)) {
      delete state.valves[thingId];
      state.running = state.running.filter((id) => id !== thingId);
    }
  };

/** Removes a line with its clip points, pins and share in holes. */
export const lineDeleted =
  (lineId: string): BoatRecipe =>
  (boat) => {
    delete boat.lines[lineId];
    for (const arrangement of Object.values(boat.arrangements)) {
      delete arrangement.clipPoints[lineId];
      delete arrangement.forbidden?.[lineId];
      delete arrangement.pins?.[lineId];
      for (const hole of Object.values(arrangement.newHoles)) hole.for = hole.for.filter((id) => id !== lineId);
    }
  };

/** `base`, or `base-2`, `base-3` ... when it is taken. */
export function freeId(records: Readonly<Record<string, unknown>>, base: string): string {
  if (!Object.hasOwn(records, base)) return base;
  let number = 2;
  while (Object.hasOwn(records, `${base}-${number}`)) number += 1;
  return `${base}-${number}`;
}

/** A deep copy of plain data: the draft must not share what the caller holds. */
function structuredCopy<T>(value: T): Draft<T> {
  return JSON.parse(JSON.stringify(value)) as Draft<T>;
}
