/**
 * From a wish to a run: search for a way, relax its tangent polygon, validate; where that fails, make the trouble spot dear and
 * look again. Counts its work in steps and never looks at a clock.
 */
import { distance, type Vec3 } from '../../base/vec';
import { attempted, hung, type Task } from './attempt';
import type { Violation } from './band';
import { BOUND_STEPS, plainBound } from './bound/bound';
import { clipsBeside } from './clips-beside';
import { fullLink, mayConnect, missingLink } from './connected';
import { overVariants } from './end-variants';
import { endOf } from './leads';
import { Look, type LookKind } from './looks';
import { polished } from './polish';
import { unfold } from './polygon';
import { notFoundAt, reasonOf } from './reasons';
import { GUIDE_WEIGHT } from './search';
import { startingPolygon } from './starting';
import { CLIP_WITHIN_M } from './straights';
import type { Stop } from './stretch';
import { suggestedWays } from './suggested';
import { isToBeTurned, turnedBack, turnedLine } from './turned-line';
import type { Blocked, BlockReason, Effort, Routed, RoutingLine, RoutingView, RunOutcome } from './types';
import { type Mark, marksOf } from './waypoints';
import { World } from './world';

interface Budget {
  readonly tries: number;
  /** Searches after the first success, for something cheaper. */
  readonly alternatives: number;
  readonly sweeps: number;
  readonly pops: number;
  /** Taken in turn. */
  readonly looks: readonly LookKind[];
  /** A run that costs more than so many times its bound is compared with the ways that the bound rests on. */
  readonly farFromBound: number;
  /** Runs that are polished, the cheapest first. */
  readonly polishes: number;
  /** Runs that are hung on to what holds them, the cheapest first. */
  readonly hangs: number;
}
const FORWARD: LookKind = { isBackward: false, stiffness: 1, guideWeight: GUIDE_WEIGHT };
/** For what was not found with more room: through gaps that are hardly wider than the hose. */
const NARROW_LOOKS: readonly LookKind[] = [{ ...FORWARD, isNarrow: true }];
const NARROW_TRIES = 3;
const BUDGETS: Readonly<Record<Effort, Budget>> = {
  fast: {
    tries: 6,
    alternatives: 1,
    sweeps: 30,
    pops: 9000,
    looks: [FORWARD],
    farFromBound: 1.2,
    polishes: 1,
    hangs: 1,
  },
  deep: {
    tries: 30,
    alternatives: 11,
    sweeps: 70,
    pops: 30000,
    // From both ends, so that the answer does not depend on which is called the start; as a stiffer hose, so that what one of them finds
    // a softer one finds too.
    looks: [
      { isBackward: false, stiffness: 1, guideWeight: 1 },
      { isBackward: true, stiffness: 1, guideWeight: 1 },
      { isBackward: false, stiffness: 1.5, guideWeight: GUIDE_WEIGHT },
      { isBackward: true, stiffness: 1.5, guideWeight: GUIDE_WEIGHT },
    ],
    farFromBound: 1.02,
    polishes: 3,
    hangs: 8,
  },
};
/** A run this near its bound is not polished, nor is one that could gain less than a share. */
const POLISH_FROM: Readonly<Record<Effort, number>> = { fast: 1.02, deep: 1.005 };
const POLISH_ROUNDS: Readonly<Record<Effort, number>> = { fast: 1, deep: 3 };
const POLISH_SHARE = 0.003;
const NEAR_BOUND: Readonly<Record<Effort, number>> = { fast: 1.3, deep: 1.02 };
/** Looks for something shorter when a supplied hose does not reach. */
const LIMITED_ALTERNATIVES = 4;
/** What makes a trouble spot dear, and how far round it. */
const BAN_COST_M = 0.25;
const BAN_RADIUS_M = 0.22;
/**
 * Stiffest first, then the thickest, then the farthest to go: the one order in which lines are routed. Ids come last, where all else is equal.
 */
export function rankLines(lines: readonly RoutingLine[]): RoutingLine[] {
  return [...lines].sort((a, b) => {
    const [one, other] = [rankKey(a), rankKey(b)];
    const k = one.findIndex((value, i) => value !== other[i]);
    return k >= 0 ? (other[k] as number) - (one[k] as number) : a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
  });
}

