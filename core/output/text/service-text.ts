import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { Boat } from '../../boat/schema/boat';
import type { ServiceReport, TaskMeasure, TaskReport } from '../../engine/service/service-report';
import { percentBand } from './finding-text';
import { listed, nameOf } from './names';
import { comparedText, digits, lengthText } from './quantity-text';
import { blockerName, measureTitle, taskName, verdictSentence, verdictWords } from './task-words';

/** A service task in words, line by line. */
export interface TaskWords {
  /** `Coarse filter: Bowl` */
  readonly title: string;
  readonly verdict: string;
  /** What the verdict says: how it goes, or what stands in the way and how much is missing. */
  readonly sentence: string;
  /** Why, where the sentence does not say it; empty elsewhere. */
  readonly reason: string;
  readonly measures: readonly string[];
  readonly closeCall: string;
  readonly minutes: string;
  readonly enterNext: string;
  /** Where limits come from that nobody has verified. */
  readonly unverified: string;
}

export function taskWords(task: TaskReport, boat: Boat): TaskWords {
  return {
    title: `${nameOf(boat, task.thing)}: ${taskName(boat, task)}`,
    verdict: verdictWords(task.verdict),
    sentence: verdictSentence(task, boat),
    reason: reasonText(task, boat),
    measures: task.measures.map(measureLine),
    closeCall: task.closeCall
      ? `The drawing is good to ±${lengthText(task.closeCall.gradeM)} here: the chance that it goes is ${percentBand(task.closeCall.passProbability)}.`
      : '',
    minutes: minutesLine(task),
    enterNext: task.enterNext ?? '',
    unverified: unverified(task),
  };
}

const measureLine = (measure: TaskMeasure): string =>
  `${measureTitle(measure)}: ${comparedText(
    { value: measure.value, unit: measure.unit },
    { value: measure.limit, unit: measure.unit, bound: measure.bound },
  )}${measure.met ? '' : ', not met'}`;

/** Why a task goes or does not, as a sentence. */
export function reasonText(task: TaskReport, boat: Boat): string {
  const blockers = listed(task.blockers.slice(0, 3).map((one) => blockerName(boat, one)));
  const words = REASONS[task.reason];
  return words ? words({ task, boat, at: blockers === '' ? '' : ` ${blockers}` }) : '';
}

interface Why {
  readonly task: TaskReport;
  readonly boat: Boat;
  /** What stands in the way, with a blank before it; empty where nothing is named. */
  readonly at: string;
}

const mm = (metres: number): string => lengthText(metres);
const room = ({ measures }: TaskReport): string => {
  const spare = measures.find(({ what, met }) => what === 'handRoom' && met);
  return spare ? `; ${mm(spare.value)} to spare about the arm` : '';
};
const hand = ({ hands }: TaskReport): string =>
  hands === null ? '' : hands === 'both' ? ', both hands' : hands === 'either' ? ', either hand' : `, ${hands} hand`;
const of = (at: string, otherwise: string): string => (at === '' ? otherwise : `:${at}`);

