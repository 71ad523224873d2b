import type { Finding } from '../../rules/finding';
import { digits, lengthText } from './quantity-text';

export interface Said {
  readonly title: string;
  readonly why: string;
}
export interface SayInput {
  /** What people call the subject. */
  readonly subject: string;
  readonly name: (id: string) => string;
  readonly finding: Finding;
  readonly data: Finding['data'];
}
type Say = (input: SayInput) => Said;
export type RuleWords = {
  readonly [outcome in Finding['outcome']]?: Readonly<Record<string, Say>>;
} & { readonly other?: Say };

const number = (value: unknown): number => (typeof value === 'number' ? value : 0);
const word = (value: unknown): string => (value === null || value === undefined ? '' : String(value));
const mm = (value: unknown): string => lengthText(number(value));
const side = (down: unknown): string =>
  down === 'port' ? 'to port' : down === 'starboard' ? 'to starboard' : 'upright';
const heel = (data: SayInput['data']): string =>
  data.down === 'upright' ? 'upright' : `at ${digits(number(data.heelDeg), 0)}° ${side(data.down)}`;
const blocker = ({ data, name }: SayInput): string =>
  data.blocker ? name(word(data.blocker)) : 'something that has no name';

const BLOCKED: Readonly<Record<string, (input: SayInput) => string>> = {
  clearance: (input) => `${blocker(input)} is in the way; ${mm(input.data.shortByM)} are missing.`,
  bend: (input) =>
    `The bend is too tight by ${blocker(input)}; ${mm(input.data.shortByM)} of straight length are missing.`,
  hole: (input) =>
    `No hole that is wide enough leads through ${blocker(input)}; ${mm(input.data.shortByM)} are missing.`,
  lead: (input) =>
    `The end of the hose has no room at its port: ${blocker(input)} is ${mm(input.data.shortByM)} in the way.`,
  reach: (input) => `It is longer than what is supplied, by ${mm(input.data.shortByM)}.`,
  disconnected: () =>
    'No open panel, existing hole or panel that may be drilled joins the compartments of its two ends.',
  portOutside: (input) =>
    `A port lies outside every compartment${input.data.blocker ? ` (${blocker(input)})` : ''}: draw the compartment there, or move the part.`,
  noSuchPort: () => 'One of its ports does not exist.',
  notFound: (input) =>
    `Not found after ${word(input.data.tries)} tries${input.data.blocker ? `; ${blocker(input)} is nearest to being in the way` : ''}.`,
};

