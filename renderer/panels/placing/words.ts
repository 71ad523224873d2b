import type { PlaceOutcome, PlaceReport, PlaceTest } from '@core/engine/placement/place-report';

/** Heads of the columns, short enough for nine of them beside each other. */
export const TEST_HEADS: Readonly<Record<PlaceTest, string>> = {
  passes: 'in',
  fits: 'fits',
  mounts: 'fixed',
  serves: 'serve',
  dry: 'dry',
  cool: 'cool',
  reaches: 'lines',
  spills: 'spill',
  holes: 'holes',
};

export const OUTCOME_WORDS: Readonly<Record<PlaceOutcome, string>> = {
  pass: 'passes',
  close: 'within the tape',
  cannotTell: 'cannot tell',
  fail: 'no',
  notJudged: 'not judged',
};

/** Kinds of answer as the drawing tints them, in the order of the legend. */
export const TINTS = ['goes', 'goesClose', 'open', 'no', 'notYet'] as const;

export const TINT_WORDS: Readonly<Record<(typeof TINTS)[number], string>> = {
  goes: 'passes every test',
  goesClose: 'passes within the tape',
  open: 'cannot tell',
  no: 'no, with its reason',
  notYet: 'may do, being judged',
};

/** The verdict within a row that is read out. */
export const SPOKEN_VERDICT: Readonly<Record<(typeof TINTS)[number], string>> = {
  ...TINT_WORDS,
  no: 'no',
};

/** `5 of 23 compartments fit, 2 within the tape; 1 cannot be told`. */
export function tallyWords({ compartments }: PlaceReport): string {
  const count = (verdict: string): number => compartments.filter((one) => one.verdict === verdict).length;
  const [clean, close, open] = [count('goes'), count('goesClose'), count('open')];
  const all = clean + close;
  const of = `of ${compartments.length} ${compartments.length === 1 ? 'compartment' : 'compartments'}`;
  const first = all === 0 ? `None ${of} passes` : `${all} ${of} ${all === 1 ? 'passes' : 'pass'}`;
  const within = close === 0 ? '' : close === all ? ', within the tape' : `, ${close} within the tape`;
  return `${first}${within}${open === 0 ? '' : `; ${open} cannot be told`}`;
}
