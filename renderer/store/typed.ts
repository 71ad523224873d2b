import type { BoatRecipe } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { isPart } from './select';

type DraftBoat = Parameters<BoatRecipe>[0];

/** A bare number says nothing that the value does not say; with a unit or fraction it tells how the tape was read. */
const BARE = /^[-\u2212+]?[\d\u2009]*[.,]?\d*$/;

/** Keeps what was typed beside the value at `path`; an empty or bare entry takes an earlier one away. */
export function keepTyped(draft: DraftBoat, path: string, typed: string): void {
  if (BARE.test(typed.trim())) {
    if (draft.typed) delete draft.typed[path];
    return;
  }
  draft.typed ??= {};
  draft.typed[path] = typed.trim();
}

/** Path of one coordinate of a thing's place, as problems of a boat file name it. */
export const placePath = (
  boat: Boat | DraftBoat,
  arrangementId: string | null,
  thingId: string,
  axis: 0 | 1 | 2,
): string =>
  isPart(boat as Boat, thingId)
    ? `arrangements.${arrangementId ?? ''}.places.${thingId}.at[${axis}]`
    : `fixtures.${thingId}.pose.at[${axis}]`;
