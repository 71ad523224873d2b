import type { BoatRecipe } from '@core/boat/edits';
import { isBare, type Typed } from '@core/boat/record/typed';
import type { Boat } from '@core/boat/schema/boat';
import { isPart } from './select';

type DraftBoat = Parameters<BoatRecipe>[0];

/** Keeps what was typed beside the value at `path`; an empty or bare entry takes an earlier one away. */
export function keepTyped(draft: DraftBoat, path: string, typed: string): void {
  if (isBare(typed)) {
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

let inHand: Typed | null = null;

/** Runs what a field does with its entry; edits that are made meanwhile keep what was typed beside the value that it gave. */
export function whileTyped(typed: Typed, commit: () => void): void {
  inHand = typed;
  try {
    commit();
  } finally {
    inHand = null;
  }
}

export const typedInHand = (): Typed | null => inHand;
