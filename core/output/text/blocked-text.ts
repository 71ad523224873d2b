import type { Finding } from '../../rules/finding';
import type { BlockReason, Effort } from '../../runs/routing/types';
import { lengthText } from './quantity-text';
import { blocker, counted, mm, number, type RuleWords, type SayInput, word } from './say';

/** What the words of a blocked run need; `length` where the reader has chosen units. */
type BlockedInput = Pick<SayInput, 'data' | 'obstacle'> & { readonly length?: (metres: number) => string };
const short = ({ data, length = lengthText }: BlockedInput): string => length(number(data.shortByM));
const at = (input: BlockedInput): string => (input.data.blocker ? ` at ${blocker(input)}` : '');
/** ` by 12 mm`; nothing where it is not known by how much. */
const by = (input: BlockedInput): string => (typeof input.data.shortByM === 'number' ? ` by ${short(input)}` : '');
const more = (input: BlockedInput, what: string): string =>
  typeof input.data.shortByM === 'number' ? `: ${short(input)} more ${what}is needed` : '';

/** ` in Engine space`; nothing where the place is in no compartment, or not known. */
const placed = ({ data }: BlockedInput): string => (data.place ? ` in ${word(data.place)}` : '');

/** A hole that is not there, or is too narrow: by what there is and what is needed. */
function holeWords(input: BlockedInput): string {
  const { data, length = lengthText } = input;
  if (typeof data.neededM !== 'number' || typeof data.shortByM !== 'number')
    return `No hole through ${blocker(input)} is large enough${more(input, 'width ')}.`;
  const widestM = data.neededM - data.shortByM;
  const needed = `It needs one of ${length(data.neededM)}`;
  return widestM < 5e-4
    ? `There is no hole through ${blocker(input)} that it may use. ${needed}.`
    : `No hole through ${blocker(input)} is wide enough: the best has ${length(widestM)} free. ${needed}, ${length(data.shortByM)} more.`;
}

const BLOCKED: Readonly<Record<Exclude<BlockReason['kind'], 'notPlaced'>, (input: BlockedInput) => string>> = {
  clearance: (input) =>
    input.data.blocker
      ? `${blocker(input)} is in the way${placed(input)}${by(input)}.`
      : `There is too little room${placed(input)}${more(input, '')}.`,
  bend: (input) => `The bend is too tight${at(input)}${placed(input)}${more(input, 'straight length ')}.`,
  hole: holeWords,
  feed: (input) =>
    `Its crimped end has no room to come through the panel: ${blocker(input)} is in the way${by(input)}.`,
  lead: (input) => `Its rigid end has no room at the port: ${blocker(input)} is in the way${by(input)}.`,
  turn: (input) => `It has no room to turn${at(input)}${placed(input)}${more(input, 'room ')}.`,
  reach: (input) => `It is longer than the supplied length${by(input)}.`,
  disconnected: ({ data }) =>
    `No open panel, existing hole or panel that may be drilled joins the compartments of its two ends${
      data.forbidden ? `, now that it is kept out of ${word(data.forbidden)}` : ''
    }.`,
  portOutside: (input) =>
    input.data.blocker
      ? `A port of ${blocker(input)} lies outside every compartment: draw the compartment there, or move it.`
      : 'A clip point lies outside every compartment: draw the compartment there, or move the point.',
  noSuchPort: (input) => `${blocker(input)} has no such port: draw the line to another one.`,
  notFound: (input) =>
    input.data.blocker
      ? `${blocker(input)} is nearest to being in the way${placed(input)}.`
      : input.data.place
        ? `It came no nearer than ${word(input.data.place)}.`
        : '',
};

/** What a search that ended without a proof can say for itself. */
const triedWords = ({ data }: Pick<SayInput, 'data'>): string =>
  data.proved === true || number(data.tries) === 0
    ? ''
    : `Not found after ${counted(number(data.tries), 'try', 'tries')}${data.effort === 'deep' ? ', the longer search included' : ''}; a way may exist.`;

/** What a proof rests on, where the words before do not say it. */
function proofWords({ data, length = lengthText }: Pick<BlockedInput, 'data' | 'length'>): string {
  switch (data.proof) {
    case 'noPassage':
      return data.turns
        ? 'Proved impossible: no bend of its least radius has room there.'
        : 'Proved impossible: whatever stands where, no chain of open panels, holes and panels that may be drilled lets it through.';
    case 'noRoomAtEnd':
      return 'Proved impossible: its end lies there however the rest may run.';
    case 'tooFar':
      return `Proved impossible: no run is shorter than ${length(number(data.lowerBoundM))}.`;
    default:
      return data.proved ? 'Proved impossible.' : '';
  }
}

/** Why a run is blocked: what is in the way, by how much, and how sure that is. */
export function blockedText(
  run: { readonly reason: BlockReason; readonly proved: boolean; readonly effort?: Effort | undefined },
  obstacle: SayInput['obstacle'],
  length?: (metres: number) => string,
): string {
  const { kind, blocker: blockedBy, shortByM, tries, neededM = null } = run.reason;
  if (kind === 'notPlaced') return 'One of its ends has no place.';
  const input = {
    data: { blocker: blockedBy, shortByM, neededM, tries, proved: run.proved, effort: run.effort ?? null },
    obstacle,
    ...(length ? { length } : {}),
  };
  const words = [BLOCKED[kind](input), triedWords(input)].filter((part) => part !== '').join(' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

type Compared = Extract<Finding, { readonly outcome: 'fail' | 'pass' }>;

/** Of a run that is there: how far its ends may be off, and how much of that it takes up; else how near it passes. */
function slackWords({ data, measured, closeCall }: Compared, length: (metres: number) => string): string {
  if (typeof data.slackM !== 'number')
    return Number.isFinite(measured.value) ? `${length(measured.value)} clear where it passes nearest` : '';
  const takes = data.slackM < 5e-4 ? 'it takes up none of it' : `it takes up ${length(data.slackM)}`;
  return closeCall
    ? `Its ends may be ${length(closeCall.gradeM)} off, ${takes}`
    : `Takes up ${length(data.slackM)} at its ends`;
}

/** Of a run that is not there: what it lacks, and how well that is known. */
function missingWords({ data, closeCall }: Compared, length: (metres: number) => string): string {
  if (typeof data.shortByM !== 'number') return '';
  return `${length(data.shortByM)} missing${closeCall ? `, ±${length(closeCall.gradeM)}` : ''}`;
}

/** Words of `runs/blocked`. */
export const BLOCKED_TEXT: RuleWords = {
  compared: (finding, length) =>
    finding.outcome === 'pass' ? slackWords(finding, length) : missingWords(finding, length),
  fail: Object.fromEntries(
    Object.entries(BLOCKED).map(([reason, why]) => [
      reason,
      (input: SayInput) => ({
        title: input.data.proved ? `${input.subject} cannot be routed` : `No run found for ${input.subject}`,
        why: [proofWords(input), why(input), triedWords(input)].filter((part) => part !== '').join(' '),
      }),
    ]),
  ),
  pass: {
    pass: (input) => ({
      title: `${input.subject} is routed`,
      why: `${mm(input.data.lengthM)}, ${counted(number(input.data.bends), 'bend', 'bends')}.${
        typeof input.data.slackM === 'number'
          ? ` It has little room to bend: where an end is ${number(input.data.slackM) < 5e-4 ? 'a little' : `more than ${mm(input.data.slackM)}`} off, it may find no way.`
          : ''
      }`,
    }),
  },
  cannotTell: {
    notRouted: (input) => ({ title: `${input.subject} is not routed yet`, why: 'One of its ends has no place.' }),
  },
};
