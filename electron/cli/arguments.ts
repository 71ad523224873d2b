/** What was asked on the command line. */
export type Command =
  | {
      readonly verb: 'check';
      readonly file: string;
      readonly arrangement: string | null;
      readonly json: boolean;
      readonly strict: boolean;
    }
  | {
      readonly verb: 'list';
      readonly file: string;
      readonly arrangement: string | null;
      readonly csvFile: string | null;
    }
  | { readonly verb: 'schema'; readonly of: 'boat' | 'report' }
  | { readonly verb: 'help' };

export const USAGE = `underberth check FILE [--json] [--arrangement ID] [--strict]
    judges a boat: runs, findings, cannot-tells
underberth list FILE [--csv OUT] [--arrangement ID]
    the parts-and-lengths list, as CSV to standard output without OUT
underberth schema [--report]
    JSON Schema of the boat file, or of what check --json prints

FILE is a boat file, or a folder that holds boat.json.
Ends with 0: nothing against the arrangement; 1: a danger or fault of it stands (with --strict also a cannot-tell);
2: the input is unusable.
`;

const FLAGS = {
  check: { '--json': 'switch', '--strict': 'switch', '--arrangement': 'value' },
  list: { '--csv': 'value', '--arrangement': 'value' },
  schema: { '--report': 'switch' },
} as const satisfies Record<string, Readonly<Record<string, 'switch' | 'value'>>>;
type Verb = keyof typeof FLAGS;

/** The command, or one sentence on what is wrong with the words. */
export function commandOf(words: readonly string[]): Command | { readonly wrong: string } {
  const [verb, ...rest] = words;
  if (verb === undefined) return { wrong: 'a command is needed: check, list or schema' };
  if (verb === 'help' || verb === '--help' || verb === '-h') return { verb: 'help' };
  if (!isVerb(verb)) return { wrong: `unknown command ${verb}; known are check, list and schema` };
  const known: Readonly<Record<string, 'switch' | 'value'>> = FLAGS[verb];
  const given = new Map<string, string>();
  const places: string[] = [];
  const left = [...rest];
  for (let word = left.shift(); word !== undefined; word = left.shift()) {
    if (!word.startsWith('--')) {
      places.push(word);
      continue;
    }
    const [flag = '', joined] = word.split(/=(.*)/s, 2);
    const kind = Object.hasOwn(known, flag) ? known[flag] : undefined;
    if (kind === undefined) return { wrong: `${verb} knows no ${flag}; it knows ${Object.keys(known).join(', ')}` };
    if (given.has(flag)) return { wrong: `${flag} is given twice` };
    if (kind === 'switch' && joined !== undefined) return { wrong: `${flag} takes no value` };
    if (kind === 'switch') given.set(flag, '');
    else {
      const value = joined ?? left.shift();
      if (value === undefined || value === '' || value.startsWith('--')) return { wrong: `${flag} needs a value` };
      given.set(flag, value);
    }
  }
  if (verb === 'schema') {
    if (places.length > 0) return { wrong: `schema takes no file, got ${places.join(' ')}` };
    return { verb, of: given.has('--report') ? 'report' : 'boat' };
  }
  const [file, ...more] = places;
  if (file === undefined) return { wrong: `${verb} needs a boat file` };
  if (more.length > 0) return { wrong: `${verb} takes one file, got also ${more.join(' ')}` };
  const arrangement = given.get('--arrangement') ?? null;
  return verb === 'check'
    ? { verb, file, arrangement, json: given.has('--json'), strict: given.has('--strict') }
    : { verb, file, arrangement, csvFile: given.get('--csv') ?? null };
}

const isVerb = (word: string): word is Verb => Object.hasOwn(FLAGS, word);
