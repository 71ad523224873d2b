import { elementsOfRun, relaxed } from './attempt';
import { asLaid } from './end-variants';
import { asUndrilled, pulledElements, type SlidCrossing, slidElements } from './pull';
import { reasonOf } from './reasons';
import { prepare } from './route';
import type { Routed, RoutingLine, RoutingView, RunOutcome } from './types';

/** Sweeps of a warm band: the ends moved a little, so little is to be done. */
const WARM_SWEEPS = 3;

/**
 * The run for a line whose ends or surroundings moved a little: the same holes and corners, relaxed anew. Cheap enough for every
 * frame of a drag; it keeps to its side of every obstacle, so a search must follow when the hand rests. `slid`: one crossing
 * is held at a place in its panel.
 */
export function warmRun(view: RoutingView, line: RoutingLine, previous: Routed, slid?: SlidCrossing): RunOutcome {
  const task = prepare(view, asLaid(line, previous), true);
  if ('status' in task) return task;
  const elements = slid
    ? slidElements(task, previous, slid)
    : (elementsOfRun(task, previous) ?? pulledElements(task, previous));
  if (!elements)
    return {
      status: 'blocked',
      proved: false,
      reason: { kind: 'notFound', at: null, blocker: null, shortByM: null, tries: 0 },
      lowerBoundM: task.boundM,
    };
  const work = relaxed(task, elements, WARM_SWEEPS, false, 'asItIs');
  for (;;) {
    const next = work.next();
    if (!next.done) continue;
    if ('status' in next.value) {
      const { turns, isOtherFeed } = previous;
      const run = { ...next.value, ...(turns ? { turns } : {}), ...(isOtherFeed ? { isOtherFeed } : {}) };
      return slid ? asUndrilled(run, slid) : run;
    }
    return {
      status: 'blocked',
      proved: false,
      reason: reasonOf(task, next.value, 1),
      lowerBoundM: task.boundM,
    };
  }
}
