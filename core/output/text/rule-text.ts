import type { Finding } from '../../rules/finding';
import { digits } from './quantity-text';
import { ACCESS_TEXT } from './rules/access-text';
import { HULL_TEXT } from './rules/hull-text';
import { POWER_TEXT } from './rules/power-text';
import { RUNS_TEXT } from './rules/runs-text';
import { heel, mm, number, type RuleWords, type SayInput, word } from './say';
import { WISH_TEXT } from './wish-text';

/** The part of a crest that the ports force; nothing where they force none. Ends in a space. */
const forced = (data: SayInput['data']): string =>
  data.forcedM === undefined
    ? ''
    : `The ${data.forcedRole === 'in' ? 'inlet' : data.forcedRole === 'out' ? 'outlet' : 'port'} of ${word(data.forcedBy)} faces up: ${mm(data.forcedM)} cannot be avoided by any run. Turn that port. `;
/** Words of every rule, by outcome and reason. */
export const RULE_TEXT: Readonly<Record<string, RuleWords>> = {
  ...HULL_TEXT,
  ...ACCESS_TEXT,
  ...RUNS_TEXT,
  ...WISH_TEXT,
  ...POWER_TEXT,
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
};

const seaOrder = (data: SayInput['data']): string => `On the way of the sea water: ${word(data.order)}.`;
/** The first fault of order has the title; how many there are. */
const inAll = (finding: Finding): string =>
  finding.outcome === 'fail' && finding.measured.value > 1
    ? ` ${digits(finding.measured.value, 0)} faults of order in all.`
    : '';
