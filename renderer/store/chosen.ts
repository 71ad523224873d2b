import { turned } from '@core/base/turning';
import { add, rotate, rotationOf, subtract, type Vec3 } from '@core/base/vec';
import { type BoatRecipe, freeId, lineDeleted, placed, thingDeleted } from '@core/boat/edits';
import { compartmentDeleted, openingDeleted, standingPlaceDeleted, surfaceDeleted } from '@core/boat/interior/removing';
import { compartmentShifted } from '@core/boat/interior/shaping';
import type { Boat, Place } from '@core/boat/schema/boat';
import { paperAxes, type ViewFrame } from '@core/output/views/drawing';
import { boundsInBoat } from '@core/output/views/envelope';
import { type Arranged, type Block, linedUp, type Side, spacedOut } from '../tools/arranging';
import { useApp } from './app';
import { chosenOf, isPart, markOf, nameOfId, placeOf, thingOf } from './select';
import type { Selection } from './types';

/** What is done to everything that is picked, as one undo step each. */

const chosenNow = (): readonly Selection[] => chosenOf(useApp.getState());

/** Ids of the things that are picked, that of the inspector last. */
export const chosenThings = (chosen: readonly Selection[] = chosenNow()): readonly string[] =>
  chosen.flatMap(({ kind, id }) => (kind === 'thing' ? [id] : []));

/** The things that stay together with one, itself among them. */
export function togetherWith(boat: Boat, thingId: string): readonly string[] {
  const group = thingOf(boat, thingId)?.group;
  if (group === undefined) return [thingId];
  return [...Object.entries(boat.parts), ...Object.entries(boat.fixtures)].flatMap(([id, thing]) =>
    thing.group === group ? [id] : [],
  );
}

/** What a click on something takes: of a thing, all that stays together with it. */
export function takenWith(boat: Boat | null, selection: Selection): readonly Selection[] {
  if (!boat || selection.kind !== 'thing') return [selection];
  const others = togetherWith(boat, selection.id).filter((id) => id !== selection.id);
  return [...others.map((id): Selection => ({ kind: 'thing', id })), selection];
}

/** Picks something with all that stays together with it; `adding`: beside what is picked already. */
export function pickTogether(selection: Selection, adding = false): void {
  const { boat, select, toggleSelected } = useApp.getState();
  const taken = takenWith(boat, selection);
  if (adding) toggleSelected(taken);
  else select(selection, taken);
}

/** Adds things to what is picked, none is taken away. */
export function pickMore(found: readonly Selection[]): void {
  const chosen = chosenNow();
  const fresh = found.filter((one) => !chosen.some((two) => two.kind === one.kind && two.id === one.id));
  if (fresh.length > 0) useApp.getState().toggleSelected(fresh);
}

const MOVES: Readonly<Partial<Record<Selection['kind'], 'openings' | 'mountingSurfaces' | 'standingPlaces'>>> = {
  opening: 'openings',
  surface: 'mountingSurfaces',
  standingPlace: 'standingPlaces',
};

/** Moves all that is picked by a step, metres; steps in a row become one. */
export function moveChosen(by: Vec3): void {
  const { boat, arrangementId, edit, placeThings } = useApp.getState();
  if (!boat) return;
  const chosen = chosenNow();
  const shifted = placesBy(boat, arrangementId, chosenThings(chosen), (place) => ({
    ...place,
    at: point(add(place.at, by)),
  }));
  const rest = chosen.filter(({ kind }) => kind === 'compartment' || MOVES[kind] !== undefined);
  const merge = `nudge ${chosen.map(({ kind, id }) => `${kind} ${id}`).join(' ')}`;
  const words = `Move ${chosen.length} things`;
  if (rest.length === 0) {
    placeThings(shifted, words, merge);
    return;
  }
  edit(
    words,
    (draft) => {
      for (const [id, place] of Object.entries(shifted)) placed(arrangementId ?? '', id, place)(draft);
      for (const { kind, id } of rest) {
        const group = MOVES[kind];
        const own = group ? draft[group][id] : undefined;
        if (own) own.at = point(add(own.at, by));
        else if (kind === 'compartment') compartmentShifted(id, by)(draft);
      }
    },
    merge,
  );
}

