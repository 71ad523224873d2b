import { PAPER_SIZES, type PaperSize } from '@core/output/sheets/paper-size';

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
      readonly xlsxFile: string | null;
    }
  | {
      readonly verb: 'sheets';
      readonly file: string;
      readonly arrangement: string | null;
      readonly folder: string;
      readonly paper: PaperSize;
    }
  | {
      readonly verb: 'hull';
      readonly file: string;
      readonly heelDeg?: number;
      readonly draughtM?: number;
      readonly json: boolean;
    }
  | { readonly verb: 'survey'; readonly file: string; readonly json: boolean }
  | {
      readonly verb: 'service';
      readonly file: string;
      readonly arrangement: string | null;
      readonly person: string | null;
      readonly json: boolean;
    }
  | {
      readonly verb: 'place';
      readonly file: string;
      readonly arrangement: string | null;
      /** The part that is asked for, then those that move with it. */
      readonly parts: readonly [string, ...string[]];
      readonly json: boolean;
    }
  | { readonly verb: 'schema'; readonly of: SchemaOf }
  | { readonly verb: 'help' };

/** What `schema` can describe; boat and report are asked for without a word and with --report. */
const SCHEMAS = ['boat', 'report', 'service', 'place'] as const;
export type SchemaOf = (typeof SCHEMAS)[number];

export const USAGE = `underberth check FILE [--json] [--arrangement ID] [--strict]
    judges a boat: runs, findings, cannot-tells; a line that is blocked without proof is tried again with more effort
underberth list FILE [--csv OUT] [--xlsx OUT] [--arrangement ID]
    the parts-and-lengths list, with what is there and bought; without --csv and --xlsx as CSV to standard output
    --csv OUT   comma-separated values; --xlsx OUT  a workbook: list, cuts, holes, a bag of hardware for each place
underberth sheets FILE --out DIR [--paper ${PAPER_SIZES.join('|')}] [--arrangement ID]
    every sheet that can be made, as PDF files in DIR, which is made where it is missing; files there that have the same
    names are replaced, nothing else is touched. Default paper A3
underberth hull FILE [--heel DEG] [--draught M] [--json]
    hydrostatics: without the two, upright by draught, the reference attitude's among them
    --heel DEG   heel in degrees, + starboard side down, above -90 and below 90; alone: displacement kept
    --draught M  metres from the lowest point of the hull up to the water, on the centre plane and square to the
                 reference waterline; with --heel: the water crosses the centre plane there, whatever is displaced
    LCB, LCF: x forward of the aftmost point. KB: over the lowest point of the hull. yB to port, zB up, along the axes
    of the boat. Sinkage: draught less that of the reference attitude. The trim of that attitude is kept.
underberth survey FILE [--json]
    the survey's readings adjusted: residuals, the readings that do not belong, what to measure next
underberth service FILE [--json] [--person ID] [--arrangement ID]
    every service task, of parts and of what is aboard already: how it goes, through which openings, what is in the way,
    what the plan makes worse, minutes a year. --person ID  whose reach counts, a record of people
underberth place FILE --part ID [--group ID,ID] [--json] [--arrangement ID]
    where a part can go: every compartment, the best first, with the reasons and the place that was found and judged
    --group ID,ID  parts that move with it and keep their offsets: they must be placed. Ends with 1 where it goes nowhere
underberth schema [--report] [${SCHEMAS.join('|')}]
    JSON Schema of the boat file, or of what check --json prints (hull --json and survey --json under $defs), or of what
    service --json or place --json prints

FILE is a boat file, or a folder that holds boat.json.
Ends with 0: nothing against the arrangement; 1: a danger or fault of it stands (with --strict also a cannot-tell);
2: the input is unusable.
`;

const FLAGS = {
  check: { '--json': 'switch', '--strict': 'switch', '--arrangement': 'value' },
  list: { '--csv': 'value', '--xlsx': 'value', '--arrangement': 'value' },
  sheets: { '--out': 'value', '--paper': 'value', '--arrangement': 'value' },
  hull: { '--heel': 'value', '--draught': 'value', '--json': 'switch' },
  survey: { '--json': 'switch' },
  service: { '--json': 'switch', '--person': 'value', '--arrangement': 'value' },
  place: { '--json': 'switch', '--part': 'value', '--group': 'value', '--arrangement': 'value' },
  schema: { '--report': 'switch' },
} as const satisfies Record<string, Readonly<Record<string, 'switch' | 'value'>>>;
type Verb = keyof typeof FLAGS;
const KNOWN = Object.keys(FLAGS).join(', ');

