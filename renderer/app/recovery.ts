import { applied, type Patch } from '@core/boat/edits';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { create } from 'zustand';
import type { LeftJournal } from '../bridge/storage';

/** Work that a session which did not end well has left, as it can be brought back. */
export interface Offer {
  readonly left: LeftJournal;
  /** What the edits lead from. */
  readonly base: Boat;
  /** With the edits. */
  readonly boat: Boat;
  /** They lead from `base` to `boat`. */
  readonly entries: readonly string[];
  /** Whether `base` is what the file holds. */
  readonly isSaved: boolean;
  /** Edits that make no boat, and those after them. */
  readonly lost: number;
  /** The file was changed since by another hand. */
  readonly fileIsOther: boolean;
}

/**
 * What a journal has to offer: null when the file holds all of it already, a sentence when it can't be used. A journal is as untrusted
 * as a file: the boat at its end must be one that a file could hold.
 */
export function offerOf(left: LeftJournal): Offer | string | null {
  const base = readBoat(left.baseText);
  if (!base.ok) {
    const why = base.problems[0]?.message ?? 'it is no boat';
    return `Edits of ${left.name} that were not saved can't be brought back now: ${why}. They stay where they are.`;
  }
  const states = statesAfter(base.boat, left.entries);
  const boat = states.at(-1) ?? base.boat;
  const lost = left.entries.length - (states.length - 1);
  const atFile = left.fileText === null ? -1 : stateOfFile(states, left.fileText);
  // A save had come to its end: what the file holds needs no bringing back.
  const from = Math.max(0, atFile);
  const isSaved = left.isSaved || atFile >= 0;
  const entries = left.entries.slice(from, states.length - 1);
  const start = states[from] ?? base.boat;
  // Edits that were taken back leave nothing to bring back either.
  const isSame = entries.length === 0 || writeBoat(start) === writeBoat(boat);
  if (isSame && isSaved && lost === 0) return null;
  return {
    left,
    base: start,
    boat,
    entries,
    isSaved,
    lost,
    fileIsOther: left.fileText !== null && atFile < 0,
  };
}

/** The base and the boat after each edit, up to the first that makes no boat. */
function statesAfter(base: Boat, entries: readonly string[]): readonly Boat[] {
  const states: Boat[] = [base];
  for (const entry of entries) {
    const next = after(states.at(-1) ?? base, entry);
    if (!next) break;
    states.push(next);
  }
  // Each edit was checked when it was made: the last state stands for all, unless it does not hold.
  if (checkBoat(states.at(-1)).ok) return states;
  const firstBad = states.findIndex((state) => !checkBoat(state).ok);
  return states.slice(0, Math.max(1, firstBad));
}

function after(boat: Boat, entry: string): Boat | null {
  try {
    return applied(boat, JSON.parse(entry) as Patch[]);
  } catch {
    return null;
  }
}

/** Index of the last state that the file holds, or -1. */
function stateOfFile(states: readonly Boat[], fileText: string): number {
  const file = readBoat(fileText);
  if (!file.ok) return -1;
  const text = writeBoat(file.boat);
  return states.findLastIndex((state) => writeBoat(state) === text);
}

const TIME = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
export const timeWords = (ms: number): string => TIME.format(ms);

/** When, and how much: `25 Nov 2026, 22:14: 3 edits not saved`. */
export function offerWords({ left, entries }: Offer): string {
  const when = left.editedAtMs === null ? '' : `${timeWords(left.editedAtMs)}: `;
  if (entries.length === 0) return `${when}never saved`;
  return `${when}${entries.length} ${entries.length === 1 ? 'edit' : 'edits'} not saved`;
}

/** What has to be known before it is brought back. */
export function offerNotes({ left, lost, fileIsOther }: Offer): readonly string[] {
  const notes: string[] = [];
  if (left.torn) notes.push('The last edit was cut short and is lost.');
  if (lost > 0) notes.push(`${lost} ${lost === 1 ? 'edit is' : 'edits are'} damaged and can't be brought back.`);
  if (fileIsOther) notes.push('The file was changed since. Saving will ask before it replaces that.');
  return notes;
}

interface Offers {
  readonly offers: readonly Offer[];
  set(offers: readonly Offer[]): void;
  without(documentId: string): void;
}

/** What may still be brought back. */
export const useOffers = create<Offers>()((set, get) => ({
  offers: [],
  set: (offers) => set({ offers }),
  without: (documentId) => set({ offers: get().offers.filter(({ left }) => left.documentId !== documentId) }),
}));
