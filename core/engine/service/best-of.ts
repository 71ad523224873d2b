import { verdictRank } from '../../assess/access/task-verdict';
import type { Read } from '../store';
import { outcomeKey, taskOutcome } from './outcome-stages';
import type { TaskOutcome } from './task-outcome';
import type { TaskGroup } from './task-stages';

export interface JudgedTask {
  /** thing/service */
  readonly key: string;
  readonly outcome: TaskOutcome;
}

/** Of tasks that stand for one another the one that goes best, the first of those that go alike. */
export function bestOf({ keys }: TaskGroup, person: string, read: Read): JudgedTask {
  const judged = keys.map((key) => ({ key, outcome: read(taskOutcome, outcomeKey(person, key)) }));
  return judged.reduce((best, one) =>
    verdictRank(one.outcome.verdict) < verdictRank(best.outcome.verdict) ? one : best,
  );
}
