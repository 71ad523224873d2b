import { sameValue } from '../../boat/schema-walk';
import { allRouted } from '../final-run';
import { type InSlices, inSlices, type Progress } from '../in-slices';
import { type Source, sourceOf } from '../source';
import { Store } from '../store';
import { asBought } from './as-bought';
import { outcomeKey, surroundingsOf, taskOutcome, usualPerson } from './outcome-stages';
import { rehearsalOf } from './rehearsal';
import { askedOf, type Known, reportOf, type ServiceUnderway, serviceTold, toldOf } from './service';
import type { RehearsalStep, ServiceReport, TaskReport } from './service-report';
import { keptOutcome, type TaskOutcome } from './task-outcome';
import { placedTask } from './task-stages';

/** Of one task: how it came out, and how that was told. */
interface Answer {
  readonly outcome: TaskOutcome;
  readonly told: TaskReport;
}

/** A store of which can be asked whether the answer to a task stands. */
interface Standing extends Known {
  readonly stands: (person: string, task: string) => boolean;
}

/** Answers of a session about service: a store for the boat as bought, and what was found for each person last. */
export class ServiceAnswers {
  private bought: { readonly boat: Source['boat']; readonly store: Store<Source> } | null = null;
  private readonly last = new Map<string, ReadonlyMap<string, Answer>>();
  /** Stands in for the store of the session once that is at another boat, or goes deeper. */
  private twin: { readonly source: Source; readonly store: Store<Source> } | null = null;

  /** `current`: store and source of the session as they are when they are asked. */
  constructor(private readonly current: () => { readonly store: Store<Source>; readonly source: Source }) {}

  service(person: string | null): InSlices<ServiceReport, ServiceUnderway> {
    const { source } = this.current();
    return inSlices(this.told(this.over(source), source, person));
  }

  rehearsal(key: string, person: string | null): InSlices<readonly RehearsalStep[]> {
    const { source } = this.current();
    return inSlices(rehearsed(this.over(source), key, person));
  }

  private *told(
    known: Standing,
    source: Source,
    asked: string | null,
  ): Generator<Progress | (Progress & { readonly partial: ServiceUnderway }) | null, ServiceReport> {
    yield* allRouted(known);
    const person = asked ?? known.read(usualPerson);
    const before = this.last.get(person);
    if (before) yield { done: 0, of: 1, partial: underway(known, person, before) };
    const work = serviceTold(known, this.boughtFor(source), asked);
    const report = yield* before ? withoutPartials(work) : work;
    const answers = report.tasks.map((told): [string, Answer] => [
      told.key,
      { told, outcome: known.read(taskOutcome, outcomeKey(person, told.key)) },
    ]);
    this.last.set(person, new Map(answers));
    return report;
  }

  /** The store of the session while it stands at that boat, else one of its own. */
  private over(source: Source): Standing {
    const plain: Source = { ...source, deeper: false };
    const at = (): Store<Source> => {
      const now = this.current();
      if (now.source === source && !source.deeper) return now.store;
      if (this.twin?.source !== source) {
        const store = now.store.fork();
        store.set(plain);
        this.twin = { source, store };
      }
      return this.twin.store;
    };
    return {
      read: (stage, key) => at().read(stage, key),
      stands: (person, task) => at().inSlices(taskOutcome, outcomeKey(person, task)) === null,
    };
  }

  private boughtFor({ boat, arrangementId }: Source): Store<Source> {
    const own = asBought(boat, arrangementId);
    if (this.bought && isSame(this.bought.boat, own)) return this.bought.store;
    const store = this.bought?.store ?? new Store(sourceOf(own, arrangementId));
    store.set(sourceOf(own, arrangementId));
    this.bought = { boat: own, store };
    return store;
  }
}

/** Once the answer of before is shown, what is judged of the new one says less than it. */
function* withoutPartials(work: ReturnType<typeof serviceTold>): Generator<Progress | null, ServiceReport> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    yield step.value && { done: step.value.done, of: step.value.of };
  }
}

/** Tasks that nothing near has changed for stand; of the others those whose way of before still goes. */
function underway(known: Standing, person: string, before: ReadonlyMap<string, Answer>): ServiceUnderway {
  const open: string[] = [];
  const tasks = askedOf(known, person).groups.flatMap(({ keys }): TaskReport[] => {
    const key = keys.find((one) => before.has(one));
    const answer = key === undefined ? undefined : before.get(key);
    const task = key === undefined ? null : known.read(placedTask, key);
    if (key === undefined || !answer || !task) return [];
    if (known.stands(person, key)) return [answer.told];
    const outcome = keptOutcome(task, answer.outcome, surroundingsOf(task, person, known.read));
    if (outcome) return [toldOf({ key, outcome }, answer.told, known, person) ?? answer.told];
    open.push(key);
    return [answer.told];
  });
  return { report: reportOf(known, person, tasks), open };
}

function* rehearsed(known: Known, key: string, person: string | null): Generator<null, readonly RehearsalStep[]> {
  yield* allRouted(known);
  return rehearsalOf(key, person ?? known.read(usualPerson), known.read);
}

/** Edits share what they leave alone; what is made anew for the boat as bought is compared by what it says. */
function isSame(a: Source['boat'], b: Source['boat']): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Source['boat']>;
  return [...keys].every((key) => a[key] === b[key] || (MADE.has(key) && sameValue(a[key], b[key])));
}
const MADE: ReadonlySet<string> = new Set(['parts', 'lines', 'arrangements']);
