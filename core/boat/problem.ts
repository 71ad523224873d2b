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

/** `compartments.quarter-berth.rangeM[1]` */
export const pathText = (path: readonly PathPart[]): string =>
  path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`),
    '',
  );

const LONGEST_VALUE = 80;

/** A value as a person would write it, shortened. */
export function valueText(value: unknown): string {
  if (value === undefined) return 'missing';
  if (Number.isNaN(value)) return 'not a number';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'too large a number';
  const text = JSON.stringify(value) ?? String(value);
  const spaced = Array.isArray(value) && text.length <= LONGEST_VALUE ? text.replaceAll(',', ', ') : text;
  return spaced.length > LONGEST_VALUE ? `${spaced.slice(0, LONGEST_VALUE - 3)}...` : spaced;
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
