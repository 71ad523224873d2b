import { along, distance, dot, scale, squareTo, subtract, UNIT_AXES, type Vec3 } from '../base/vec';
import { CLEAN_MARGIN, combine } from '../boat/accuracy';
import { sameValue } from '../boat/schema-walk';
import type { GradeShare } from '../rules/finding';
import { gradesOfBlocker } from '../rules/grade-of-blocker';
import { asLaid } from '../runs/routing/end-variants';
import type { Lead, Routed, RoutingLine } from '../runs/routing/types';
import { warmRun } from '../runs/routing/warm';
import { freeDepth } from '../shape/space/free-depth';
import { finalRun, viewAtRest } from './final-run';
import { gradesOver } from './grade-stages';
import { routePasses } from './route-passes';
import { avoided, wish } from './run-stages';
import { hull, layout } from './shape-stages';
import { boxKey, solidsInBox } from './solid-stages';
import { effort, held, line } from './source';
import type { ComputedStage, Read } from './store';

/** A hose that is longer than this many of its bend radii takes up a slip of its ends somewhere along it. */
const LOOSE_RADII = 8;
/** What stands about a port matters, however loose the hose, once either may be this far off. */
const COARSE_M = 0.06;
/** Halvings of the slip that the tape allows, when all of it is too much. */
const HALVINGS = 2;

/** What stands before a port is looked for this far beyond the room that its hose needs: as far as the coarsest grades reach. */
const LOOK_M = 0.22;

export interface RunSlack {
  /** What the end may slip, metres: less than the tape may be wrong about it. */
  readonly slackM: number;
  /** What is known of it the way in which it may slip the least. */
  readonly grade: readonly GradeShare[];
}

/** A slip of one end along a direction, as far as the tape allows. */
interface Trial {
  readonly end: End;
  readonly way: Vec3;
  readonly mostM: number;
  readonly grade: readonly GradeShare[];
}

/**
 * How far an end of a run may slip in the worst direction while the run still finds a way, as far as the tape may be wrong
 * about it; null for a run that bears it all, that is blocked, or that is shown while something is dragged. Tried are one end of
 * a short, stiff run and either end of one between things that are known coarsely; of every run, the room in which it turns
 * before what stands ahead of its ports is held against its bend.
 * The run is relaxed from where it lies, with its holes and corners kept: cheap enough for every line, and on the safe side.
 */
export const runSlack: ComputedStage<RunSlack | null> = {
  id: 'runSlack',
  compute: (lineId, read) => {
    if (read(held, lineId)) return null;
    const asked = read(wish, lineId);
    const run = read(finalRun, lineId);
    const ends = read(line, lineId);
    if (asked.outcome !== 'line' || run.status !== 'routed' || run.pinned || !ends) return null;
    const things = { from: ends.from.thing, to: ends.to.thing };
    const laid = asLaid(asked.line, run);
    const tries = slips(laid, lineId, run, read);
    let worst: RunSlack | null = null;
    let least = 1;
    for (const end of BOTH_ENDS) {
      const before = beforePort(laid, end, things[end], run, read);
      if (before && before.share < least) worst = { slackM: before.slackM, grade: before.grade };
      least = Math.min(least, before?.share ?? 1);
    }
    for (const { end, way, mostM, grade } of trialsOf(laid, things, read)) {
      let share = least;
      for (let halving = 0; halving <= HALVINGS && share > 0 && !tries(end, way, share * mostM); halving++)
        share = halving < HALVINGS ? share / 2 : 0;
      if (share < least) worst = { slackM: share * mostM, grade };
      least = Math.min(least, share);
      if (least === 0) return worst;
    }
    return worst;
  },
  same: sameValue,
};

type Things = Readonly<Record<End, string>>;

const isShort = ({ from, to, bendRadiusM }: RoutingLine): boolean =>
  distance(from.at, to.at) - from.rigidM - to.rigidM <= LOOSE_RADII * bendRadiusM;

function trialsOf(asked: RoutingLine, things: Things, read: Read): readonly Trial[] {
  const stiff = isShort(asked);
  const { gradesAlong } = gradesOver(read);
  return UNIT_AXES.flatMap((way): Trial[] => {
    const grade = [things.from, things.to].flatMap((id) => gradesAlong(id, way));
    const mostM = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
    if (mostM === 0 || (!stiff && mostM < COARSE_M)) return [];
    return (stiff ? ONE_END : BOTH_ENDS).flatMap((end): Trial[] => [
      { end, way, mostM, grade },
      { end, way: scale(way, -1), mostM, grade },
    ]);
  });
}

