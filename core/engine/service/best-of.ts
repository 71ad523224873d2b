import { verdictRank } from '../../assess/access/task-verdict';
import type { Read } from '../store';
import { outcomeKey, taskOutcome } from './outcome-stages';
import type { TaskReport } from './service-report';
import type { TaskOutcome } from './task-outcome';
import { placedTask, type TaskGroup } from './task-stages';

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

/** What the tasks that would do instead come to. */
export function alternativesTo(
  { key: best }: JudgedTask,
  { keys }: TaskGroup,
  person: string,
  read: Read,
): TaskReport['alternatives'] {
  return keys.flatMap((key) => {
    const task = key === best ? null : read(placedTask, key);
    if (!task) return [];
    const { verdict, reason, blockers, shortByM } = read(taskOutcome, outcomeKey(person, key));
    return [{ service: task.serviceId, task: task.service.task, verdict, reason, blockers, shortByM }];
  });
}
