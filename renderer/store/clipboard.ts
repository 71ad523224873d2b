import type { Vec3 } from '@core/base/vec';
import { pieceAdded, pieceOf, readPiece } from '@core/boat/pieces';
import type { Boat } from '@core/boat/schema/boat';
import { useApp } from './app';
import { chosenThings } from './chosen';
import { markOf, poseOf, thingOf } from './select';
import type { Selection } from './types';

/** Copy, cut, paste and duplicate of parts and fixtures, with the lines between them. */

/** What was copied last in this window: for a paste that is asked for by its name. */
let copied: string | null = null;
export const copiedText = (): string | null => copied;

/** The text of what is picked; null, with the reason said, where there is nothing to copy. */
export function copyChosen(): string | null {
  const { boat, arrangementId, notify, showProblem } = useApp.getState();
  const ids = chosenThings();
  if (!boat || ids.length === 0) {
    notify('Select parts or fixtures to copy');
    return null;
  }
  const taken = pieceOf(boat, arrangementId, ids);
  if (!taken.ok) {
    showProblem({ title: 'Not copied', lines: taken.problems.map(({ message }) => message) });
    return null;
  }
  copied = taken.text;
  notify(`Copied ${wordsOf(boat, ids)}`);
  return taken.text;
}

/** Copies what is picked and takes it out of the boat, as one undo step. */
export function cutChosen(remove: () => boolean): string | null {
  const text = copyChosen();
  if (text !== null) remove();
  return text;
}

/** Steps aside of what it was copied from, metres: to be seen, and not yet out of the locker. */
const ASIDE_M = 0.1;

/** Puts a copied piece into the open boat beside where it came from and picks it. What cannot be read is refused with its reasons. */
export function pasteText(text: string): boolean {
  const { showProblem } = useApp.getState();
  const read = readPiece(text);
  if (!read.ok) {
    showProblem({ title: 'Not pasted', lines: read.problems.map(({ message }) => message) });
    return false;
  }
  return putIn(read.piece, (count) => `Paste ${count === 1 ? 'a thing' : `${count} things`}`);
}

/** A second one of what is picked, beside it, with the lines between the copies. */
export function duplicateChosen(): boolean {
  const { boat, arrangementId, notify } = useApp.getState();
  const ids = chosenThings();
  const taken = boat && ids.length > 0 ? pieceOf(boat, arrangementId, ids) : null;
  const read = taken?.ok ? readPiece(taken.text) : null;
  if (!read?.ok) {
    notify('Select parts or fixtures to duplicate');
    return false;
  }
  return putIn(read.piece, () => (boat ? `Duplicate ${wordsOf(boat, ids)}` : 'Duplicate'));
}

function putIn(piece: Boat, label: (count: number) => string): boolean {
  const { boat, arrangementId, edit, select, notify } = useApp.getState();
  if (!boat || arrangementId === null) return false;
  const added = pieceAdded(boat, arrangementId, piece, shiftFor(boat, arrangementId, piece));
  const ids = Object.values(added.things);
  if (!edit(label(ids.length), added.recipe)) return false;
  const things = ids.map((id): Selection => ({ kind: 'thing', id }));
  select(things.at(-1) ?? null, things);
  notify(`${label(ids.length)}: done. Undo: Ctrl Z`);
  return true;
}

/** A step aside in the view, as many as it takes until nothing stands at the very place. */
function shiftFor(boat: Boat, arrangementId: string, piece: Boat): Vec3 {
  const places = currentPlaceOf(boat, arrangementId);
  const wanted = [...currentPlaceOf(piece, Object.keys(piece.arrangements).sort()[0] ?? '').values()];
  const isTaken = (by: number): boolean =>
    wanted.some((at) =>
      [...places.values()].some((p) => Math.hypot(p[0] - at[0] - by, p[1] - at[1], p[2] - at[2]) < 1e-3),
    );
  let by = 0;
  while (isTaken(by) && by < MOST_ASIDE_M) by += ASIDE_M;
  return [by, 0, 0];
}
const MOST_ASIDE_M = 3;

const currentPlaceOf = (boat: Boat, arrangementId: string): ReadonlyMap<string, Vec3> =>
  new Map(
    [...Object.keys(boat.parts), ...Object.keys(boat.fixtures)].flatMap((id) => {
      const pose = poseOf(boat, arrangementId, id);
      return pose ? [[id, pose.at] as const] : [];
    }),
  );

/** `PM-1`, `PM-1 and 2 more`. */
function wordsOf(boat: Boat, ids: readonly string[]): string {
  const first = ids.at(-1) ?? '';
  const mark = markOf(first, thingOf(boat, first));
  return ids.length === 1 ? mark : `${mark} and ${ids.length - 1} more`;
}
