import { distance, type Vec3 } from '../../base/vec';
import type { Task } from './attempt';
import type { Violation } from './band';
import type { BlockReason } from './types';
import { sharedStretch } from './validate';
import type { Obstacle } from './world';

/** What stands nearest is looked for within this. */
const REACH_M = 0.6;

/** Two hoses on one port should have parted within this many times the stretch that they may share. */
const PARTING = 2;

/**
 * What the best try lacked, as an answer: where, what stands there and by how much. A bend that lacks straight length is put
 * to what stands nearest; a hose that has no room beside another on the same port, to that port.
 */
export function reasonOf(task: Task, worst: Violation, tries: number): BlockReason {
  const { kind, at, byM } = worst;
  const blocker = worst.blocker || nearestTo(task, at);
  for (const end of task.ends)
    if (
      kind === 'clearance' &&
      distance(at, end.lead.at) < PARTING * sharedStretch(end, task.line) &&
      task.world.obstacles.some((one) => one.kind === 'run' && one.id === blocker && one.owner === end.shared)
    )
      return { kind: 'lead', at: end.lead.at, blocker, shortByM: byM, tries };
  return { kind, at, blocker, shortByM: byM, tries };
}

/** No way was in sight: the place nearest to the goal that was reached, and what stands nearest to it. */
export const notFoundAt = (task: Task, at: Vec3, tries: number): BlockReason => ({
  kind: 'notFound',
  at,
  blocker: nearestTo(task, at),
  shortByM: null,
  tries,
});

function nearestTo({ world }: Task, [x, y, z]: Vec3): string | null {
  let least = world.hullClearance(x, y, z, x, y, z, REACH_M);
  let blocker = least < REACH_M ? 'hull' : null;
  for (const rank of world.near(x - REACH_M, y - REACH_M, z - REACH_M, x + REACH_M, y + REACH_M, z + REACH_M)) {
    const apart = world.distance(rank, x, y, z, x, y, z, least);
    if (apart >= least) continue;
    least = apart;
    blocker = (world.obstacles[rank] as Obstacle).id;
  }
  return blocker;
}
