import type { Finding } from '../../../rules/finding';
import { comparedText, digits } from '../quantity-text';
import {
  counted,
  heel,
  mm,
  NO_RUN_YET,
  number,
  type RuleWords,
  type Said,
  type SayInput,
  TOO_MANY_VALVES,
  word,
} from '../say';
import { MADE_WATER_TEXT } from './made-water-text';

const noRun = (question: (subject: string) => string): Readonly<Record<'noRun', (input: SayInput) => Said>> => ({
  noRun: ({ subject }) => ({ title: question(subject), why: NO_RUN_YET }),
});

/** The part of a crest that the ports force; nothing where they force none. Ends in a space. */
const forced = (data: SayInput['data']): string =>
  data.forcedM === undefined
    ? ''
    : `The ${data.forcedRole === 'in' ? 'inlet' : data.forcedRole === 'out' ? 'outlet' : 'port'} of ${word(data.forcedBy)} faces up: ${mm(data.forcedM)} cannot be avoided by any run. Turn that port. `;

/** Words of the rules about the water: what is drawn and pressed, and how its runs lie. */
export const WATER_TEXT: Readonly<Record<string, RuleWords>> = {
  ...MADE_WATER_TEXT,
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
      noRun: ({ subject }) => ({ title: `Does ${subject} trap air?`, why: NO_RUN_YET }),
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
  'water/over-electrics': {
    fail: {
      above: ({ subject, data }) => ({
        title: `${subject} runs above ${word(data.electrics)}`,
        why: 'A leak drips on open terminals. Lead it round, or cover the electrics so that drips run off.',
      }),
      beside: ({ subject, data }) => ({
        title: `${subject} runs close beside ${word(data.electrics)}`,
        why: `It passes ${mm(data.asideM)} aside and higher up: a leak may drip or spray on open terminals. Lead it round, or cover the electrics.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} keeps away from open electrics`,
        why: `${word(data.electrics)} is nearest.`,
      }),
    },
    cannotTell: {
      drips: ({ subject, finding, name }) => ({
        title: `May ${subject} drip on ${finding.related.map(name).join(', ')}?`,
        why: 'It runs above or close beside it. Nobody says how well that stands water from above.',
      }),
    },
  },
  'water/drain-fall': {
    fail: {
      rises: ({ subject, data }) => ({
        title: `${subject} rises on its way`,
        why: `It climbs ${mm(data.backM)} after its lowest point before: water stays in it. Lead it lower, or move the outlet.`,
      }),
      tooLevel: ({ subject, data }) => ({
        title: `${subject} lies too level`,
        why: `A drain falls ${digits(number(data.leastFall) * 100, 0)} in 100 or more all the way.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} falls all the way`, why: '' }) },
    cannotTell: noRun((subject) => `Does ${subject} fall all the way?`),
  },
  'water/loop-rise': {
    fail: {
      tooLow: ({ subject }) => ({
        title: `${subject} does not rise high enough`,
        why: 'Its highest point stays below the height that was asked for: it may siphon. Add a clip point up there, or a loop.',
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} rises high enough`, why: '' }) },
    cannotTell: noRun((subject) => `Does ${subject} rise high enough?`),
  },
  'water/suction-pressure': {
    fail: {
      drawsTooHard: ({ subject, data }) => ({
        title: `${subject} has to draw too hard`,
        why: `${drawn(data)} ${data.isRated ? 'It is more than its rated lift.' : ''} Take a wider hose, a larger filter, or set the pump lower.`,
      }),
      tooLittleHead: ({ subject, data }) => ({
        title: `Too little head at the inlet of ${subject}`,
        why: `In warm water the pump needs more than is left: bubbles of steam eat it. ${drawn(data)}`,
      }),
    },
    pass: { pass: ({ subject, data }) => ({ title: `${subject} draws easily enough`, why: drawn(data) }) },
    cannotTell: {
      lossUnknown: ({ subject, data }) => ({
        title: `Does ${subject} draw easily enough?`,
        why: `With typical figures for what lacks its own it would not. ${drawn(data)}`,
      }),
      noBore: ({ subject }) => ({ title: `Does ${subject} draw easily enough?`, why: 'A hose has no bore.' }),
      ...noRun((subject) => `Does ${subject} draw easily enough?`),
    },
  },
  'water/vented-suction': {
    compared: () => '',
    fail: {
      drawsAir: ({ subject, finding, name }) => ({
        title: `${subject} lets air into the suction`,
        why: `Its vent opens whenever ${finding.related.map(name).join(', ')} is under suction, and the pump draws air. Take it out; a loop belongs on what is pushed.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} stands on no suction`, why: '' }) },
  },
  'water/isolated': {
    compared: (finding, length) =>
      finding.measured.unit === 'm' ? `${length(finding.measured.value)} under water` : '',
    fail: {
      openToSea: ({ subject, data }) => ({
        title: `${subject} cannot be shut off from the sea`,
        why: `It is opened ${mm(data.depthM)} under water, ${heel(data)}, and nothing between it and ${word(data.holes)} can be shut. Fit a seacock.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} can be opened`,
        why:
          word(data.holes) === ''
            ? 'A valve shuts it off from the sea.'
            : 'Where it is opened it stays above the water.',
      }),
    },
  },
  'water/intake-immersion': {
    fail: {
      dry: ({ subject, data }) => ({
        title: `${subject} comes out of the water`,
        why: `${word(data.state)}, ${heel(data)}: the pump draws air. Make water on the other tack, or use a deeper intake.`,
      }),
      shallow: ({ subject, data }) => ({
        title: `${subject} is only just under water`,
        why: `${word(data.state)}, ${heel(data)}: a chop lets it draw air.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} stays under water`,
        why: `It is shallowest in the state ${word(data.state)}, ${heel(data)}.`,
      }),
    },
  },
  'water/intake-apart': {
    fail: {
      foulAhead: ({ subject, data }) => ({
        title: `${word(data.other)} empties just ahead of ${subject}`,
        why: `${DISCHARGE_WORDS[word(data.what)] ?? 'What comes out'} is carried along that side into the intake while the set runs. Use another intake, or shut the outlet and hang a label on it while water is made.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({ title: `${subject} is far enough from ${word(data.other)}`, why: '' }),
    },
    cannotTell: {
      unknownOutlet: ({ subject, finding, name }) => ({
        title: `Does anything foul come out ahead of ${subject}?`,
        why: `${finding.related.map(name).join(', ')} lies just ahead of it on its side.`,
      }),
    },
  },
  'water/shared-intake': {
    compared: (finding) => (finding.measured.unit === 'count' ? '' : comparedText(finding.measured, finding.limit)),
    fail: {
      engineStarves: ({ subject, data }) => ({
        title: `The engine and the set take water from each other at ${subject}`,
        why: `${sharers(data)} One of them goes short: the engine goes hot, or the set draws air. Give the set an intake of its own, or make water with the engine stopped.`,
      }),
      shared: ({ subject, data }) => ({
        title: `${subject} is shared`,
        why: `${sharers(data)} Whoever draws harder leaves the other short: use one at a time, or take another intake.`,
      }),
    },
    pass: { pass: ({ subject, data }) => ({ title: `${subject} gives enough for all`, why: sharers(data) }) },
  },
  'water/runs-dry': {
    compared: () => '',
    fail: {
      noSetting: ({ subject, data }) => ({
        title: `No setting of the valves lets sea water to ${subject}`,
        why: `${word(data.valves)}: in none of their positions is there a way from an intake to it. Look which ports each position joins.`,
      }),
      backwards: ({ subject, data }) => ({
        title: `Something before ${subject} looks the wrong way`,
        why: `${word(data.valves)} holds the sea water back: the pump runs dry. Turn it round.`,
      }),
      dry: ({ subject, data }) => ({
        title: `${subject} runs dry in ${word(data.state)}`,
        why: `${word(data.valves)} lets no water to it, neither from the sea nor from a tank: its impeller is gone in a minute. Change how the valves stand in that state.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: data.state
          ? `${subject} gets water in ${word(data.state)}`
          : `The valves can be set so that ${subject} gets water`,
        why: '',
      }),
    },
  },
  'water/brine-backs-up': {
    fail: {
      backsUp: ({ subject, data }) => ({
        title: `Brine may come up in ${word(data.users) === '' ? 'the drain' : word(data.users)}`,
        why: `${subject} takes the brine too, and lies under water in the state ${word(data.state)}, ${heel(data)}. Let the brine in close to the hull, keep the basin high, or give the brine an outlet of its own.`,
      }),
    },
    pass: {
      pass: ({ subject }) => ({ title: `${subject} takes the brine above the water`, why: '' }),
    },
  },
  'water/dead-head': {
    compared: () => '',
    fail: {
      midLine: ({ subject, data }) => ({
        title: `${word(data.valves)} dead-heads ${subject}`,
        why: 'With that shut the pressure pump has no way out: within a second a hose or an end lets go. Take the valve out, or fit a relief valve before it.',
      }),
      hullShut: ({ subject, data }) => ({
        title: `${word(data.valves)} can be left shut when ${subject} starts`,
        why: 'A valve at the hull is right there, but the pressure pump then has no way out. Fit a relief, or hang a label on it and make opening it a step of the checklist.',
      }),
      shutInState: ({ subject, data }) => ({
        title: `${subject} runs against a shut valve in ${word(data.state)}`,
        why: `${word(data.valves)} leaves no way out while the pump runs. Open it in that state.`,
      }),
      backwards: ({ subject, data }) => ({
        title: `A check valve behind ${subject} looks the wrong way`,
        why: `Nothing gets past ${word(data.last)}: the pressure pump has no way out. Turn the valve round.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} always has a way out`,
        why:
          word(data.reliefs) === ''
            ? `${counted(number(data.tried), 'setting', 'settings')} of the valves behind it tried.`
            : `Relieved by ${word(data.reliefs)}.`,
      }),
    },
    cannotTell: {
      noWayOut: ({ subject }) => ({
        title: `Where does the water behind ${subject} get out?`,
        why: 'The lines behind it end before they are overboard.',
      }),
      tooMany: ({ subject }) => ({
        title: `Can the way out behind ${subject} be shut?`,
        why: TOO_MANY_VALVES,
      }),
    },
  },
  'water/line-rating': {
    compared: (finding) => (finding.measured.unit === 'count' ? '' : comparedText(finding.measured, finding.limit)),
    fail: {
      tooWeak: ({ subject, data }) => ({
        title: `${subject} does not bear the pressure of the set`,
        why: `${word(data.kind)} ${data.isNone ? 'is made for no pressure that anybody entered' : 'is made for less'}.${data.isTypical ? ' The set is taken to work at 55 bar.' : ''} Take a pressure hose.`,
      }),
      belowRelief: ({ subject, data }) => ({
        title: `${subject} does not bear what the relief of the set opens at`,
        why: `${word(data.kind)} bears the ${digits(number(data.worksBar), 0)} bar that the set works at. When a way out is blocked the pressure rises until the relief opens. Take a stronger hose, or a relief that opens earlier.`,
      }),
      collapses: ({ subject, data }) => ({
        title: `${subject} may collapse`,
        why: `${word(data.kind)} is not made for suction. Take hose with a helix.`,
      }),
      pushFit: ({ subject, data }) => ({
        title: `${subject} is push-fit tube on the suction`,
        why: `${word(data.kind)} lets go, or lets air in, where it is drawn on and below the water. Take suction hose on barbs with clamps.`,
      }),
      notPotable: ({ subject, data }) => ({
        title: `${subject} is not made for drinking water`,
        why: `${word(data.kind)} taints the water. Take hose or tube that is made for it.`,
      }),
      foulMetal: ({ data }) => ({
        title: `${word(data.metals)} on feed or made water`,
        why: 'It rots in sea water, and what it gives off fouls the membrane and the taste. Take plastic, bronze, brass that resists dezincing, or stainless steel 316.',
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} is made for what it carries`, why: '' }) },
    cannotTell: {
      suctionUnknown: ({ subject, data }) => ({
        title: `May ${subject} be drawn on?`,
        why: `Nobody says whether ${word(data.kind)} may be used on suction.`,
      }),
      potableUnknown: ({ subject, data }) => ({
        title: `May ${subject} carry drinking water?`,
        why: `Nobody says whether ${word(data.kind)} is made for it.`,
      }),
    },
  },
};