/** Below these angles the water still crosses the centre plane, where draughts are measured. */
const HEEL_LIMIT_DEG = 90;
/** What a length in a boat file may be. */
const GREATEST_DRAUGHT_M = 1000;

/** The command, or one sentence on what is wrong with the words. */
export function commandOf(words: readonly string[]): Command | { readonly wrong: string } {
  const [verb, ...rest] = words;
  if (verb === undefined) return { wrong: `a command is needed: ${KNOWN}` };
  if (verb === 'help' || words.some((word) => word === '--help' || word === '-h')) return { verb: 'help' };
  if (!isVerb(verb)) return { wrong: `unknown command ${verb}; known are ${KNOWN}` };
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
    const [named = given.has('--report') ? 'report' : 'boat', ...more] = places;
    const of = SCHEMAS.find((one) => one === named);
    if (of === undefined || more.length > 0 || (given.has('--report') && of !== 'report'))
      return { wrong: `schema takes no file, got ${places.join(' ')}; it knows ${SCHEMAS.join(', ')}` };
    return { verb, of };
  }
  const [file, ...more] = places;
  if (file === undefined) return { wrong: `${verb} needs a boat file` };
  if (more.length > 0) return { wrong: `${verb} takes one file, got also ${more.join(' ')}` };
  if (verb === 'survey') return { verb, file, json: given.has('--json') };
  if (verb === 'hull') {
    const heel = numberOf(given, '--heel', 'degrees', [-HEEL_LIMIT_DEG, HEEL_LIMIT_DEG]);
    if ('wrong' in heel) return heel;
    const draught = numberOf(given, '--draught', 'metres', [0, GREATEST_DRAUGHT_M]);
    if ('wrong' in draught) return draught;
    return {
      verb,
      file,
      ...(heel.value === undefined ? {} : { heelDeg: heel.value }),
      ...(draught.value === undefined ? {} : { draughtM: draught.value }),
      json: given.has('--json'),
    };
  }
  const arrangement = given.get('--arrangement') ?? null;
  if (verb === 'check') return { verb, file, arrangement, json: given.has('--json'), strict: given.has('--strict') };
  if (verb === 'service')
    return { verb, file, arrangement, person: given.get('--person') ?? null, json: given.has('--json') };
  if (verb === 'place') {
    const part = given.get('--part');
    if (part === undefined) return { wrong: 'place needs --part ID' };
    const group = (given.get('--group') ?? '').split(',').filter((id) => id !== '' && id !== part);
    return { verb, file, arrangement, parts: [part, ...group], json: given.has('--json') };
  }
  if (verb === 'list') {
    return { verb, file, arrangement, csvFile: given.get('--csv') ?? null, xlsxFile: given.get('--xlsx') ?? null };
  }
  const folder = given.get('--out');
  if (folder === undefined) return { wrong: 'sheets needs --out DIR' };
  const asked = given.get('--paper') ?? 'A3';
  const paper = PAPER_SIZES.find((size) => size.toLowerCase() === asked.toLowerCase());
  if (paper === undefined) return { wrong: `--paper is ${asked}; known are ${PAPER_SIZES.join(', ')}` };
  return { verb, file, arrangement, folder, paper };
}

const isVerb = (word: string): word is Verb => Object.hasOwn(FLAGS, word);

/** A number of a flag, strictly between two limits. */
function numberOf(
  given: ReadonlyMap<string, string>,
  flag: string,
  unit: string,
  [above, below]: readonly [number, number],
): { readonly value: number | undefined } | { readonly wrong: string } {
  const text = given.get(flag);
  if (text === undefined) return { value: undefined };
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  if (value > above && value < below) return { value };
  return { wrong: `${flag} is ${text}; a number above ${above} and below ${below} is needed, in ${unit}` };
}
