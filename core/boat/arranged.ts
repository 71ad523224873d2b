import type { Boat, Line } from './schema/boat';

/** What of a boat takes part in an arrangement. */
export interface Arranged {
  hasPart(id: string): boolean;
  hasLine(id: string): boolean;
}

/**
 * A part that this arrangement does not place and another one does belongs to that other one: two sets may be weighed against each other in one
 * boat, each with its own lines. What no arrangement places is still to be placed in this one; so is everything while this one places nothing.
 */
export function arrangedIn(boat: Boat, arrangementId: string | null): Arranged {
  const elsewhere = placedElsewhere(boat, arrangementId);
  const isHere = (line: Line | undefined): boolean =>
    line === undefined || (!elsewhere.has(line.from.thing) && !elsewhere.has(line.to.thing));
  return {
    hasPart: (id) => !elsewhere.has(id),
    hasLine: (id) => isHere(Object.hasOwn(boat.lines, id) ? boat.lines[id] : undefined),
  };
}

function placedElsewhere(boat: Boat, arrangementId: string | null): ReadonlySet<string> {
  const own =
    arrangementId !== null && Object.hasOwn(boat.arrangements, arrangementId) && boat.arrangements[arrangementId];
  if (!own || Object.keys(own.places).length === 0) return new Set();
  return new Set(
    Object.values(boat.arrangements)
      .flatMap(({ places }) => Object.keys(places))
      .filter((id) => !Object.hasOwn(own.places, id)),
  );
}
