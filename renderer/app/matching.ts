/** How well words answer what was typed: every typed word must be met, at the start of a word, inside one, or nearly. */

export interface Findable {
  readonly words: string;
  /** Other words for the same: they count, a little less. */
  readonly also?: string | undefined;
}

const WORD = /[\p{L}\p{N}.\-/]+/gu;
const wordsOf = (text: string): readonly string[] => text.toLowerCase().match(WORD) ?? [];

/** Null where a typed word is not met. Higher is better. */
export function matchOf(typed: string, { words, also = '' }: Findable): number | null {
  const wanted = wordsOf(typed);
  if (wanted.length === 0) return null;
  const own = wordsOf(words);
  const other = wordsOf(also);
  let sum = words.toLowerCase().startsWith(typed.trim().toLowerCase()) ? START : 0;
  for (const word of wanted) {
    const best = Math.max(
      ...own.map((have) => nearness(word, have)),
      ...other.map((have) => nearness(word, have) * OTHER),
    );
    if (best <= 0) return null;
    sum += best;
  }
  // Of two that hold the same words the shorter one is meant.
  return sum - own.length * LENGTH;
}

const START = 3;
const OTHER = 0.7;
const LENGTH = 0.02;
/** Shorter words are not taken for slips of the key. */
const LEAST_FOR_SLIPS = 4;

function nearness(wanted: string, have: string): number {
  if (have === wanted) return 4;
  if (have.startsWith(wanted)) return 3;
  if (wanted.length > 1 && have.includes(wanted)) return 2;
  if (wanted.length >= LEAST_FOR_SLIPS && isOneSlip(wanted, have.slice(0, wanted.length + 1))) return 1.2;
  if (wanted.length > 2 && have.startsWith(wanted.charAt(0)) && isAbbreviation(wanted, have)) return 0.8;
  return 0;
}

/** All letters come in order: `cmpt` for compartment. */
function isAbbreviation(short: string, long: string): boolean {
  let at = 0;
  for (const letter of long) if (letter === short[at]) at++;
  return at === short.length;
}

/** One letter wrong, left out, too many, or two swapped; further letters of the word may follow. */
function isOneSlip(wanted: string, have: string): boolean {
  let at = 0;
  while (at < wanted.length && wanted[at] === have[at]) at++;
  const isRest = (from: number, haveFrom: number): boolean => have.slice(haveFrom).startsWith(wanted.slice(from));
  const isSwapped =
    wanted[at] === have[at + 1] && wanted[at + 1] === have[at] && wanted[at] !== undefined && isRest(at + 2, at + 2);
  return isRest(at + 1, at + 1) || isRest(at + 1, at) || isRest(at, at + 1) || isSwapped;
}