/** Words of every rule, by outcome and reason. */
export const RULE_TEXT: Readonly<Record<string, RuleWords>> = {
  'access/overlap': {
    fail: {
      overlap: (input) => ({
        title: `${input.subject} overlaps ${blocker(input)}`,
        why: `They share ${mm(input.data.depthM)}. Move the part, or measure again if it really stands there.`,
      }),
      outsideHull: (input) => ({
        title: `${input.subject} reaches into the hull`,
        why: `It sticks ${mm(input.data.depthM)} into the shell or its lining.`,
      }),
      throughWall: (input) => ({
        title: `${input.subject} cuts ${blocker(input)}`,
        why: `It goes ${mm(input.data.depthM)} into it.`,
      }),
      nowhere: (input) => ({
        title: `${input.subject} is in no compartment`,
        why: 'Its centre lies in undrawn space.',
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} stands free`,
        why: input.data.blocker ? `${blocker(input)} is nearest.` : '',
      }),
    },
  },
  'access/way-in': {
    fail: {
      tooBig: (input) => ({
        title: `${input.subject} does not pass ${blocker(input)}`,
        why: `However it is turned, ${mm(-number(input.data.spareM))} are missing. Proved.`,
      }),
      noRoomBehind: (input) => ({
        title: `${input.subject} is longer than the room behind ${blocker(input)}`,
        why: `${mm(-number(input.data.spareM))} are missing in every direction. Proved.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} passes its way in`,
        why: `Tightest at ${blocker(input)}, ${mm(input.data.spareM)} to spare${input.data.how === 'tilted' ? ', put in slanting' : ''}.`,
      }),
    },
    cannotTell: {
      nowhere: (input) => ({ title: `How does ${input.subject} get in?`, why: 'Its centre lies in undrawn space.' }),
      noWay: (input) => ({
        title: `How does ${input.subject} get in?`,
        why: 'No opening leads to its compartment from where a person stands.',
      }),
      notFound: (input) => ({
        title: `Does ${input.subject} get through ${blocker(input)}?`,
        why: `No way of turning it was found, and no proof that there is none. Tried: ${word(input.data.tried)}.`,
      }),
    },
  },
  'access/service-space': {
    fail: {
      tooLittle: (input) => ({
        title: `${word(input.data.task)} of ${input.subject}: no room`,
        why: `${blocker(input)} is in the way after ${mm(input.data.freeM)}.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${word(input.data.task)} of ${input.subject}: room`,
        why: input.data.blocker ? `${blocker(input)} comes next.` : '',
      }),
    },
  },
  'runs/blocked': {
    fail: Object.fromEntries(
      Object.entries(BLOCKED).map(([reason, why]) => [
        reason,
        (input: SayInput) => ({
          title: `${input.subject} finds no way`,
          why: `${input.data.proved ? 'Proved impossible. ' : ''}${why(input)}`,
        }),
      ]),
    ),
    pass: {
      pass: (input) => ({
        title: `${input.subject} finds its way`,
        why: `${mm(input.data.lengthM)}, ${word(input.data.bends)} bends.`,
      }),
    },
    cannotTell: {
      notRouted: (input) => ({ title: `${input.subject}: not routed yet`, why: 'One of its ends has no place.' }),
    },
  },
  'runs/supplied-length': {
    fail: {
      cannotReach: (input) => ({
        title: `${input.subject}: the supplied hose cannot reach`,
        why: `No way is shorter than ${mm(input.data.lowerBoundM)}, and ${mm(input.data.suppliedM)} are supplied with ${mm(input.data.spareM)} to spare. Proved.`,
      }),
      tooShort: (input) => ({
        title: `${input.subject}: the supplied hose is too short`,
        why: `The way that was found is longer. The bound is ${mm(input.data.lowerBoundM)}: a shorter way may exist.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject}: the supplied hose reaches`,
        why: `${mm(input.data.suppliedM)} are supplied.`,
      }),
    },
    cannotTell: {
      noRun: (input) => ({ title: `${input.subject}: does the supplied hose reach?`, why: 'It has no run yet.' }),
      notRouted: (input) => ({ title: `${input.subject}: does the supplied hose reach?`, why: 'It has no run yet.' }),
    },
  },
  'water/suction-crest': {
    fail: {
      trapsAir: ({ subject, data }) => ({
        title: `${subject} traps air at its high point`,
        why: `The hose climbs to ${mm(data.heightM)} above the water (${word(data.state)}, ${heel(data)}) and falls again. Air gathers there and the pump loses its prime.`,
      }),
      thingTrapsAir: ({ subject, data }) => ({
        title: `${subject} is a high point that cannot be bled`,
        why: `It stands ${mm(data.heightM)} above the water (${word(data.state)}, ${heel(data)}) and the way falls on both sides. Air gathers in it and the pump loses its prime.`,
      }),
      bleedHere: ({ subject, data }) => ({
        title: `Bleed ${subject} at its high point`,
        why: `The high point lies ${mm(-number(data.heightM))} below the water (${word(data.state)}, ${heel(data)}): it fills by itself once it is bled.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} traps no air`, why: 'It rises or falls steadily.' }) },
    cannotTell: {
      bleedsUnknown: ({ subject, data }) => ({
        title: `Can ${subject} be bled?`,
        why: `It is a high point of the suction way: ${mm(data.trappedM)} above the lowest points on both sides.`,
      }),
      noRun: ({ subject }) => ({ title: `${subject}: does it trap air?`, why: 'It has no run yet.' }),
    },
  },
  'water/filter-order': {
    fail: {
      noStrainer: ({ subject, data }) => ({
        title: `No strainer before ${subject}`,
        why: `On the way of the sea water: ${word(data.order)}.`,
      }),
      beforeStrainer: ({ data }) => ({
        title: `${word(data.thing)} stands before the strainer`,
        why: `On the way of the sea water: ${word(data.order)}. Weed and grit reach it unstrained.`,
      }),
      fineBeforeCoarse: ({ data }) => ({
        title: `${word(data.thing)} stands before a coarser filter`,
        why: `On the way of the sea water: ${word(data.order)}. The fine cartridge clogs first and the coarse one does nothing.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} gets strained and filtered water`,
        why: `${word(data.order)}.`,
      }),
    },
    cannotTell: {
      noMicron: ({ subject, finding, name }) => ({
        title: `Does ${subject} get its water in the right order?`,
        why: `How fine ${finding.related.map(name).join(' and ')} is was not entered.`,
      }),
      noWayFromSea: ({ subject }) => ({
        title: `Where does ${subject} get its water?`,
        why: 'No line leads from an intake to it.',
      }),
    },
  },
  'power/motor-voltage': {
    fail: {
      tooFewVolts: ({ subject, data }) => ({ title: `${subject} gets too few volts`, why: voltWords(data) }),
    },
    pass: { pass: ({ subject, data }) => ({ title: `${subject} gets its volts`, why: voltWords(data) }) },
    cannotTell: {
      noCurrent: ({ subject }) => ({
        title: `How many volts does ${subject} get?`,
        why: 'The current that it draws was not entered.',
      }),
      noSource: ({ subject }) => ({
        title: `What feeds ${subject}?`,
        why: 'No cable leads from it to a source with a voltage.',
      }),
      noReturn: ({ subject }) => ({
        title: `How does the current of ${subject} return?`,
        why: 'Only one conductor is drawn.',
      }),
      noArea: ({ subject }) => ({ title: `How many volts does ${subject} get?`, why: 'A cable has no copper area.' }),
      noRun: ({ subject }) => ({ title: `How many volts does ${subject} get?`, why: 'A cable has no run yet.' }),
    },
  },
  'hull/compartment-overlap': {
    fail: {
      shareSpace: ({ subject, data, name, finding }) => ({
        title: `${subject} and ${name(word(data.other))} share space`,
        why: `They overlap by ${finding.outcome === 'fail' ? mm(finding.measured.value) : ''}. Draw the border between them: runs and parts there belong to neither.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} keeps to itself`, why: '' }) },
  },
  'hull/panel-record': {
    pass: { pass: ({ subject }) => ({ title: `${subject} finds its panel`, why: '' }) },
    cannotTell: {
      noSuchPair: (input) => ({
        title: `${lostRecord(input)} finds no panel`,
        why: 'The two compartments that it names have no face in common.',
      }),
      tooFar: (input) => ({
        title: `${lostRecord(input)} finds no panel`,
        why: 'Its point lies more than 300 mm from every panel of that pair.',
      }),
      takenByNearer: (input) => ({
        title: `${lostRecord(input)} finds its panel taken`,
        why: 'Another record lies nearer to the same panel.',
      }),
    },
  },
  'hull/seacock': {
    fail: {
      noSeacock: ({ data }) => ({
        title: `${word(data.joint)}: no seacock`,
        why: `It lies ${mm(data.depthM)} under ${heel(data)}, and cannot be shut.${number(data.lines) > 0 ? ` ${word(data.lines)} lines behind it stay open to the sea.` : ''} Holes below the waterline: follow local codes and have the work checked.`,
      }),
      outOfReach: ({ data }) => ({
        title: `${word(data.valve)} is out of reach`,
        why: `It must be shut by hand when ${word(data.joint)} lets go (${mm(data.depthM)} under ${heel(data)}). The nearest opening is ${word(data.opening)}.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} can be shut off`,
        why: data.opening
          ? `${word(data.valve)} is reached through ${word(data.opening)}.`
          : `${word(data.valve)} is at hand.`,
      }),
    },
    cannotTell: {
      noOpening: ({ data }) => ({
        title: `How is ${word(data.valve)} reached?`,
        why: 'No opening is drawn into its compartment.',
      }),
      valveNowhere: ({ data }) => ({ title: `How is ${word(data.valve)} reached?`, why: 'It is in no compartment.' }),
    },
  },
};

function voltWords(data: SayInput['data']): string {
  return `${digits(number(data.amperes), 0)} A over ${digits(number(data.lengthM), 1)} m of copper, out and back with the ends, lose ${digits(number(data.lostV), 2)} V of ${digits(number(data.sourceV), 1)} V (${digits(number(data.share) * 100, 1)} %, at most ${digits(number(data.leastShare) * 100, 0)} %), with ${digits(number(data.ohmMm2PerM), 4)} ohm mm² per metre.`;
}

const lostRecord = ({ subject, data }: SayInput): string =>
  `${data.what === 'newHole' ? 'New hole' : 'Panel record'} ${subject}`;
