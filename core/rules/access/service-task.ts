import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { Judged } from '../judge';
import type { ServiceFact } from '../service-facts';

/** A job that nobody gets at is not done: the bowl is not cleaned, the oil not changed, the clamp not looked at. */
export const serviceTask = defineRule({
  id: 'access/service-task',
  question: 'Can whoever works aboard see, reach and do every service task?',
  late: true,
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
    { key: 'mil-std-1472', standing: 'fromMemory' },
  ],
  cannotSee: [
    'Strength, and what is lifted at arm’s length.',
    'Cloth and flesh, which give by 5 to 15 mm.',
    'What is stowed there.',
    'The arm itself before the eye.',
  ],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => Object.keys(facts.thing(id)?.services ?? {}).length > 0),
  check(id, facts): readonly Verdict[] {
    const tasks = facts.serviceTasks(id);
    if (tasks.length === 0) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    return tasks.map((task) => verdictOf(task, facts));
  },
});

function verdictOf(task: ServiceFact, facts: Facts): Verdict {
  const { instance, at, sources, blockers } = task;
  const through = task.through === null ? [] : [task.through];
  const said = {
    instance,
    at,
    related: [...new Set([...blockers, ...through])],
    ...(sources.length > 0 ? { sources } : {}),
    data: {
      task: task.task,
      why: task.reason,
      posture: task.posture,
      opening: task.through,
      blocker: blockers[0] ?? null,
      removals: task.removals.join(', '),
      shortByM: task.shortByM,
      tried: task.tried,
    },
  };
  if (task.verdict === 'notAsked') return { outcome: 'notApplicable', reason: 'notAsked', ...said };
  switch (task.verdict) {
    case 'byHand':
    case 'withTools':
    case 'withMirror':
      return { outcome: 'pass', ...measured(task.deciding, 0), ...said };
    default:
      break;
  }
  // Nobody has said where people stand: then a way that is not found says little.
  if (!task.hasStanding && Object.keys(facts.standingPlaces()).length === 0)
    return { outcome: 'notApplicable', reason: 'noStanding', ...said };
  // Room of its own that is lacking is told by access/service-space.
  if (task.asksForRoom && (task.reason === 'stuck' || task.reason === 'stuckTilted'))
    return { outcome: 'notApplicable', reason: 'roomTold', ...said };
  switch (task.verdict) {
    case 'afterMoving':
      return {
        outcome: 'fail',
        severity: 'advice',
        reason: 'afterMoving',
        ...countedFaults(task.removals.length),
        ...said,
      };
    case 'noWayFound':
      return { outcome: 'cannotTell', reason: 'noWayFound', enterNext: TRY, ...said };
    case 'byDismantling':
      return {
        outcome: 'fail',
        severity: 'fault',
        reason: 'byDismantling',
        ...countedFaults(task.removals.length),
        ...said,
      };
    default:
      return { outcome: 'fail', severity: 'fault', reason: 'notAtAll', ...measured(task.deciding, 1), ...said };
  }
}

const TRY = 'Say that it was done by hand, with the date, once somebody has tried it aboard';

/** The measure that it hangs on; where nothing was measured, whether it goes. */
function measured(deciding: Judged | null, faults: number): ReturnType<typeof countedFaults> {
  if (!deciding || deciding.met !== (faults === 0)) return countedFaults(faults);
  const { met: _, ...compared } = deciding;
  return compared;
}
