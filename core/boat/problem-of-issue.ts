import type { z } from 'zod';
import { quantityOfKey } from './key-quantity';
import { type PathPart, type Problem, problem } from './problem';
import { isPlain } from './schema-walk';

/** Rows of coordinates, whose key has no unit in it. */
const PLACES: ReadonlySet<string> = new Set(['at', 'near']);
/** Units that the trade writes in words. */
const IN_WORDS: Readonly<Record<string, string>> = { '\u00b0': ' degrees', 'of one': '' };

/** Unit of a value by the name of the key that holds it. */
function unitOf(path: readonly PathPart[]): string {
  const key = String(path.findLast((part) => typeof part === 'string') ?? '');
  const kept = PLACES.has(key) ? 'm' : quantityOfKey(key)?.kept;
  return kept === undefined ? '' : (IN_WORDS[kept] ?? ` ${kept}`);
}

const TYPES: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text in quotes',
  boolean: 'true or false',
  array: 'a list in square brackets',
  tuple: 'a list in square brackets',
  object: 'an object in braces',
  record: 'an object in braces',
};

function valueAt(data: unknown, path: readonly PathPart[]): unknown {
  let value = data;
  for (const part of path) {
    if (Array.isArray(value) && typeof part === 'number') value = value[part];
    else if (isPlain(value) && Object.hasOwn(value, part)) value = value[part];
    else return undefined;
  }
  return value;
}

const list = (values: readonly unknown[]): string => values.map((value) => JSON.stringify(value)).join(', ');

/** What a person must know of one refusal by the schema: where, what stands there, what would be right. */
export function problemOfIssue(issue: z.core.$ZodIssue, data: unknown): Problem {
  const path = issue.path.map((part) => (typeof part === 'symbol' ? String(part) : part));
  const value = valueAt(data, path);
  return problem(path, issue.code === 'invalid_key' ? String(path.at(-1)) : value, limitOf(issue, path));
}

function limitOf(issue: z.core.$ZodIssue, path: readonly PathPart[]): string {
  switch (issue.code) {
    case 'too_small':
    case 'too_big': {
      const least = issue.code === 'too_small';
      const bound = least ? issue.minimum : issue.maximum;
      if (issue.origin === 'string') {
        return least ? 'it must not be empty' : `it may have at most ${bound} characters`;
      }
      if (issue.origin === 'array') return `it must have at ${least ? 'least' : 'most'} ${bound} members`;
      const unit = unitOf(path);
      if (issue.inclusive === false) return `it must be ${least ? 'above' : 'below'} ${bound}${unit}`;
      return `it must be at ${least ? 'least' : 'most'} ${bound}${unit}`;
    }
    case 'invalid_type':
      return `${TYPES[issue.expected] ?? `a value of type ${issue.expected}`} is needed`;
    case 'invalid_value':
      return issue.values.length === 1 ? `it must be ${list(issue.values)}` : `it must be one of ${list(issue.values)}`;
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options)
        ? `it must be one of ${list(issue.options)}`
        : 'none of the forms that are allowed here';
    case 'invalid_key': {
      const inner = issue.issues[0];
      if (inner?.code === 'custom') return `an id ${inner.message}`;
      return 'an id begins with a letter or digit, holds letters, digits, ".", "_" and "-" only, and has at most 64 of them';
    }
    case 'invalid_format':
      return path.at(-1) === 'on'
        ? 'a date like 2026-05-31 is needed'
        : 'an id begins with a letter or digit, holds letters, digits, ".", "_" and "-" only, and has at most 64 of them';
    case 'custom':
      return `it ${issue.message}`;
    default:
      return issue.message;
  }
}
