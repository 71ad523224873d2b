import { BIBLIOGRAPHY } from '../../base/bibliography';
import type { Boat } from '../../boat/schema/boat';
import type { ServiceReport, TaskMeasure, TaskReport } from '../../engine/service/service-report';
import { cautionTexts } from './caution-text';
import { percentBand } from './finding-text';
import { listed, nameOf } from './names';
import { comparedText, digits, lengthText } from './quantity-text';
import { blockersWords, measureTitle, taskName, taskVerdictWords, verdictSentence } from './task-words';
import { whyText } from './why-text';

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
  /** What the tasks that would do instead come to; empty where there are none. */
  readonly instead: readonly string[];
  /** What to beware of. */
  readonly caution: string;
  readonly minutes: string;
  readonly enterNext: string;
  /** Where limits come from that nobody has verified. */
  readonly unverified: string;
}

export function taskWords(task: TaskReport, boat: Boat): TaskWords {
  return {
    title: `${nameOf(boat, task.thing)}: ${taskName(boat, task)}`,
    verdict: taskVerdictWords(task),
    sentence: verdictSentence(task, boat),
    reason: reasonText(task, boat),
    measures: task.measures.map(measureLine),
    closeCall: task.closeCall
      ? `The drawing is good to ±${lengthText(task.closeCall.gradeM)} here: the chance that it goes is ${percentBand(task.closeCall.passProbability)}.`
      : '',
    instead: insteadWords(task, boat),
    caution: cautionOf(task),
    minutes: minutesLine(task),
    enterNext: task.enterNext ?? '',
    unverified: unverified(task),
  };
}

const measureLine = (measure: TaskMeasure): string =>
  `${measureTitle(measure)}: ${comparedText(
    { value: measure.value, unit: measure.unit },
    { value: measure.limit, unit: measure.unit, bound: measure.bound },
  )}${measure.met ? '' : ', not met'}${isUnverified(measure) ? ', unverified default' : ''}`;

/** Whether its limit, or what it rests on, is from memory alone. */
export const isUnverified = ({ sources }: Pick<TaskMeasure, 'sources'>): boolean =>
  sources.some(({ standing }) => standing === 'fromMemory');

/** `Or Element, aft: not at all. It does not come out far enough: the after end of Locker, 120 mm short.` */
export const insteadWords = ({ thing, alternatives }: TaskReport, boat: Boat): readonly string[] =>
  alternatives.map(({ service, task, verdict, reason, blockers, shortByM }) => {
    const why = whyText(reason, blockersWords(boat, blockers));
    const short = shortByM === null ? '' : `, ${lengthText(shortByM)} short`;
    return `Or ${taskName(boat, { thing, service, task })}: ${taskVerdictWords({ verdict, reason }).toLowerCase()}.${why === '' ? '' : ` ${why}${short}.`}`;
  });

/** Of a lift that asks for more than one person. */
export const cautionOf = ({ measures }: TaskReport): string =>
  measures.some(({ what, met }) => what === 'lift' && !met) ? (cautionTexts(['lifting'])[0] ?? '') : '';

/** Why a task goes or does not, as a sentence. */
export function reasonText(task: TaskReport, boat: Boat): string {
  // A verdict of no names them itself.
  const isNo = task.verdict === 'noWayFound' || task.verdict === 'notAtAll';
  const blockers = isNo ? '' : blockersWords(boat, task.blockers);
  const rooms = task.measures.flatMap(({ what, met, value }) => (what === 'handRoom' && met ? [value] : []));
  const room = rooms.length === 0 ? null : Math.min(...rooms);
  const words = whyText(task.reason, blockers);
  switch (task.reason) {
    case 'reached':
    case 'afterRemoving':
      return `${words}${handWords(task)}${room === null ? '' : `; ${lengthText(room)} to spare about the arm`}.`;
    case 'intoNothing':
      return `${nameOf(boat, task.enterNext?.split('.')[1] ?? '')} opens into nothing: what is behind it, or before it, is not drawn.`;
    case 'nowhere':
      return task.enterNext === 'arrangements' ? 'It has no place yet.' : 'It is in no compartment that is drawn.';
    case 'nowhereToStand':
      return task.verdict === 'notAtAll'
        ? 'There is nowhere to stand, kneel or lie from which its opening is had.'
        : 'No opening leads to it from where a person stands.';
    default:
      return words === '' ? '' : `${words}.`;
  }
}

const handWords = ({ hands }: TaskReport): string =>
  hands === null ? '' : hands === 'both' ? ', both hands' : hands === 'either' ? ', either hand' : `, ${hands} hand`;

function minutesLine({ minutes: { access, work, timesAYear, aYear } }: TaskReport): string {
  const each = `${digits(access, 1)} min to get at it and ${digits(work, 1)} min of work`;
  if (timesAYear === null) return `${each}; only when something is wrong`;
  if (aYear === null) return `${each}, ${digits(timesAYear, 1)} times a year: not in the sum, since it cannot be done`;
  return `${each}, ${digits(timesAYear, 1)} times a year: ${digits(aYear, 0)} min a year`;
}

/** Each source of which only the memory is left, and what rests on it. */
function unverified({ sources, measures }: TaskReport): string {
  const titles = sources.flatMap((source) => {
    if (source.standing !== 'fromMemory') return [];
    const resting = measures.filter((one) =>
      one.sources.some(({ key, standing }) => key === source.key && standing === source.standing),
    );
    const title = source.key === 'practice' ? 'usual values of the trade' : BIBLIOGRAPHY[source.key].title;
    return [`${title} (${listed([...new Set(resting.map(measureTitle))].map(lowered))})`];
  });
  return titles.length === 0 ? '' : `Unverified default, from memory: ${titles.join('; ')}.`;
}
const lowered = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

/** What the minutes of a year come to, and what is left out. */
export function burdenWords({ burden: { aYear, accessAYear, leftOut } }: ServiceReport): string {
  const hours = (minutes: number): string => `${digits(minutes / 60, 1)} h`;
  const rest =
    leftOut === 0
      ? ''
      : `; not in it ${leftOut === 1 ? 'is 1 task that has' : `are ${leftOut} tasks that have`} no interval or cannot be done`;
  return `${hours(aYear)} of service a year, ${hours(accessAYear)} of that to get at things${rest}`;
}

/** By whose reach it was judged. */
export const personWords = ({ person: { name, isInterpolated } }: ServiceReport): string =>
  `judged by the reach of ${name}${isInterpolated ? ', interpolated between the two sizes that are tabulated' : ''}`;
