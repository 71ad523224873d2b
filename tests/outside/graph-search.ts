import type { Vec3 } from '@core/base/vec';
import { endOf } from '@core/runs/routing/leads';
import { contains, type HoseClass, nodesOf, pointsBeside } from '@core/runs/routing/nodes';
import { pointsByRidges } from '@core/runs/routing/ridges';
import { Search } from '@core/runs/routing/search';
import type { Stop, StretchEnd } from '@core/runs/routing/stretch';
import type { RoutingLine } from '@core/runs/routing/types';
import { NO_WISHES } from '@core/runs/routing/wishes/wishes';
import { World } from '@core/runs/routing/world';
import createGraph, { type Graph, type Node } from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import { worldOf } from '../core/runs/routing/boat-views';
import { gap } from '../support/geometry-oracle';
import { scene } from '../support/scenes';

/** The search beside a general library for shortest paths (ngraph.path), on the graph that its nodes and sight lines make. */
export interface Compared {
  readonly what: string;
  /** Cost of the way found, infinite where there is none. */
  readonly ours: number;
  readonly theirs: number;
  /** Costs of the ways found by looking ahead as a deep look does, and more boldly as a first try does. */
  readonly deep: number;
  readonly bold: number;
  /** Milliseconds of a deep look whose sight lines are all known, and of the library. */
  readonly oursMs: number;
  readonly theirsMs: number;
}

/** A bend radius at which turns cost nothing: what is left is length and holes. */
const NO_BEND_M = 1e-9;
/** What sight lines keep beyond the hose's radius. */
const SIGHT_SPARE_M = 0.0005;
const POPS = 1e6;
/** Without looking ahead at all the search is exact. */
const BLIND = 0;
/** What deep looks do: the way left by the nodes of the layout, of which a large cell takes only the first few. */
const DEEP = 1;

/** The lines of a seeded scene that have the commonest size of hose, each searched by both. */
export function compared(seed: number): Compared[] {
  const { boat } = scene(seed, { planted: false });
  // Where a hose lies in a hole that is there depends on what else passes it: drilled holes and open panels alone.
  const panels = Object.entries(boat.panels ?? {}).map(([id, panel]) => [id, { ...panel, holes: {} }] as const);
  const world = worldOf({ ...boat, panels: Object.fromEntries(panels) });
  const lines = world.lines.map((line): RoutingLine => ({ ...line, wishes: NO_WISHES }));
  const view = world.viewOf(new Map());
  const alike = (one: RoutingLine): RoutingLine[] =>
    lines.filter((other) => other.radiusM === one.radiusM && other.holeRadiusM === one.holeRadiusM);
  const some = lines.map(alike).reduce((most, those) => (those.length > most.length ? those : most));
  const { radiusM, holeRadiusM } = some[0] as RoutingLine;
  const hose: HoseClass = { radiusM, bendRadiusM: NO_BEND_M, holeRadiusM: Math.max(holeRadiusM, radiusM) };
  const sights = sightsOf(new World(view, some[0] as RoutingLine), hose);
  return some.flatMap((line) => {
    const world = new World(view, line);
    const [from, to] = [endOf(world, line, line.from), endOf(world, line, line.to)];
    if ('reason' in from || 'reason' in to) return [];
    const start: StretchEnd = { at: from.tip, cell: from.cell, direction: null, exempt: () => false };
    const goal: StretchEnd = { at: to.tip, cell: to.cell, direction: null, exempt: () => false };
    const search = new Search(world, hose, start, goal, () => true, null, 1);
    const stops = outcomeOf(search, BLIND);
    const deep = costOf(world, start.at, outcomeOf(search, DEEP), goal.at);
    const began = performance.now();
    outcomeOf(search, DEEP);
    const oursMs = performance.now() - began;
    const { theirs, theirsMs } = found(sights, start, goal, line.id);
    return {
      what: `scene ${seed} ${line.id}`,
      ours: costOf(world, start.at, stops, goal.at),
      theirs,
      deep,
      bold: costOf(world, start.at, outcomeOf(search), goal.at),
      oursMs,
      theirsMs,
    };
  });
}

