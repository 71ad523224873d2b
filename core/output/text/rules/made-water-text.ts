import { digits } from '../quantity-text';
import { counted, number, type RuleWords, type SayInput, TOO_MANY_VALVES, word } from '../say';

const NO_PASSAGES =
  'No passages are entered for it, so all its ports count as joined in every state: enter which of them each state joins.';

/** Words of the rules about made water and what flushes the set. */
export const MADE_WATER_TEXT: Readonly<Record<string, RuleWords>> = {
  'water/product-open': {
    compared: () => '',
    fail: {
      canBeShut: ({ subject, data }) => ({
        title: `${word(data.valves)} shuts the made water of ${subject}`,
        why: 'Made water that cannot leave presses back into the membrane and parts its leaves. Take the valve out, use one that always leads somewhere, or fit a relief before it.',
      }),
      backwards: ({ subject, data }) => ({
        title: `A check valve behind ${subject} looks the wrong way`,
        why: `Made water does not get past ${word(data.last)}. Turn the valve round.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `Made water of ${subject} always gets out`,
        why:
          word(data.reliefs) === ''
            ? `${counted(number(data.tried), 'setting', 'settings')} of the valves behind it tried.`
            : `Relieved by ${word(data.reliefs)}.`,
      }),
    },
    cannotTell: {
      noWayOut: ({ subject }) => ({
        title: `Where does the made water of ${subject} go?`,
        why: 'Its lines end before a tank, a tap or the sea.',
      }),
      tooMany: ({ subject }) => ({
        title: `Can the made water of ${subject} be shut in?`,
        why: TOO_MANY_VALVES,
      }),
    },
  },
  'water/reject-to-tap': {
    compared: () => '',
    fail: {
      rejectToTank: ({ subject, data }) => ({
        title: `${subject} leads bad water into ${word(data.tank)}`,
        why: `In its state ${word(data.state)} it has to lead to a tap, a sink or overboard, and the tank must get nothing. ${data.joinsAll ? NO_PASSAGES : 'Change its hoses round, or its states.'}`,
      }),
      rejectNowhere: ({ subject, data }) => ({
        title: `${subject} leads bad water nowhere`,
        why: `In its state ${word(data.state)} no tap, sink or outlet is joined. Lead that port to a tap.`,
      }),
      neverAccepts: ({ subject }) => ({
        title: `${subject} never leads to a tank`,
        why: 'In none of its states does made water come to a tank.',
      }),
      noTap: ({ subject, finding, name }) => ({
        title: `Water of ${subject} runs straight into the tank`,
        why: `Nothing turns bad water away on the way from ${name(finding.subject)}. Fit a diverter with a tap before the tank.`,
      }),
      tankAlways: ({ subject, data }) => ({
        title: `Bad water of ${subject} always reaches the tank too`,
        why: `No setting of the valves leads it to the tap alone. ${data.joinsAll ? NO_PASSAGES : 'Fit a diverter where the tap branches off.'}`,
      }),
      stateToTank: ({ data }) => ({
        title: `${word(data.operating)}: made water runs into ${word(data.tank)}`,
        why: 'In that state it has to be kept from the tank. Change how the valves stand in it.',
      }),
      stateMissesTank: ({ data }) => ({
        title: `${word(data.operating)}: made water misses the tank`,
        why: 'In that state it has to run into the tank. Change how the valves stand in it.',
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: data.operating
          ? `${word(data.operating)}: made water goes where it is meant to`
          : `${subject} keeps bad water from the tank`,
        why: '',
      }),
    },
  },
  'water/flush-chlorine': {
    compared: () => '',
    fail: {
      noCarbon: ({ subject, data }) => ({
        title: `Chlorine can reach ${subject}`,
        why: `Water of ${word(data.source)} flushes it without a carbon filter, and nobody says that it never holds chlorine. Fit a carbon filter on the flush.`,
      }),
      pastCarbon: ({ subject, data }) => ({
        title: `Flush water can pass ${word(data.carbon)} by`,
        why: `There is a way from ${word(data.source)} to ${subject} that does not lead through the carbon. Take it out.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `Flush water of ${subject} is free of chlorine`,
        why:
          word(data.carbon) === ''
            ? `${word(data.source)} never holds any, as entered.`
            : `${word(data.carbon)} takes it out.`,
      }),
    },
  },
  'water/backflow': {
    compared: () => '',
    fail: {
      reaches: ({ subject, data }) => ({
        title: `Sea water can get into ${subject}`,
        why: `From ${word(data.intake)} there is an open way by the flush, and nothing that lets through one way only. Fit a check valve on the flush.`,
      }),
      valveOnly: ({ subject, data }) => ({
        title: `Only a valve keeps sea water out of ${subject}`,
        why: `${word(data.valves)} left half over, or leaking, joins ${word(data.intake)} to the drinking water. Fit a check valve on the flush.`,
      }),
    },
    pass: {
      pass: ({ subject }) => ({
        title: `Sea water is kept out of ${subject}`,
        why: 'Something on the flush lets through one way only.',
      }),
    },
    cannotTell: {
      wayGuessed: ({ subject, finding, name }) => ({
        title: `Is sea water kept out of ${subject}?`,
        why: `As its lines are drawn ${finding.related.map(name).join(', ')} would let it through. Its ports do not say which is the way in.`,
      }),
    },
  },
  'water/tank-end': {
    compared: (finding, length) =>
      finding.measured.unit === 'm' && finding.limit.value !== 0
        ? `${length(finding.measured.value)}, at least ${length(finding.limit.value)}`
        : finding.measured.unit === 'm'
          ? `${length(Math.abs(finding.measured.value))} ${finding.measured.value < 0 ? 'below' : 'above'}`
          : '',
    fail: {
      twoTanks: ({ subject, data }) => ({
        title: `${subject} fills together with ${word(data.others)}`,
        why: 'One bad batch spoils all of them. Lead made water to one tank first, and on from there once it was tasted.',
      }),
      noVent: ({ subject }) => ({
        title: `${subject} has no vent`,
        why: 'Air cannot get out while it fills: the tank bulges, and the membrane is pressed back on.',
      }),
      narrowVent: ({ subject }) => ({
        title: `The vent of ${subject} is narrower than what fills it`,
        why: 'Air gets out more slowly than water comes in. Fit a wider vent.',
      }),
      intoLocker: ({ subject, data }) => ({
        title: `${subject} runs over into ${word(data.place)}`,
        why: 'A set that is left alone fills it. Lead the overflow overboard, to the cockpit or into a sink.',
      }),
      entersBelow: ({ subject }) => ({
        title: `Made water enters ${subject} below its overflow`,
        why: 'A full tank stands back into the tube. Lead it in above.',
      }),
      ventShuts: ({ subject, data }) => ({
        title: `${word(data.valve)} can shut ${subject} in`,
        why: 'A vent or an overflow must not be shut by anybody. Take the valve out.',
      }),
    },
    pass: {
      pass: ({ subject, finding }) => ({
        title: `${subject}: ${TANK_PASS[finding.key.split('|')[2] ?? ''] ?? 'in order'}`,
        why: '',
      }),
    },
  },
  'water/flush-reaches': {
    compared: () => '',
    fail: {
      machineMissed: ({ data }) => ({
        title: `The flush does not reach ${word(data.missed)}`,
        why: `It comes in at ${word(data.joint)}, behind it. Salt stays there and eats it. Bring the flush in before the pump.`,
      }),
      blocked: ({ data }) => ({
        title: `Water of ${word(data.source)} cannot flush the set`,
        why: 'Something on its way lets through the other way only. Turn the check valve round.',
      }),
      bowlMissed: ({ data }) => ({
        title: `The flush does not reach ${word(data.missed)}`,
        why: `It comes in at ${word(data.joint)}. What lives in a bowl of sea water rots while the set is laid up: empty it then, or bring the flush in before it.`,
      }),
    },
    pass: {
      pass: ({ subject, data }) => ({
        title: `The flush of ${subject} passes filters, pump and membrane`,
        why: `It comes in at ${word(data.joint)}.`,
      }),
    },
    cannotTell: {
      wayGuessed: ({ finding, name, data }) => ({
        title: `Can water of ${word(data.source)} flush the set?`,
        why: `As its lines are drawn ${finding.related.map(name).join(', ')} would hold it back. Its ports do not say which is the way in.`,
      }),
    },
  },
  'water/flush-water': {
    fail: {
      drinksTank: ({ subject, data }) => ({
        title: `A flush takes much of ${subject}`,
        why: `${flushed(data)} Make water for the flush before it is due, or feed the flush from a larger tank.`,
      }),
    },
    pass: { pass: ({ subject, data }) => ({ title: `${subject} holds enough for a flush`, why: flushed(data) }) },
  },
};

const TANK_PASS: Readonly<Record<string, string>> = {
  one: 'filled alone',
  vent: 'vented widely enough',
  overflow: 'runs over where it may',
  entry: 'filled from above',
};

const flushed = (data: SayInput['data']): string =>
  `A flush takes ${data.isTypical ? 'up to ' : ''}${digits(number(data.flushL), 0)} L${data.isTypical ? ' (typical)' : ''} of ${digits(number(data.tankL), 0)} L.`;
