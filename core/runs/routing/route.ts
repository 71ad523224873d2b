/**
 * From a wish to a run: search for a way, relax its tangent polygon, validate; where that fails, make the trouble spot dear and
 * look again. Counts its work in steps and never looks at a clock.
 */
import { distance, type Vec3 } from '../../base/vec';
import { attempted, relaxed, type Task } from './attempt';
import type { Violation } from './band';
import { plainBound } from './bound/bound';
import { mayConnect, missingLink } from './connected';
import { type End, endOf, sharedOwner } from './leads';
import { type Element, unfold } from './polygon';
import { notFoundAt, reasonOf } from './reasons';
import { Search, type Stop, type StretchEnd } from './search';
import { suggestedStops } from './suggested';
import type { Blocked, BlockReason, Effort, Lead, Routed, RoutingLine, RoutingView, RunOutcome } from './types';
import { type Obstacle, World } from './world';

interface Budget {
  readonly tries: number;
  /** Searches after the first success, for something cheaper. */
  readonly alternatives: number;
  readonly sweeps: number;
  readonly pops: number;
}
const BUDGETS: Readonly<Record<Effort, Budget>> = {
  fast: { tries: 6, alternatives: 1, sweeps: 30, pops: 9000 },
  deep: { tries: 30, alternatives: 3, sweeps: 70, pops: 30000 },
};
const NEAR_BOUND: Readonly<Record<Effort, number>> = { fast: 1.3, deep: 1.02 };
/** Looks for something shorter when a supplied hose does not reach. */
const LIMITED_ALTERNATIVES = 4;
/** What makes a trouble spot dear, and how far round it. */
const BAN_COST_M = 0.25;
const BAN_RADIUS_M = 0.22;
/** Stiffest first, then by id: the one order in which lines are routed. */
export function rankLines(lines: readonly RoutingLine[]): RoutingLine[] {
  return [...lines].sort((a, b) => b.bendRadiusM - a.bendRadiusM || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

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
  const work = routing(view, line, effort);
  let outcome: RunOutcome | null = null;
  return {
    step(steps) {
      let done = 0;
      while (!outcome && done < steps) {
        const next = work.next();
        if (next.done) outcome = next.value;
        else done += next.value;
      }
      return outcome;
    },
  };
}

/** Ready for a try, or blocked where it stands. A warm run is content with the straight distance as its bound. */
export function prepare(view: RoutingView, asked: RoutingLine, isWarm = false): Task | Blocked {
  // No hose bends tighter than about its own middle.
  const line = asked.bendRadiusM >= asked.radiusM ? asked : { ...asked, bendRadiusM: asked.radiusM };
  const world = new World(view, line);
  const bound = isWarm ? straightBound(line) : boundOf(view, line);
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

/** From end to end by the clip points. */
function straightBound(line: RoutingLine): { readonly lengthM: number; readonly costM: number } {
  const stations = [line.from.at, ...line.clipPoints, line.to.at];
  const straight = stations.slice(1).reduce((sum, p, k) => sum + distance(stations[k] as Vec3, p), 0);
  const lengthM = Math.max(0, straight * (1 - 1e-12) - 2 * CLIP_WITHIN_M * line.clipPoints.length);
  return { lengthM, costM: lengthM };
}
const CLIP_WITHIN_M = 0.001;

function* routing(view: RoutingView, line: RoutingLine, effort: Effort): Generator<number, RunOutcome> {
  const task = prepare(view, line);
  if ('status' in task) return task;
  const { world, hose, boundM } = task;
  const forbidden = new Set(line.forbiddenCompartments);
  const { cells } = view.layout;
  const isAllowed = (cell: number): boolean => !forbidden.has(cells[cell]?.compartment ?? '');
  const marks = stretchEnds(task);
  if (!marks)
    return blocked(
      { kind: 'portOutside', at: line.clipPoints[0] ?? null, blocker: null, shortByM: null, tries: 0 },
      boundM,
    );
  for (let k = 0; k + 1 < marks.length; k += 1)
    if (
      !mayConnect(world.structure, hose, (marks[k] as StretchEnd).cell, (marks[k + 1] as StretchEnd).cell, isAllowed)
    ) {
      const link = missingLink(
        world.structure,
        hose,
        (marks[k] as StretchEnd).cell,
        (marks[k + 1] as StretchEnd).cell,
        isAllowed,
      );
      return blocked(
        link
          ? { kind: 'hole', at: link.at, blocker: link.panelId, shortByM: link.shortByM, tries: 0 }
          : { kind: 'disconnected', at: (marks[k + 1] as StretchEnd).at, blocker: null, shortByM: null, tries: 0 },
        boundM,
        true,
      );
    }
  // Where the length binds, it alone is made small: holes and crests count for nothing.
  const { lengthLimitM } = line;
  const suction = line.suction && lengthLimitM === undefined ? { up: view.up } : null;
  const holeWeight = lengthLimitM === undefined ? 1 : 0;
  const searches = marks
    .slice(0, -1)
    .map((from, k) => new Search(world, hose, from, marks[k + 1] as StretchEnd, isAllowed, suction, holeWeight));
  const budget = BUDGETS[effort];
  let best: Routed | null = null;
  let worst: Violation | null = null;
  let stuckAt: Vec3 | null = null;
  let tries = 0;
  let spare = lengthLimitM === undefined ? budget.alternatives : LIMITED_ALTERNATIVES;
  // Near its bound a run is not looked at again.
  const wanted = lengthLimitM ?? NEAR_BOUND[effort] * task.costBoundM;
  const price = (run: Routed): number => (lengthLimitM === undefined ? run.costM : run.lengthM);
  while (tries < budget.tries && (!best || (spare > 0 && price(best) > wanted))) {
    tries += 1;
    if (best) spare -= 1;
    const stops: (readonly Stop[])[] = [];
    for (const search of searches) {
      const found = yield* search.run(budget.pops);
      if (!found) {
        stuckAt ??= search.farthest;
        break;
      }
      stops.push(found);
    }
    if (stops.length < searches.length) {
      if (best || tries > 1) break;
      // No way in sight: the bound's crossings at least show what stands in it.
      const second = yield* viaSuggestion(task, budget.sweeps);
      if (second && 'status' in second) best = second;
      else worst = second;
      break;
    }
    const polygon = unfold(elementsOf(task, stops), hose.bendRadiusM);
    const attempt: Routed | Violation = yield* attempted(task, polygon, budget.sweeps, price, best, tries === 1);
    if ('status' in attempt) {
      if (!best || price(attempt) < price(best)) best = attempt;
      // Other ways show when this one is made dear where it is specific: at its holes and its middle.
      const spots = attempt.crossings.length > 0 ? attempt.crossings.map((one) => one.at) : [middleOf(attempt)];
      for (const at of spots)
        for (const search of searches) search.penalise({ at, radiusM: BAN_RADIUS_M, costM: BAN_COST_M });
      continue;
    }
    if (!worst || attempt.byM < worst.byM) worst = attempt;
    if (tries === 1) {
      // Where the grid of the search missed, the crossings of the bound may do.
      const second = yield* viaSuggestion(task, budget.sweeps);
      if (second && 'status' in second) {
        best = second;
        continue;
      }
    }
    for (const at of [attempt.at, ...nearestStops(stops.flat(), attempt.at)])
      for (const search of searches) search.penalise({ at, radiusM: BAN_RADIUS_M, costM: BAN_COST_M });
  }
  if (best && lengthLimitM !== undefined && best.lengthM > lengthLimitM)
    return blocked(
      { kind: 'reach', at: line.to.at, blocker: null, shortByM: best.lengthM - lengthLimitM, tries },
      boundM,
    );
  if (best) return best;
  return blocked(worst ? reasonOf(task, worst, tries) : notFoundAt(task, stuckAt ?? line.to.at, tries), boundM);
}

/** The run through the crossings that the bound rests on, or what is wrong with it; null where the bound suggests none. */
function* viaSuggestion(task: Task, sweeps: number): Generator<number, Routed | Violation | null> {
  const { world, line, hose } = task;
  const stops = suggestedStops(world.view, line, world.structure, hose);
  return stops ? yield* relaxed(task, unfold(elementsOf(task, [stops]), line.bendRadiusM), sweeps) : null;
}

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

/** Start, clip points and goal, each with its cell; null when a clip point lies in no cell. */
function stretchEnds(task: Task): StretchEnd[] | null {
  const { world, line, ends } = task;
  const exemptAt =
    (lead: Lead) =>
    (obstacle: Obstacle): boolean =>
      obstacle.kind === 'run' && obstacle.owner === sharedOwner(lead);
  const clips: StretchEnd[] = [];
  for (const at of line.clipPoints) {
    const cell = world.view.layout.cellAt(at);
    if (cell === null) return null;
    clips.push({ at, cell, direction: null, exempt: () => false });
  }
  const back = line.to.direction;
  return [
    { at: ends[0].tip, cell: ends[0].cell, direction: line.from.direction, exempt: exemptAt(line.from) },
    ...clips,
    { at: ends[1].tip, cell: ends[1].cell, direction: [-back[0], -back[1], -back[2]], exempt: exemptAt(line.to) },
  ];
}

/** The tangent polygon to begin with: corners where the way found turns, with as much straight as their bends may want. */
function elementsOf(task: Task, stretches: readonly (readonly Stop[])[]): Element[] {
  const { line, ends, world } = task;
  const R = line.bendRadiusM;
  const points: Vec3[] = [ends[0].tip];
  const flat: (Stop | { readonly kind: 'clip'; readonly at: Vec3 })[] = [];
  stretches.forEach((stops, k) => {
    flat.push(...stops);
    const clip = line.clipPoints[k];
    if (clip) flat.push({ kind: 'clip', at: clip });
  });
  points.push(...flat.map((stop) => (stop.kind === 'passage' ? stop.passage.at : stop.at)), ends[1].tip);
  const reachFrom = (k: number, other: number, direction: Vec3): number => {
    const [p, q] = [points[k] as Vec3, points[other] as Vec3];
    const d: Vec3 = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
    const length = Math.hypot(...d);
    if (length < 1e-9) return 0;
    const cos = (d[0] * direction[0] + d[1] * direction[1] + d[2] * direction[2]) / length;
    const angle = Math.acos(Math.max(-1, Math.min(1, cos)));
    return Math.min(R * Math.tan(Math.min(angle, 1.75) / 2), Math.max(0.45 * length, 0.3 * R));
  };
  const lead = (end: End, k: number, other: number): Element => ({
    kind: 'lead',
    at: end.lead.at,
    out: end.lead.direction,
    leadM: end.leadM,
    params: [end.leadM + reachFrom(k, other, end.lead.direction)],
  });
  const last = points.length - 1;
  const elements: Element[] = [lead(ends[0], 0, 1)];
  flat.forEach((stop, i) => {
    const k = i + 1;
    if (stop.kind === 'free') {
      elements.push({ kind: 'free', params: [...stop.at] });
      return;
    }
    if (stop.kind === 'clip') {
      const [p, q] = [points[k - 1] as Vec3, points[k + 1] as Vec3];
      const size = Math.max(1e-6, distance(p, q));
      const reach = Math.min(0.5 * R + 0.02, 0.4 * distance(p, stop.at) + 0.01);
      elements.push({
        kind: 'clip',
        at: stop.at,
        params: [
          stop.at[0] + ((p[0] - q[0]) / size) * reach,
          stop.at[1] + ((p[1] - q[1]) / size) * reach,
          stop.at[2] + ((p[2] - q[2]) / size) * reach,
          Math.min(0.5 * R + 0.02, 0.4 * distance(q, stop.at) + 0.01),
        ],
      });
      return;
    }
    const { passage, forward } = stop;
    const frame = world.structure.frames[passage.frame] as (typeof world.structure.frames)[number];
    const n: Vec3 = forward ? frame.n : [-frame.n[0], -frame.n[1], -frame.n[2]];
    const from: Vec3 = [
      passage.at[0] - frame.origin[0],
      passage.at[1] - frame.origin[1],
      passage.at[2] - frame.origin[2],
    ];
    elements.push({
      kind: 'hole',
      frame,
      panel: passage.panel,
      hole: passage.hole,
      forward,
      stubM: passage.stubM,
      params: [
        from[0] * frame.u[0] + from[1] * frame.u[1] + from[2] * frame.u[2],
        from[0] * frame.v[0] + from[1] * frame.v[1] + from[2] * frame.v[2],
        passage.stubM + reachFrom(k, k - 1, [-n[0], -n[1], -n[2]]),
        passage.stubM + reachFrom(k, k + 1, n),
      ],
    });
  });
  elements.push(lead(ends[1], last, last - 1));
  return elements;
}
