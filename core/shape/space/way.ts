import TinyQueue from 'tinyqueue';
import { distanceToLeg } from '../../base/segment';
import {
  add,
  along,
  cross,
  distance,
  distanceSquared,
  dot,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from '../../base/vec';
import type { Cell, Layout, Portal } from '../layout/types';
import type { Blocker } from './free-depth';
import type { Mover, Obstacle, Scene } from './scene';

/** Cost of the way to one goal; solids are left out, so it is what the way costs at least over the places where panels are passed. */
export interface Field {
  /** Metres of way plus the cost of panels; Infinity from where no way leads to the goal. */
  costAt(p: Vec3): number;
  /** Compartments from which the goal is reached, sorted. */
  readonly reached: readonly string[];
}

export type Way =
  | {
      readonly outcome: 'found';
      readonly points: readonly Vec3[];
      readonly lengthM: number;
      /** Length plus what the panels cost. */
      readonly costM: number;
      /** Panels passed, in order. */
      readonly panels: readonly string[];
      readonly steps: number;
    }
  | {
      /** noWay: every place was tried; stepsSpent: the search was cut off. */
      readonly outcome: 'noWay' | 'stepsSpent';
      /** What stopped the most promising leg. */
      readonly blocker: Blocker | null;
      readonly steps: number;
    };

/** A place on one side of a portal. */
interface Gate {
  readonly at: Vec3;
  readonly cell: number;
  /** The same place on the other side, and what passing costs. */
  readonly twin: number;
  readonly costM: number;
  readonly panelId: string;
}

/** How far from the middle of a portal towards its corners and sides it is passed. */
const SPREAD = [0, 0.85] as const;
/** Corners are rounded with a little more than the mover's radius. */
const ROUNDING = 1.02;
const ROUNDING_M = 0.002;
/** Legs free by less than this touch. */
const FREE_M = 1e-6;

function gatesOf(layout: Layout, mover: Mover): Gate[] {
  const gates: Gate[] = [];
  for (const portal of layout.portals) {
    const panel = portal.kind === 'panel' ? layout.panels[portal.panelId] : undefined;
    const costM = panel ? mover.passage(panel) : 0;
    if (costM === null) continue;
    for (const at of placesIn(portal, panel?.edges ?? [], mover.radiusM)) {
      const first = gates.length;
      gates.push({ at, cell: portal.cells[0], twin: first + 1, costM, panelId: portal.panelId });
      gates.push({ at, cell: portal.cells[1], twin: first, costM, panelId: portal.panelId });
    }
  }
  return gates;
}

function placesIn(portal: Portal, edges: readonly (readonly [Vec3, Vec3])[], radiusM: number): Vec3[] {
  const { polygon } = portal;
  const middle = scale(
    polygon.reduce((s, p) => add(s, p)),
    1 / polygon.length,
  );
  const rim = polygon.flatMap((p, i) => [p, scale(add(p, polygon[(i + 1) % polygon.length] as Vec3), 0.5)]);
  const places = SPREAD.flatMap((s) => (s === 0 ? [middle] : rim.map((p) => along(middle, subtract(p, middle), s))));
  return places.filter((p) => edges.every(([a, b]) => distanceToLeg(p, a, b) >= radiusM));
}

const isIn = (cell: Cell, p: Vec3): boolean =>
  cell.planes.every(({ normal, offset }) => dot(normal, p) <= offset + 1e-9);
const cellsAt = (layout: Layout, p: Vec3): number[] => layout.cells.filter((c) => isIn(c, p)).map((c) => c.index);

function groupByCell(gates: readonly Gate[]): ReadonlyMap<number, readonly number[]> {
  const groups = new Map<number, number[]>();
  gates.forEach((g, i) => {
    const list = groups.get(g.cell);
    if (list) list.push(i);
    else groups.set(g.cell, [i]);
  });
  return groups;
}

interface Costs {
  readonly gates: readonly Gate[];
  readonly byCell: ReadonlyMap<number, readonly number[]>;
  readonly cost: readonly number[];
  readonly goal: Vec3;
  readonly goalCells: readonly number[];
  costFrom(p: Vec3, cell: number): number;
}

/** Dijkstra from the goal over the gates; within a cell, which is convex, ways are straight. */
function costsTo(scene: Scene, goal: Vec3, mover: Mover): Costs {
  const gates = gatesOf(scene.layout, mover);
  const byCell = groupByCell(gates);
  const goalCells = cellsAt(scene.layout, goal);
  const cost = gates.map(() => Number.POSITIVE_INFINITY);
  const queue = new TinyQueue<readonly [number, number]>([], (a, b) => a[0] - b[0] || a[1] - b[1]);
  const offer = (i: number, c: number): void => {
    if (c >= (cost[i] as number)) return;
    cost[i] = c;
    queue.push([c, i]);
  };
  for (const cell of goalCells) for (const i of byCell.get(cell) ?? []) offer(i, distance((gates[i] as Gate).at, goal));
  for (let next = queue.pop(); next; next = queue.pop()) {
    const [c, i] = next;
    if (c > (cost[i] as number)) continue;
    const gate = gates[i] as Gate;
    offer(gate.twin, c + gate.costM);
    for (const j of byCell.get(gate.cell) ?? []) offer(j, c + distance(gate.at, (gates[j] as Gate).at));
  }
  const costFrom = (p: Vec3, cell: number): number => {
    let least = goalCells.includes(cell) ? distance(p, goal) : Number.POSITIVE_INFINITY;
    for (const i of byCell.get(cell) ?? [])
      least = Math.min(least, distance(p, (gates[i] as Gate).at) + (cost[i] as number));
    return least;
  };
  return { gates, byCell, cost, goal, goalCells, costFrom };
}

export function fieldTo(scene: Scene, goal: Vec3, mover: Mover): Field {
  const costs = costsTo(scene, goal, mover);
  const reached = new Set(costs.goalCells);
  costs.gates.forEach((g, i) => {
    if (Number.isFinite(costs.cost[i])) reached.add(g.cell);
  });
  return {
    costAt: (p) =>
      Math.min(Number.POSITIVE_INFINITY, ...cellsAt(scene.layout, p).map((cell) => costs.costFrom(p, cell))),
    reached: [...new Set([...reached].map((c) => (scene.layout.cells[c] as Cell).compartment))].sort(),
  };
}

interface Place {
  readonly at: Vec3;
  readonly cell: number;
  /** Index of the gate, -1 for a place of its own. */
  readonly gate: number;
}

interface Leg {
  readonly to: number;
  readonly from: number;
  readonly cost: number;
  readonly estimate: number;
  readonly panelId: string;
}

/**
 * Way of straight legs that keep the mover's radius clear: A* over the places where panels are passed and over the corners of
 * what stands in each cell, legs tested only when they come first. Its length is that of the best way over those places, a
 * little more than the shortest.
 */
export function wayBetween(scene: Scene, from: Vec3, to: Vec3, mover: Mover, steps: number): Way {
  const costs = costsTo(scene, to, mover);
  const places: Place[] = costs.gates.map((g, gate) => ({ at: g.at, cell: g.cell, gate }));
  const byCell = new Map<number, number[]>([...costs.byCell].map(([cell, list]) => [cell, [...list]]));
  const put = (at: Vec3, cell: number): number => {
    const index = places.length;
    places.push({ at, cell, gate: -1 });
    byCell.set(cell, [...(byCell.get(cell) ?? []), index]);
    return index;
  };
  const goals = new Set(costs.goalCells.map((cell) => put(to, cell)));
  const starts = cellsAt(scene.layout, from).map((cell) => put(from, cell));
  const cornersDone = new Set<number>();
  const best = new Map<number, { cost: number; from: number; panelId: string }>();
  const queue = new TinyQueue<Leg>([], (a, b) => a.estimate - b.estimate || a.to - b.to || a.from - b.from);
  const offer = (from_: number, to_: number, cost: number, panelId: string): void => {
    if (best.has(to_)) return;
    const place = places[to_] as Place;
    const estimate = cost + costs.costFrom(place.at, place.cell);
    if (Number.isFinite(estimate)) queue.push({ from: from_, to: to_, cost, estimate, panelId });
  };
  for (const s of starts) offer(-1, s, 0, '');

  let blocker: Blocker | null = null;
  let blockedAt = Number.POSITIVE_INFINITY;
  for (let step = 0; ; step++) {
    const leg = queue.pop();
    if (!leg) return { outcome: 'noWay', blocker, steps: step };
    if (step >= steps) return { outcome: 'stepsSpent', blocker, steps: step };
    if (best.has(leg.to)) continue;
    const here = places[leg.to] as Place;
    const before = leg.from >= 0 ? (places[leg.from] as Place) : null;
    if (before && before.cell === here.cell) {
      const clear = scene.segment(before.at, here.at, mover, FREE_M);
      if (clear.freeM <= 0) {
        if (leg.estimate < blockedAt) {
          blockedAt = leg.estimate;
          blocker = clear.blocker;
        }
        continue;
      }
    }
    best.set(leg.to, { cost: leg.cost, from: leg.from, panelId: leg.panelId });
    if (goals.has(leg.to)) return traced(places, best, leg.to, step + 1);
    if (!cornersDone.has(here.cell)) {
      cornersDone.add(here.cell);
      for (const p of cornersIn(scene, scene.layout.cells[here.cell] as Cell, mover)) put(p, here.cell);
    }
    for (const next of byCell.get(here.cell) ?? [])
      if (next !== leg.to) offer(leg.to, next, leg.cost + distance(here.at, (places[next] as Place).at), '');
    if (here.gate >= 0) {
      const gate = costs.gates[here.gate] as Gate;
      offer(leg.to, gate.twin, leg.cost + gate.costM, gate.panelId);
    }
  }
}

function traced(
  places: readonly Place[],
  best: ReadonlyMap<number, { cost: number; from: number; panelId: string }>,
  goal: number,
  steps: number,
): Way {
  const points: Vec3[] = [];
  const panels: string[] = [];
  for (let i = goal; i >= 0; ) {
    const { from, panelId } = best.get(i) as { from: number; panelId: string };
    const p = (places[i] as Place).at;
    const last = points[0];
    if (!last || distanceSquared(last, p) > 1e-18) points.unshift(p);
    if (panelId !== '') panels.unshift(panelId);
    i = from;
  }
  const lengthM = points.slice(1).reduce((s, p, i) => s + distance(points[i] as Vec3, p), 0);
  return { outcome: 'found', points, lengthM, costM: (best.get(goal) as { cost: number }).cost, panels, steps };
}

/** Places around what stands in the cell: corners and middles of edges, moved off by the mover's radius. */
function cornersIn(scene: Scene, cell: Cell, mover: Mover): Vec3[] {
  const off = mover.radiusM * ROUNDING + ROUNDING_M;
  const out: Vec3[] = [];
  for (const i of scene.near(cell.low, cell.high, mover)) {
    const { body, layer } = scene.obstacles[i] as Obstacle;
    if (layer === 'wall') continue;
    for (const p of offsetCorners(body.normals, body.edges, body.support, body.centre, off))
      if (isIn(cell, p)) out.push(p);
  }
  return out;
}

/** Far points of a body in the 26 directions of its own axes, moved off along each axis that they reach out on. */
function offsetCorners(
  normals: readonly Vec3[],
  edges: readonly Vec3[],
  support: (d: Vec3) => Vec3,
  centre: Vec3,
  off: number,
): Vec3[] {
  const [u, v, w] = normals.length === 3 ? (normals as readonly [Vec3, Vec3, Vec3]) : axesAbout(edges[0] ?? [0, 0, 1]);
  const reach = (axis: Vec3): readonly [number, number] => [
    dot(subtract(support(scale(axis, -1)), centre), axis) - off,
    dot(subtract(support(axis), centre), axis) + off,
  ];
  const levels = [u, v, w].map((axis) => {
    const [low, high] = reach(axis);
    return [low, 0, high];
  }) as [number[], number[], number[]];
  return levels[0].flatMap((a) =>
    levels[1].flatMap((b) =>
      levels[2].flatMap((c) => (a === 0 && b === 0 && c === 0 ? [] : [along(along(along(centre, u, a), v, b), w, c)])),
    ),
  );
}

function axesAbout(axis: Vec3): readonly [Vec3, Vec3, Vec3] {
  const u = squareTo(axis);
  return [u, cross(axis, u), axis];
}