const DISCHARGE_WORDS: Readonly<Record<string, string>> = {
  head: 'What the head empties',
  sink: 'What the sink empties',
  exhaust: 'Soot and fuel of the exhaust',
  bilge: 'Bilge water',
};

const bars = (value: unknown): string => `${digits(number(value), 3)} bar`;

/** What the suction takes, and where. */
function drawn(data: SayInput['data']): string {
  const heightM = number(data.liftM);
  const lift =
    heightM >= 0
      ? `its inlet stands ${mm(heightM)} above the water (${word(data.state)}, ${heel(data)}): ${bars(data.liftBar)}`
      : `its inlet lies ${mm(-heightM)} below the water (${word(data.state)}, ${heel(data)}), which gives ${bars(-number(data.liftBar))}`;
  const typical = word(data.typical) === '' ? '' : ` Taken as typical: ${word(data.typical)}.`;
  return `At ${digits(number(data.flowLMin), 1)} L/min the way from the sea loses ${bars(data.lostBar)} with filters dirty, ${bars(data.cleanBar)} clean; ${lift}. Together it has to draw ${bars(number(data.lostBar) + number(data.liftBar))}. Lost, in bar: ${word(data.parts)}.${typical}`;
}

const sharers = (data: SayInput['data']): string =>
  `It also serves ${word(data.users)}.${
    typeof data.speedMS === 'number' ? ` All together draw ${digits(data.speedMS, 2)} m/s through its bore.` : ''
  }${word(data.lacks) === '' ? '' : ` What ${word(data.lacks)} draws was not entered.`}`;

const seaOrder = (data: SayInput['data']): string => `On the way of the sea water: ${word(data.order)}.`;
/** The first fault of order has the title; how many there are. */
const inAll = (finding: Finding): string =>
  finding.outcome === 'fail' && finding.measured.value > 1
    ? ` ${digits(finding.measured.value, 0)} faults of order in all.`
    : '';
