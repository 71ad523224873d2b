/** Something about a file that makes it unusable: where, what stands there, what would be right. Paths read `compartments.quarter-berth.rangeM[1]`. */
export interface Problem {
  readonly path: string;
  /** What stands there, shortened. */
  readonly value: string;
  /** What would be right, in words. */
  readonly limit: string;
  /** One sentence that names all three. */
  readonly message: string;
}

export type PathPart = string | number;

/** `compartments.quarter-berth.rangeM[1]`; a key that is no plain word stands in quotes, shortened: it may be anybody's. */
export const pathText = (path: readonly PathPart[]): string =>
  path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    const key = PLAIN_KEY.test(part) ? part : valueText(part);
    return text === '' ? key : `${text}.${key}`;
  }, '');

const PLAIN_KEY = /^[\p{L}\p{N} ._|:/+#()-]{1,300}$/u;

const LONGEST_VALUE = 80;
const escaped = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
/** A text from outside, safe to be shown anywhere: signs that nobody would see are written out. */
export const withoutUnseen = (text: string): string => text.replace(UNSEEN, escaped);
/** Signs that steer a terminal or turn the writing round, and halves of signs: shown as what they are. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu;

/** A value as a person would write it, shortened. */
function valueText(value: unknown): string {
  if (value === undefined) return 'missing';
  if (Number.isNaN(value)) return 'not a number';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'too large a number';
  const text = JSON.stringify(value) ?? String(value);
  const spaced = Array.isArray(value) && text.length <= LONGEST_VALUE ? text.replaceAll(',', ', ') : text;
  const short = spaced.length > LONGEST_VALUE ? `${spaced.slice(0, LONGEST_VALUE - 3)}...` : spaced;
  return withoutUnseen(short);
}

/** `limit` completes the sentence "PATH is VALUE, LIMIT". */
export const problem = (path: readonly PathPart[], value: unknown, limit: string): Problem =>
  problemOf(path, valueText(value), limit);

/** The same for what is no value of the file but something counted or measured in it: `shown` is put in as it is. */
export function problemOf(path: readonly PathPart[], shown: string, limit: string): Problem {
  const where = pathText(path);
  const subject = where === '' ? 'The file' : where;
  return { path: where, value: shown, limit, message: `${subject} is ${shown}, ${limit}` };
}
