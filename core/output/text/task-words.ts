import type { Posture } from '../../assess/access/reach/types';
import type { Boat } from '../../boat/schema/boat';
import type { RehearsalStep, TaskMeasure, TaskReport, TaskVerdict } from '../../engine/service/service-report';
import { listed, listedUpTo, nameOf } from './names';
import { digits, lengthText } from './quantity-text';
import { taskText } from './schema-words';

/** Words of service tasks: verdicts, postures, what was measured, steps. Sentence case stands where a line begins. */
const VERDICTS: Readonly<Record<TaskVerdict, string>> = {
  byHand: 'By hand',
  withTools: 'With tools',
  withMirror: 'With a mirror',
  afterMoving: 'After moving things',
  noWayFound: 'No way found',
  byDismantling: 'Only by dismantling',
  notAtAll: 'Not at all',
  notAsked: 'Not asked',
};

export const verdictWords = (verdict: TaskVerdict): string => VERDICTS[verdict];

/** The verdict on a task: what takes no hand is seen by eye, or its room is clear. */
export function taskVerdictWords({ verdict, reason }: Pick<TaskReport, 'verdict' | 'reason'>): string {
  if (verdict !== 'byHand') return VERDICTS[verdict];
  return reason === 'seen' ? 'By eye' : reason === 'clear' ? 'Room is clear' : VERDICTS[verdict];
}

const POSTURES: Readonly<Record<Posture, string>> = {
  free: 'beside it',
  lean: 'an arm in',
  headIn: 'head and shoulder in',
  climbIn: 'climbing in',
  lie: 'lying, an arm down',
};

/** Postures of whoever only looks: no arm goes in. */
const LOOKING: Readonly<Partial<Record<Posture, string>>> = { lean: 'leaning', lie: 'lying' };

/** `an arm in`, `climbing in`; empty where nothing is said of it. */
export function postureWords({ posture, reason }: Pick<TaskReport, 'posture' | 'reason'>): string {
  if (posture === null || reason === 'clear') return '';
  return (reason === 'seen' ? LOOKING[posture] : undefined) ?? POSTURES[posture];
}

/** A record of the thing's services by its name, else by what is done. */
export function taskName(boat: Boat, { thing, service, task }: Pick<TaskReport, 'thing' | 'service' | 'task'>): string {
  const record = (boat.parts[thing] ?? boat.fixtures[thing])?.services[service];
  return record?.name ?? sentence(taskText(task));
}

const MEASURES: Readonly<Record<TaskMeasure['what'], string>> = {
  reach: 'Arm, shoulder to grip',
  opening: 'Opening',
  handRoom: 'Spare about hand and arm',
  twoHands: 'Room for two hands',
  clearFront: 'Clear in front',
  withdrawal: 'Drawn out',
  swing: 'Swing of tool or handle',
  seenShare: 'Seen, share of rays',
  seenDistance: 'Distance to the eye',
  seenAngle: 'Angle off square',
  below: 'Room below',
  lift: 'Lifting index',
};

export const measureTitle = ({ what }: Pick<TaskMeasure, 'what'>): string => MEASURES[what];

/** What the verdict says in one or two sentences: the posture and way, or what stands in the way and how much is missing. */
export function verdictSentence(task: TaskReport, boat: Boat): string {
  return [
    headOf(task, boat),
    breaks(task, boat),
    worseWords(task),
    liftWords(task),
    task.closeCall ? 'One clearance is inside the tape.' : '',
  ]
    .filter((words) => words !== '')
    .join(' ');
}

function headOf(task: TaskReport, boat: Boat): string {
  const { verdict, blockers, removals, tried } = task;
  const names = (ids: readonly string[]): string => listed(ids.map((id) => nameOf(boat, id)));
  switch (verdict) {
    case 'byHand':
    case 'withTools':
    case 'withMirror':
      return `${taskVerdictWords(task)}${wayWords(task, boat)}.`;
    case 'afterMoving':
      return `After moving ${removals.length === 0 ? 'things' : names(removals.map(({ what }) => what))}${wayWords(task, boat)}.`;
    case 'byDismantling':
      return `Only by ${removals.length === 0 ? 'taking off what is fixed' : apartWords(removals, boat)}${wayWords(task, boat)}.`;
    case 'noWayFound':
      return `No way found after ${digits(tried, 0)} ${tried === 1 ? 'try' : 'tries'}${shortWords(task, boat)}. It is not proved impossible: try it with your own arm, and take it as a no until then.`;
    case 'notAtAll':
      return `Not at all, ${task.closeCall ? 'as drawn' : 'proved'}${blockers.length === 0 ? shortBy(task.shortByM) : shortWords(task, boat)}.`;
    case 'notAsked':
      return 'Not asked: the drawing lacks something.';
  }
}

/** `unscrewing Engine hatch and taking off Fuel filter` */
const apartWords = (removals: TaskReport['removals'], boat: Boat): string =>
  listed(
    removals.map(
      ({ what, kind }) =>
        `${kind === 'opening' ? 'unscrewing' : kind === 'loose' ? 'moving' : 'taking off'} ${nameOf(boat, what)}`,
    ),
  );

