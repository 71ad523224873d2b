import { along, cross, dot, scale, UP, unit, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import type { Cell, Layout, Panel } from '../../shape/layout/types';
import type { EdgeDistance } from './row';

/** What is needed to say how a hole is found again on the real panel. */
export interface DrillingRoom {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  /** Whether a person can get at a compartment with a drill. */
  canEnter(compartment: string): boolean;
}

/** A panel seen from the side is measured this far off its middle plane, beyond half its gap. */
const OFF_M = 0.002;
const STEP_M = 0.01;
const HALVINGS = 12;
/** Cells that one straight line may pass. */
const MOST_CELLS = 64;
/** Cosine from which a panel counts as lying flat. */
const FLAT = 0.7;

export interface Drilling {
  /** Id of the compartment; null where neither side can be entered. */
  readonly from: string | null;
  readonly edges: readonly EdgeDistance[];
}

/**
 * From which side a hole is drilled, and its distances from two sides of the compartment there, square to one another: what a
 * rule can be laid against. Of two sides that can be entered the one with more room behind the drill.
 */
export function drillingOf(panel: Panel, at: Vec3, room: DrillingRoom): Drilling {
  const sides = panel.between
    .map((compartment, k) => {
      const out = scale(panel.normal, k === 0 ? -1 : 1);
      const start = along(at, out, Math.max(0, panel.gapM / 2) + OFF_M);
      return { compartment, start, out };
    })
    .filter(({ compartment }) => room.layout.cellsOf[compartment] !== undefined && room.canEnter(compartment))
    .map((side) => ({ ...side, depthM: reachOf(side.compartment, side.start, side.out, room)?.distanceM ?? 0 }))
    .sort((a, b) => b.depthM - a.depthM || (a.compartment < b.compartment ? -1 : 1));
  const [best] = sides;
  if (!best) return { from: null, edges: [] };
  const edges = axesIn(panel.normal).flatMap((axis) => {
    const ways = [axis, scale(axis, -1)].flatMap((way) => reachOf(best.compartment, best.start, way, room) ?? []);
    // A curved side is no good edge to measure from.
    ways.sort((a, b) => Number(a.side === 'hull') - Number(b.side === 'hull') || a.distanceM - b.distanceM);
    return ways.slice(0, 1);
  });
  return { from: best.compartment, edges };
}

/** Two directions in a panel: level and upright, or, where it lies flat, along the boat and across it. */
function axesIn(normal: Vec3): readonly [Vec3, Vec3] {
  if (Math.abs(normal[2]) < FLAT) {
    const level = unit(cross(UP, normal));
    return [level, unit(cross(normal, level))];
  }
  const across = unit(cross(normal, [1, 0, 0]));
  return [unit(cross(across, normal)), across];
}

/** How far one gets along a direction within a compartment, and what ends it; null where the start is not in it. */
function reachOf(compartment: string, start: Vec3, way: Vec3, { layout, hull }: DrillingRoom): EdgeDistance | null {
  const cells = (layout.cellsOf[compartment] ?? []).flatMap((index) => layout.cells[index] ?? []);
  let gone = 0;
  let normal: Vec3 | null = null;
  for (let k = 0; k < MOST_CELLS; k += 1) {
    const at = along(start, way, gone + OFF_M / 2);
    const cell = cells.find((candidate) => holds(candidate, at));
    if (!cell) break;
    const end = exitOf(cell, start, way);
    if (!end || end.distanceM <= gone) break;
    gone = end.distanceM;
    normal = end.normal;
  }
  if (!normal) return null;
  const skinM = hull ? skinAlong(hull, start, way, gone) : null;
  return skinM === null ? { side: sideOf(normal), distanceM: gone } : { side: 'hull', distanceM: skinM };
}

const holds = (cell: Cell, p: Vec3): boolean =>
  cell.planes.every(({ normal, offset }) => dot(normal, p) <= offset + 1e-9);

function exitOf(cell: Cell, start: Vec3, way: Vec3): { readonly distanceM: number; readonly normal: Vec3 } | null {
  let best: { distanceM: number; normal: Vec3 } | null = null;
  for (const { normal, offset } of cell.planes) {
    const speed = dot(normal, way);
    if (speed <= 1e-9) continue;
    const distanceM = (offset - dot(normal, start)) / speed;
    if (!best || distanceM < best.distanceM) best = { distanceM, normal };
  }
  return best;
}

/** Where a way leaves the hull before it has gone so far; null where it does not. Above the sheer nothing is known of a side. */
function skinAlong(hull: HullSurface, start: Vec3, way: Vec3, farM: number): number | null {
  const isOutside = (goneM: number): boolean => {
    const p = along(start, way, goneM);
    return p[2] < hull.sheerAt(p[0]) && !hull.contains(p);
  };
  if (isOutside(0)) return null;
  let before = 0;
  for (let gone = STEP_M; gone < farM; gone += STEP_M) {
    if (isOutside(gone)) {
      let after = gone;
      for (let k = 0; k < HALVINGS; k += 1) {
        const middle = (before + after) / 2;
        if (isOutside(middle)) after = middle;
        else before = middle;
      }
      return before;
    }
    before = gone;
  }
  return null;
}

function sideOf(normal: Vec3): EdgeDistance['side'] {
  const [x, y, z] = normal.map(Math.abs) as [number, number, number];
  if (z >= x && z >= y) return normal[2] > 0 ? 'top' : 'bottom';
  if (x >= y) return normal[0] > 0 ? 'forward' : 'aft';
  return normal[1] > 0 ? 'port' : 'starboard';
}
