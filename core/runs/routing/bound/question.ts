import { along, dot, scale, UP, type Vec3 } from '../../../base/vec';
import type { Layout } from '../../../shape/layout/types';
import { CostHeap } from '../heap';
import { CLIP_WITHIN_M, leadStraightM } from '../straights';
import type { Lead, RoutingLine } from '../types';
import { eventOf, gapsOf, intoCell, leastBetween, outOfCell, roomOf, type Way, type Ways, waysFor } from './crossings';
import { domainOf } from './domain';
import { type BoundEvent, type Chain, type Dual, leastLeg, optimiseDual } from './dual';

/** A line as the bound sees it. */
export interface Question {
  readonly radius: number;
  readonly start: BoundEvent;
  readonly goal: BoundEvent;
  /** Straight hose at the two ends. */
  readonly leads: number;
  readonly ways: readonly Way[];
  readonly leaving: Ways['leaving'];
  readonly arriving: Ways['arriving'];
  readonly startCells: readonly number[];
  readonly goalCells: ReadonlySet<number>;
  readonly gap: (a: number, b: number) => number;
  /** An end lies in no cell: then only the two ends count. */
  readonly adrift: boolean;
}

/** Radii are taken a little smaller: rounding never lifts a bound above a run. */
const RADIUS_SHARE = 0.9999;
/** Rounds of optimising a chain: the first of a search, and those that begin where another ended. */
export const ROUNDS = { root: 24, child: 10 } as const;
const BY_FACE_M = 1e-3;

/** From end to end, whatever points it must pass. */
export const ask = (line: RoutingLine, layout: Layout): Question =>
  between(line, layout, endEvent(line.from, line.radiusM, layout, 1), endEvent(line.to, line.radiusM, layout, -1));

/** From end to end by its clip points, stretch by stretch: what a run costs is the sum of its stretches. */
export function askStretches(line: RoutingLine, layout: Layout): readonly Question[] {
  const stations = [
    endEvent(line.from, line.radiusM, layout, 1),
    ...line.clipPoints.map(
      (at, k): Station => ({
        event: { domain: domainOf([at], UP, CLIP_WITHIN_M + (line.clipAsideM?.[k] ?? 0)), tangent: null, stub: 0 },
        leadM: 0,
        cells: cellsAt(layout, at),
      }),
    ),
    endEvent(line.to, line.radiusM, layout, -1),
  ];
  return stations.slice(1).map((goal, k) => between(line, layout, stations[k] as Station, goal));
}
interface Station {
  readonly event: BoundEvent;
  readonly leadM: number;
  readonly cells: readonly number[];
}

function between(line: RoutingLine, layout: Layout, start: Station, goal: Station): Question {
  const [startCells, goalCells] = [start.cells, goal.cells];
  return {
    radius: RADIUS_SHARE * line.bendRadiusM,
    start: start.event,
    goal: goal.event,
    leads: start.leadM + goal.leadM,
    ...waysFor(line, layout),
    startCells,
    goalCells: new Set(goalCells),
    gap: gapsOf(layout),
    adrift: startCells.length === 0 || goalCells.length === 0,
  };
}

/** An end of the line behind its straight lead. An elbow may be turned any way: then it is its corner, and no direction is given. */
function endEvent(lead: Lead, radiusM: number, layout: Layout, sense: 1 | -1): Station {
  const leadM = leadStraightM(lead, radiusM);
  if (lead.turns) {
    const tips = lead.turns.map((turn) => along(lead.at, turn, leadM));
    const cells = [...new Set([lead.at, ...tips].flatMap((p) => cellsAt(layout, p)))];
    return { event: { domain: domainOf([lead.at], lead.direction), tangent: null, stub: 0 }, leadM: 0, cells };
  }
  const tip = along(lead.at, lead.direction, leadM);
  return {
    event: { domain: domainOf([tip], lead.direction), tangent: scale(lead.direction, sense), stub: 0 },
    leadM,
    cells: cellsAt(layout, tip),
  };
}

/** Every cell that holds the point; one on a face belongs to both sides. */
function cellsAt(layout: Layout, p: Vec3): readonly number[] {
  const room = roomOf(layout);
  const found = layout.cells
    .filter(
      ({ planes, low, high }) =>
        p[0] >= low[0] - BY_FACE_M &&
        p[0] <= high[0] + BY_FACE_M &&
        planes.every(({ normal, offset }) => dot(normal, p) <= offset + 1e-6),
    )
    .map((cell) => room(cell.index));
  return [...new Set(found)];
}

/** The two ends with their directions, nothing between. */
export function straightAcross({ start, goal, radius }: Question): Dual {
  const chain: Chain = { events: [start, goal], leastLegs: [leastLeg(start, goal, radius)] };
  const dual = optimiseDual(chain, radius, ROUNDS.root, []);
  return { ...dual, value: Math.max(dual.value, chain.leastLegs[0] as number) };
}

export interface Field {
  readonly after: Float64Array;
  readonly fromStart: number;
}

/** Least length (and cost) from just after each crossing to the goal, portal by portal, and from the start. */
export function fieldToGoal(question: Question, withCosts: boolean): Field {
  const { ways, arriving, goalCells, goal, start, radius, gap } = question;
  const after = new Float64Array(2 * ways.length).fill(Number.POSITIVE_INFINITY);
  const done = new Uint8Array(2 * ways.length);
  const heap = new CostHeap();
  for (let node = 0; node < 2 * ways.length; node++)
    if (goalCells.has(intoCell(ways, node))) {
      after[node] = leastLeg(eventOf(ways, node), goal, radius);
      heap.push(after[node] as number, node);
    }
  while (heap.size > 0) {
    const node = heap.pop();
    if (done[node]) continue;
    done[node] = 1;
    const way = ways[node >> 1] as Way;
    const through = (after[node] as number) + 2 * way.events[0].stub + (withCosts ? way.costM : 0);
    for (const before of arriving.get(outOfCell(ways, node)) ?? []) {
      if (done[before] || (ways[before >> 1] as Way).portal === way.portal) continue;
      const value = through + leastBetween(ways, before, node, radius, gap);
      if (value < (after[before] as number)) {
        after[before] = value;
        heap.push(value, before);
      }
    }
  }
  let fromStart = question.startCells.some((cell) => goalCells.has(cell))
    ? leastLeg(start, goal, radius)
    : Number.POSITIVE_INFINITY;
  for (const cell of question.startCells)
    for (const node of question.leaving.get(cell) ?? []) {
      if (!Number.isFinite(after[node] as number)) continue;
      const way = ways[node >> 1] as Way;
      const value =
        leastLeg(start, eventOf(ways, node), radius) +
        2 * way.events[0].stub +
        (withCosts ? way.costM : 0) +
        (after[node] as number);
      fromStart = Math.min(fromStart, value);
    }
  return { after, fromStart };
}
