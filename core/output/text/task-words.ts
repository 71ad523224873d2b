import type { Posture } from '../../assess/access/reach/types';
import type { Boat } from '../../boat/schema/boat';
import type { RehearsalStep, TaskMeasure, TaskReport, TaskVerdict } from '../../engine/service/service-report';
import { listed, nameOf } from './names';
import { lengthText } from './quantity-text';
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

const POSTURES: Readonly<Record<Posture, string>> = {
  free: 'beside it',
  lean: 'an arm in',
  headIn: 'head and shoulder in',
  climbIn: 'climbing in',
  lie: 'lying, an arm down',
};

export const postureWords = (posture: Posture): string => POSTURES[posture];

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
  swing: 'Swing of the tool',
  seenShare: 'Seen, share of rays',
  seenDistance: 'Distance to the eye',
  seenAngle: 'Angle off square',
  below: 'Room below',
  lift: 'Lift',
};

export const measureTitle = ({ what }: Pick<TaskMeasure, 'what'>): string => MEASURES[what];

/** What the verdict says in one or two sentences: the posture and way, or what stands in the way and how much is missing. */
export function verdictSentence(task: TaskReport, boat: Boat): string {
  return [headOf(task, boat), breaks(task), worseWords(task), task.closeCall ? 'One clearance is inside the tape.' : '']
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
      return `${VERDICTS[verdict]}${wayWords(task, boat)}.`;
    case 'afterMoving':
      return `After moving ${removals.length === 0 ? 'things' : names(removals.map(({ what }) => what))}${wayWords(task, boat)}.`;
    case 'byDismantling':
      return `Only by ${removals.length === 0 ? 'taking off what is fixed' : listed(removals.map((one) => takenApart(one, boat)))}${wayWords(task, boat)}.`;
    case 'noWayFound':
      return `No way found after ${tried} ${tried === 1 ? 'try' : 'tries'}${shortWords(task, boat)}. None is disproved: try it with your own arm, and take it as a no until then.`;
    case 'notAtAll':
      return `Not at all, proved${blockers.length === 0 ? shortBy(task.shortByM) : shortWords(task, boat)}.`;
    case 'notAsked':
      return 'Not asked: the drawing lacks something.';
  }
}

/** `unscrewing Engine hatch`, `taking off Fuel filter` */
const takenApart = ({ what, kind }: TaskReport['removals'][number], boat: Boat): string =>
  `${kind === 'opening' ? 'unscrewing' : kind === 'loose' ? 'moving' : 'taking off'} ${nameOf(boat, what)}`;

/** `, head and shoulder in, through Galley front then Inner lid` */
function wayWords({ posture, openings }: TaskReport, boat: Boat): string {
  const through = openings.length === 0 ? '' : ` through ${openings.map((id) => nameOf(boat, id)).join(' then ')}`;
  return `${posture === null ? '' : `, ${POSTURES[posture]}`}${through}`;
}

const shortBy = (shortByM: number | null): string => (shortByM === null ? '' : `: ${lengthText(shortByM)} short`);

function shortWords({ blockers, shortByM }: TaskReport, boat: Boat): string {
  const at = blockers.length === 0 ? '' : ` at ${listed(blockers.slice(0, 3).map((one) => blockerName(boat, one)))}`;
  return shortByM === null ? (at === '' ? '' : `: stopped${at}`) : `: short by about ${lengthText(shortByM)}${at}`;
}

/** What stands in the way by the name of its record, else by what it is. */
export function blockerName(boat: Boat, { owner, label }: TaskReport['blockers'][number]): string {
  const name = nameOf(boat, owner.split('/')[0] ?? owner);
  return name === owner && label !== '' ? label : name;
}

const BREAKS: Readonly<Record<NonNullable<TaskReport['breaksDemand']>, string>> = {
  noDismantling: 'This breaks the demand that nothing is dismantled.',
  seenFrom: 'This breaks the demand that it is seen from a named place.',
};
const breaks = ({ breaksDemand }: TaskReport): string => (breaksDemand === null ? '' : BREAKS[breaksDemand]);

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
