import type { Finding } from '../../rules/finding';
import { BIND_WITHIN_M } from '../../shape/layout/bind';
import type { Orphan } from '../../shape/layout/types';
import { BLOCKED_TEXT } from './blocked-text';
import { digits } from './quantity-text';
import { blocker, counted, mm, number, type RuleWords, type Say, type SayInput, word } from './say';
import { taskText } from './schema-words';
import { WISH_TEXT } from './wish-text';

/** `upright`, `heeled 20° to port` */
const heel = (data: SayInput['data']): string =>
  data.down === 'port' || data.down === 'starboard'
    ? `heeled ${digits(number(data.heelDeg), 0)}° to ${data.down}`
    : 'upright';
/** The part of a crest that the ports force; nothing where they force none. Ends in a space. */
const forced = (data: SayInput['data']): string =>
  data.forcedM === undefined
    ? ''
    : `The ${data.forcedRole === 'in' ? 'inlet' : data.forcedRole === 'out' ? 'outlet' : 'port'} of ${word(data.forcedBy)} faces up: ${mm(data.forcedM)} cannot be avoided by any run. Turn that port. `;
const TRIED: Readonly<Record<string, string>> = {
  straight: 'straight',
  turnedInPlane: 'turned in the plane of the opening',
  tilted: 'tilted',
};