/** Turns the things that are picked by a quarter about the middle of them all. */
export function turnChosen(axis: 'x' | 'y' | 'z', deg: number): void {
  const { boat, arrangementId, placeThings } = useApp.getState();
  const ids = chosenThings();
  if (!boat || ids.length === 0) return;
  const blocks = blocksOf(boat, arrangementId, ids);
  const low = ([0, 1, 2] as const).map((k) => Math.min(...blocks.map(({ box }) => box.low[k])));
  const high = ([0, 1, 2] as const).map((k) => Math.max(...blocks.map(({ box }) => box.high[k])));
  const middle = low.map((value, k) => (value + (high[k] ?? value)) / 2) as [number, number, number];
  placeThings(
    placesBy(boat, arrangementId, ids, (place) => {
      const pose = turned(place, axis, deg);
      return { ...place, ...pose, at: point(turnedAboutPoint(place.at, middle, axis, deg)) };
    }),
    `Turn ${ids.length} things`,
  );
}

/** A point after quarter turns about a line through another, along an axis of the boat. */
function turnedAboutPoint(p: Vec3, about: Vec3, axis: 'x' | 'y' | 'z', deg: number): Vec3 {
  const turn = turned({ at: [0, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 }, axis, deg);
  return add(about, rotate(rotationOf(turn), subtract(p, about)));
}

/** Deletes all that is picked; what one of them takes along need not be there any more. False when nothing was. */
export function deleteChosen(): boolean {
  const { boat, edit, select } = useApp.getState();
  const chosen = chosenNow();
  const recipes = chosen.flatMap((one) => deletion(one) ?? []);
  if (!boat || recipes.length === 0) return false;
  const done = edit(`Delete ${recipes.length} things`, (draft) => {
    for (const recipe of recipes) recipe(draft);
  });
  if (done) {
    select(null);
    useApp.getState().notify(`Deleted ${recipes.length} things. Undo: Ctrl Z`);
  }
  return true;
}

function deletion({ kind, id }: Selection): BoatRecipe | null {
  switch (kind) {
    case 'thing':
      return thingDeleted(id);
    case 'line':
      return lineDeleted(id);
    case 'compartment':
      return compartmentDeleted(id);
    case 'opening':
      return openingDeleted(id);
    case 'surface':
      return surfaceDeleted(id);
    case 'standingPlace':
      return standingPlaceDeleted(id);
    default:
      return null;
  }
}

/** Lines up what is picked with the thing that was picked last, which stays. */
export function lineUp(frame: ViewFrame, way: 0 | 1, side: Side): void {
  const ids = chosenThings();
  const still = ids.at(-1);
  arrange(`Line up ${ids.length} things`, (blocks) => linedUp(blocks, still ?? '', frame, way, side));
}

/** Spaces what is picked so that the gaps between neighbours are equal; the two outermost stay. */
export function spaceOut(frame: ViewFrame, way: 0 | 1): void {
  const { notify } = useApp.getState();
  if (chosenThings().length < 3) notify('Pick three things or more');
  else arrange(`Space out ${chosenThings().length} things`, (blocks) => spacedOut(blocks, paperAxes(frame)[way]));
}

function arrange(label: string, shifts: (blocks: readonly Block[]) => Arranged): void {
  const { boat, arrangementId, notify, placeThings } = useApp.getState();
  const ids = chosenThings();
  if (!boat || ids.length < 2) {
    notify('Pick two things or more');
    return;
  }
  const by = shifts(blocksOf(boat, arrangementId, ids));
  placeThings(
    placesBy(boat, arrangementId, ids, (place, id) => ({ ...place, at: point(add(place.at, by[id] ?? [0, 0, 0])) })),
    label,
  );
}

/** Things as blocks: what stays together is one of them, unless all that is picked stays together. */
function blocksOf(boat: Boat, arrangementId: string | null, ids: readonly string[]): readonly Block[] {
  const groups = new Set(ids.map((id) => thingOf(boat, id)?.group));
  const isOne = groups.size === 1;
  const blocks = new Map<string, Block>();
  for (const id of ids) {
    const thing = thingOf(boat, id);
    const place = placeOf(boat, arrangementId, id);
    if (!thing || !place) continue;
    const key = isOne || thing.group === undefined ? `one ${id}` : `group ${thing.group}`;
    const box = boundsInBoat(thing.shape, place);
    const before = blocks.get(key);
    blocks.set(key, before ? { ids: [...before.ids, id], box: union(before.box, box) } : { ids: [id], box });
  }
  return [...blocks.values()];
}

const union = (a: Block['box'], b: Block['box']): Block['box'] => ({
  low: [Math.min(a.low[0], b.low[0]), Math.min(a.low[1], b.low[1]), Math.min(a.low[2], b.low[2])],
  high: [Math.max(a.high[0], b.high[0]), Math.max(a.high[1], b.high[1]), Math.max(a.high[2], b.high[2])],
});

/** What is picked stays together from now on. */
export function groupChosen(): void {
  const { boat, edit, notify } = useApp.getState();
  const ids = chosenThings();
  if (!boat || ids.length < 2) {
    notify('Pick two things or more');
    return;
  }
  const taken = Object.fromEntries(
    [...Object.values(boat.parts), ...Object.values(boat.fixtures)].flatMap(({ group }) =>
      group === undefined ? [] : [[group, true]],
    ),
  );
  const word = freeId(taken, 'together');
  if (edit(`Keep ${ids.length} things together`, regrouped(ids, word)))
    notify(`${ids.map((id) => markOf(id, thingOf(boat, id))).join(', ')} stay together. Undo: Ctrl Z`);
}

/** What is picked need not stay together any more. */
export function ungroupChosen(): void {
  const { boat, edit, notify } = useApp.getState();
  const ids = boat ? chosenThings().filter((id) => thingOf(boat, id)?.group !== undefined) : [];
  if (ids.length === 0) notify('Nothing that is picked is kept together');
  else edit(`Let ${ids.length} things go apart`, regrouped(ids, null));
}

const regrouped =
  (ids: readonly string[], word: string | null): BoatRecipe =>
  (draft) => {
    for (const id of ids) {
      const thing = draft.parts[id] ?? draft.fixtures[id];
      if (!thing) continue;
      if (word === null) delete thing.group;
      else thing.group = word;
    }
  };

const point = (at: Vec3): [number, number, number] => [at[0], at[1], at[2]];

/** New places of those things that have one. */
const placesBy = (
  boat: Boat,
  arrangementId: string | null,
  ids: readonly string[],
  to: (place: Place, id: string) => Place,
): Record<string, Place> =>
  Object.fromEntries(
    ids.flatMap((id) => {
      const place = placeOf(boat, arrangementId, id);
      return place ? [[id, to(place, id)] as const] : [];
    }),
  );

/** `3 things picked`, `PM-1 and 2 more`. */
export function chosenWords(boat: Boat, chosen: readonly Selection[]): string {
  const last = chosen.at(-1);
  if (!last) return 'nothing';
  const name = nameOfId(boat, last.id);
  return chosen.length === 1 ? name : `${name} and ${chosen.length - 1} more`;
}

export const countWords = (boat: Boat, chosen: readonly Selection[]): string => {
  const things = chosenThings(chosen);
  const parts = things.filter((id) => isPart(boat, id)).length;
  const words = [
    [parts, 'part', 'parts'],
    [things.length - parts, 'thing aboard', 'things aboard'],
    [chosen.filter(({ kind }) => kind === 'line').length, 'line', 'lines'],
    [chosen.filter(({ kind }) => kind === 'compartment').length, 'compartment', 'compartments'],
  ] as const;
  return words
    .flatMap(([count, one, many]) => (count === 0 ? [] : [`${count} ${count === 1 ? one : many}`]))
    .join(', ');
};