/** What the rank of a line goes by besides its id, the greatest first. Distances in whole micrometres: mirrored boats rank alike. */
export const rankKey = (line: RoutingLine): readonly [number, number, number] => [
  line.bendRadiusM,
  line.radiusM,
  Math.round(distance(line.from.at, line.to.at) * 1e6),
];

export function routeLine(view: RoutingView, line: RoutingLine, effort: Effort): RunOutcome {
  const search = startSearch(view, line, effort);
  for (;;) {
    const outcome = search.step(Number.POSITIVE_INFINITY);
    if (outcome) return outcome;
  }
}

/** A search that can be put down and taken up again; `step` does about `steps` sight tests' worth of work. */
export function startSearch(
  view: RoutingView,
  line: RoutingLine,
  effort: Effort,
): { step(steps: number): RunOutcome | null } {
  const isTurned = effort === 'deep' && isToBeTurned(line);
  const work = overVariants(view, isTurned ? turnedLine(line) : line, effort, routing);
  let outcome: RunOutcome | null = null;
  return {
    step(steps) {
      let done = 0;
      while (!outcome && done < steps) {
        const next = work.next();
        if (next.done) outcome = isTurned ? turnedBack(next.value, line) : next.value;
        else done += next.value;
      }
      return outcome;
    },
  };
}

/** Ready for a try, or blocked where it stands. A warm run is content with the straight distance as its bound. */
export function prepare(view: RoutingView, asked: RoutingLine, isWarm = false): Task | Blocked {
  // No hose bends tighter than about its own middle.
  const hanging = asked.bendRadiusM >= asked.radiusM ? asked : { ...asked, bendRadiusM: asked.radiusM };
  const world = new World(view, hanging);
  const line = hanging.clipAsideM ? { ...hanging, clipPoints: clipsBeside(world, hanging) } : hanging;
  const bound = isWarm ? straightBound(hanging) : boundOf(view, hanging);
  const boundM = bound.lengthM;
  const hose = {
    radiusM: line.radiusM,
    bendRadiusM: line.bendRadiusM,
    holeRadiusM: Math.max(line.holeRadiusM, line.radiusM),
  };
  const from = endOf(world, line, line.from);
  if ('reason' in from) return blocked(from.reason, boundM, from.isProof);
  const to = endOf(world, line, line.to);
  if ('reason' in to) return blocked(to.reason, boundM, to.isProof);
  if (line.lengthLimitM !== undefined && boundM > line.lengthLimitM)
    return blocked(
      { kind: 'reach', at: line.to.at, blocker: null, shortByM: boundM - line.lengthLimitM, tries: 0 },
      boundM,
      true,
    );
  return { world, line, hose, ends: [from, to], boundM, costBoundM: bound.costM };
}

function blocked(reason: BlockReason, lowerBoundM: number, proved = false): Blocked {
  return { status: 'blocked', proved, reason, lowerBoundM };
}

/** Certified, from the layout and the ends alone; clip points add that the run must reach them. */
function boundOf(view: RoutingView, line: RoutingLine): { readonly lengthM: number; readonly costM: number } {
  const { lengthM, costM } = plainBound(line, view);
  const straight = straightBound(line);
  return { lengthM: Math.max(lengthM, straight.lengthM), costM: Math.max(costM, straight.costM) };
}

/** From end to end by the clip points, or beside them where others hang in the same clips. */
function straightBound(line: RoutingLine): { readonly lengthM: number; readonly costM: number } {
  const asideM = (line.clipAsideM ?? []).reduce((sum, one) => sum + one, 0);
  const stations = [line.from.at, ...line.clipPoints, line.to.at];
  const straight = stations.slice(1).reduce((sum, p, k) => sum + distance(stations[k] as Vec3, p), 0);
  const lengthM = Math.max(0, straight * (1 - 1e-12) - 2 * (CLIP_WITHIN_M * line.clipPoints.length + asideM));
  return { lengthM, costM: lengthM };
}

