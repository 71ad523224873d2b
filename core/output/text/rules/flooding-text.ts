import { digits } from '../quantity-text';
import { counted, mm, NO_RUN_YET, number, type RuleWords, type SayInput, word } from '../say';

type Data = SayInput['data'];

const BANDS: Readonly<Record<string, string>> = {
  under2: 'in less than 2 minutes',
  '2to10': 'in 2 to 10 minutes',
  '10to60': 'in 10 to 60 minutes',
  over60: 'in more than an hour',
};

/** More names than this are counted. */
const MOST_NAMES = 4;

/** `A, B and C` of ids that stand in one word; `A, B, C and 9 more` of many. */
function listed(ids: unknown, name: (id: string) => string, most = MOST_NAMES): string {
  const all = word(ids)
    .split(' ')
    .filter((id) => id !== '');
  const shown =
    all.length > most ? [...all.slice(0, most - 1).map(name), `${all.length - most + 1} more`] : all.map(name);
  const last = shown.pop() ?? '';
  return shown.length > 0 ? `${shown.join(', ')} and ${last}` : last;
}

/** `Bank A by 120 mm, Panel by 30 mm` */
const depths = ({ data, name }: SayInput): string => {
  const under = word(data.underM).split(' ');
  const all = word(data.electrics).split(' ');
  const shown = all.slice(0, MOST_NAMES).map((id, k) => `${name(id)} by ${mm(Number(under[k]))}`);
  return all.length > MOST_NAMES ? `${shown.join(', ')}, and ${all.length - MOST_NAMES} more` : shown.join(', ');
};

const heel = (data: Data): string =>
  data.down === 'port' || data.down === 'starboard'
    ? `heeled ${digits(number(data.heelDeg), 0)}° to ${word(data.down)}`
    : 'upright';

/** What lets go and where the water stands in the end. */
const level = ({ data, name }: SayInput): string => {
  const one = number(data.joints) === 1;
  const joints = `${counted(number(data.joints), 'joint', 'joints')} of ${listed(data.lines, name)} in ${listed(data.jointsIn, name)}`;
  const lie = `${joints} ${one ? 'lies' : 'lie'} below the water, ${data.alsoHeeled ? 'upright or heeled' : heel(data)}.`;
  const floods = listed(data.floods, name);
  if (data.founders === true) return `${lie} The sea fills ${floods}: more than she can carry.`;
  const sinks =
    data.sinkageM === null ? 'Sinkage is left out: no hull is drawn.' : `She sinks ${mm(data.sinkageM)} on the way.`;
  return `${lie} The sea comes to its own level in ${floods}. ${sinks}`;
};

/** How fast, and by what the flow is reckoned. */
const speed = ({ data }: SayInput, what: string): string => {
  const by = data.cd === null ? 'by the length and bore of the hose' : `discharge coefficient ${word(data.cd)}`;
  return `${what} ${BANDS[word(data.band)] ?? ''}, at ${digits(number(data.flowLMin), 0)} L/min to begin with (${by}).`;
};

const stopped = ({ data, name }: SayInput): string => {
  if (number(data.unstopped) > 0)
    return number(data.unstopped) === number(data.joints)
      ? 'No seacock stops it.'
      : `${counted(number(data.unstopped), 'joint has', 'joints have')} no seacock before it.`;
  const where = word(data.stopsIn) === '' ? '' : `, in ${listed(data.stopsIn, name)}`;
  return `Shut ${listed(data.stops, name)}${where}.`;
};

const dripsUnknown = ({ subject, finding, name }: SayInput, verb: string) => ({
  title: `May ${subject} ${verb} ${finding.related.map(name).join(', ')}?`,
  why: 'It stands below. Nobody says how well it stands water from above.',
});

