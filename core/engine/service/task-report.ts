import { type TaskVerdict, verdictRank } from '../../assess/access/task-verdict';
import { spillOf } from '../../assess/flooding/spill';
import { openingMinutes, taskTimesAYear } from '../../boat/catalogue/service-assumptions';
import type { Thing } from '../../boat/schema/boat';
import { sameValue } from '../../boat/schema-walk';
import type { SourceRef } from '../../rules/finding';
import { openings, serviceAssumptions, thing } from '../source';
import type { Read } from '../store';
import { liftOf } from './lifted';
import type { Measure, Shown } from './pieces';
import type { Removal, TaskMeasure, TaskReport } from './service-report';
import type { TaskOutcome } from './task-outcome';
import type { PlacedTask } from './task-stages';

/** What the check of a service task leaves out. */
const TASK_CANNOT_SEE: readonly string[] = [
  'Strength, and what is lifted at arm’s length.',
  'Cloth and flesh, which give by 5 to 15 mm.',
  'What is stowed there.',
  'The arm itself before the eye.',
];

/** Verdicts in which the task is not done: it takes no minutes. */
const UNDONE: ReadonlySet<TaskVerdict> = new Set(['noWayFound', 'notAtAll', 'notAsked']);
export const isUndone = (verdict: TaskVerdict): boolean => UNDONE.has(verdict);

/** A demand of the owner's that the outcome breaks. */
export type BrokenDemand = TaskReport['breaksDemand'];

/** What stands beside the outcome of a task: what it comes to on the boat as bought, and the tasks that stand for it. */
export type Beside = Pick<TaskReport, 'before' | 'alternatives'>;

/** One task as it is told. */
export function taskReport(
  task: PlacedTask,
  outcome: TaskOutcome,
  { before, alternatives }: Beside,
  breaksDemand: BrokenDemand,
  read: Read,
): TaskReport {
  const what = read(thing, task.thing);
  const { attempt, verdict } = outcome;
  const shown = attempt?.pieces.map((piece) => piece.shown) ?? [];
  const lift = liftOf(task, attempt, read);
  const all = [...outcome.measures, ...(lift ? [lift.measure] : [])];
  const measures = all.map(told);
  const { isPart, key, service, serviceId } = task;
  return {
    key,
    thing: task.thing,
    isPart,
    service: serviceId,
    task: service.task,
    verdict,
    closeCall: outcome.closeCall,
    breaksDemand,
    reason: outcome.reason,
    enterNext: outcome.enterNext,
    posture: attempt?.region.posture ?? null,
    standing: attempt?.way.standing ?? null,
    openings: attempt?.way.openings ?? [],
    hands: handsOf(shown),
    reach: reachOf(shown, measures),
    measures,
    removals: removalsOf(outcome, read),
    blockers: outcome.blockers,
    shortByM: outcome.shortByM,
    tried: outcome.tried,
    before,
    isWorse: isWorse(verdict, before),
    alternatives,
    lift: lift?.told ?? null,
    minutes: minutesOf(task, what, outcome, read),
    tools: toolsOf(task, verdict),
    spillL: (what && spillOf(what, service)) ?? 0,
    at: task.face.at,
    sources: sourcesOf(all),
    cannotSee: TASK_CANNOT_SEE,
  };
}

const told = ({ what, judged, sources }: Measure): TaskMeasure => ({
  what,
  value: judged.measured.value,
  limit: judged.limit.value,
  bound: judged.limit.bound,
  // What a task is measured in are lengths, angles, shares, masses and counts.
  unit: judged.measured.unit as TaskMeasure['unit'],
  met: judged.met,
  closeCall: judged.closeCall ?? null,
  sources,
});

function handsOf(shown: readonly Shown[]): TaskReport['hands'] {
  const sides = shown.find(({ arms }) => arms.length > 0)?.arms.map(({ side }) => side) ?? [];
  return sides.length > 1 ? 'both' : (sides[0] ?? null);
}