function* routing(view: RoutingView, line: RoutingLine, effort: Effort): Generator<number, RunOutcome> {
  const task = prepare(view, line);
  if ('status' in task) return task;
  const { world, hose, boundM } = task;
  const forbidden = new Set(line.forbiddenCompartments);
  const { cells } = view.layout;
  const isAllowed = (cell: number): boolean => !forbidden.has(cells[cell]?.compartment ?? '');
  const marks = marksOf(task, isAllowed);
  if ('reason' in marks) return blocked(marks.reason, boundM, marks.proved);
  const between = marks.flatMap((mark) => mark.between ?? []);
  const pairs = marks
    .slice(1)
    .map(({ arrive }, k): readonly [number, number] => [(marks[k] as Mark).depart.cell, arrive.cell]);
  for (const [k, [start, goal]] of pairs.entries())
    if (!mayConnect(world.structure, hose, start, goal, isAllowed)) {
      const link = missingLink(world.structure, hose, start, goal, isAllowed);
      return blocked(
        link
          ? { kind: 'hole', at: link.at, blocker: link.panelId, shortByM: link.shortByM, tries: 0 }
          : { kind: 'disconnected', at: (marks[k + 1] as Mark).arrive.at, blocker: null, shortByM: null, tries: 0 },
        boundM,
        true,
      );
    }
  const { lengthLimitM } = line;
  const budget = BUDGETS[effort];
  const allLooks: Look[] = [];
  const avoid = (look: Look, spots: readonly Vec3[]): void => {
    for (const at of spots) look.penalise({ at, radiusM: BAN_RADIUS_M, costM: BAN_COST_M });
  };
  const runs: Routed[] = [];
  let best: Routed | null = null;
  let worst: Violation | null = null;
  let tries = 0;
  let spare = lengthLimitM === undefined ? budget.alternatives : LIMITED_ALTERNATIVES;
  let isSuggested = false;
  const take = (attempt: Routed | Violation): void => {
    if (!('status' in attempt)) {
      if (!worst || attempt.byM < worst.byM) worst = attempt;
      return;
    }
    runs.push(attempt);
    if (!best || price(attempt) < price(best)) best = attempt;
  };
  // Where the grid of the search misses, the crossings of the bound may do; where it finds nothing, they show what stands in the way.
  const trySuggestions = function* (): Generator<number, void> {
    if (isSuggested) return;
    isSuggested = true;
    for (const stretches of suggestedWays(task, BOUND_STEPS[effort])) {
      const polygon = unfold(startingPolygon(task, stretches, between), hose.bendRadiusM);
      take(yield* attempted(task, polygon, budget.sweeps, price, best, true));
    }
  };
  // Near its bound a run is not looked at again.
  const wanted = lengthLimitM ?? NEAR_BOUND[effort] * task.costBoundM;
  // Nearly every run hangs free somewhere: which way is best is settled without that.
  const price = (run: Routed): number => (lengthLimitM === undefined ? run.costM - run.costs.surfaceM : run.lengthM);
  const isWanting = (): boolean => !best || (spare > 0 && price(best) > wanted);
  const lookAsEach = function* (kinds: readonly LookKind[], most: number): Generator<number, void> {
    const looks = kinds.map((kind) => new Look(task, marks, isAllowed, kind));
    allLooks.push(...looks);
    let open: readonly Look[] = looks;
    for (let turn = 0; turn < most && open.length > 0 && isWanting(); turn += 1) {
      // Each look avoids only what it has found itself, so that those from both ends are on a par.
      const look = open[turn % open.length] as Look;
      tries += 1;
      if (best) spare -= 1;
      const seen = yield* look.stops(budget.pops);
      if (!seen) {
        open = open.filter((one) => one !== look);
        if (!best) yield* trySuggestions();
        continue;
      }
      const polygon = unfold(startingPolygon(task, seen, between), hose.bendRadiusM);
      const seenFrom = look.kind.isBackward ? { ...task, isBackward: true } : task;
      const attempt: Routed | Violation = yield* attempted(seenFrom, polygon, budget.sweeps, price, best, tries === 1);
      take(attempt);
      if ('status' in attempt) {
        // Other ways show when this one is made dear where it is specific: at its holes and its middle.
        avoid(look, attempt.crossings.length > 0 ? attempt.crossings.map((one) => one.at) : [middleOf(attempt)]);
        continue;
      }
      if (!best) yield* trySuggestions();
      avoid(look, [attempt.at, ...nearestStops(seen.flat(), attempt.at)]);
    }
  };
  yield* lookAsEach(budget.looks, budget.tries);
  if (!best) yield* lookAsEach(NARROW_LOOKS, NARROW_TRIES);
  if (best && lengthLimitM === undefined && price(best) > budget.farFromBound * task.costBoundM)
    yield* trySuggestions();
  for (const candidate of worthPolishing(runs, price, budget.polishes, POLISH_FROM[effort] * task.costBoundM)) {
    let rough = candidate;
    for (let round = 0; round < POLISH_ROUNDS[effort]; round += 1) {
      const next: Routed | Violation | null = yield* polished(task, rough, budget.sweeps, POLISH_SHARE, price);
      if (!next) break;
      take(next);
      if (!('status' in next) || price(next) > (1 - POLISH_SHARE) * price(rough)) break;
      rough = next;
    }
  }
  if (best && lengthLimitM !== undefined && (best as Routed).lengthM > lengthLimitM)
    return blocked(
      { kind: 'reach', at: line.to.at, blocker: null, shortByM: (best as Routed).lengthM - lengthLimitM, tries },
      boundM,
    );
  if (best) return yield* cheapestHung(task, runs, best, price, budget.hangs);
  for (const pair of pairs) {
    const full = fullLink(task, pair, isAllowed);
    if (!full) continue;
    const { at, blocker, panelId, shortByM } = full;
    return blocked({ kind: blocker ? 'feed' : 'hole', at, blocker: blocker ?? panelId, shortByM, tries }, boundM);
  }
  const stuckAt = allLooks.find((look) => look.stuckAt)?.stuckAt;
  return blocked(worst ? reasonOf(task, worst, tries) : notFoundAt(task, stuckAt ?? line.to.at, tries), boundM);
}

