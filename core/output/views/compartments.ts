import type { Vec2, Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { convexHull } from '../../shape/layout/outline';
import type { Cell, Layout } from '../../shape/layout/types';
import { project, type ViewFrame } from './drawing';
import { acrossCentre, floorWithin, halfBreadthWithin, placesAlong } from './hull-lines';
import { intersectionOf, type Ring, unionOf } from './polygons';

/** Coarser than the hull's own outline: where furniture meets the skin, chords of 10 cm pass for the curve. */
const SAMPLES = 110;

/** What a compartment covers in plan or profile, kept within the hull. */
export function compartmentOutline(
  layout: Layout,
  compartment: string,
  frame: ViewFrame,
  hull: HullSurface | null,
): Ring[] {
  const cells = (layout.cellsOf[compartment] ?? []).map((index) => layout.cells[index] as Cell);
  if (cells.length === 0) return [];
  const whole = unionOf(cells.map((cell) => convexHull(cell.corners.map((p) => project(frame, p)))));
  if (!hull) return whole;
  const low = least(cells.map((c) => c.low));
  const high = most(cells.map((c) => c.high));
  if (frame.name === 'section') return whole;
  const region = frame.name === 'plan' ? planRegions(hull, low, high) : [profileRegion(hull, low, high)];
  return intersectionOf(whole, region);
}

/** One for each hull. */
function planRegions(hull: HullSurface, low: Vec3, high: Vec3): Ring[] {
  const one = planRegion(hull, low, high);
  return hull.offsetM === 0 ? [one] : [one, acrossCentre(one)];
}

/** Points of plan over which the hull has room at some height of the range. */
function planRegion(hull: HullSurface, low: Vec3, high: Vec3): Ring {
  const port: Vec2[] = [];
  const starboard: Vec2[] = [];
  for (const x of placesWithin(hull, low[0], high[0])) {
    const b = halfBreadthWithin(hull, x, low[2], high[2]);
    if (b <= 1e-4 && port.length > 0 && (port[port.length - 1] as Vec2)[1] - hull.offsetM <= 1e-4) continue;
    port.push([x, hull.offsetM + b]);
    starboard.push([x, hull.offsetM - b]);
  }
  return [...starboard, ...port.reverse()];
}

/** Points of profile beside which the hull has room at some breadth of the range; open upwards, for trunks above the sheer. */
function profileRegion(hull: HullSurface, low: Vec3, high: Vec3): Ring {
  // Of two hulls the one on the compartment's side counts.
  const centre = low[1] + high[1] < 0 ? -Math.abs(hull.offsetM) : Math.abs(hull.offsetM);
  const b0 = low[1] - centre;
  const b1 = high[1] - centre;
  const inner = b0 <= 0 && b1 >= 0 ? 0 : Math.min(Math.abs(b0), Math.abs(b1));
  const outer = Math.max(Math.abs(b0), Math.abs(b1));
  const floor: Vec2[] = [];
  for (const x of placesWithin(hull, low[0], high[0])) {
    const z = floorWithin(hull, x, inner, outer);
    if (z !== null) floor.push([x, z]);
  }
  const first = floor[0];
  const last = floor[floor.length - 1];
  if (!first || !last) return [];
  const top = high[2] + 1;
  return [...floor, [last[0], top], [first[0], top]];
}

/** Sampled places of the hull within a stretch, its two ends included. */
function placesWithin(hull: HullSurface, fromM: number, toM: number): number[] {
  const from = Math.max(fromM, hull.aftM);
  const to = Math.min(toM, hull.forwardM);
  if (from >= to) return [];
  return [from, ...placesAlong(hull, SAMPLES).filter((x) => x > from + 1e-6 && x < to - 1e-6), to];
}

const least = (points: readonly Vec3[]): Vec3 => fold(points, Math.min);
const most = (points: readonly Vec3[]): Vec3 => fold(points, Math.max);
const fold = (points: readonly Vec3[], pick: (a: number, b: number) => number): Vec3 =>
  points.reduce((a, b): Vec3 => [pick(a[0], b[0]), pick(a[1], b[1]), pick(a[2], b[2])]);
