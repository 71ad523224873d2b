import { along, distance, type Vec3 } from '../base/vec';
import { CLEAN_MARGIN, combine } from '../boat/accuracy';
import { sameValue } from '../boat/schema-walk';
import type { Routed, RoutingLine } from '../runs/routing/types';
import { warmRun } from '../runs/routing/warm';
import { gradesOver } from './grade-stages';
import { finalRun, rankedView, wish } from './run-stages';
import { held, line } from './source';
import type { ComputedStage, Read } from './store';

/** A hose that is longer than this many of its bend radii takes up a slip of its ends somewhere along it. */
const LOOSE_RADII = 8;
/** Halvings of the slip that the tape allows, when all of it is too much. */
const HALVINGS = 2;
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

export interface RunSlack {
  /** What the end may slip, metres: less than the tape may be wrong about it. */
  readonly slackM: number;
  /** Axis of the boat frame along which it may slip the least for what is known of it. */
  readonly way: Vec3;
}

/**
 * How far one end of a short, stiff run may slip in the worst direction while it still finds a way, as far as the tape
 * may be wrong about it; null for a run that is loose enough, that is blocked, or that is shown while something is dragged.
 * The run is relaxed from where it lies, with its holes and corners kept: cheap enough for every line, and on the safe side.
 */
export const runSlack: ComputedStage<RunSlack | null> = {
  id: 'runSlack',
  compute: (lineId, read) => {
    if (read(held, lineId)) return null;
    const asked = read(wish, lineId);
    const run = read(finalRun, lineId);
    const ends = read(line, lineId);
    if (asked.outcome !== 'line' || run.status !== 'routed' || !ends) return null;
    const { from, to, bendRadiusM } = asked.line;
    if (distance(from.at, to.at) - from.rigidM - to.rigidM > LOOSE_RADII * bendRadiusM) return null;
    const { gradesAlong } = gradesOver(read);
    const tries = slips(asked.line, lineId, run, read);
    let worst: RunSlack | null = null;
    let least = 1;
    for (const way of AXES) {
      const grades = [ends.from.thing, ends.to.thing].flatMap((id) => gradesAlong(id, way));
      const most = CLEAN_MARGIN * combine(...grades.map(({ gradeM }) => gradeM));
      for (const sign of [1, -1]) {
        let share = least;
        for (
          let halving = 0;
          halving <= HALVINGS && share > 0 && most > 0 && !tries(way, sign * share * most);
          halving++
        )
          share = halving < HALVINGS ? share / 2 : 0;
        if (share < least) worst = { slackM: share * most, way };
        least = Math.min(least, share);
        if (least === 0) return worst;
      }
    }
    return worst;
  },
  same: sameValue,
};

/** Whether the line still finds a way with its first end so far off along an axis. */
function slips(asked: RoutingLine, lineId: string, run: Routed, read: Read): (axis: Vec3, slip: number) => boolean {
  const view = rankedView(lineId, read);
  return (axis, slip) => {
    const moved: RoutingLine = { ...asked, from: { ...asked.from, at: along(asked.from.at, axis, slip) } };
    return warmRun(view, moved, run).status === 'routed';
  };
}