/**
 * The cheapest run once those that promise most have been drawn towards what clips can hold them to: the shortest of them may be the one that
 * hangs free for most of its way.
 */
function* cheapestHung(
  task: Task,
  runs: readonly Routed[],
  best: Routed,
  price: (run: Routed) => number,
  most: number,
): Generator<number, Routed> {
  if (task.world.prices.wishes.surface === 0 || most === 1) return yield* hung(task, best);
  let cheapest: Routed | null = null;
  for (const run of worthPolishing(runs, price, most, 0, ALIKE_SHARE)) {
    // What a run costs without hanging it cannot come below.
    if (cheapest && price(run) >= cheapest.costM) break;
    let next = run;
    for (let round = 0; round < MOST_HANGINGS; round += 1) {
      const again: Routed = yield* hung(task, next);
      const isDone = again.costM > (1 - HANGING_SHARE) * next.costM;
      next = again;
      if (isDone) break;
    }
    if (!cheapest || next.costM < cheapest.costM) cheapest = next;
  }
  return cheapest ?? best;
}

/** What has been hung has new corners, and may be hung again while that gains more than a share. */
const MOST_HANGINGS = 4;
const HANGING_SHARE = 0.003;
/** Runs that cost the same but for this share are one: where a run hangs shows small differences large. */
const ALIKE_SHARE = 1e-5;

/** The cheapest runs of different cost that might gain. */
function worthPolishing(
  runs: readonly Routed[],
  price: (run: Routed) => number,
  most: number,
  fromM: number,
  alikeShare = SAME_SHARE,
): Routed[] {
  const byPrice = runs.filter((run) => price(run) > fromM).sort((a, b) => price(a) - price(b));
  const apart = byPrice.filter((run, k) => k === 0 || price(run) > price(byPrice[k - 1] as Routed) * (1 + alikeShare));
  return apart.slice(0, most).filter((run) => price(run) < NEAR_BEST * price(apart[0] as Routed));
}
const SAME_SHARE = 0.001;
const NEAR_BEST = 1.1;

/** The two stops of a way that lie nearest to a place: the trouble is theirs. */
function nearestStops(stops: readonly Stop[], at: Vec3): Vec3[] {
  return stops
    .map((stop) => (stop.kind === 'free' ? stop.at : stop.passage.at))
    .map((p, k) => ({ p, k, d: distance(p, at) }))
    .sort((a, b) => a.d - b.d || a.k - b.k)
    .slice(0, 2)
    .map(({ p }) => p);
}

const middleOf = (routed: Routed): Vec3 => {
  const prim = routed.prims[routed.prims.length >> 1];
  return prim ? prim.from : [0, 0, 0];
};
