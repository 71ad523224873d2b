import { BLOCKED_TEXT } from '../blocked-text';
import { digits } from '../quantity-text';
import { blocker, counted, heel, mm, NO_RUN_YET, number, type RuleWords, word } from '../say';

/** Words of the rules about how hoses, tubes and cables run, and how their ends are made. */
export const RUNS_TEXT: Readonly<Record<string, RuleWords>> = {
  'runs/blocked': BLOCKED_TEXT,
  'runs/pinned': {
    compared: (finding, length) =>
      finding.outcome === 'pass'
        ? `${length(finding.measured.value)} clear where it passes nearest`
        : finding.outcome === 'fail' && finding.limit.bound === 'atLeast'
          ? `${length(finding.measured.value)}, at least ${length(finding.limit.value)}`
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
        why: NO_RUN_YET,
      }),
      notRouted: (input) => ({
        title: `Is the supplied hose long enough for ${input.subject}?`,
        why: NO_RUN_YET,
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
      noRun: (input) => ({ title: `Is ${input.subject} wrung between its ends?`, why: NO_RUN_YET }),
      notRouted: (input) => ({ title: `Is ${input.subject} wrung between its ends?`, why: NO_RUN_YET }),
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
  'runs/unsupported': {
    fail: {
      clippedFar: ({ subject }) => ({
        title: `${subject} is clipped too seldom`,
        why: 'Between the clips it swings and chafes. Set them closer.',
      }),
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
  'runs/hole-crowded': {
    fail: {
      overfull: ({ subject, data }) => ({
        title: `A hole in ${subject} is too small for what passes it`,
        why: `${counted(number(data.count), 'thing passes', 'things pass')} through it. Widen it, or drill another.`,
      }),
      nearEdge: ({ subject }) => ({
        title: `A hole is too near to the edge of ${subject}`,
        why: 'What is left beside it breaks out. Drill it farther in.',
      }),
      nearHole: ({ subject }) => ({
        title: `Two holes in ${subject} are too near to one another`,
        why: 'Little is left between. Set them apart, or drill one for both.',
      }),
      drilledAway: ({ subject, data }) => ({
        title: `Much of ${subject} is drilled away`,
        why: `${counted(number(data.count), 'hole', 'holes')} in it. Lead some another way.`,
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `Holes in ${subject} keep their distance`, why: '' }) },
  },
  'runs/chafe': {
    compared: (finding, length) =>
      finding.limit.unit === 'm' ? `${length(finding.measured.value)}, at least ${length(finding.limit.value)}` : '',
    fail: {
      nearMoving: ({ subject, data, name }) => ({
        title: `${subject} runs too near to where ${name(word(data.owner))} moves`,
        why: 'It is sawn through, or jams the gear. Lead it farther off and clip it on both sides.',
      }),
      nearEngine: ({ subject, data, name }) => ({
        title: `${subject} may rub on ${name(word(data.owner))}`,
        why: 'The engine shakes on its feet. Lead it farther off, or clip it.',
      }),
      rawEdge: ({ subject, data, obstacle }) => ({
        title: `${subject} passes a raw edge`,
        why: `The hole in ${obstacle(word(data.panel))} has no grommet. Round its edge or fit one.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({ title: `${subject} keeps off ${name(word(data.owner))}`, why: '' }),
    },
  },
  'runs/bend-at-fitting': {
    fail: {
      tubeBends: ({ subject, data, name }) => ({
        title: `${subject} bends too soon at ${name(word(data.thing))}`,
        why: 'A pushed-in tube that bends right behind its fitting lifts the seal and weeps. Clip it straight, or take an elbow.',
      }),
      hoseBends: ({ subject, data, name }) => ({
        title: `${subject} bends right behind its end at ${name(word(data.thing))}`,
        why: 'A made-up hose breaks at its ferrule first. Lead it straight a little further, or take an elbow end.',
      }),
    },
    pass: { pass: ({ subject }) => ({ title: `${subject} leaves its fittings straight`, why: '' }) },
  },
  'runs/clamps': {
    compared: (finding) =>
      `${counted(finding.measured.value, 'clamp', 'clamps')}${finding.limit.value > 0 ? `, at least ${digits(finding.limit.value, 0)}` : ''}`,
    fail: {
      tooFew: ({ subject, data, name }) => ({
        title: `Too few clamps on ${subject} at ${name(word(data.thing))}`,
        why: `The joint lies ${mm(data.depthM)} under water, ${heel(data)}. Fit clamps that are stainless all through, their screws on opposite sides.`,
      }),
      willRust: ({ subject, data, name }) => ({
        title: `Clamps on ${subject} at ${name(word(data.thing))} will rust`,
        why: `The joint lies ${mm(data.depthM)} under water, ${heel(data)}. Take clamps of which the screw and the housing are stainless too.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `${subject} is clamped well at ${name(word(data.thing))}`,
        why: '',
      }),
    },
  },
  'runs/pressure-near-berth': {
    fail: {
      nearHead: ({ subject, data, name }) => ({
        title: `A pressure joint of ${subject} is too near to ${name(word(data.berth))}`,
        why: `At ${name(word(data.thing))}: ${data.isPillow ? 'a head lies there' : 'somebody sleeps there'}, and nothing stands between. Move it, or fit a cover that stops a jet.`,
      }),
    },
    pass: {
      pass: ({ subject, data, name }) => ({
        title: `Pressure joints of ${subject} keep away from ${name(word(data.berth))}`,
        why: '',
      }),
    },
  },
};
