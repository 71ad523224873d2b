import type { Finding } from '../../../rules/finding';
import { digits } from '../quantity-text';
import { mm, number, type RuleWords, type SayInput, word } from '../say';

/** Words of the rules about power. */
export const POWER_TEXT: Readonly<Record<string, RuleWords>> = {
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
  'power/signal-apart': {
    fail: {
      tooNear: ({ subject, data, finding, name }) => ({
        title: `${subject} runs beside ${finding.related.map(name).join(', ')}`,
        why: `Within ${mm(data.withinM)} of it for long: what the power cable carries may be heard in it. Lead them apart and let them cross square.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} keeps apart from power cables`, why: '' }) },
    cannotTell: {
      noPowerRun: ({ subject }) => ({
        title: `Does ${subject} keep apart from power cables?`,
        why: 'No power cable has a run yet.',
      }),
    },
  },
  'power/near-compass': {
    fail: {
      tooNear: ({ subject, data }) => ({
        title: `${subject} disturbs ${word(data.compass)}`,
        why: compassWords(data),
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} leaves ${word(data.compass)} alone`,
        why: `${compassCurrent(data)} Check the compass with the pump running.`,
      }),
    },
    cannotTell: {
      noCurrent: ({ subject, data }) => ({
        title: `Does ${subject} disturb ${word(data.compass)}?`,
        why: `It passes ${mm(data.awayM)} from it, and the current in it was not entered.`,
      }),
    },
  },
  'power/fuse-distance': {
    compared: (finding, length) =>
      finding.measured.unit === 'count'
        ? 'no fuse'
        : `${length(finding.measured.value)} of cable, at most ${length(finding.limit.value)}`,
    fail: {
      noFuse: ({ subject, data, name }) => ({
        title: `${subject} has no fuse`,
        why: `Nothing is drawn between ${name(word(data.source))} and ${name(word(data.end))} that breaks a short circuit: the cable burns first. Fit a fuse as close to ${name(word(data.source))} as can be.`,
      }),
      tooFar: ({ subject, data, name }) => ({
        title: `The fuse is too far from ${name(word(data.source))} along ${subject}`,
        why: `What lies before ${name(word(data.device))} is protected by nothing${data.isSheathed ? ', though sheathed' : ''}. Bring the fuse closer${data.isSheathed ? '' : ', or lead the cable in a sheath or conduit all the way'}. ${lawWords(data)}`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} is fused close to its source`,
        why: `${name(word(data.device))} comes first${data.isSheathed ? '; the cable is sheathed all the way' : ''}.`,
      }),
    },
    cannotTell: {
      noFuseDrawn: ({ subject, data, name }) => ({
        title: `Does ${subject} have a fuse?`,
        why: `It is aboard already, and none is drawn between ${name(word(data.source))} and ${name(word(data.end))}.`,
      }),
    },
  },
  'power/fuse-size': {
    fail: {
      tooLarge: ({ subject, data, name }) => ({
        title: `${subject} is too large for ${name(word(data.line))}`,
        why: `${ampacityWords(data)} A fuse may be rated at ${digits(number(data.ampacityShare) * 100, 0)} % of that at most. Fit a smaller fuse, or thicker cable. ${lawWords(data)}`,
      }),
      tooSmall: ({ subject, data, name }) => ({
        title: `${subject} is too small for its load`,
        why: `${name(word(data.line))} carries more: it blows while the set runs. Fit a larger one that the cable still allows.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title:
          data.gauge === undefined ? `${subject} carries its load` : `${subject} protects ${name(word(data.line))}`,
        why: data.gauge === undefined ? '' : ampacityWords(data),
      }),
    },
    cannotTell: {
      noRating: ({ subject }) => ({ title: `Does ${subject} protect its cables?`, why: 'Its rating was not entered.' }),
      noArea: ({ subject, finding, name }) => ({
        title: `Does ${subject} protect its cables?`,
        why: `${finding.related.map(name).join(', ')} has no copper area.`,
      }),
      noInsulation: ({ subject, data, name }) => ({
        title: `Does ${subject} protect ${name(word(data.line))}?`,
        why: `That hangs on how hot the insulation may get. Gauge ${word(data.gauge)} with the best that is usual carries ${digits(number(data.ampacityA), 0)} A; with the poorest the fuse is too large.`,
      }),
    },
  },
  'power/fuse-interrupts': {
    fail: {
      cannotBreak: ({ subject, data, name }) => ({
        title: `${subject} cannot break a short circuit of ${name(word(data.source))}`,
        why: `${bankWords(data, name)} A fuse that cannot break that arcs on. Fit one with a higher interrupting rating, such as a high-rupture fuse, first behind the bank.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} breaks a short circuit of ${name(word(data.source))}`,
        why: bankWords(data, name),
      }),
    },
    cannotTell: {
      noInterrupting: ({ subject, data, name }) => ({
        title: `Can ${subject} break a short circuit of ${name(word(data.source))}?`,
        why: `${bankWords(data, name)} The current that the fuse can interrupt was not entered: it stands on its data sheet as interrupting or breaking capacity.`,
      }),
    },
  },
  'power/conductor-size': {
    fail: {
      tooThin: ({ subject, data, finding, name }) => ({
        title: `${subject} is too thin for its current`,
        why: `${gaugeWords(data)}${bundleWords(data, finding, name)} Fit thicker cable, or part the bundle. Voltage is judged apart.`,
      }),
    },
    pass: {
      pass: ({ subject, data, finding, name }) => ({
        title: `${subject} carries its current`,
        why: `${gaugeWords(data)}${bundleWords(data, finding, name)}`,
      }),
    },
    cannotTell: {
      noArea: ({ subject }) => ({ title: `Can ${subject} carry its current?`, why: 'Its kind has no copper area.' }),
      noInsulation: ({ subject, data }) => ({
        title: `Can ${subject} carry its current?`,
        why: `It counts as gauge ${word(data.gauge)}: with the best insulation that is usual it does, with the poorest it does not. How hot the insulation may get was not entered.`,
      }),
    },
  },
  'power/cable-support': {
    fail: {
      tooWide: ({ subject, data }) => ({
        title: `${subject} is clipped too seldom`,
        why: data.atBattery
          ? 'A cable at a battery is heavy, and nothing protects it yet: clip it closer.'
          : 'It swings and chafes between its clips: set them closer.',
      }),
      firstTooFar: ({ subject, finding, name }) => ({
        title: `${subject} hangs on the posts of ${finding.related.map(name).join(', ')}`,
        why: 'Nothing to fix a first clip to is drawn along that length: its weight works the terminal loose. Lead it along a wall, or fit a batten.',
      }),
    },
    pass: {
      pass: ({ subject, finding }) => ({
        title: finding.key.endsWith('first')
          ? `${subject} is held soon after the battery`
          : `${subject} is clipped often enough`,
        why: '',
      }),
    },
  },
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

const lawWords = (data: SayInput['data']): string =>
  data.isPetrol
    ? '33 CFR 183 binds: there is petrol aboard.'
    : '33 CFR 183 binds boats with petrol engines; on any other it is good practice.';

const ampacityWords = (data: SayInput['data']): string =>
  `It counts as gauge ${word(data.gauge)}, which carries ${digits(number(data.ampacityA), 0)} A with insulation for ${data.ratingC === null ? 'any usual temperature' : `${digits(number(data.ratingC), 0)} °C`}${data.engineSpace ? ' in an engine space' : ''}.`;

const gaugeWords = (data: SayInput['data']): string =>
  `${digits(number(data.areaMm2), 1)} mm² counts as gauge ${word(data.gauge)}${data.ratingC === null ? '' : ` with insulation for ${digits(number(data.ratingC), 0)} °C`}${data.engineSpace ? ', in an engine space' : ''}.`;

function bundleWords(data: SayInput['data'], finding: Finding, name: SayInput['name']): string {
  if (number(data.bundled) < 3) return '';
  const others = finding.related.map(name).join(', ');
  return ` ${digits(number(data.bundled), 0)} conductors lie in one bundle${others === '' ? '' : `, with ${others}`}, and heat one another.`;
}

const bankWords = (data: SayInput['data'], name: SayInput['name']): string =>
  `${name(word(data.source))} can drive ${data.isAssumed ? 'up to some ' : ''}${digits(number(data.shortCircuitA), 0)} A${data.isAssumed ? ': taken for a lithium bank of which nobody says more' : ''}.`;

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

/** A motor turns about as much slower as its voltage falls, and a pump that displaces gives as much less. */
const slowerWords = (data: SayInput['data']): string =>
  data.lostLH === undefined ? '' : ` The motor turns as much slower: about ${digits(number(data.lostLH), 1)} L/h less.`;

function voltWords(data: SayInput['data']): string {
  const lost = `${digits(number(data.lostV), 2)} V of ${digits(number(data.sourceV), 1)} V`;
  const share = `${digits(number(data.share) * 100, 1)} %, at most ${digits(number(data.leastShare) * 100, 0)} %`;
  return `${digits(number(data.amperes), 0)} A through ${digits(number(data.lengthM), 1)} m of copper, out and back with the ends, loses ${lost} (${share}). Resistivity taken: ${digits(number(data.ohmMm2PerM), 4)} Ω mm²/m.${slowerWords(data)}`;
}

function compassWords(data: Readonly<Record<string, string | number | boolean | null>>): string {
  const advice = data.isPair
    ? 'Twist them, or lead them farther off.'
    : 'Lay both conductors side by side and twist them, or lead them farther off.';
  return `${compassCurrent(data)} ${advice} Check the compass with the pump running.`;
}

function compassCurrent(data: SayInput['data']): string {
  const laid = data.isPair ? 'both conductors side by side' : 'a single conductor';
  const field = `${digits(number(data.microtesla), 2)} µT turn it by ${digits(number(data.squareDeg), 1)} degrees where they come square, by ${digits(number(data.worstDeg), 1)} at worst`;
  return `${digits(number(data.amperes), 0)} A in ${laid}, ${mm(data.awayM)} from it: ${field} (a long straight cable: ${digits(number(data.longWireMicrotesla), 2)} µT).`;
}