function reachOf(shown: readonly Shown[], measures: readonly TaskMeasure[]): TaskReport['reach'] {
  const measure = measures.find(({ what }) => what === 'reach');
  const arm = shown.flatMap(({ arms }) => arms)[0];
  if (!measure || !arm) return null;
  return { valueM: measure.value, limitM: measure.limit, marginM: measure.limit - measure.value };
}

/** What openings ask for, then what stands in the way. */
export function removalsOf({ attempt, removed }: TaskOutcome, read: Read): readonly Removal[] {
  const assumed = read(serviceAssumptions);
  const all = read(openings);
  const byOpenings = (attempt?.way.openings ?? []).flatMap((id): Removal[] => {
    const opening = all[id];
    if (!opening) return [];
    const loose = opening.moveFirst.map((what): Removal => ({ what, kind: 'loose', minutes: assumed.moveMinutes }));
    if (opening.how !== 'screwed') return loose;
    return [...loose, { what: id, kind: 'opening', minutes: openingMinutes(opening, assumed) }];
  });
  return [
    ...byOpenings,
    ...removed.map(
      ({ owner, kind }): Removal => ({
        what: owner,
        kind,
        minutes: kind === 'loose' ? assumed.moveMinutes : assumed.takeOffMinutes,
      }),
    ),
  ];
}

/** Minutes each time: openings, what is moved, and the work. Nobody spends any on what cannot be done. */
function minutesOf(task: PlacedTask, what: Thing | undefined, outcome: TaskOutcome, read: Read): TaskReport['minutes'] {
  const assumed = read(serviceAssumptions);
  const all = read(openings);
  const opened = (outcome.attempt?.way.openings ?? []).reduce((sum, id) => {
    const opening = all[id];
    return sum + (opening && opening.how !== 'screwed' ? openingMinutes(opening, assumed) : 0);
  }, 0);
  const access = opened + removalsOf(outcome, read).reduce((sum, { minutes }) => sum + minutes, 0);
  const work = task.needs.minutesWork;
  const timesAYear = what ? taskTimesAYear(what, task.service, assumed) : null;
  return {
    access,
    work,
    timesAYear,
    aYear: timesAYear === null || isUndone(outcome.verdict) ? null : timesAYear * (access + work),
  };
}

/** By their own names, else by what they are. */
function toolsOf({ service, needs }: PlacedTask, verdict: TaskVerdict): readonly string[] {
  const usual = [
    ...(needs.tool ? [needs.tool.kind] : []),
    ...needs.vessels.map(({ kind }) => kind),
    ...(needs.lamp ? ['lamp'] : []),
  ];
  return [...(service.tools.length > 0 ? service.tools : usual), ...(verdict === 'withMirror' ? ['mirror'] : [])];
}

export function sourcesOf(measures: readonly Measure[]): readonly SourceRef[] {
  const all = measures.flatMap(({ sources }) => sources);
  return all.filter((one, k) => all.findIndex((other) => sameValue(other, one)) === k);
}

/** What is not asked, before or now, is not compared. */
export const isWorse = (now: TaskVerdict, before: TaskVerdict | null): boolean =>
  before !== null && before !== 'notAsked' && now !== 'notAsked' && verdictRank(now) > verdictRank(before);

/** From the worst verdict to the best; what is not asked stands where it might be anything. */
const URGENCY: Readonly<Record<TaskVerdict, number>> = {
  notAtAll: 0,
  byDismantling: 1,
  noWayFound: 2,
  notAsked: 3,
  afterMoving: 4,
  withMirror: 5,
  withTools: 6,
  byHand: 7,
};

export const inOrderOfUrgency = (a: TaskReport, b: TaskReport): number =>
  Number(b.isWorse) - Number(a.isWorse) ||
  URGENCY[a.verdict] - URGENCY[b.verdict] ||
  (a.key < b.key ? -1 : a.key > b.key ? 1 : 0);
