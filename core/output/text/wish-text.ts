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
};