/**
 * Room that a hose has to turn before what stands ahead of its port, beyond what its bend takes; null where that is more than
 * the tape may be wrong about, or where the hose goes on past what stands there.
 */
function beforePort(
  asked: RoutingLine,
  end: End,
  thing: string,
  run: Routed,
  read: Read,
): (RunSlack & { readonly share: number }) | null {
  const { at, direction, rigidM } = asked[end];
  const neededM = rigidM + asked.bendRadiusM + asked.radiusM;
  const far = along(at, direction, neededM + LOOK_M);
  const bound = (pick: (a: number, b: number) => number, by: number): Vec3 =>
    [0, 1, 2].map((k) => pick(at[k] ?? 0, far[k] ?? 0) + by) as unknown as Vec3;
  const solids = read(solidsInBox, boxKey(bound(Math.min, -asked.radiusM), bound(Math.max, asked.radiusM))).filter(
    ({ owner, layer }) => owner !== thing && layer !== 'serviceKeepOut' && layer !== 'run',
  );
  const face = {
    at,
    direction,
    across: squareTo(direction),
    sizeM: [2 * asked.radiusM, 2 * asked.radiusM] as const,
    round: false,
  };
  const { freeM, blocker } = freeDepth(face, neededM + LOOK_M, { layout: read(layout), hull: read(hull), solids });
  if (!blocker) return null;
  const grades = gradesOver(read);
  const grade = [...grades.gradesAlong(thing, direction), ...gradesOfBlocker(blocker, direction, grades)];
  const mostM = CLEAN_MARGIN * combine(...grade.map(({ gradeM }) => gradeM));
  const slackM = Math.max(0, freeM - neededM);
  if (slackM >= mostM || !turnsBefore(run, end, asked[end], freeM)) return null;
  return { slackM, grade, share: slackM / mostM };
}

/** Whether a run turns aside from the way that its port looks before it has gone so far ahead. */
function turnsBefore(run: Routed, end: End, { at, direction }: Lead, aheadM: number): boolean {
  const straights = run.prims.filter(({ kind }) => kind === 'line');
  const outward = end === 'from' ? straights : straights.reverse();
  for (const { from, to } of outward) {
    const [near, far] = end === 'from' ? [from, to] : [to, from];
    if (dot(subtract(far, at), direction) > aheadM) return false;
    if (dot(subtract(far, near), direction) < ASIDE * distance(near, far)) return true;
  }
  return true;
}
/** Cosine to the way of its port from which a hose has turned aside. */
const ASIDE = 0.05;

/**
 * Whether two arcs can put right an offset between ports that face each other: over sqrt(4 R d - d2) of length, from the right
 * triangle between the centres of the arcs (derived). A straight run has no corner that could be relaxed, so it is looked for anew.
 */
function twoArcsFit({ from, to, bendRadiusM }: RoutingLine, slip: number): boolean {
  const needed = Math.sqrt(Math.max(0, 4 * bendRadiusM * slip - slip * slip));
  return distance(from.at, to.at) - from.rigidM - to.rigidM >= needed;
}

/** Cosine between the way a port looks and the way that it slips. */
const STANDS_BACK = -0.7;

type End = 'from' | 'to';

/** Between near ports it is all the same which of them slips. */
const ONE_END: readonly End[] = ['from'];
const BOTH_ENDS: readonly End[] = ['from', 'to'];

/** Whether the line still finds a way with an end so far off along a direction. */
function slips(
  asked: RoutingLine,
  lineId: string,
  run: Routed,
  read: Read,
): (end: End, way: Vec3, slip: number) => boolean {
  const view = viewAtRest(lineId, read);
  return (end, way, slip) => {
    // A port that stands back leaves its hose more room; tried, it would lie within its own thing.
    if (dot(asked[end].direction, way) < STANDS_BACK) return true;
    const moved: RoutingLine = { ...asked, [end]: { ...asked[end], at: along(asked[end].at, way, slip) } };
    if (warmRun(view, moved, run).status === 'routed') return true;
    if (run.bends > 0 || !twoArcsFit(moved, slip)) return false;
    return routePasses(moved, read(avoided, lineId), view, read(effort)).status === 'routed';
  };
}
