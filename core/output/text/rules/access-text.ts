import type { Finding } from '../../../rules/finding';
import { listed } from '../names';
import { comparedText, digits } from '../quantity-text';
import { blocker, counted, heel, mm, number, type RuleWords, type SayInput, word } from '../say';
import { taskText } from '../schema-words';
import { whyText } from '../why-text';

/** How a part is carried to its place. */
function howItGoes({ data }: SayInput): string {
  if (data.how === 'straight') return 'Straight in, without turning it.';
  if (data.how === 'turned') {
    const tilt = number(data.tiltDeg) >= 1 ? `, leaning up to ${digits(number(data.tiltDeg), 0)}\u00b0` : '';
    return `In ${counted(number(data.moves), 'move', 'moves')}, turned on the way${tilt}.`;
  }
  return data.takenBy
    ? 'It passes the openings; how it gets from there to its place was not looked for, since something stands there.'
    : 'It passes the openings.';
}
const tightestOf = (input: SayInput): string => {
  const at = input.data.blocker ? blocker(input) : word(input.data.tightest);
  return `Tightest at ${at}, ${mm(input.data.spareM)} to spare.`;
};
/** What it weighs, and how that lift counts. */
const liftOf = ({ data }: SayInput): string =>
  number(data.massKg) <= 0
    ? ''
    : typeof data.liftIndex === 'number'
      ? `${digits(number(data.massKg), 1)} kg, lifting index ${digits(data.liftIndex, 1)} from ${word(data.standing)}.`
      : `${digits(number(data.massKg), 1)} kg.`;
const triedMoves = ({ data }: SayInput): string =>
  number(data.poses) > 0
    ? `Tried: straight moves, and ${counted(number(data.poses), 'pose', 'poses')} turned and shifted.`
    : number(data.straight) > 0
      ? 'Tried: straight moves.'
      : '';
/** What a search found that would help. */
function helps({ data }: SayInput): string {
  if (data.ifShaved === true)
    return `A part ${mm(data.shavedM)} smaller goes in: that is within what the tape leaves open.`;
  if (data.ifEmpty === true) return 'It goes in with nothing standing there.';
  if (data.ifSmaller === true) return 'A part a fifth smaller goes in.';
  return data.ifEmpty === false ? 'Not even with nothing standing there was one found.' : '';
}
const hosesFirst = ({ data }: SayInput): string => (data.hoses ? ` Take off first: ${word(data.hoses)}.` : '');

/** Nothing where what comes first is counted, which the title says; room about an arm as what is to spare. */
const roomText = (
  { measured, limit }: Extract<Finding, { readonly outcome: 'fail' | 'pass' }>,
  length: (metres: number) => string,
): string => {
  if (measured.unit === 'count') return '';
  if (measured.unit !== 'm') return comparedText(measured, limit);
  if (limit.value === 0) return `${length(Math.abs(measured.value))} ${measured.value < 0 ? 'too little' : 'to spare'}`;
  return `${length(measured.value)}, ${limit.bound === 'atLeast' ? 'at least' : 'at most'} ${length(limit.value)}`;
};

/** Why a service task does not go, with what is in the way. */
const whyOf = ({ data, obstacle }: SayInput): string =>
  whyText(word(data.why), data.blocker ? obstacle(word(data.blocker)) : '');
const shortOf = (shortByM: unknown): string =>
  typeof shortByM === 'number' && shortByM > 0 ? `, ${mm(shortByM)} short` : '';
const WHICH: Readonly<Record<string, string>> = { seenInMirror: 'With a hand mirror: the eye alone does not see it.' };

/** How somebody gets at a seacock, by posture. */
const REACHED: Readonly<Record<string, string>> = {
  arm: 'An arm reaches it',
  shoulder: 'With the head and one shoulder in, it is reached',
  climb: 'It is reached from inside: climb in',
};
const OUT_OF_REACH: Readonly<Record<string, string>> = {
  arm: 'The opening lets an arm in, no more.',
  shoulder: 'It is too far even with the head and one shoulder in, and nobody can kneel nearer to it.',
};

