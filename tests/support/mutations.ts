import { type Dice, dice } from './dice';

/** Numbers as a file may write them, from plain to hostile. */
const NUMBERS = [
  '0',
  '-0',
  '-1',
  '0.1',
  '1e3',
  '1e15',
  '1e305',
  '1e308',
  '1e999',
  '-1e999',
  '1e-400',
  '9007199254740993',
  '0.30000000000000004',
  '1E+2',
  '01',
  '.5',
  '5.',
  '+1',
  'NaN',
  'Infinity',
  '0x10',
  '1_000',
];
const STRINGS = [
  '',
  ' ',
  'aft',
  'pump',
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'valueOf',
  '../../etc/passwd',
  'C:\\con',
  'NUL',
  'file:///etc/passwd',
  'javascript:alert(1)',
  'data:text/html,<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  "=cmd|' /C calc'!A0",
  '+1+1',
  '@SUM(A1)',
  '\u0000',
  '\u001b[2J\u001b]0;title\u0007',
  '\u009b31m',
  '\u202egnp.taob',
  '\u2028',
  '\ufeff',
  '\ud800',
  '\u{1f6a4}'.repeat(40),
  'x'.repeat(64),
  'x'.repeat(65),
  'x'.repeat(121),
  'x'.repeat(4001),
  '2026-02-31',
];
const OTHERS = [
  'null',
  'true',
  'false',
  '[]',
  '{}',
  '[[]]',
  '[null]',
  '{"":0}',
  '[0,0,0]',
  'undefined',
  "'text'",
  '// a comment',
  '/* */',
];
const KEYS = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  '',
  ' ',
  'a.b',
  'a[0]',
  '\u001b[2J',
  '\u202e',
  'x'.repeat(200),
  'name',
  'at',
  '0',
  '-1',
  'aft',
  'pump',
];

/** A text of JSON cut into its tokens; joined they are the text. */
const TOKEN = /"(?:[^"\\]|\\.)*"|-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null|[{}[\],:]|\s+|./gsu;

type Mutation = (text: string, luck: Dice) => string;

const spliced = (text: string, at: number, gone: number, put: string): string =>
  text.slice(0, at) + put + text.slice(at + gone);

const byBytes: readonly Mutation[] = [
  (text, luck) => spliced(text, luck.whole(text.length), 1, String.fromCharCode(luck.whole(128))),
  (text, luck) => spliced(text, luck.whole(text.length), 1 + luck.whole(8), ''),
  (text, luck) =>
    spliced(
      text,
      luck.whole(text.length),
      0,
      luck.pick(['"', '\\', '{', '}', '[', ']', ',', ':', '\u0000', '\ud800', '\ufeff', '\n', '-', 'e']),
    ),
  (text, luck) => text.slice(0, luck.whole(text.length)),
  (text, luck) => {
    const at = luck.whole(text.length);
    const part = text.slice(at, at + 1 + luck.whole(200));
    return spliced(text, luck.whole(text.length), 0, part);
  },
];

/** What a value is replaced by. */
function anyValue(luck: Dice): string {
  switch (luck.whole(8)) {
    case 0:
    case 1:
    case 2:
      return luck.pick(NUMBERS);
    case 3:
    case 4:
      return JSON.stringify(luck.pick(STRINGS));
    case 5: {
      const deep = 1 + luck.whole(60);
      return luck.whole(2) === 0 ? '['.repeat(deep) + ']'.repeat(deep) : `${'{"a":'.repeat(deep)}0${'}'.repeat(deep)}`;
    }
    case 6:
      return JSON.stringify(Array.from({ length: luck.whole(40) }, () => [luck.from(-2, 2), luck.from(-2, 2)]));
    default:
      return luck.pick(OTHERS);
  }
}

