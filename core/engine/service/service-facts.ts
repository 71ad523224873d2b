import type { ServiceFact, ServiceFacts } from '../../rules/service-facts';
import type { Read } from '../store';
import { bestOf } from './best-of';
import { usualPerson } from './outcome-stages';
import { removalsOf, sourcesOf } from './task-report';
import { placedTask, taskGroups } from './task-stages';

/** What rules about service ask, over reads that are recorded. */
export const serviceFacts = (read: Read): ServiceFacts => ({
  serviceTasks: (thingId) => {
    const person = read(usualPerson);
    return read(taskGroups, thingId).flatMap((group): ServiceFact[] => {
      const { key, outcome } = bestOf(group, person, read);
      const task = read(placedTask, key);
      if (!task) return [];
      const way = outcome.attempt?.way;
      return [
        {
          instance: group.name,
          task: task.service.name ?? task.service.task,
          verdict: outcome.verdict,
          reason: outcome.reason,
          posture: outcome.attempt?.region.posture ?? null,
          through: way?.through ?? null,
          hasStanding: (way?.standing ?? null) !== null,
          deciding: outcome.deciding?.judged ?? null,
          blockers: outcome.blockers.map(({ owner }) => owner),
          removals: removalsOf(outcome, read).map(({ what }) => what),
          shortByM: outcome.shortByM,
          tried: outcome.tried,
          asksForRoom: task.service.clearM > 0,
          at: task.face.at,
          sources: sourcesOf(outcome.measures),
        },
      ];
    });
  },
});
