import type { Pose } from '../../base/vec';
import { genericSet, type LineDraft, type SetConnections, type SetSize } from '../../boat/catalogue/generic-set';
import { type BoatRecipe, freeId, lineAdded, partAdded, poseOf } from '../../boat/edits';
import { freeTag } from '../../boat/free-tag';
import { SET_PUMPS } from '../../boat/kinds';
import type { Boat, Part, Thing } from '../../boat/schema/boat';
import { line as lineSchema } from '../../boat/schema/lines';
import { roomsOf } from '../../shape/form/interior-plan';
import { hullSurface } from '../../shape/hull/surface';
import { deriveLayout } from '../../shape/layout/derive';
import { Arranger } from './arrange';
import type { Fixtures } from './rooms-and-leads';
import { putSet, type SetHull } from './set-places';

/** What a set can be joined to, each with the port that its line goes to. */
export type SetJoint = keyof SetConnections;
export interface JointChoice {
  readonly thing: string;
  readonly port: string;
  /** A line of the boat ends there already. */
  readonly inUse: boolean;
}

export interface SetOrder {
  readonly boat: Boat;
  readonly arrangementId: string;
  readonly size: SetSize;
  readonly joints: Readonly<Record<SetJoint, string | null>>;
}

export interface PlacedSet {
  readonly parts: Readonly<Record<string, Part>>;
  readonly lines: Readonly<Record<string, LineDraft>>;
  readonly places: Readonly<Record<string, Pose>>;
  /** Parts that no compartment takes, with the reason. */
  readonly unplaced: Readonly<Record<string, 'noHull' | 'noCompartments' | 'noRoom' | 'noSide'>>;
}

const JOINTS: Readonly<
  Record<SetJoint, { is(thing: Thing): boolean; readonly media: readonly string[]; readonly ports: readonly string[] }>
> = {
  intake: {
    is: ({ opensToSea, kind }) => opensToSea !== undefined && opensToSea.use !== 'outlet' && kind !== 'exhaust',
    media: ['seaWater'],
    ports: ['out', 'tail'],
  },
  bank: {
    is: ({ kind, electric }) => kind === 'battery' || electric?.sourceV !== undefined,
    media: ['dcPower'],
    ports: ['posts', 'plus'],
  },
  tank: { is: ({ kind }) => kind === 'waterTank', media: ['product', 'freshWater'], ports: ['fill', 'in'] },
  freshPump: { is: ({ kind }) => kind === 'freshPump', media: ['freshWater'], ports: ['out'] },
};

/** What of the boat may be joined at a joint of a set: of several ports of a thing the one that is meant for it, a free one first. */
export function jointChoices(boat: Boat, arrangementId: string | null, joint: SetJoint): readonly JointChoice[] {
  const { is, media, ports } = JOINTS[joint];
  const choices = Object.entries<Thing>({ ...boat.fixtures, ...boat.parts }).flatMap(([thing, data]) => {
    if (!is(data) || poseOf(boat, arrangementId, thing) === null) return [];
    const fitting = Object.entries(data.ports).flatMap(([port, { medium, role }]) => {
      const flows = joint === 'tank' ? role !== 'out' : role !== 'in' || joint === 'intake';
      if (!flows || (medium !== undefined && !media.includes(medium))) return [];
      const inUse = Object.values(boat.lines).some((line) =>
        [line.from, line.to].some((end) => end.thing === thing && end.port === port),
      );
      return [{ thing, port, inUse }];
    });
    const best = fitting.sort(
      (a, b) =>
        Number(a.inUse) - Number(b.inUse) || Number(!ports.includes(a.port)) - Number(!ports.includes(b.port)) || 0,
    )[0];
    return best ? [best] : [];
  });
  // An engine keeps its intake to itself where there is another.
  return choices.sort((a, b) => Number(feedsEngine(boat, a.thing)) - Number(feedsEngine(boat, b.thing)));
}

