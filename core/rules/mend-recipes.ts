import type { BoatRecipe, Draft } from '../boat/edits';
import type { Boat, Thing } from '../boat/schema/boat';
import type { Mend } from './mend';

/** Changes a thing in place, whichever of fixtures and parts it is among. */
export const thingChanged =
  (id: string, change: (thing: Draft<Thing>) => void): BoatRecipe =>
  (boat) => {
    const thing = recordOf(boat, id);
    if (thing) change(thing);
  };

const recordOf = (boat: Draft<Boat>, id: string): Draft<Thing> | undefined =>
  Object.hasOwn(boat.fixtures, id) ? boat.fixtures[id] : Object.hasOwn(boat.parts, id) ? boat.parts[id] : undefined;

/** Lays a line of another kind. */
export const kindChanged =
  (lineId: string, kind: string): BoatRecipe =>
  (boat) => {
    const line = Object.hasOwn(boat.lines, lineId) ? boat.lines[lineId] : undefined;
    if (line) line.kind = kind;
  };

interface EndAt {
  readonly lineId: string;
  readonly end: 'from' | 'to';
}

/** Ends of lines at a thing, sorted by line. */
const endsAt = (boat: Pick<Boat, 'lines'>, id: string): readonly EndAt[] =>
  Object.keys(boat.lines)
    .sort()
    .flatMap((lineId): readonly EndAt[] => {
      const line = boat.lines[lineId];
      if (line?.from.thing === id) return [{ lineId, end: 'from' }];
      return line?.to.thing === id ? [{ lineId, end: 'to' }] : [];
    });

/** The line that goes on when a part that stands in mid-line is taken out; null where two lines of one kind do not meet at it. */
function lineThrough(boat: Pick<Boat, 'lines' | 'parts'>, id: string): string | null {
  const ends = endsAt(boat, id);
  const [first, second] = ends;
  if (ends.length !== 2 || !first || !second || first.lineId === second.lineId) return null;
  const isOneKind = boat.lines[first.lineId]?.kind === boat.lines[second.lineId]?.kind;
  return isOneKind && Object.hasOwn(boat.parts, id) ? first.lineId : null;
}

/** Takes a part out of its line: the first of the two lines that meet at it goes on to where the second ended. */
const takenOut =
  (id: string): BoatRecipe =>
  (boat) => {
    const [first, second] = endsAt(boat as Boat, id);
    const kept = first && boat.lines[first.lineId];
    const dropped = second && boat.lines[second.lineId];
    if (!first || !second || !kept || !dropped) return;
    kept[first.end] = { ...dropped[second.end === 'from' ? 'to' : 'from'] };
    delete boat.lines[second.lineId];
    delete boat.parts[id];
    for (const arrangement of Object.values(boat.arrangements)) {
      delete arrangement.places[id];
      for (const lineId of [first.lineId, second.lineId]) {
        delete arrangement.clipPoints[lineId];
        if (arrangement.pins) delete arrangement.pins[lineId];
      }
      delete arrangement.forbidden?.[second.lineId];
      if (arrangement.asBuilt) arrangement.asBuilt = arrangement.asBuilt.filter((part) => part !== id);
      for (const hole of Object.values(arrangement.newHoles))
        hole.for = hole.for.filter((line) => line !== second.lineId);
    }
    for (const state of Object.values(boat.operatingStates)) delete state.valves[id];
  };

/** That as a proposal, where it can be done. `item`: in words of core/output/text/remedy-text.ts. */
export function takeOut(id: string, item: string, boat: Pick<Boat, 'lines' | 'parts'>): readonly Mend[] {
  const line = lineThrough(boat, id);
  if (line === null) return [];
  return [{ id: `out ${id}`, change: 'remove', what: { item, from: line }, recipe: takenOut(id) }];
}

/** Changes two lines round at a thing: each goes to the port that the other had. */
export const changedRound =
  (id: string, a: string, b: string): BoatRecipe =>
  (boat) => {
    const ends = endsAt(boat as Boat, id);
    const [one, other] = [a, b].map((lineId) => ends.find((end) => end.lineId === lineId));
    const [lineA, lineB] = [boat.lines[a], boat.lines[b]];
    if (!one || !other || !lineA || !lineB) return;
    const port = lineA[one.end].port;
    lineA[one.end].port = lineB[other.end].port;
    lineB[other.end].port = port;
  };