const isValue = (token: string): boolean => /^["\-\dtfn]/.test(token);

const byTokens: readonly Mutation[] = [
  // A value or a key becomes another.
  (text, luck) => {
    const tokens = text.match(TOKEN) ?? [];
    const at = luck.whole(Math.max(1, tokens.length));
    const here = tokens.findIndex((token, index) => index >= at && isValue(token));
    if (here < 0) return text;
    const isKey = tokens.slice(here + 1).find((token) => token.trim() !== '') === ':';
    tokens[here] = isKey ? JSON.stringify(luck.pick(KEYS)) : anyValue(luck);
    return tokens.join('');
  },
  // A number is a little different, or of another size.
  (text, luck) => {
    const tokens = text.match(TOKEN) ?? [];
    const numbers = tokens.flatMap((token, index) => (/^-?\d/.test(token) ? [index] : []));
    if (numbers.length === 0) return text;
    const here = luck.pick(numbers);
    tokens[here] = String(Number(tokens[here]) * luck.pick([-1, 0, 0.5, 1.0000001, 2, 1e3, 1e6, 1e12]));
    return tokens.join('');
  },
  (text, luck) => {
    const tokens = text.match(TOKEN) ?? [];
    tokens.splice(luck.whole(Math.max(1, tokens.length)), 1 + luck.whole(3));
    return tokens.join('');
  },
  (text, luck) => {
    const tokens = text.match(TOKEN) ?? [];
    if (tokens.length < 2) return text;
    const [a, b] = [luck.whole(tokens.length), luck.whole(tokens.length)];
    [tokens[a], tokens[b]] = [tokens[b] ?? '', tokens[a] ?? ''];
    return tokens.join('');
  },
  // A member is put into an object a first or a second time.
  (text, luck) => {
    const braces = [...text.matchAll(/\{/g)].map(({ index }) => index);
    if (braces.length === 0) return text;
    const member = `${JSON.stringify(luck.pick(KEYS))}:${anyValue(luck)},`;
    return spliced(text, luck.pick(braces) + 1, 0, member);
  },
];

type Tree = Record<string, unknown> | unknown[];
const treesIn = (value: unknown): readonly Tree[] =>
  typeof value === 'object' && value !== null ? [value as Tree, ...Object.values(value).flatMap(treesIn)] : [];

/** Edits of the parsed tree, so that the result is JSON and goes deep into the reader. */
const byTree: Mutation = (text, luck) => {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return luck.pick(byTokens)(text, luck);
  }
  const trees = treesIn(data).filter((tree) => Object.keys(tree).length > 0);
  if (trees.length === 0) return text;
  const tree = luck.pick(trees);
  const keys = Object.keys(tree);
  const key = luck.pick(keys);
  const set = (name: string, value: unknown): void => {
    Object.defineProperty(tree, name, { value, enumerable: true, configurable: true, writable: true });
  };
  switch (luck.whole(6)) {
    case 0:
      Reflect.deleteProperty(tree, key);
      break;
    case 1:
      set(luck.pick(KEYS), Reflect.get(tree, key));
      break;
    case 2: {
      const other = luck.pick(trees);
      set(key, JSON.parse(JSON.stringify(Reflect.get(other, luck.pick(Object.keys(other))))));
      break;
    }
    case 3:
      if (Array.isArray(tree)) tree.push(...tree.slice(0, luck.whole(tree.length + 1)));
      else set(`${key}-2`, Reflect.get(tree, key));
      break;
    case 4:
      set(key, luck.pick([luck.pick(STRINGS), luck.from(-3, 3), luck.whole(100), null, [], {}, true]));
      break;
    default:
      if (Array.isArray(tree)) tree.reverse();
      else set(key, [Reflect.get(tree, key)]);
  }
  return JSON.stringify(data) ?? text;
};

/** One of `texts`, mutated one to three times: the same for the same seed. */
export function mutated(texts: readonly string[], seed: number): string {
  const luck = dice(seed);
  let text = luck.pick(texts);
  for (let times = 1 + luck.whole(3); times > 0; times--) {
    const kind = luck.whole(10);
    const mutation = kind === 0 ? luck.pick(byBytes) : kind < 4 ? luck.pick(byTokens) : byTree;
    text = mutation(text, luck);
  }
  return text;
}