function outcomeOf(search: Search, guideWeight?: number): readonly Stop[] | null {
  const work = search.run(POPS, guideWeight);
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

/** Length and hole costs of a way, infinite where there is none. */
function costOf(world: World, start: Vec3, stops: readonly Stop[] | null, goal: Vec3): number {
  if (!stops) return Number.POSITIVE_INFINITY;
  let here = start;
  let cost = 0;
  for (const stop of stops) {
    if (stop.kind === 'free') {
      cost += gap(here, stop.at);
      here = stop.at;
      continue;
    }
    const { at, stubM, costM, frame } = stop.passage;
    const n = (world.structure.frames[frame] as (typeof world.structure.frames)[number]).n;
    const tip = (side: number): Vec3 => [at[0] + n[0] * side, at[1] + n[1] * side, at[2] + n[2] * side];
    const before = tip(stop.forward ? -stubM : stubM);
    const behind = tip(stop.forward ? stubM : -stubM);
    cost += gap(here, before) + gap(before, behind) + costM;
    here = behind;
  }
  return cost + gap(here, goal);
}

/** A place in a cell: the node of the graph that leads there and the one that leads on from it. */
interface Place {
  readonly at: Vec3;
  readonly to: string;
  readonly from: string;
  /** Portal that it stands in, -1 for none. */
  readonly frame: number;
}
interface Sights {
  readonly graph: Graph<Vec3, number>;
  readonly places: readonly (readonly Place[])[];
  link(cell: number, a: Place, b: Place): void;
}

/**
 * All nodes and sight lines as a plain graph. The node of a panel is two: one is reached from its cell and leads through the panel
 * and nowhere else, from the other the way goes on; so a way passes a panel or leaves it alone.
 */
function sightsOf(world: World, hose: HoseClass): Sights {
  const { layout } = world.view;
  const nodes = nodesOf(layout, world.hull, hose);
  const graph: Graph<Vec3, number> = createGraph();
  const isOpen = (k: number): boolean => nodes.isFree(k) && nodes.isFree(nodes.mate[k] as number);
  const link = (cell: number, a: Place, b: Place): void => {
    if ((a.frame >= 0 && a.frame === b.frame) || gap(a.at, b.at) < 1e-6) return;
    if (world.isClear(cell, ...a.at, ...b.at, hose.radiusM + SIGHT_SPARE_M))
      graph.addLink(a.from, b.to, gap(a.at, b.at));
  };
  const places = layout.cells.map((cell, index): Place[] => {
    const pairs = (nodes.ofCell[index] ?? []).filter(isOpen).map((k): Place => {
      const at = [nodes.at[3 * k], nodes.at[3 * k + 1], nodes.at[3 * k + 2]] as unknown as Vec3;
      return { at, to: `to ${k}`, from: `from ${k}`, frame: nodes.frame[k] as number };
    });
    const beside = [
      ...(world.hull ? pointsByRidges(world.hull, cell, hose) : []),
      ...world.view.thingsIn(index).flatMap((solid) => pointsBeside(solid, hose)),
    ].filter((p) => contains(cell, p, 0));
    return [...pairs, ...beside.map((at, n) => ({ at, to: `${index} ${n}`, from: `${index} ${n}`, frame: -1 }))];
  });
  for (const { at, to, from } of places.flat()) for (const name of [to, from]) graph.addNode(name, at);
  for (let k = 0; k < nodes.count; k += 1) {
    const passage = nodes.passage[k];
    const through = passage ? 2 * passage.stubM + passage.costM : 0;
    if (isOpen(k)) graph.addLink(`to ${k}`, `from ${nodes.mate[k]}`, through);
  }
  places.forEach((some, cell) => {
    for (const a of some) for (const b of some) if (a !== b) link(cell, a, b);
  });
  return { graph, places, link };
}

/** The library's shortest path between two more places. */
function found(
  { graph, places, link }: Sights,
  start: StretchEnd,
  goal: StretchEnd,
  id: string,
): { readonly theirs: number; readonly theirsMs: number } {
  const first: Place = { at: start.at, to: `onto start ${id}`, from: `start ${id}`, frame: -1 };
  const last: Place = { at: goal.at, to: `goal ${id}`, from: `off goal ${id}`, frame: -1 };
  graph.addNode(first.from, first.at);
  graph.addNode(last.to, last.at);
  for (const b of places[start.cell] as readonly Place[]) link(start.cell, first, b);
  for (const a of places[goal.cell] as readonly Place[]) link(goal.cell, a, last);
  if (start.cell === goal.cell) link(start.cell, first, last);
  const finder = aStar<Vec3, number>(graph, {
    oriented: true,
    distance: (_a, _b, { data }) => data,
    heuristic: (a, b) => gap(a.data, b.data),
  });
  const began = performance.now();
  const path = finder.find(first.from, last.to).reverse();
  const theirsMs = performance.now() - began;
  const theirs = path.slice(1).reduce((sum, to, k) => {
    const from = (path[k] as Node<Vec3>).id;
    const one = graph.getLink(from, to.id);
    if (!one) throw new Error(`found: expected a link from ${from} to ${to.id}`);
    return sum + one.data;
  }, 0);
  return { theirs: path.length > 0 ? theirs : Number.POSITIVE_INFINITY, theirsMs };
}
