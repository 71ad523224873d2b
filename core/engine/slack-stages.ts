import { along, distance, dot, UNIT_AXES, type Vec3 } from '../base/vec';
import { CLEAN_MARGIN, combine } from '../boat/accuracy';
import { sameValue } from '../boat/schema-walk';
import type { Routed, RoutingLine } from '../runs/routing/types';
import { warmRun } from '../runs/routing/warm';
import { gradesOver } from './grade-stages';
import { routePasses } from './route-passes';
import { avoided, finalRun, rankedView, wish } from './run-stages';
import { effort, held, line } from './source';
import type { ComputedStage, Read } from './store';

/** A hose that is longer than this many of its bend radii takes up a slip of its ends somewhere along it. */
const LOOSE_RADII = 8;
/** What stands about a port matters, however loose the hose, once either may be this far off. */
const COARSE_M = 0.06;
/** Halvings of the slip that the tape allows, when all of it is too much. */
const HALVINGS = 2;

export interface RunSlack {
  /** What the end may slip, metres: less than the tape may be wrong about it. */
  readonly slackM: number;
  /** Axis of the boat frame along which it may slip the least for what is known of it. */
  readonly way: Vec3;
}

/**
 * How far one end of a short, stiff run, or either end of one between things that are known coarsely, may slip in the worst
 * direction while it still finds a way, as far as the tape may be wrong about it; null for a run that bears it all, that is
 * blocked, or that is shown while something is dragged.
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
    const isShort = distance(from.at, to.at) - from.rigidM - to.rigidM <= LOOSE_RADII * bendRadiusM;
    const { gradesAlong } = gradesOver(read);
    const tries = slips(asked.line, lineId, run, read);
    let worst: RunSlack | null = null;
    let least = 1;
    for (const way of UNIT_AXES) {
      const grades = [ends.from.thing, ends.to.thing].flatMap((id) => gradesAlong(id, way));
      const most = CLEAN_MARGIN * combine(...grades.map(({ gradeM }) => gradeM));
      if (!isShort && most < COARSE_M) continue;
      for (const [end, sign] of isShort ? ONE_END : BOTH_ENDS) {
        let share = least;
        for (
          let halving = 0;
          halving <= HALVINGS && share > 0 && most > 0 && !tries(end, way, sign * share * most);
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

/**
 * Whether two arcs can put right an offset between ports that face each other: over sqrt(4 R d - d2) of length, from the right
 * triangle between the centres of the arcs (derived). A straight run has no corner that could be relaxed, so it is looked for anew.
 */
function twoArcsFit({ from, to, bendRadiusM }: RoutingLine, slip: number): boolean {
  const offset = Math.abs(slip);
  const needed = Math.sqrt(Math.max(0, 4 * bendRadiusM * offset - offset * offset));
  return distance(from.at, to.at) - from.rigidM - to.rigidM >= needed;
}

/** Cosine between the way a port looks and the way that it slips. */
const STANDS_BACK = -0.7;

type End = 'from' | 'to';

/** Between near ports it is all the same which of them slips. */
const ONE_END: readonly (readonly [End, 1 | -1])[] = [
  ['from', 1],
  ['from', -1],
];
const BOTH_ENDS: typeof ONE_END = [...ONE_END, ['to', 1], ['to', -1]];

/** Whether the line still finds a way with an end so far off along an axis. */
function slips(
  asked: RoutingLine,
  lineId: string,
  run: Routed,
  read: Read,
): (end: End, axis: Vec3, slip: number) => boolean {
  const view = rankedView(lineId, read);
  return (end, axis, slip) => {
    // A port that stands back leaves its hose more room; tried, it would lie within its own thing.
    if (dot(asked[end].direction, axis) * Math.sign(slip) < STANDS_BACK) return true;
    const moved: RoutingLine = { ...asked, [end]: { ...asked[end], at: along(asked[end].at, axis, slip) } };
    if (warmRun(view, moved, run).status === 'routed') return true;
    if (run.bends > 0 || !twoArcsFit(moved, slip)) return false;
    return routePasses(moved, read(avoided, lineId), view, read(effort)).status === 'routed';
  };
}
