import { along, distance, type Vec3 } from '../base/vec';
import { CLEAN_MARGIN, combine } from '../boat/accuracy';
import type { Routed, RoutingLine } from '../runs/routing/types';
import { warmRun } from '../runs/routing/warm';
import { gradesOver } from './grade-stages';
import { finalRun, rankedView, wish } from './run-stages';
import { held, line } from './source';
import { type ComputedStage, identical, type Read } from './store';

/** A hose that is longer than this many of its bend radii takes up a slip of its ends somewhere along it. */
const LOOSE_RADII = 8;
/** Halvings of the slip that the tape allows, when all of it is too much. */
const HALVINGS = 2;
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/**
 * How far one end of a short, stiff run may slip in the worst direction while it still finds a way, metres, as far as the tape
 * may be wrong about it; null for a run that is loose enough, that is blocked, or that is shown while something is dragged.
 * The run is relaxed from where it lies, with its holes and corners kept: cheap enough for every line, and on the safe side.
 */
export const runSlack: ComputedStage<number | null> = {
  id: 'runSlack',
  compute: (lineId, read) => {
    if (read(held, lineId)) return null;
    const asked = read(wish, lineId);
    const run = read(finalRun, lineId);
    const ends = read(line, lineId);
    if (asked.outcome !== 'line' || run.status !== 'routed' || !ends) return null;
    const { from, to, bendRadiusM } = asked.line;
    if (distance(from.at, to.at) - from.rigidM - to.rigidM > LOOSE_RADII * bendRadiusM) return null;
    const { gradeOf } = gradesOver(read);
    const most = CLEAN_MARGIN * combine(gradeOf(ends.from.thing).gradeM, gradeOf(ends.to.thing).gradeM);
    if (most === 0) return null;
    const tries = slips(asked.line, lineId, run, read);
    let slack = most;
    for (const axis of AXES)
      for (const way of [1, -1]) {
        let slip = slack;
        for (let halving = 0; halving <= HALVINGS && slip > 0 && !tries(axis, way * slip); halving++)
          slip = halving < HALVINGS ? slip / 2 : 0;
        slack = Math.min(slack, slip);
        if (slack === 0) return 0;
      }
    return slack < most ? slack : null;
  },
  same: identical,
};

/** Whether the line still finds a way with its first end so far off along an axis. */
function slips(asked: RoutingLine, lineId: string, run: Routed, read: Read): (axis: Vec3, slip: number) => boolean {
  const view = rankedView(lineId, read);
  return (axis, slip) => {
    const moved: RoutingLine = { ...asked, from: { ...asked.from, at: along(asked.from.at, axis, slip) } };
    return warmRun(view, moved, run).status === 'routed';
  };
}
