import { digits } from './quantity-text';
import { mm, number, type RuleWords, type Said, type SayInput, word } from './say';

const noRun = (question: (subject: string) => string): Readonly<Record<'noRun', (input: SayInput) => Said>> => ({
  noRun: ({ subject }) => ({ title: question(subject), why: 'It has no run yet.' }),
});

/** Words of the rules about what runs keep away from, and how they lie. */
export const WISH_TEXT: Readonly<Record<string, RuleWords>> = {
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
  'runs/near-heat': {
    fail: {
      tooHot: ({ subject, data }) => ({
        title: `${subject} runs too near to ${word(data.hot)}`,
        why: `It stands ${digits(number(data.standsC), 0)} °C; about ${digits(number(data.heatC), 0)} °C is taken for the surface of ${word(data.hot)}. Lead it farther off, shield it, or take a hose that stands the heat.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `${subject} stands the heat of ${word(data.hot)}`,
        why: `It stands ${digits(number(data.standsC), 0)} °C.`,
      }),
    },
    cannotTell: {
      noTemperature: ({ subject, data }) => ({
        title: `Does ${subject} stand the heat of ${word(data.hot)}?`,
        why: 'It runs close by, and its kind has no highest temperature.',
      }),
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
  'runs/unsupported': {
    fail: {
      hangsFree: ({ subject, data }) => ({
        title: `${subject} hangs free`,
        why: `Nothing to fix a clip or bracket to is drawn within ${mm(data.withinM)} of it there. Lead it along a wall, or fit a batten.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} can be clipped`, why: '' }) },
    cannotTell: {
      noSpacing: ({ subject, data }) => ({
        title: `Is ${subject} held often enough?`,
        why: `It hangs free over ${mm(data.freeM)}, and its kind does not say how often it must be clipped.`,
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
  'runs/in-the-way': {
    fail: {
      feet: ({ subject, data }) => ({
        title: `${subject} lies where people stand`,
        why: `At ${word(data.place)}. Lead it round, or under a board.`,
      }),
      stowage: ({ subject, data }) => ({
        title: `${subject} runs through stowage`,
        why: `Gear in ${word(data.place)} may tear at it. Lead it round, or box it in.`,
      }),
      service: ({ subject, data }) => ({
        title: `${subject} runs through room for service`,
        why: `${word(data.place)}: it is in the way there, or must be unclipped every time.`,
      }),
    },
    pass: {
      pass: ({ subject }) => ({ title: `${subject} keeps out of the way`, why: '' }),
    },
  },
};

function compassWords(data: Readonly<Record<string, string | number | boolean | null>>): string {
  const advice = data.isPair
    ? 'Twist them, or lead them farther off.'
    : 'Lay both conductors side by side and twist them, or lead them farther off.';
  return `${compassCurrent(data)} ${advice} Check the compass with the pump running.`;
}

function compassCurrent(data: SayInput['data']): string {
  const laid = data.isPair ? 'both conductors side by side' : 'a single conductor';
  return `${digits(number(data.amperes), 0)} A in ${laid}, ${mm(data.awayM)} from it.`;
}