/** Words of every rule, by outcome and reason. */
export const RULE_TEXT: Readonly<Record<string, RuleWords>> = {
  ...WISH_TEXT,
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
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} passes every opening to its place`,
        why: `Tightest at ${blocker(input)}, ${mm(input.data.spareM)} to spare${input.data.how === 'tilted' ? ' when it is put in tilted' : ''}.`,
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
        why: `No way of turning it was found, nor a proof that there is none. Tried: ${word(input.data.tried)
          .split(', ')
          .map((way) => TRIED[way] ?? way)
          .join(', ')}.`,
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
  'runs/blocked': BLOCKED_TEXT,
  'runs/pinned': {
    compared: (finding, length) =>
      finding.outcome === 'pass'
        ? `${length(finding.measured.value)} clear where it passes nearest`
        : typeof finding.data.byM === 'number'
          ? length(finding.data.byM)
          : '',
    fail: {
      endOff: ({ subject, data, obstacle }) => ({
        title: `${subject} as built no longer meets ${obstacle(word(data.blocker))}`,
        why: `Its end is ${mm(data.byM)} off the port. Bring the part back, pin the run anew, or let it be routed.`,
      }),
      endTurned: ({ subject, data, obstacle }) => ({
        title: `${subject} as built leaves ${obstacle(word(data.blocker))} askew`,
        why: `The port looks another way than the hose leaves it: ${mm(data.byM)} aside at its end. Turn the part back, pin the run anew, or let it be routed.`,
      }),
      lead: ({ subject, data, obstacle }) => ({
        title: `${subject} as built bends too soon at ${obstacle(word(data.blocker))}`,
        why: `${mm(data.byM)} more must stay straight before the first bend.`,
      }),
      bend: ({ subject, data }) => ({
        title: `${subject} as built bends too tightly`,
        why: `Its tightest bend is ${mm(data.byM)} below the least radius of its kind.`,
      }),
      clearance: (input) => ({
        title: `${input.subject} as built meets ${blocker(input)}`,
        why: `${mm(input.data.byM)} more room is needed.`,
      }),
      outside: ({ subject }) => ({
        title: `${subject} as built leaves what is drawn`,
        why: 'Part of it lies in no compartment, or in one that it must not enter.',
      }),
      hole: (input) => ({
        title: `${input.subject} as built does not fit its hole`,
        why: `The hole in ${blocker(input)} is ${mm(input.data.byM)} too small, or as far beside it.`,
      }),
      noDrill: (input) => ({
        title: `${input.subject} as built passes ${blocker(input)} without a hole`,
        why: 'That panel must not be drilled, and no hole is recorded there. Enter the hole, or pin the run anew.',
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} fits as built`,
        why: `${mm(data.lengthM)}, kept as it is.`,
      }),
    },
  },
  'runs/supplied-length': {
    fail: {
      cannotReach: (input) => ({
        title: `No run of ${input.subject} is as short as the supplied hose`,
        why: `No run is shorter than ${mm(input.data.lowerBoundM)}. ${mm(input.data.suppliedM)} is supplied, of which ${mm(input.data.spareM)} must stay spare. Proved for the boat as drawn.`,
      }),
      tooShort: (input) => ({
        title: `Supplied hose is too short for the run of ${input.subject}`,
        why: `The shortest run that was found takes ${mm(input.finding.outcome === 'fail' ? input.finding.measured.value : 0)}; ${mm(number(input.data.suppliedM) - number(input.data.spareM))} may be used. No run is shorter than ${mm(input.data.lowerBoundM)}: one between the two was not found, and may exist.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `Supplied hose is long enough for ${input.subject}`,
        why: `${mm(input.data.suppliedM)} is supplied, of which ${mm(input.data.spareM)} stays spare.`,
      }),
    },
    cannotTell: {
      noRun: (input) => ({
        title: `Is the supplied hose long enough for ${input.subject}?`,
        why: 'It has no run yet.',
      }),
      notRouted: (input) => ({
        title: `Is the supplied hose long enough for ${input.subject}?`,
        why: 'It has no run yet.',
      }),
    },
  },
  'runs/twist': {
    fail: {
      twoPlanes: (input) => ({
        title: `${input.subject} is wrung: it bends in two planes between fixed ends`,
        why: 'Neither end turns, so the hose twists when it is tightened and works loose at a ferrule. Take a swivel at one end, or clamp it between the two bends (a clip point counts).',
      }),
    },
    pass: {
      pass: (input) => ({
        title: `${input.subject} bends in one plane`,
        why: 'Both its ends are fixed, and nothing wrings it between them.',
      }),
    },
    cannotTell: {
      noRun: (input) => ({ title: `Is ${input.subject} wrung between its ends?`, why: 'It has no run yet.' }),
      notRouted: (input) => ({ title: `Is ${input.subject} wrung between its ends?`, why: 'It has no run yet.' }),
    },
  },
  'water/suction-crest': {
    fail: {
      trapsAir: ({ subject, data }) => ({
        title: `${subject} traps air at its high point`,
        why: `The hose climbs to ${mm(data.heightM)} above the water (${word(data.state)}, ${heel(data)}) and falls again. Air gathers there and the pump loses its prime. ${forced(data)}Lead it lower, or let it be bled there.`,
      }),
      thingTrapsAir: ({ subject, data }) => ({
        title: `${subject} is a high point that cannot be bled`,
        why: `It stands ${mm(data.heightM)} above the water (${word(data.state)}, ${heel(data)}) and the hoses fall on both sides. Air gathers in it and the pump loses its prime. Set it lower, or fit a bleed.`,
      }),
      bleedHere: ({ subject, data }) => ({
        title: `Bleed ${subject} at its high point`,
        why: `The high point lies ${mm(-number(data.heightM))} below the water (${word(data.state)}, ${heel(data)}): it fills by itself once it is bled.${data.forcedM === undefined ? '' : ' '}${forced(data).trimEnd()}`,
      }),
    },
    pass: {
      pass: ({ subject }) => ({ title: `${subject} traps no air`, why: 'It has no high point that would hold air.' }),
    },
    cannotTell: {
      bleedsUnknown: ({ subject, data }) => ({
        title: `Can ${subject} be bled?`,
        why: `It is a high point of the suction, ${mm(data.trappedM)} above the higher of the lowest points before and behind it.`,
      }),
      noRun: ({ subject }) => ({ title: `Does ${subject} trap air?`, why: 'It has no run yet.' }),
    },
  },
  'water/filter-order': {
    compared: () => '',
    fail: {
      noStrainer: ({ subject, data, finding }) => ({
        title: `No strainer before ${subject}`,
        why: `${seaOrder(data)}${inAll(finding)}`,
      }),
      beforeStrainer: ({ data, finding }) => ({
        title: `${word(data.thing)} stands before the strainer`,
        why: `${seaOrder(data)} Weed and grit reach it unstrained.${inAll(finding)}`,
      }),
      fineBeforeCoarse: ({ data, finding }) => ({
        title: `${word(data.thing)} stands before a coarser filter`,
        why: `${seaOrder(data)} The fine cartridge clogs first and the coarse one does nothing.${inAll(finding)}`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `Strainer and filters before ${subject} stand in order`,
        why: seaOrder(data),
      }),
    },
    cannotTell: {
      noMicron: ({ subject, finding, name }) => ({
        title: `Do the filters before ${subject} stand in order?`,
        why: `Micron rating not entered: ${finding.related.map(name).join(', ')}.`,
      }),
      noWayFromSea: ({ subject }) => ({
        title: `Where does ${subject} get its water?`,
        why: 'No line leads from an intake to it.',
      }),
    },
  },
  'power/motor-voltage': {
    fail: {
      tooFewVolts: ({ subject, data }) => ({
        title: `Too little voltage at ${subject}`,
        why: `${voltWords(data)} Fit thicker cable, or shorten it.`,
      }),
    },
    pass: { pass: ({ subject, data }) => ({ title: `Voltage at ${subject} is enough`, why: voltWords(data) }) },
    cannotTell: {
      noCurrent: ({ subject }) => ({
        title: `Does ${subject} get enough voltage?`,
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
      noArea: ({ subject }) => ({ title: `Does ${subject} get enough voltage?`, why: 'A cable has no copper area.' }),
      noRun: ({ subject }) => ({ title: `Does ${subject} get enough voltage?`, why: 'A cable has no run yet.' }),
    },
  },
  'hull/compartment-overlap': {
    fail: {
      shareSpace: ({ subject, data, name, finding }) => ({
        title: `${subject} and ${name(word(data.other))} share space`,
        why: `They overlap by ${finding.outcome === 'fail' ? mm(finding.measured.value) : ''}. Draw the border between them: runs and parts there belong to neither.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} overlaps no other compartment`, why: '' }) },
  },
  'hull/panel-record': {
    pass: { pass: ({ subject }) => ({ title: `${subject} belongs to its panel`, why: '' }) },
    cannotTell: {
      noSuchPair: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: 'The two compartments that it names have no face in common.',
      }),
      tooFar: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: `Its point lies more than ${mm(BIND_WITHIN_M)} from every panel of that pair.`,
      }),
      setAside: (input) => ({
        title: `${lostRecord(input)} belongs to no panel`,
        why: 'Its compartments were merged or deleted. Bind it to a panel in Compartments, or remove it.',
      }),
      openPanel: (input) => ({
        title: `${lostRecord(input)} is planned in an open panel`,
        why: 'A hose passes there without a hole. Remove it, or say that the panel is to be drilled.',
      }),
      takenByNearer: (input) => ({
        title: `${lostRecord(input)}: its panel is taken`,
        why: 'Another record lies nearer to the same panel.',
      }),
    } satisfies Record<Orphan['reason'], Say>,
  },
  'hull/seacock': {
    fail: {
      noSeacock: ({ data }) => ({
        title: `No seacock at ${word(data.joint)}`,
        why: `It lies ${mm(data.depthM)} under water, ${heel(data)}, and cannot be shut off.${number(data.lines) > 0 ? ` ${counted(number(data.lines), 'line behind it stays', 'lines behind it stay')} open to the sea.` : ''} Holes below the waterline: follow local codes and have the work checked.`,
      }),
      outOfReach: ({ data }) => ({
        title: `${word(data.valve)} is out of reach`,
        why: `It lies ${mm(data.depthM)} under water, ${heel(data)}, and must be shut by hand at once when a joint lets go. The nearest opening is ${word(data.opening)}.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: data.dry ? `${subject} stays above the water` : `${subject} can be shut off`,
        why: data.dry
          ? `${word(data.joint)} has no valve. It is dry at the greatest heel, but not by much.`
          : data.opening
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
  const lost = `${digits(number(data.lostV), 2)} V of ${digits(number(data.sourceV), 1)} V`;
  const share = `${digits(number(data.share) * 100, 1)} %, at most ${digits(number(data.leastShare) * 100, 0)} %`;
  return `${digits(number(data.amperes), 0)} A through ${digits(number(data.lengthM), 1)} m of copper, out and back with the ends, loses ${lost} (${share}). Resistivity taken: ${digits(number(data.ohmMm2PerM), 4)} Ω mm²/m.`;
}

const seaOrder = (data: SayInput['data']): string => `On the way of the sea water: ${word(data.order)}.`;
/** The first fault of order has the title; how many there are. */
const inAll = (finding: Finding): string =>
  finding.outcome === 'fail' && finding.measured.value > 1
    ? ` ${digits(finding.measured.value, 0)} faults of order in all.`
    : '';

const lostRecord = ({ subject, data }: SayInput): string =>
  `${data.what === 'newHole' ? 'New hole' : 'Panel record'} ${subject}`;
