import { ENGINE_VERSION } from '../../base/engine-version';
import { serviceBurden } from '../../base/formulas/service-burden';
import type { Boat } from '../../boat/schema/boat';
import { allRouted } from '../final-run';
import { type InSlices, inSlices, type Progress } from '../in-slices';
import { arrangementId, boatName, isPart, people, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { asBought } from './as-bought';
import { alternativesTo, bestOf, type JudgedTask } from './best-of';
import { brokenDemand } from './demand-stages';
import { bodyFor, outcomeKey, usualPerson } from './outcome-stages';
import type { ServiceReport, TaskReport } from './service-report';
import { type Beside, inOrderOfUrgency, isUndone, taskReport } from './task-report';
import { placedTask, servicedThings, taskGroups } from './task-stages';

export interface ServiceOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  /** Whose reach counts, a record of people; default the first by id, without any a middling adult. */
  readonly person?: string;
  /** Stores that may know some of it already, of the boat and of the boat as bought. They are worked in. */
  readonly store?: Store<Source>;
  readonly bought?: Store<Source>;
}

/** Every service task of a boat, now and as it was bought, from cold unless stores are given; in slices, a task at a time. */
export function startService(boat: Boat, options: ServiceOptions = {}): InSlices<ServiceReport, ServiceUnderway> {
  const { arrangement, person, store, bought } = options;
  const source = sourceOf(boat, arrangement);
  const before = asBought(boat, source.arrangementId);
  return inSlices(
    serviceTold(
      store ?? new Store(source),
      bought ?? new Store(sourceOf(before, source.arrangementId)),
      person ?? null,
    ),
  );
}

/** What can be told before all is judged: tasks that are, or those of before that still go, and what is open. */
export interface ServiceUnderway {
  readonly report: ServiceReport;
  /** Keys of the tasks that are not judged yet, or whose verdict is still that of before. */
  readonly open: readonly string[];
}

/** So many tasks are judged between two partial answers. */
const TOLD_EVERY = 10;

/** A store, or what stands in for one. */
export type Known = Pick<Store<Source>, 'read'>;

/** What is asked of a boat: whose reach counts, and the tasks, those that stand for one another together. */
export function askedOf(store: Known, person: string | null) {
  return {
    person: person ?? store.read(usualPerson),
    groups: store.read(servicedThings).flatMap((thing) => store.read(taskGroups, thing)),
  };
}

/** Keys of the outcomes of every task, by the reach of whoever works aboard. */
export function everyTask(store: Known): readonly string[] {
  const { person, groups } = askedOf(store, null);
  return groups.flatMap(({ keys }) => keys.map((key) => outcomeKey(person, key)));
}

/** The work over two stores that stand at the boat and at the boat as bought. */
export function* serviceTold(
  store: Known,
  bought: Known,
  asked: string | null,
): Generator<Progress | (Progress & { readonly partial: ServiceUnderway }) | null, ServiceReport> {
  yield* allRouted(store);
  yield* allRouted(bought);
  const { person, groups } = askedOf(store, asked);
  const was = new Set(bought.read(servicedThings));
  const total = groups.length * 2;
  const tasks: TaskReport[] = [];
  for (const [index, group] of groups.entries()) {
    const best = bestOf(group, person, store.read);
    yield { done: 2 * index + 1, of: total };
    const [thing = ''] = best.key.split('/', 1);
    const old =
      store.read(isPart, thing) || !was.has(thing) ? null : bestOf(group, person, bought.read).outcome.verdict;
    const alternatives = alternativesTo(best, group, person, store.read);
    const report = toldOf(best, { before: old, alternatives }, store, person);
    if (report) tasks.push(report);
    const progress = { done: 2 * index + 2, of: total };
    if (index % TOLD_EVERY !== TOLD_EVERY - 1) yield progress;
    else {
      const open = groups.slice(index + 1).flatMap(({ keys }) => keys.slice(0, 1));
      yield { ...progress, partial: { report: reportOf(store, person, tasks), open } };
    }
  }
  return reportOf(store, person, tasks);
}

export function toldOf({ key, outcome }: JudgedTask, beside: Beside, store: Known, person: string): TaskReport | null {
  const task = store.read(placedTask, key);
  return task && taskReport(task, outcome, beside, store.read(brokenDemand, outcomeKey(person, key)), store.read);
}

export function reportOf(store: Known, person: string, tasks: readonly TaskReport[]): ServiceReport {
  const { isInterpolated } = store.read(bodyFor, person);
  const record = store.read(people)?.[person];
  return {
    engineVersion: ENGINE_VERSION,
    boat: store.read(boatName),
    arrangement: store.read(arrangementId),
    person: {
      id: record ? person : null,
      name: record?.name ?? 'a middling adult',
      isInterpolated,
    },
    tasks: [...tasks].sort(inOrderOfUrgency),
    burden: burdenOf(tasks),
  };
}

/** Minutes a year, whole and by thing, the greatest first. */
function burdenOf(tasks: readonly TaskReport[]): ServiceReport['burden'] {
  const shares = (of: readonly TaskReport[]) =>
    serviceBurden(
      of.map(({ verdict, minutes: { timesAYear, access, work } }) => ({
        timesAYear: isUndone(verdict) ? null : timesAYear,
        accessMinutes: access,
        workMinutes: work,
      })),
    );
  const byThing = [...new Set(tasks.map(({ thing }) => thing))].map((thing) => {
    const { aYear, accessAYear } = shares(tasks.filter((task) => task.thing === thing));
    return { thing, aYear, accessAYear };
  });
  byThing.sort((a, b) => b.aYear - a.aYear || (a.thing < b.thing ? -1 : 1));
  return { ...shares(tasks), byThing };
}