/** Openings that are gone through; those that are unscrewed are named where the verdict says so. */
const openedOnly = ({ openings, removals }: TaskReport): readonly string[] =>
  openings.filter((id) => !removals.some(({ kind, what }) => kind === 'opening' && what === id));

/** `, head and shoulder in, through Galley front then Inner lid` */
function wayWords(task: TaskReport, boat: Boat): string {
  const names = openedOnly(task).map((id) => nameOf(boat, id));
  const posture = postureWords(task);
  return `${posture === '' ? '' : `, ${posture}`}${names.length === 0 ? '' : ` through ${names.join(' then ')}`}`;
}

/** How a task that goes is done, for one line of a table: `moving Berth cushion; an arm in, Berth board`. */
export function doneWords(task: TaskReport, boat: Boat): string {
  const way = [postureWords(task), ...openedOnly(task).map((id) => nameOf(boat, id))];
  return [apartWords(task.removals, boat), way.filter((words) => words !== '').join(', ')]
    .filter((words) => words !== '')
    .join('; ');
}

const shortBy = (shortByM: number | null): string => (shortByM === null ? '' : `: ${lengthText(shortByM)} short`);

function shortWords({ blockers, shortByM }: TaskReport, boat: Boat): string {
  const at = blockers.length === 0 ? '' : ` at ${blockersWords(boat, blockers)}`;
  return shortByM === null ? (at === '' ? '' : `: stopped${at}`) : `: short by about ${lengthText(shortByM)}${at}`;
}

type Blocker = TaskReport['blockers'][number];

/** A compartment is in the way with one of its sides, and what parts two of them is called by what it parts. */
const isSide = (boat: Boat, { owner, label }: Blocker): boolean =>
  label !== '' && (Object.hasOwn(boat.compartments, owner.split('/')[0] ?? owner) || owner.includes('|'));

/** What stands in the way by the name of its record, else by what it is: `forward end of Locker`. */
export function blockerName(boat: Boat, blocker: Blocker): string {
  const { owner, label } = blocker;
  if (isSide(boat, blocker)) return label;
  const name = nameOf(boat, owner.split('/')[0] ?? owner);
  return name === owner && label !== '' ? label : name;
}

/** So many are named within a sentence. */
const NAMED = 3;

/** Within a sentence: `the forward end of Locker, Post and 3 more`. */
export const blockersWords = (boat: Boat, blockers: readonly Blocker[]): string =>
  listedUpTo(
    blockers.map((one) => `${isSide(boat, one) ? 'the ' : ''}${blockerName(boat, one)}`),
    NAMED,
  );

function breaks({ breaksDemand, thing }: TaskReport, boat: Boat): string {
  if (breaksDemand === null) return '';
  if (breaksDemand === 'noDismantling') return 'This breaks the demand that nothing is dismantled.';
  const places = Object.values(boat.demands ?? {}).flatMap(({ kind, subject, place }) =>
    kind === 'seenFrom' && place !== undefined && (subject === undefined || subject === thing)
      ? [boat.standingPlaces[place]?.name ?? place]
      : [],
  );
  return `This breaks the demand that it is seen from ${places.length === 0 ? 'a named place' : listed(places)} with lids and fronts shut.`;
}

/** To a tenth of a kilogram where that is more than a hundredth of it. */
const massWords = (massKg: number): string => `${digits(massKg, massKg < 10 ? 1 : 0)} kg`;

/** It stops nobody, and one alone should not. */
const liftWords = ({ lift, measures }: TaskReport): string =>
  lift !== null && measures.some(({ what, met }) => what === 'lift' && !met)
    ? `${massWords(lift.massKg)} held ${lengthText(lift.outM)} out: two people or a tackle.`
    : '';

const worseWords = ({ isWorse, before }: TaskReport): string =>
  isWorse && before !== null ? `Worse than on the boat as bought: ${VERDICTS[before].toLowerCase()} then.` : '';

const OPENED: Readonly<Record<Boat['openings'][string]['how'], string>> = {
  hinged: 'Open',
  liftOut: 'Lift out',
  sliding: 'Slide back',
  curtain: 'Draw aside',
  screwed: 'Unscrew',
  open: 'Go through',
};

const STEPS: Readonly<Record<Exclude<RehearsalStep['kind'], 'open'>, string>> = {
  go: 'Take your place',
  move: 'Move away',
  takeOff: 'Take off',
  look: 'Look at it',
  reach: 'Reach in',
  turn: 'Turn it',
  withdraw: 'Draw it out',
  catch: 'Catch what runs out',
  work: 'Do the work',
  close: 'Close up',
};

/** `Lift out Locker front` */
export function stepWords({ kind, subject }: Pick<RehearsalStep, 'kind' | 'subject'>, boat: Boat): string {
  const name = subject === null ? '' : nameOf(boat, subject);
  switch (kind) {
    case 'open': {
      const how = subject === null ? undefined : boat.openings[subject]?.how;
      return `${how === undefined ? 'Open' : OPENED[how]} ${name}`.trim();
    }
    case 'move':
    case 'takeOff':
      return `${STEPS[kind]} ${name}`.trim();
    default:
      return STEPS[kind];
  }
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