/** Words of the rules about where water comes in and what it reaches. */
export const FLOODING_TEXT: Readonly<Record<string, RuleWords>> = {
  'flooding/joint-lets-go': {
    fail: {
      drowns: (input) => ({
        title: `A joint behind ${input.subject} that lets go drowns ${listed(input.data.electrics, input.name, 3)}`,
        why: `${level(input)} Under water: ${depths(input)}. ${speed(input, 'The first of them is reached')} ${stopped(input)} Set electrics higher, or seal the holes on the way.`,
      }),
      cannotBeShut: (input) => ({
        title: `Nothing stops the sea when a joint behind ${input.subject} lets go`,
        why: `${level(input)} ${speed(input, 'It stands there')} Fit a seacock at the hull.`,
      }),
    },
    pass: {
      pass: (input) =>
        input.data.isOpen
          ? {
              title: `Electrics stay dry when a joint behind ${input.subject} lets go`,
              why: `${level(input)} ${input.name(word(input.data.lowest))} is the lowest there. ${speed(input, 'It stands there')} ${stopped(input)}`,
            }
          : {
              title: `No joint behind ${input.subject} is open to the sea as it normally stands`,
              why: `${listed(input.data.stops, input.name)} is normally shut. While it is open the risk is another: ${level(input)}${word(input.data.electrics) === '' ? '' : ` Under water: ${depths(input)}. ${speed(input, 'The first of them is reached')}`}`,
            },
    },
    cannotTell: {
      nowhere: ({ subject }) => ({
        title: `What floods when a joint behind ${subject} lets go?`,
        why: 'The joint lies in no compartment.',
      }),
    },
  },
  'flooding/siphon': {
    fail: {
      tooLow: ({ subject, data, name }) => ({
        title: `${subject} can siphon the sea aboard`,
        why: `It is open at ${name(word(data.end))} and ends under water at ${name(word(data.throughHull))}. Its highest point is too low, ${heel(data)}. Lead it higher, with a vented loop at the crest.`,
      }),
      tooLowWhileOpen: ({ subject, data, name }) => ({
        title: `${subject} can siphon the sea aboard while ${name(word(data.stoppedBy))} is open`,
        why: `It is open at ${name(word(data.end))}, and its highest point is too low, ${heel(data)}. Keep the valve shut when nobody uses it, or lead it higher with a vented loop.`,
      }),
      basinUnder: ({ subject, data, name }) => ({
        title: `The sea comes up in ${name(word(data.end))} when she heels`,
        why: `Its drain lies under water, ${heel(data)}, and ${subject} leads straight to the sea. Shut its seacock under way, or set it nearer to the middle.`,
      }),
      basinUnderWhileOpen: ({ data, name }) => ({
        title: `The sea comes up in ${name(word(data.end))} when she heels and ${name(word(data.stoppedBy))} is open`,
        why: `Its drain lies under water, ${heel(data)}. Keep the valve shut under way.`,
      }),
      notVented: ({ subject, data, name }) => ({
        title: `${subject} rises high enough and has no vent at its crest`,
        why: `${name(word(data.end))} fills it to the crest when it is pumped: a siphon then runs on over any height. Fit a vented loop there.`,
      }),
      outletLow: ({ subject, data, name }) => ({
        title: `The outlet of ${subject} is close to the water`,
        why: `${name(word(data.throughHull))} comes this near to the water, ${heel(data)}: a wave fills the hose back to ${name(word(data.end))}. Set it higher, or fit both a seacock and a vented loop; a check valve does not count.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} does not siphon`,
        why: data.isEnd
          ? `${name(word(data.end))} stands above the water, ${heel(data)}.`
          : `Its crest stays above the water, ${heel(data)}. A siphon breaks only where air comes in: keep the vent clear.`,
      }),
    },
    cannotTell: {
      noRun: ({ subject }) => ({ title: `Can ${subject} siphon the sea aboard?`, why: NO_RUN_YET }),
    },
  },
  'flooding/outlet-immersed': {
    compared: (finding, length) =>
      finding.measured.unit === 'count'
        ? `${length(number(finding.data.depthM))} under`
        : `${length(Math.abs(finding.measured.value))} ${finding.measured.value > 0 ? 'under' : 'above'}`,
    fail: {
      openUnder: ({ subject, data, name }) => ({
        title: `${subject} goes under water with its valve open`,
        why: `${mm(data.depthM)} deep, ${word(data.state)}, ${heel(data)}. While the set runs ${name(word(data.valve))} must be open, and the sea stands in the hose behind it. Label it, put it on the checklist and shut it when the set stops, or set the outlet higher.`,
      }),
      under: ({ subject, data }) => ({
        title: `${subject} goes under water`,
        why: `${word(data.state)}, ${heel(data)}. It has neither a seacock nor a loop: the sea stands in its hose, at joints that look dry. Set it higher, fit a seacock at the hull with a relief or a label, or lead the hose over a loop.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) =>
        number(data.depthM) > 0
          ? {
              title: `${subject} goes under water, and is kept shut or led over a loop`,
              why: `${mm(data.depthM)} deep, ${word(data.state)}, ${heel(data)}. ${data.valve ? `Shut ${name(word(data.valve))} when the set stops.` : 'Its hose rises well above the water.'}`,
            }
          : {
              title: `${subject} stays above the water`,
              why: `Nearest: ${word(data.state)}, ${heel(data)}.`,
            },
    },
  },
  'flooding/drip-on-electrics': {
    fail: {
      below: ({ subject, data, name }) => ({
        title: `${subject} hangs over ${name(word(data.electrics))}`,
        why: `${mm(data.dropM)} above it and ${mm(data.asideM)} aside, with nothing in between: what weeps there drips on open terminals. Move it aside, or cover the electrics so that drips run off.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} does not drip on electrics`,
        why: `${name(word(data.electrics))} is nearest: ${mm(data.asideM)} aside, ${mm(data.dropM)} lower.`,
      }),
    },
    cannotTell: { drips: (input) => dripsUnknown(input, 'drip on') },
  },
  'flooding/green-water': {
    fail: {
      inTheCone: ({ subject, data, name }) => ({
        title: `Green water through ${subject} comes down on ${name(word(data.electrics))}`,
        why: `It stands ${mm(data.asideM)} aside of the opening and down to ${mm(data.dropM)} below it, with nothing in between. Move it, shelter it, or cover it.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `Green water through ${subject} misses open electrics`,
        why: `${name(word(data.electrics))} is nearest.`,
      }),
    },
    cannotTell: { drips: (input) => dripsUnknown(input, 'let green water down on') },
  },
  'flooding/bowl-spill': {
    fail: {
      onElectrics: ({ subject, data, name }) => ({
        title: `What runs out of ${subject} falls on ${name(word(data.electrics))}`,
        why: `${spilled(data)} on open terminals. Move one of them, or cover the electrics.`,
      }),
      besideElectrics: ({ subject, data, name }) => ({
        title: `What runs out of ${subject} falls close beside ${name(word(data.electrics))}`,
        why: `${spilled(data)}: it splashes on open terminals. Move one of them, or cover the electrics.`,
      }),
      trayTooSmall: ({ subject, data }) => ({
        title: `The tray under ${subject} is too small`,
        why: `${spilled(data)}.`,
      }),
      onBerth: ({ subject, data, name }) => ({
        title: `What runs out of ${subject} ends on a berth`,
        why: `${spilled(data)} into ${name(word(data.compartment))}. Set a tray under it, or put it elsewhere.`,
      }),
      stays: ({ subject, data, name }) => ({
        title: `What runs out of ${subject} stays in ${name(word(data.compartment))}`,
        why: `${spilled(data)}, and no pump empties that compartment or one that it drains to. Set a tray under it, or let it drain to the bilge.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `What runs out of ${subject} is caught`,
        why:
          data.tray !== undefined
            ? `By ${name(word(data.tray))}.`
            : data.isHeld
              ? 'A tray is held under it for the task.'
              : `It drains to ${name(word(data.pumped))}, which is pumped.`,
      }),
    },
    cannotTell: {
      drips: (input) => dripsUnknown(input, 'spill on'),
      nowhere: ({ subject }) => ({
        title: `Where does what runs out of ${subject} end?`,
        why: 'No compartment is drawn below it.',
      }),
    },
  },
  'flooding/pumped-aboard': {
    fail: {
      tooMuch: (input) => ({
        title: `A hose off ${input.subject} pumps more aboard than the bilge pumps can`,
        why: `${pumped(input)} You are aboard: stop the pump. A bilge pump with an alarm there would tell.`,
      }),
      nobodyThere: (input) => ({
        title: `A hose off ${input.subject} floods her with nobody ${input.data.crew === 'asleep' ? 'awake' : 'aboard'}`,
        why: `${pumped(input)} Do not leave it running, or let a bilge alarm stop it.`,
      }),
    },
    pass: {
      pass: (input) => ({
        title: `Bilge pumps keep up with a hose off ${input.subject}`,
        why: `${pumped(input)} Half of a label is counted.`,
      }),
    },
    cannotTell: {
      noFlow: ({ subject, finding, name }) => ({
        title: `How much does a hose off ${subject} pump aboard?`,
        why: `Its flow was not entered. It presses water into ${finding.related.map(name).join(', ')}.`,
      }),
    },
  },
};

const spilled = (data: Data): string =>
  data.litres === null ? 'What runs out lands' : `${digits(number(data.litres), 1)} L run out`;

function pumped({ data, name, finding }: SayInput): string {
  const flow = finding.outcome === 'fail' || finding.outcome === 'pass' ? finding.measured.value : 0;
  const where = name(word(data.compartment));
  const tank = data.tankL === null ? '' : ` until ${digits(number(data.tankL), 0)} L of tank are empty`;
  const out = data.pumpedIn === null ? 'no bilge pump empties that' : `pumped out in ${name(word(data.pumpedIn))}`;
  const off = `When ${listed(data.lines, name)} come${word(data.lines).includes(' ') ? '' : 's'} off,`;
  return `${off} ${digits(flow * 60, 0)} L an hour run into ${where}${data.isSet ? ', above the waterline as well as below' : tank}: ${out}.`;
}