const feedsEngine = (boat: Boat, id: string): boolean =>
  Object.values(boat.lines).some(({ from, to }) => {
    const other = from.thing === id ? to.thing : to.thing === id ? from.thing : null;
    return other !== null && (boat.fixtures[other] ?? boat.parts[other])?.kind === 'engine';
  });

/** Room for a bend beyond its least radius, as for a first boat. */
const BEND_ROOM = 1.35;
const USUAL_SOLE_Z = -0.3;
/** A sole lies about as high as the lowest place where somebody stands. */
const soleOf = (boat: Boat): number => {
  const feet = Object.values(boat.standingPlaces).flatMap(({ at, compartment }) => (compartment ? [at[2]] : []));
  return feet.length === 0 ? USUAL_SOLE_Z : Math.min(...feet);
};

/**
 * A generic set in a boat that is drawn already: its parts in the compartments that take equipment, clear of what stands there, near
 * what they are joined to; its lines from port to port. What finds no place is part of the answer with the reason. Ids and marks are
 * new ones where the boat's own are the same.
 */
export function setIntoBoat({ boat, arrangementId, size, joints }: SetOrder): PlacedSet {
  const chosen = Object.fromEntries(
    (Object.keys(JOINTS) as SetJoint[]).map((joint) => [
      joint,
      jointChoices(boat, arrangementId, joint).find(({ thing }) => thing === joints[joint]) ?? null,
    ]),
  ) as Record<SetJoint, JointChoice | null>;
  const set = genericSet(size, {
    intake: chosen.intake?.thing ?? null,
    bank: chosen.bank?.thing ?? null,
    tank: chosen.tank?.thing ?? null,
    freshPump: chosen.freshPump?.thing ?? null,
  });
  const names = newNames(boat, set.parts);
  const joined = Object.fromEntries(Object.values(chosen).flatMap((one) => (one ? [[one.thing, one.port]] : [])));
  const parts = Object.fromEntries(Object.entries(set.parts).map(([id, part]) => [names.get(id) ?? id, part]));
  const ends = (end: LineDraft['from']): LineDraft['from'] => {
    const port = joined[end.thing];
    return set.parts[end.thing] === undefined && port !== undefined ? { thing: end.thing, port } : end;
  };
  const lines = Object.fromEntries(
    Object.entries(set.lines).map(([id, line]) => [id, { ...line, from: ends(line.from), to: ends(line.to) }]),
  );
  const { places, unplaced } = arranged(boat, arrangementId, { parts: set.parts, lines });
  const renamed = <T>(records: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(records).map(([id, value]) => [names.get(id) ?? id, value]));
  return {
    parts: marked(boat, parts),
    lines: linesNamed(boat, lines, names),
    places: renamed(places),
    unplaced: renamed(unplaced),
  };
}

function arranged(
  boat: Boat,
  arrangementId: string,
  set: { readonly parts: PlacedSet['parts']; readonly lines: PlacedSet['lines'] },
): Pick<PlacedSet, 'places' | 'unplaced'> {
  const none = (why: PlacedSet['unplaced'][string]) => ({
    places: {},
    unplaced: Object.fromEntries(Object.keys(set.parts).map((id) => [id, why])),
  });
  if (!boat.hull) return none('noHull');
  if (Object.keys(boat.compartments).length === 0) return none('noCompartments');
  const hull = hullSurface(boat.hull);
  const arrangement = boat.arrangements[arrangementId];
  const layout = deriveLayout({
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: arrangement?.newHoles ?? {},
    newHoleCostM: boat.newHoleCostM,
  });
  const arranger = new Arranger({
    layout,
    hull,
    openings: boat.openings,
    rooms: roomsOf(boat.compartments, hull),
  });
  const standing: Fixtures = {};
  for (const [id, thing] of Object.entries<Thing>({ ...boat.fixtures, ...boat.parts })) {
    const pose = poseOf(boat, arrangementId, id);
    if (!pose) continue;
    // Keeps its room under a name that no part of the set has.
    arranger.keep(`aboard ${id}`, thing, pose);
    if (!Object.hasOwn(set.parts, id)) standing[id] = { ...thing, pose };
  }
  const middle = (hull.aftM + hull.forwardM) / 2;
  const d: SetHull = {
    form: boat.hull.form ?? 'longKeel',
    lengthM: hull.forwardM - hull.aftM,
    midFreeboardM: Math.max(0.3, hull.sheerAt(middle)),
  };
  const interior = { compartments: boat.compartments, openings: boat.openings, soleZ: soleOf(boat) };
  putSet(arranger, set, standing, d, interior, BEND_ROOM);
  const places: Record<string, Pose> = {};
  const unplaced: Record<string, PlacedSet['unplaced'][string]> = {};
  for (const [id, part] of Object.entries(set.parts)) {
    const pose = arranger.places[id];
    if (pose) places[id] = pose;
    else unplaced[id] = part.opensToSea ? 'noSide' : 'noRoom';
  }
  return { places, unplaced };
}

