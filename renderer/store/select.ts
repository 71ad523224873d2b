import { currentArrangementId, poseOf } from '@core/boat/edits';
import type { Arrangement, Boat, Part, Place, Thing } from '@core/boat/schema/boat';
import type { Selection } from './types';

/** Kept here too so that what draws and lists asks one place. */
export { currentArrangementId as arrangementIdOf, poseOf };

export const arrangementOf = (boat: Boat, arrangementId: string | null): Arrangement | null =>
  arrangementId === null ? null : (boat.arrangements[arrangementId] ?? null);

/** Whether the run of a line is kept as built. */
export const isPinned = (boat: Boat, arrangementId: string | null, line: string): boolean =>
  arrangementOf(boat, arrangementId)?.pins?.[line] !== undefined;

export const thingOf = (boat: Boat, id: string): Thing | null => boat.parts[id] ?? boat.fixtures[id] ?? null;

export const isPart = (boat: Boat, id: string): boolean => Object.hasOwn(boat.parts, id);

/** As poseOf, with what else the file keeps beside the pose. */
export function placeOf(boat: Boat, arrangementId: string | null, thingId: string): Place | null {
  if (isPart(boat, thingId)) return arrangementOf(boat, arrangementId)?.places[thingId] ?? null;
  return boat.fixtures[thingId]?.pose ?? null;
}

export interface NamedThing {
  readonly id: string;
  readonly thing: Thing;
  readonly part: boolean;
}

/** Parts first, then fixtures, each by tag, else by id. */
export function thingsOf(boat: Boat): readonly NamedThing[] {
  const rows = (things: Readonly<Record<string, Thing>>, part: boolean): NamedThing[] =>
    Object.entries(things)
      .map(([id, thing]) => ({ id, thing, part }))
      .sort((a, b) => markOf(a.id, a.thing).localeCompare(markOf(b.id, b.thing), 'en', { numeric: true }));
  return [...rows(boat.parts as Record<string, Part>, true), ...rows(boat.fixtures, false)];
}

/** Short mark on drawing and in tables. */
export const markOf = (id: string, thing: { readonly tag?: string | undefined } | null): string => thing?.tag ?? id;

export const compartmentName = (boat: Boat, id: string | null): string => {
  if (id === null) return 'undrawn space';
  if (id === 'skin') return 'skin';
  if (id === 'undrawn') return 'undrawn space';
  if (id === 'outside') return 'outside';
  return boat.compartments[id]?.name ?? id;
};

export const sameSelection = (a: Selection | null, b: Selection | null): boolean =>
  a === b || (a !== null && b !== null && a.kind === b.kind && a.id === b.id && lineOf(a) === lineOf(b));

const lineOf = (selection: Selection): string | null => ('line' in selection ? selection.line : null);

/** The line that one works on: picked itself, or by one of its clip points or crossings. */
export const lineInHand = (selection: Selection | null): string | null =>
  selection === null ? null : selection.kind === 'line' ? selection.id : lineOf(selection);

export const isSelected = (selection: Selection | null, kind: Selection['kind'], id: string): boolean =>
  selection !== null && selection.kind === kind && selection.id === id;

/** Everything that is picked, what the inspector shows last. */
export const chosenOf = ({
  selection,
  alsoSelected,
}: {
  readonly selection: Selection | null;
  readonly alsoSelected: readonly Selection[];
}): readonly Selection[] => (selection === null ? [] : [...alsoSelected, selection]);

/** Name of anything that a finding, a run or a list may mention. */
export { nameOf as nameOfId } from '@core/output/text/names';
