import { along, dot, scale, type Vec3 } from '../../../base/vec';
import type { Layout } from '../../../shape/layout/types';
import { CostHeap } from '../heap';
import { leadStraightM } from '../straights';
import type { RoutingLine, RoutingView } from '../types';
import { eventOf, gapsOf, intoCell, leastBetween, outOfCell, roomOf, type Way, type Ways, waysFor } from './crossings';
import { domainOf, halves } from './domain';
import { type BoundEvent, type Chain, type Dual, dualValue, leastLeg, optimiseDual } from './dual';

/**
 * Certified lower bounds of a run's length and of its length plus hole costs. They look at the layout alone: panels, holes,
 * radius and the directions of ports and holes. What else is in the way only makes a run longer.
 *
 * Clip points, clearances and whatever a hole already carries are left out, which is sound.
 */
export interface Bound {
  readonly lengthM: number;
  /** Of length plus the cost of drilled holes. */
  readonly costM: number;
  /** False with proof: no chain of panels and holes joins the two ends at this diameter. */
  readonly reachable: boolean;
}
export interface BendBound extends Bound {
  /** True when the search ended by itself; more steps would not raise the bound. */
  readonly closed: boolean;
  readonly steps: number;
  /**
   * Crossings of the sequence that the bound of length plus costs rests on, with the places that it would choose: where a
   * router that found nothing, or stuck on worse holes, may begin. Null while no sequence is complete.
   */
  readonly suggestion: readonly SuggestedCrossing[] | null;
}

export interface SuggestedCrossing {
  /** Index of the layout's portal. */
  readonly portal: number;
  readonly at: Vec3;
  /** Direction of travel, null in an open panel or between cells of one compartment. */
  readonly direction: Vec3 | null;
}

/** Steps of the bend-aware bound: each is one optimised chain, a fraction of a millisecond. */
export const BOUND_STEPS = { fast: 100, deep: 1500 } as const;

/** Radii are taken a little smaller, results lowered by a hair: rounding never lifts a bound above a run. */
const RADIUS_SHARE = 0.9999;
const DUST = 1e-7;
/** A chain whose places leave less undecided than this share is not split further. */
const SPLIT_SHARE = 0.002;
const MOST_SPLITS = 10;
const ROUNDS = { root: 24, child: 10 } as const;

