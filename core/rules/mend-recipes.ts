import type { BoatRecipe, Draft } from '../boat/edits';
import type { Boat, Thing } from '../boat/schema/boat';

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
