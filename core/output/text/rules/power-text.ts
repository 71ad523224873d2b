import type { Finding } from '../../../rules/finding';
import { digits } from '../quantity-text';
import { number, type RuleWords, type SayInput, word } from '../say';
import { CABLE_TEXT } from './cable-text';

/** Words of the rules about power. */
export const POWER_TEXT: Readonly<Record<string, RuleWords>> = {
  ...CABLE_TEXT,
  'power/ignition': {
    compared: (finding, length) =>
      finding.measured.unit === 'count'
        ? ''
        : finding.limit.value === 0
          ? `${length(finding.measured.value)} of it inside`
          : `${length(finding.measured.value)} away, at least ${length(finding.limit.value)}`,
    fail: {
      sparks: ({ subject, data, name }) => ({
        title: `${subject} can spark in ${name(word(data.home))}`,
        why: `${gasWords(data, name)} Move it to a space that gas cannot reach, or fit one that is built not to ignite vapour.`,
      }),
      joint: ({ subject, data, name }) => ({
        title: `${subject} has a cable joint in ${name(word(data.home))}`,
        why: `${gasWords(data, name)} A joint that works loose sparks. Move it out, or lead the cable through without a joint.`,
      }),
      inZone: ({ subject, data, name }) => ({
        title: `${subject} is too near to ${name(word(data.gas))}`,
        why: 'Gas may be about there: nothing that sparks, and no cable joint. Move it farther off.',
      }),
      throughBottles: ({ subject, data, name }) => ({
        title: `${subject} runs through ${name(word(data.locker))}`,
        why: 'Where bottles stand nothing passes but what belongs to the gas: a hole for it lets gas into the boat. Lead it round.',
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({ title: `${subject} keeps off ${name(word(data.gas))}`, why: '' }),
    },
    cannotTell: {
      brushesUnknown: ({ subject, finding, name }) => ({
        title: `Can ${subject} spark?`,
        why: `Gas or petrol vapour may be about it (${finding.related.map(name).join(', ')}), and nobody says whether it has brushes.`,
      }),
    },
  },
  'power/compass-parts': {
    fail: {
      tooNear: ({ subject, data, name }) => ({
        title: `${subject} stands too near to ${name(word(data.compass))}`,
        why: 'Its magnets turn the needle, more while it runs. Move it, and check the compass with it in its place, at rest and running.',
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({ title: `${subject} keeps off ${name(word(data.compass))}`, why: '' }),
    },
  },
  'power/battery-place': {
    compared: (finding, length) =>
      finding.measured.unit === 'count'
        ? ''
        : `${length(finding.measured.value)}, ${finding.limit.bound === 'atLeast' ? 'at least' : 'at most'} ${length(finding.limit.value)}`,
    fail: {
      gives: ({ subject }) => ({
        title: `${subject} is not held firmly`,
        why: 'Pulled with twice its weight it gives more than it may. In a knockdown it breaks loose and shorts. Strap it to something that is bolted to the boat.',
      }),
      loose: ({ subject }) => ({
        title: `${subject} is loose`,
        why: 'In a knockdown it breaks loose and shorts. Strap it against twice its weight in any direction.',
      }),
      inWater: ({ subject, data, name }) => ({
        title: `${subject} stands in bilge water`,
        why: `Water in ${name(word(data.home))} is expected to stand above its bottom. Set it higher.`,
      }),
      noVent: ({ subject, data, name }) => ({
        title: `${subject} has no air`,
        why: `Flooded cells give off hydrogen while they are charged, and ${name(word(data.home))} has no vent. Lead a vent from its highest point outboard.`,
      }),
      overFuel: ({ subject, data, name }) => ({
        title: `${subject} stands ${data.isAbove ? 'below' : 'above'} ${name(word(data.fuel))}`,
        why: 'Fuel that leaks meets its posts, or its acid meets the fuel. Neither may stand above the other: move one of them aside.',
      }),
      fuelMetal: ({ subject, data, name }) => ({
        title: `Bare metal of ${name(word(data.fuel))} is close to ${subject}`,
        why: 'A spanner that slips joins it to a post. Cover the metal with something that insulates, or move the battery.',
      }),
    },
    pass: {
      pass: ({ subject, finding, data, name }) => ({
        title: finding.key.endsWith('held')
          ? `${subject} is held down`
          : finding.key.endsWith('dry')
            ? `${subject} stands dry`
            : finding.key.endsWith('aired')
              ? `${subject} is aired`
              : `${subject} is clear of ${name(word(data.fuel))}`,
        why: '',
      }),
    },
    cannotTell: {
      bilgeWaterUnknown: ({ subject, data, name }) => ({
        title: `Does ${subject} stand above the bilge water?`,
        why: `It stands in ${name(word(data.home))}. How high water is expected there was not entered.`,
      }),
      ventUnknown: ({ subject, data, name }) => ({
        title: `Does ${subject} get air?`,
        why: `Flooded cells give off hydrogen while they are charged, and the vents of ${name(word(data.home))} were not entered.`,
      }),
    },
  },
  'power/cool': {
    fail: {
      tooWarm: ({ subject, data, name }) => ({
        title: `${name(word(data.home))} gets too warm for ${subject}`,
        why: `${airWords(data)} Cut vents low and high, lead the air out, or move it.`,
      }),
      byHot: ({ subject, data, name }) => ({
        title: `${subject} stands close to ${name(word(data.hot))}`,
        why: 'What the engine gives off ages a motor and its hoses. Move it farther off, or put a shield between that air can pass.',
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: data.hot
          ? `${subject} stands off ${name(word(data.hot))}`
          : `${name(word(data.home))} stays cool enough for ${subject}`,
        why: data.hot ? '' : `${data.isAnyDay ? 'Even on the hottest day. ' : ''}${airWords(data)}`,
      }),
    },
    cannotTell: {
      noGreatest: ({ subject, data }) => ({
        title: `How warm may it get about ${subject}?`,
        why: `The hottest surroundings that it stands were not entered. ${airWords(data)}`.trim(),
      }),
      noHeat: ({ subject, data, name }) => ({
        title: `How warm does ${name(word(data.home))} get with ${subject}?`,
        why: 'The heat that it gives off was not entered. About a third of what a set of direct current draws stays in its locker.',
      }),
      noSummer: ({ subject, data, name }) => ({
        title: `Does ${name(word(data.home))} stay cool enough for ${subject}?`,
        why: `How warm it gets on a hot day while nothing runs was not entered. ${airWords(data)}`.trim(),
      }),
    },
  },
  'power/day-budget': {
    fail: {
      lessWater: ({ subject, data }) => ({
        title: `There is too little power for ${digits(number(data.waterLDay), 0)} L a day`,
        why: `${budgetWords(data)} It is enough for ${digits(number(data.fittingL), 0)} L a day: ${subject} for ${hoursText(number(data.hours) * share(data))}, or a smaller set of ${digits(number(data.fittingLH), 0)} L/h, as thrifty, for ${hoursText(number(data.hours))}. More sun, a larger bank, a set that recovers energy, or fewer litres.`,
      }),
      none: ({ data }) => ({
        title: 'There is no power to spare for making water',
        why: `${budgetWords(data)} ${number(data.availableAh) > 0 ? 'What is left does not even pay for the flush.' : 'What else draws current takes it all.'} The honest answer is no set, or more sun and a larger bank first.`,
      }),
      tooSlow: ({ subject, data }) => ({
        title: `${subject} makes too little in ${hoursText(number(data.runHoursDay))} a day`,
        why: `${digits(number(data.productLH), 0)} L/h${number(data.flushL) > 0 ? `, of which the flush drinks ${digits(number(data.flushL), 0)} L a day` : ''}. It would have to run ${hoursText(number(data.hours))}: a larger set, or fewer litres.`,
      }),
    },
    pass: {
      pass: ({ subject, data, finding }) => ({
        title: finding.key.endsWith('hours')
          ? `${subject} makes what is wanted in time`
          : `There is power enough for ${digits(number(data.waterLDay), 0)} L a day`,
        why: finding.key.endsWith('hours') ? `${hoursText(number(data.hours))} a day.` : budgetWords(data),
      }),
    },
    cannotTell: {
      noProduct: ({ subject }) => ({
        title: 'Is there power enough for the water?',
        why: `What ${subject} makes an hour was not entered.`,
      }),
      noCurrent: ({ subject }) => ({
        title: 'Is there power enough for the water?',
        why: `The current of ${subject} was not entered.`,
      }),
      noCapacity: () => ({
        title: 'Is there power enough for the water?',
        why: 'The capacity of the bank that feeds the set is not known.',
      }),
      noChemistry: () => ({
        title: 'Is there power enough for the water?',
        why: 'How much of the bank may be used hangs on its kind, which was not entered.',
      }),
      noVoltage: () => ({
        title: 'Is there power enough for the water?',
        why: 'Watts of the sun become ampere-hours by the voltage of the bank, which was not entered.',
      }),
    },
  },
  'power/data-sheet': {
    fail: {
      fromFeed: ({ subject, data, finding }) => ({
        title: `${subject}: ask for the feed flow`,
        why: `${digits(number(data.productLH), 0)} L/h out of ${digits(number(data.feedLMin), 1)} L/min needs ${recoveryWords(finding, data)}.`,
      }),
      fromPower: ({ subject, data, finding }) => ({
        title: `${subject}: ask how it makes so much with so little current`,
        why: `${digits(number(data.watts), 0)} W bring at most ${digits(number(data.feedLMin), 1)} L/min to ${digits(number(data.pressureBar), 0)} bar; ${digits(number(data.productLH), 0)} L/h out of that (${digits(number(data.whPerL), 1)} Wh/L) needs ${recoveryWords(finding, data)}. A set that recovers energy can: then say so.`,
      }),
    },
    pass: {
      pass: ({ subject, finding }) => ({
        title: finding.key.endsWith('feed')
          ? `Product and feed of ${subject} go together`
          : `Product and current of ${subject} go together`,
        why: '',
      }),
    },
  },
  'power/isolator': {
    compared: (finding, length) =>
      finding.measured.unit === 'count'
        ? ''
        : `${length(finding.measured.value)} away, at most ${length(finding.limit.value)}`,
    fail: {
      none: ({ subject }) => ({
        title: `Nothing shuts ${subject} off`,
        why: 'No breaker or switch is drawn between it and its source. Whoever works on it must be sure that nobody starts it.',
      }),
      tooFar: ({ subject, data, name }) => ({
        title: `What shuts ${subject} off is out of reach`,
        why: `${name(word(data.isolator))} is nearest, in another space. Fit a breaker or switch close by, or one that can be locked.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} can be shut off from close by`,
        why: `By ${name(word(data.isolator))}.`,
      }),
    },
  },
  'power/mains': {
    pass: { pass: ({ subject }) => ({ title: `${subject} runs on direct current of low voltage`, why: '' }) },
    cannotTell: {
      mains: ({ subject }) => ({
        title: `The supply of ${subject} is for an electrician`,
        why: 'It runs on alternating current, or on a voltage that kills. Nothing here judges earthing, residual-current devices and cables of that.',
      }),
      engine: ({ subject }) => ({
        title: `The drive of ${subject} is for a mechanic`,
        why: 'It hangs on the engine. Nothing here judges brackets, guards and the side load of its belt.',
      }),
    },
  },
};

const gasWords = (data: SayInput['data'], name: SayInput['name']): string => {
  const from = word(data.from);
  const why =
    data.why === 'bottles'
      ? `gas bottles stand in ${name(from)}`
      : data.why === 'petrol'
        ? `there is petrol in ${name(from)}`
        : `gas or petrol vapour can get into ${name(from)}`;
  return `${why.charAt(0).toUpperCase()}${why.slice(1)}${from === data.home ? '' : ', and it is open to that'}.`;
};

function airWords(data: SayInput['data']): string {
  if (data.by === 'measured') return 'As measured.';
  const rise = `${digits(number(data.riseK), 1)} K warmer while the set runs`;
  if (data.by === 'measuredRise') return `It gets ${rise}, as measured.`;
  const vents = number(data.ventAreaM2) > 0 ? `vents of ${digits(number(data.ventAreaM2) * 1e4, 0)} cm²` : 'no vents';
  return `It gets ${rise}: ${digits(number(data.heatW), 0)} W, ${digits(number(data.wallWK), 1)} W/K through its sides, ${vents}.`;
}

const share = (data: SayInput['data']): number => Math.max(0, number(data.availableAh)) / number(data.setAh);

const hoursText = (hours: number): string => `${digits(hours, 1)} h`;

function budgetWords(data: SayInput['data']): string {
  const gains = [
    ['bank', data.bankAh],
    ['sun', data.solarAh],
    ['other charge', data.chargeAh],
  ].flatMap(([from, ah]) => (number(ah) > 0 ? [`${digits(number(ah), 0)} Ah from the ${word(from)}`] : []));
  const others = number(data.otherAh) > 0 ? ` Everything else takes ${digits(number(data.otherAh), 0)} Ah.` : '';
  return `${digits(number(data.litres), 0)} L at ${digits(number(data.productLH), 0)} L/h take ${hoursText(number(data.hours))} and ${digits(number(data.setAh), 0)} Ah a day. There are ${gains.join(', ') || 'none'} a day.${others}`;
}

const recoveryWords = (finding: Finding, data: SayInput['data']): string =>
  finding.outcome === 'fail'
    ? `${digits(finding.measured.value * 100, 0)} % of the feed to come out fresh, above the usual ${digits(finding.limit.value * 100, 0)} % of ${number(data.elements) === 1 ? 'one membrane' : `${digits(number(data.elements), 0)} membranes`}`
    : '';