interface Question {
  readonly radius: number;
  readonly start: BoundEvent;
  readonly goal: BoundEvent;
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

/** Cheap: portal to portal distances, and the two ends with their directions as if nothing were between. */
export function plainBound(line: RoutingLine, view: Pick<RoutingView, 'layout'>): Bound {
  const question = ask(line, view.layout);
  const direct = question.leads + straightAcross(question).value;
  if (question.adrift) return bounds(direct, direct, true);
  const length = fieldToGoal(question, false);
  const cost = fieldToGoal(question, true);
  const reachable = Number.isFinite(length.fromStart);
  return reachable
    ? bounds(
        Math.max(direct, question.leads + length.fromStart),
        Math.max(direct, question.leads + cost.fromStart),
        true,
      )
    : bounds(direct, direct, false);
}

/**
 * Bend-aware: branch and bound over sequences of panels and holes, best first. Every value on the heap is a bound for all
 * runs behind it, so the least of them is one for all runs, whenever the search stops; it never falls as steps rise.
 */
export function lengthBound(line: RoutingLine, view: Pick<RoutingView, 'layout'>, steps: number): BendBound {
  const question = ask(line, view.layout);
  const direct = question.leads + straightAcross(question).value;
  if (question.adrift) return { ...bounds(direct, direct, true), closed: true, steps: 0, suggestion: null };
  const length = search(question, false, steps, direct);
  if (!length) return { ...bounds(direct, direct, false), closed: true, steps: 0, suggestion: null };
  const hasCosts = question.ways.some((way) => way.costM > 0);
  const cost = hasCosts ? search(question, true, steps, length.value) : length;
  return {
    ...bounds(length.value, Math.max(cost?.value ?? length.value, length.value), true),
    closed: length.closed && (cost?.closed ?? true),
    steps: length.steps + (hasCosts ? (cost?.steps ?? 0) : 0),
    suggestion: cost?.suggestion ?? null,
  };
}

const lowered = (value: number): number => Math.max(0, value * (1 - 1e-9) - DUST);
const bounds = (lengthM: number, costM: number, reachable: boolean): Bound => ({
  lengthM: lowered(lengthM),
  costM: lowered(costM),
  reachable,
});

function ask(line: RoutingLine, layout: Layout): Question {
  const { from, to } = line;
  const [leadA, leadB] = [leadStraightM(from, line.radiusM), leadStraightM(to, line.radiusM)];
  const tipA = along(from.at, from.direction, leadA);
  const tipB = along(to.at, to.direction, leadB);
  const startCells = cellsAt(layout, tipA);
  const goalCells = cellsAt(layout, tipB);
  return {
    radius: RADIUS_SHARE * line.bendRadiusM,
    start: { domain: domainOf([tipA], from.direction), tangent: from.direction, stub: 0 },
    goal: { domain: domainOf([tipB], to.direction), tangent: scale(to.direction, -1), stub: 0 },
    leads: leadA + leadB,
    ...waysFor(line, layout),
    startCells,
    goalCells: new Set(goalCells),
    gap: gapsOf(layout),
    adrift: startCells.length === 0 || goalCells.length === 0,
  };
}

/** Every cell that holds the point; one on a face belongs to both sides. */
function cellsAt(layout: Layout, p: Vec3): number[] {
  const room = roomOf(layout);
  const found = layout.cells
    .filter(
      ({ planes, low, high }) =>
        p[0] >= low[0] - BY_FACE &&
        p[0] <= high[0] + BY_FACE &&
        planes.every(({ normal, offset }) => dot(normal, p) <= offset + 1e-6),
    )
    .map((cell) => room(cell.index));
  return [...new Set(found)];
}

const BY_FACE = 1e-3;

/** The two ends with their directions, nothing between. */
function straightAcross({ start, goal, radius }: Question): Dual {
  const chain: Chain = { events: [start, goal], leastLegs: [leastLeg(start, goal, radius)] };
  const dual = optimiseDual(chain, radius, ROUNDS.root, []);
  return { ...dual, value: Math.max(dual.value, chain.leastLegs[0] as number) };
}

/** Least length (and cost) from just after each crossing to the goal, portal by portal, and from the start. */
function fieldToGoal(
  question: Question,
  withCosts: boolean,
): { readonly after: Float64Array; readonly fromStart: number } {
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

/** A sequence of crossings under way: all runs that begin with it cost at least `value`. */
interface Branch {
  readonly events: readonly BoundEvent[];
  /** Least legs between the events, without the one to the goal. */
  readonly legs: readonly number[];
  readonly places: readonly Vec3[];
  readonly rooms: readonly number[];
  /** Node of the last crossing, -1 at the start. */
  readonly node: number;
  readonly portals: readonly number[];
  readonly costs: number;
  readonly value: number;
  /** Certified length up to the last event, once judged. */
  readonly prefix: number;
  readonly judged: boolean;
  /** Complete: it ends in a room of the goal. */
  readonly complete: boolean;
  readonly loose: Dual['loose'];
  readonly splits: number;
}
interface Found {
  readonly value: number;
  readonly closed: boolean;
  readonly steps: number;
  readonly suggestion: readonly SuggestedCrossing[] | null;
}
const SETTLED: Dual['loose'] = { event: -1, gap: 0 };

function search(question: Question, withCosts: boolean, steps: number, atLeast: number): Found | null {
  const { start, goal, leads, radius, ways, goalCells } = question;
  const { after, fromStart } = fieldToGoal(question, withCosts);
  if (!Number.isFinite(fromStart)) return null;
  const floor = Math.max(atLeast, leads + fromStart);
  const branches: Branch[] = [];
  const heap = new CostHeap();
  const legs = new Map<number, number>();
  let used = 0;
  const put = (branch: Branch): void => {
    heap.push(branch.value, branches.length);
    branches.push(branch);
  };
  /** Looked up by the crossings at its two ends; exact where one of them is a single place. */
  const legBetween = (before: number, a: BoundEvent, node: number, b: BoundEvent): number => {
    const key = (before + 1) * (2 * ways.length + 1) + node;
    const known = legs.get(key);
    if (known !== undefined) return known;
    const isPlace = before < 0 || (ways[before >> 1] as Way).isHole || (ways[node >> 1] as Way).isHole;
    const leg = isPlace ? leastLeg(a, b, radius) : leastBetween(ways, before, node, radius, question.gap);
    legs.set(key, leg);
    return leg;
  };
  const toGoal = new Map<number, number>();
  const legToGoal = (node: number, end: BoundEvent): number => {
    const leg = toGoal.get(node) ?? leastLeg(end, goal, radius);
    toGoal.set(node, leg);
    return leg;
  };
  const judge = (branch: Branch): Branch => {
    used += 1;
    const { events, complete, node, costs } = branch;
    const end = events[events.length - 1] as BoundEvent;
    const last = branch.splits > 0 ? leastLeg(end, goal, radius) : legToGoal(node, end);
    const chain: Chain = { events: [...events, goal], leastLegs: [...branch.legs, last] };
    const dual = optimiseDual(chain, radius, node < 0 ? ROUNDS.root : ROUNDS.child, branch.places);
    const prefix = node < 0 ? 0 : dualValue(chain, dual.directions, radius, events.length - 1);
    // What lies behind the last crossing: at least the field from there on.
    const beyond = complete || node < 0 ? 0 : prefix + end.stub + (after[node] as number);
    const value = Math.max(branch.value, leads + costs + Math.max(dual.value, beyond));
    return { ...branch, value, prefix, judged: true, places: dual.places, loose: dual.loose };
  };

  for (const room of question.startCells)
    put({
      events: [start],
      legs: [],
      places: [],
      rooms: [room],
      node: -1,
      portals: [],
      costs: 0,
      value: floor,
      prefix: 0,
      judged: false,
      complete: goalCells.has(room),
      loose: SETTLED,
      splits: 0,
    });

  let last = floor;
  while (heap.size > 0) {
    const branch = branches[heap.pop()] as Branch;
    last = Math.max(last, branch.value);
    if (used >= steps) return { value: last, closed: false, steps: used, suggestion: null };
    if (!branch.judged) {
      put(judge(branch));
      continue;
    }
    if (branch.complete) {
      const { event, gap } = branch.loose;
      if (event < 1 || gap < SPLIT_SHARE * branch.value || branch.splits >= MOST_SPLITS)
        return { value: last, closed: true, steps: used, suggestion: suggested(branch) };
      for (const domain of halves((branch.events[event] as BoundEvent).domain)) {
        const events = branch.events.map((one, k) => (k === event ? { ...one, domain } : one));
        const split = events.slice(1).map((one, k) => leastLeg(events[k] as BoundEvent, one, radius));
        put({ ...branch, events, legs: split, judged: false, splits: branch.splits + 1 });
      }
      continue;
    }
    const end = branch.events[branch.events.length - 1] as BoundEvent;
    for (const node of question.leaving.get(branch.rooms[branch.rooms.length - 1] as number) ?? []) {
      const room = intoCell(ways, node);
      if (branch.rooms.includes(room) || !Number.isFinite(after[node] as number)) continue;
      const event = eventOf(ways, node);
      const costs = branch.costs + (withCosts ? (ways[node >> 1] as Way).costM : 0);
      const leg = legBetween(branch.node, end, node, event);
      // Cheap first: the chain is judged only when nothing cheaper is left.
      const ahead = branch.prefix + end.stub + leg + 2 * event.stub + (after[node] as number);
      put({
        events: [...branch.events, event],
        legs: [...branch.legs, leg],
        places: branch.places.slice(0, branch.events.length),
        rooms: [...branch.rooms, room],
        node,
        portals: [...branch.portals, (ways[node >> 1] as Way).portal],
        costs,
        value: Math.max(branch.value, leads + costs + ahead),
        prefix: 0,
        judged: false,
        complete: goalCells.has(room),
        loose: SETTLED,
        splits: 0,
      });
    }
  }
  // Every branch ran out without reaching the goal: the field had passed one room twice.
  return { value: last, closed: false, steps: used, suggestion: null };
}

const suggested = ({ events, places, portals }: Branch): SuggestedCrossing[] =>
  portals.map((portal, k) => ({
    portal,
    at: places[k + 1] as Vec3,
    direction: (events[k + 1] as BoundEvent).tangent,
  }));