const REASONS: Readonly<Record<string, (why: Why) => string>> = {
  reached: ({ task }) => `Reached${hand(task)}${room(task)}.`,
  afterRemoving: ({ task, at }) =>
    `Reached${hand(task)} once that is out of the way${at === '' ? '' : `; before, in the way:${at}`}.`,
  seen: () => 'Seen with the eye.',
  seenInMirror: ({ at }) => `The eye alone does not see it${at === '' ? '' : `:${at} in the way`}; a hand mirror does.`,
  clear: () => 'Its room is clear.',
  out: () => 'It comes straight out.',
  outTilted: () => 'It comes out tilted and sideways.',
  turns: () => 'The tool turns.',
  vesselFits: () => 'What is put under it has room.',
  noRoomForHand: ({ at }) => `The hand has no room at its place${of(at, '')}.`,
  noRoomForForearm: ({ at }) => `The forearm has no room behind the hand${of(at, '')}.`,
  noRoomForUpperArm: ({ at }) => `No place for elbow and shoulder lets the hand get there${of(at, '')}.`,
  noWayInForArm: ({ at }) => `The hand has a place there, and no way in was found for the arm${of(at, '')}.`,
  openingTooSmall: () => 'The opening is smaller than what of an arm is in it at that depth (table of hand openings).',
  openingTooSmallForTwo: () => 'The opening is smaller than two arms take at that depth (table of hand openings).',
  needsBothHands: () => 'It takes both hands, and whoever does it has the use of one arm.',
  noPlaceForEyes: () => 'There is no place for the eyes before it.',
  seenTooFar: () => 'The eyes do not come near enough to read it.',
  seenAslant: () => 'It is seen too aslant to be read.',
  notSeen: ({ at }) => `The view is blocked${of(at, '')}.`,
  mirrorNotHeld: () => 'A mirror would show it, and no way was found to hold it there.',
  stuck: ({ at }) => `It does not come out far enough${of(at, '')}.`,
  stuckTilted: ({ at }) => `It comes out neither straight nor tilted${of(at, '')}.`,
  noSwing: ({ at }) => `The tool does not turn far enough${of(at, '')}.`,
  noRoomInFront: ({ at }) => `The driver and the hand on it have no room before the screw${of(at, '')}.`,
  handStopsTool: ({ at }) => `The tool turns, and the hand on it does not get to both ends of its swing${of(at, '')}.`,
  noRoomBelow: ({ at }) => `What catches it has no room below${of(at, '')}.`,
  noRoomAbove: ({ at }) => `The funnel has no room above${of(at, '')}.`,
  nowhere: ({ task }) =>
    task.enterNext === 'arrangements' ? 'It has no place yet.' : 'It is in no compartment that is drawn.',
  noOpening: () => 'No opening is drawn into its compartment.',
  intoNothing: ({ task, boat }) =>
    `${nameOf(boat, task.enterNext?.split('.')[1] ?? '')} opens into nothing: what is behind it, or before it, is not drawn.`,
  nowhereToStand: ({ task }) =>
    task.verdict === 'notAtAll'
      ? 'There is nowhere to stand, kneel or lie from which its opening is had.'
      : 'No opening leads to it from where a person stands.',
};

function minutesLine({ minutes: { access, work, timesAYear, aYear } }: TaskReport): string {
  const each = `${digits(access, 1)} min to get at it and ${digits(work, 1)} min of work`;
  if (timesAYear === null) return `${each}; only when something is wrong`;
  if (aYear === null) return `${each}, ${digits(timesAYear, 1)} times a year: not in the sum, since it cannot be done`;
  return `${each}, ${digits(timesAYear, 1)} times a year: ${digits(aYear, 0)} min a year`;
}

function unverified({ sources }: TaskReport): string {
  const titles = sources.flatMap(({ key, standing }) => (standing === 'fromMemory' ? [BIBLIOGRAPHY[key].title] : []));
  return titles.length === 0 ? '' : `Unverified default, from memory: ${listed(titles)}.`;
}

/** What the minutes of a year come to, and what is left out. */
export function burdenWords({ burden: { aYear, accessAYear, leftOut } }: ServiceReport): string {
  const hours = (minutes: number): string => `${digits(minutes / 60, 1)} h`;
  const rest =
    leftOut === 0
      ? ''
      : `; ${leftOut} ${leftOut === 1 ? 'task has' : 'tasks have'} no interval or cannot be done, and are not in it`;
  return `${hours(aYear)} of service a year, ${hours(accessAYear)} of that to get at things${rest}`;
}

/** By whose reach it was judged. */
export const personWords = ({ person: { name, isInterpolated } }: ServiceReport): string =>
  `judged by the reach of ${name}${isInterpolated ? ', interpolated between the two sizes that are tabulated' : ''}`;