/** Words of the rules about room for parts, hands and backs. */
export const ACCESS_TEXT: Readonly<Record<string, RuleWords>> = {
  'access/overlap': {
    fail: {
      overlap: (input) => ({
        title: `${input.subject} overlaps ${blocker(input)}`,
        why: `They share ${mm(input.data.depthM)}. Move one of them, or measure again if both really stand there.`,
      }),
      outsideHull: (input) => ({
        title: `${input.subject} reaches into the hull`,
        why: `It stands ${mm(input.data.depthM)} into the shell or its lining. Move it inboard.`,
      }),
      throughWall: (input) => ({
        title: `${input.subject} cuts ${blocker(input)}`,
        why: `It stands ${mm(input.data.depthM)} into it. Move it, or correct the outline.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} stands clear`,
        why: input.data.between
          ? `It goes in between with little play: ${blocker(input)} is nearest.`
          : input.data.blocker
            ? `${blocker(input)} is nearest.`
            : '',
      }),
    },
    cannotTell: {
      nowhere: (input) => ({
        title: `Does ${input.subject} stand clear?`,
        why: 'It is in no compartment: its centre lies in undrawn space.',
      }),
    },
  },
  'access/way-in': {
    fail: {
      tooBig: (input) => ({
        title: `${input.subject} does not pass ${blocker(input)}`,
        why: `However it is turned, it is ${mm(-number(input.data.spareM))} too big. Proved.`,
      }),
      noRoomBehind: (input) => ({
        title: `${input.subject} is longer than the room behind ${blocker(input)}`,
        why: `However it is turned, the room is ${mm(-number(input.data.spareM))} too short. Proved.`,
      }),
      noRoomOnWay: (input) => ({
        title: `${input.subject} does not get from ${blocker(input)} to its place`,
        why: `Not even the ball within it has a way past what stands there: it is ${mm(-number(input.data.spareM))} too thick at least. Proved.`,
      }),
      largerThanBoat: (input) => ({
        title: `${input.subject} is larger than the boat`,
        why: `It is ${mm(-number(input.data.spareM))} longer than what is drawn of the boat from corner to corner. Check its size.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} gets in to its place`,
        why: [howItGoes(input), tightestOf(input), liftOf(input)].filter((part) => part !== '').join(' '),
      }),
    },
    cannotTell: {
      nowhere: (input) => ({ title: `How does ${input.subject} get in?`, why: 'Its centre lies in undrawn space.' }),
      noWay: (input) => ({
        title: `How does ${input.subject} get in?`,
        why: `No opening is drawn into ${word(input.data.compartment)}.`,
      }),
      intoNothing: (input) => ({
        title: `How does ${input.subject} get in?`,
        why: `${blocker(input)} opens into nothing: it is drawn nowhere near the side of its compartment.`,
      }),
      nowhereToStand: (input) => ({
        title: `How does ${input.subject} get in?`,
        why: `There is nowhere to stand before ${blocker(input)}: nothing leads there from a place where people are.`,
      }),
      notFound: (input) => ({
        title: `Does ${input.subject} get in through ${blocker(input)}?`,
        why: [
          input.data.takenBy
            ? `Its place is taken by ${input.obstacle(word(input.data.takenBy))}, and no straight way through the opening was found.`
            : 'No way to its place was found, nor a proof that there is none.',
          triedMoves(input),
          helps(input),
        ]
          .filter((part) => part !== '')
          .join(' '),
      }),
    },
  },
  'access/way-out': {
    fail: {
      behind: (input) => ({
        title: `${input.subject} does not come out past ${blocker(input)}`,
        why: `${input.data.isProved ? 'There is no way out' : 'No way out was found'} with everything in place; with ${word(input.data.behind)} off first there is one.${hosesFirst(input)}`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} comes out again with everything in place`,
        why: hosesFirst(input).trim(),
      }),
    },
    cannotTell: {
      notFound: (input) => ({
        title: `Does ${input.subject} come out again?`,
        why: 'No way out was found with everything in place, and no other part can be named that is in its way.',
      }),
    },
  },
  'access/service-space': {
    fail: {
      tooLittle: (input) => ({
        title: `Too little room for ${taskText(word(input.data.task))} of ${input.subject}`,
        why: `${blocker(input)} is in the way after ${mm(input.data.freeM)}.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `Room enough for ${taskText(word(input.data.task))} of ${input.subject}`,
        why: input.data.blocker ? `${blocker(input)} comes next.` : '',
      }),
    },
  },
  'access/seacock-handle': {
    fail: {
      outOfReach: ({ subject, data, name }) => ({
        title: `${subject} is out of reach`,
        why: `It lies ${mm(data.depthM)} under water, ${heel(data)}, and must be shut by hand at once when a joint lets go. ${OUT_OF_REACH[word(data.posture)] ?? ''} The nearest opening is ${name(word(data.opening))}.`,
      }),
      tooNarrow: ({ subject, data, name }) => ({
        title: `${name(word(data.opening))} is too narrow for an arm to ${subject}`,
        why: `${mm(data.reachM)} deep. Widen it, or cut another.`,
      }),
      needsTool: ({ subject, data, name }) => ({
        title: `A tool is needed to get at ${subject}`,
        why: `${name(word(data.opening))} is screwed on. Put it on turn-buttons or hinges.`,
      }),
      moveFirst: ({ subject, data }) => ({
        title: `Something must be moved before ${subject} can be shut`,
        why: `First: ${word(data.first)}. Seconds count: cut a finger hole through, or keep it clear.`,
      }),
      standsFar: ({ subject, data, name }) => ({
        title: `Nobody gets at ${subject} from ${word(data.standing)}`,
        why: `${name(word(data.opening))} is too far from where one stands.`,
      }),
      leverMeets: (input) => ({
        title: `The lever of ${input.subject} meets ${blocker(input)}`,
        why: 'It cannot be turned all the way. Move what is in the way, or turn the valve.',
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} can be shut at once`,
        why: data.opening
          ? `${REACHED[word(data.posture)] ?? 'It is reached'} through ${name(word(data.opening))}.`
          : 'It is at hand.',
      }),
    },
    cannotTell: {
      noOpening: ({ subject }) => ({
        title: `How is ${subject} reached?`,
        why: 'No opening is drawn into its compartment.',
      }),
      valveNowhere: ({ subject }) => ({ title: `How is ${subject} reached?`, why: 'It is in no compartment.' }),
    },
  },
  'access/service-task': {
    compared: roomText,
    fail: {
      afterMoving: ({ subject, data, name }) => ({
        title: `${subject}: ${taskText(word(data.task))} only after moving things`,
        why: `First: ${listed(word(data.removals).split(', ').map(name))}.`,
      }),
      byDismantling: ({ subject, data, name }) => ({
        title: `${subject}: ${taskText(word(data.task))} only by dismantling`,
        why: `Comes off first: ${listed(word(data.removals).split(', ').map(name))}. Tried and judged again without it.`,
      }),
      notAtAll: (input) => ({
        title: `${input.subject}: ${taskText(word(input.data.task))} cannot be done`,
        why: `${whyOf(input)}${shortOf(input.data.shortByM)}.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject}: ${taskText(word(data.task))} can be done`,
        why: `${data.opening ? `Through ${name(word(data.opening))}. ` : ''}${WHICH[word(data.why)] ?? ''}`.trim(),
      }),
    },
    cannotTell: {
      noWayFound: (input) => ({
        title: `${input.subject}: ${taskText(word(input.data.task))}, no way found`,
        why: `${whyOf(input)}${shortOf(input.data.shortByM)}. ${digits(number(input.data.tried), 0)} ways were tried. It is not proved impossible: take it as a no until somebody has done it.`,
      }),
    },
  },
  'access/services-taken': {
    fail: {
      limberCovered: ({ subject, data }) => ({
        title: `${subject} stands before the limber hole ${word(data.hole)}`,
        why: 'Bilge water no longer runs through it to the pump, and nobody gets at it to clear it. Keep as much free before it as it is wide.',
      }),
      taken: (input) => ({
        title: `The plan takes ${taskText(word(input.data.task))} from ${input.subject}`,
        why: `${blocker(input)} is in the way. ${input.data.wasCapped ? 'More than ' : ''}${mm(input.data.beforeM)} were free before. ${counted(number(input.data.before), 'job', 'jobs')} could be done on it, now ${number(input.data.now) === 0 ? 'none' : digits(number(input.data.now), 0)}.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} can be serviced as before`,
        why: data.blocker
          ? `${name(word(data.blocker))} stands nearest to the room for ${taskText(word(data.task))}.`
          : 'No part of the plan stands near.',
      }),
    },
  },
  'access/lift': {
    compared: (finding) =>
      `lifting index ${digits(finding.measured.value, 1)}, at most ${digits(finding.limit.value, 0)}`,
    fail: {
      twoPeople: ({ subject, data }) => ({
        title: `${subject} takes two people or a tackle`,
        why: `${liftWords(data)}${data.isBeyond ? ' That is beyond what the equation holds for: it takes the edge of its range.' : ''}`,
      }),
    },
    pass: {
      pass: ({ subject, data, finding }) => ({
        title:
          finding.outcome === 'pass' && finding.measured.value > 1
            ? `${subject} can be lifted by one person, with care`
            : `${subject} can be lifted by one person`,
        why: liftWords(data),
      }),
    },
    cannotTell: {
      standsNowhere: ({ subject }) => ({
        title: `Can one person lift ${subject} into its place?`,
        why: 'Nobody says where one stands for it.',
      }),
    },
  },
  'access/level': {
    fail: {
      notUpright: ({ subject }) => ({
        title: `${subject} does not stand upright`,
        why: 'Its oil lies to one side of the mark, and air gets where oil should be. Level its base.',
      }),
      tiltsTooFar: ({ subject, data }) => ({
        title: `${subject} tilts too far when it runs`,
        why: `${word(data.state)}, ${heel(data)}: its own lean and the heel together are more than it stands. Run it at less heel, or turn it so that it leans less.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} stands as it must`, why: '' }) },
  },
  'access/hold-down': {
    fail: {
      loose: ({ subject, data }) => ({
        title: `${subject} is loose`,
        why: `${digits(number(data.massKg), 1)} kg fly about in a knockdown. Strap it, box it in, or bolt it down.`,
      }),
      tooMuch: ({ subject, data }) => ({
        title: `${subject} does not hold what stands on it in a knockdown`,
        why: `${digits(number(data.massKg), 1)} kg stand on it, ${digits(number(data.times), 0)} times that may pull in any direction. Bolt through, strap what is heavy, or spread it.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: number(data.times) > 0 ? `${subject} holds what stands on it` : `${subject} is held in a knockdown`,
        why:
          number(data.times) > 0
            ? `${digits(number(data.massKg), 1)} kg, taken ${digits(number(data.times), 0)} times.`
            : '',
      }),
    },
  },
  'access/noise-near-berth': {
    compared: (finding) => RANKS[finding.measured.value] ?? '',
    fail: {
      heardInBerth: ({ subject, data, name }) => ({
        title: `${subject} will be heard in ${name(word(data.berth))}`,
        why: `${data.isOpen ? 'Nothing stands between.' : 'It shares a panel with the berth.'} ${data.resilient ? 'Close the space, or run it by day.' : 'Set it on rubber feet, with soft hose tails.'}`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} is quiet enough for ${name(word(data.berth))}`,
        why: 'A panel stands between, and it stands on rubber feet. Keep its hose tails soft.',
      }),
    },
    cannotTell: {
      mountUnknown: ({ subject, data, name }) => ({
        title: `Will ${subject} be heard in ${name(word(data.berth))}?`,
        why: 'It is next to a berth, and nobody says whether it stands on rubber feet.',
      }),
    },
  },
};

const RANKS: readonly string[] = [
  'not heard',
  'low: behind a panel, on rubber feet',
  'middling: in the same air, on rubber feet',
  'high: through a panel that it shakes',
  'very high: in the same air, and rigid',
];

const liftWords = (data: SayInput['data']): string =>
  `${digits(number(data.massKg), 1)} kg; ${digits(number(data.weightKg), 1)} kg is what the equation recommends from ${word(data.standing)}, ${mm(data.outM)} out and ${mm(Math.abs(number(data.upM)))} ${number(data.upM) < 0 ? 'below' : 'above'} the feet. It takes room to stand and both hands: cramped, the truth is worse.`;
