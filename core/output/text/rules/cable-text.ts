import type { Finding } from '../../../rules/finding';
import { digits } from '../quantity-text';
import { mm, number, type RuleWords, type SayInput, word } from '../say';

/** Words of the rules about cables, and what protects them. */
export const CABLE_TEXT: Readonly<Record<string, RuleWords>> = {
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
