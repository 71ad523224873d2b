import type { BoatRecipe, Patch } from '../edits';
import { pathText } from '../problem';
import type { Boat } from '../schema/boat';
import { isPlain, sameValue } from '../schema-walk';
import { valueAt } from './fields';

/** What was typed in the field whose entry makes an edit, and the value that it gave. */
export interface Typed {
  readonly value: number;
  readonly text: string;
}

/** A bare number says nothing that the value does not say; with a unit or fraction it tells how the tape was read. */
const BARE = /^[-\u2212+]?[\d\u2009]*[.,]?\d*$/;
export const isBare = (text: string): boolean => BARE.test(text.trim());

/**
 * What an edit means for the words typed beside values: the value that was typed keeps its words, any other that changed has lost
 * them, and what is gone takes them along. Null where nothing of that happens.
 */
export function typedAfter(
  before: Boat,
  after: Boat,
  patches: readonly Patch[],
  typed: Typed | null,
): BoatRecipe | null {
  const known = before.typed ?? {};
  const gone = new Set<string>();
  const meant: string[] = [];
  for (const { path } of patches) {
    if (path[0] === 'typed' || path[0] === 'gradeOf') continue;
    const head = pathText(path);
    for (const key of Object.keys(known)) {
      if (!isUnder(key, head)) continue;
      if (!sameValue(valueByText(before, key), valueByText(after, key))) gone.add(key);
    }
    if (typed) meant.push(...changedNumbers(valueAt(before, path), valueAt(after, path), head, typed.value));
  }
  // The file keeps a millionth; two values that became the same one can't be told apart.
  const own = typed && !isBare(typed.text) && meant.length === 1 ? meant[0] : undefined;
  const stale = [...gone].filter((key) => after.typed?.[key] === known[key] && key !== own);
  const isKept = own !== undefined && typed !== null && after.typed?.[own] !== typed.text.trim();
  if (stale.length === 0 && !isKept) return null;
  return (boat) => {
    for (const key of stale) delete boat.typed?.[key];
    if (!isKept || own === undefined || typed === null) return;
    boat.typed ??= {};
    boat.typed[own] = typed.text.trim();
  };
}

/** Whether a path, as problems write it, is another or lies below it. */
export const isUnder = (key: string, head: string): boolean =>
  key === head || key.startsWith(`${head}.`) || key.startsWith(`${head}[`);

/** The value at a path as problems write it: `at[0]`. Ids may hold points, so the longest id that there is counts. */
function valueByText(boat: Boat, path: string): unknown {
  let here: unknown = boat;
  let rest = path;
  while (rest !== '') {
    const index = /^\[(\d+)\]\.?/.exec(rest);
    if (index) {
      here = Array.isArray(here) ? here[Number(index[1])] : undefined;
      rest = rest.slice(index[0].length);
      continue;
    }
    if (!isPlain(here)) return undefined;
    const own = Object.keys(here)
      .filter((key) => rest === key || rest.startsWith(`${key}.`) || rest.startsWith(`${key}[`))
      .sort((a, b) => b.length - a.length)[0];
    if (own === undefined) return undefined;
    here = here[own];
    rest = rest.slice(own.length).replace(/^\./, '');
  }
  return here;
}

/** Paths below which a number became `value`. */
function changedNumbers(before: unknown, after: unknown, path: string, value: number): string[] {
  if (typeof after === 'number')
    return before !== after && Math.abs(after - value) < 1e-6 * Math.max(1, Math.abs(value)) ? [path] : [];
  if (Array.isArray(after)) {
    const old = Array.isArray(before) ? before : [];
    return after.flatMap((item, index) => changedNumbers(old[index], item, `${path}[${index}]`, value));
  }
  if (!isPlain(after)) return [];
  const old = isPlain(before) ? before : {};
  return Object.entries(after).flatMap(([key, item]) => changedNumbers(old[key], item, `${path}.${key}`, value));
}
