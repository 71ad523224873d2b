import type { PathPart } from './problem';

/** What can be told of a JSON text before it is parsed, and so before it costs memory. */
export interface JsonShape {
  /** Greatest nesting of braces and brackets. */
  readonly depth: number;
  /** Values of any kind, at most; counting ends above the limit. */
  readonly values: number;
  /** A key that stands twice in one object: a parser would keep the last and lose the others without a word. */
  readonly twice: readonly PathPart[] | null;
}

interface Level {
  /** Keys so far; null: a list. */
  readonly keys: Set<string> | null;
  /** The key or the index of the value that is being read. */
  at: PathPart;
  /** The next string is a key. */
  isKeyNext: boolean;
}

/**
 * Reads once through the text, without recursion; ends early beyond either limit. Of a text that is no JSON it tells something or
 * other: the parser refuses that.
 */
export function jsonShape(text: string, most: { readonly depth: number; readonly values: number }): JsonShape {
  const levels: Level[] = [];
  let depth = 0;
  let values = 1;
  let twice: readonly PathPart[] | null = null;
  for (let at = 0; at < text.length; at++) {
    const level = levels.at(-1);
    switch (text.charCodeAt(at)) {
      case QUOTE: {
        const end = endOfString(text, at);
        if (level?.keys && level.isKeyNext) {
          const key = wordOf(text.slice(at, end + 1));
          level.at = key;
          level.isKeyNext = false;
          if (level.keys.has(key)) twice ??= levels.map((one) => one.at);
          level.keys.add(key);
        }
        at = end;
        break;
      }
      case COMMA:
        values += 1;
        if (level?.keys) level.isKeyNext = true;
        else if (level) level.at = Number(level.at) + 1;
        break;
      case BRACE:
      case BRACKET: {
        const isObject = text.charCodeAt(at) === BRACE;
        levels.push({ keys: isObject ? new Set() : null, at: isObject ? '' : 0, isKeyNext: isObject });
        depth = Math.max(depth, levels.length);
        values += 1;
        break;
      }
      case BRACE_END:
      case BRACKET_END:
        levels.pop();
        break;
    }
    if (depth > most.depth || values > most.values) break;
  }
  return { depth, values, twice };
}

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
const BRACE = 0x7b;
const BRACE_END = 0x7d;
const BRACKET = 0x5b;
const BRACKET_END = 0x5d;

/** Index of the quote that ends the string which begins at `start`; the last index where none does. */
function endOfString(text: string, start: number): number {
  for (let at = start + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === BACKSLASH) at += 1;
    else if (code === QUOTE) return at;
  }
  return text.length - 1;
}

/** A key as the parser reads it: `\u0061` is `a`. */
function wordOf(quoted: string): string {
  if (!quoted.includes('\\')) return quoted.slice(1, -1);
  try {
    return String(JSON.parse(quoted));
  } catch {
    return quoted;
  }
}