/** The set's own ids where they are free. */
function newNames(boat: Boat, parts: Readonly<Record<string, Part>>): ReadonlyMap<string, string> {
  const taken: Record<string, unknown> = { ...boat.fixtures, ...boat.parts };
  const names = new Map<string, string>();
  for (const id of Object.keys(parts)) {
    const free = freeId(taken, id);
    taken[free] = true;
    names.set(id, free);
  }
  return names;
}

/** Marks that the boat does not bear yet. */
function marked(boat: Boat, parts: Readonly<Record<string, Part>>): Record<string, Part> {
  const own: Record<string, Part> = {};
  for (const [id, part] of Object.entries(parts)) {
    const known = { ...boat, parts: { ...boat.parts, ...own } };
    const isFree = ![...Object.values(known.parts), ...Object.values(boat.fixtures)].some(
      ({ tag }) => tag === part.tag,
    );
    own[id] = isFree ? part : { ...part, tag: freeTag(known, part) };
  }
  return own;
}

function linesNamed(
  boat: Boat,
  lines: Readonly<Record<string, LineDraft>>,
  names: ReadonlyMap<string, string>,
): Record<string, LineDraft> {
  const taken: Record<string, unknown> = { ...boat.lines };
  const tags = new Set(Object.values(boat.lines).map(({ tag }) => tag));
  const named: Record<string, LineDraft> = {};
  for (const [id, line] of Object.entries(lines)) {
    const free = freeId(taken, id);
    taken[free] = true;
    const end = (one: LineDraft['from']) => ({ thing: names.get(one.thing) ?? one.thing, port: one.port });
    named[free] = { ...line, tag: freeMark(tags, line.tag ?? id), from: end(line.from), to: end(line.to) };
  }
  return named;
}

/** `S1`, or the next number behind its letter. */
function freeMark(tags: Set<string | undefined>, tag: string): string {
  const letters = tag.replace(/\d+$/, '');
  let number = Number(tag.slice(letters.length)) || 1;
  while (tags.has(`${letters}${number}`)) number += 1;
  const mark = `${letters}${number}`;
  tags.add(mark);
  return mark;
}

/** The whole set as one edit; a state of making water is added where the boat has none. */
export const setAdded =
  (arrangementId: string, { parts, lines, places }: PlacedSet): BoatRecipe =>
  (boat) => {
    for (const [id, part] of Object.entries(parts)) partAdded(id, part, arrangementId, places[id])(boat);
    for (const [id, line] of Object.entries(lines)) lineAdded(id, lineSchema.parse(line))(boat);
    if (Object.keys(boat.operatingStates).length > 0) return;
    const valves = Object.entries(parts).flatMap(([id, { valve }]) =>
      valve?.normally === undefined ? [] : [[id, valve.normally] as const],
    );
    boat.operatingStates.making = {
      name: 'Making water',
      valves: Object.fromEntries(valves),
      running: Object.keys(parts).filter((id) => SET_PUMPS.has(parts[id]?.kind ?? '')),
    };
  };
