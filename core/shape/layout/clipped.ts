import { EndType, FillRule, inflatePathsD, intersectD, JoinType, type PathsD, unionD } from 'clipper2-ts';
import { dot, type Vec2, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { areaOf, centroidOf, clipHalfPlane } from './polygon';
import type { Cell, Layout, Outline2 } from './types';

export type View = 'plan' | 'profile' | 'section';

/** The two drawn axes of a view and the one it looks along. */
const AXES: Readonly<Record<View, readonly [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2]>> = {
  plan: [0, 1, 2],
  profile: [0, 2, 1],
  section: [1, 2, 0],
};
/** Above the sheer the sides go on upright, higher than any interior. */
const SKY_M = 50;
/** Columns of a level or upright cut of the hull, and slices of a volume, are no further apart (metres). */
const COLUMN_M = 0.05;
const SLICE_M = 0.1;
/** Decimals that polygon clipping keeps: a micrometre, as the boat file. */
const DECIMALS = 6;

const toPaths = (rings: readonly (readonly Vec2[])[]): PathsD => rings.map((r) => r.map(([x, y]) => ({ x, y })));
const toRings = (paths: PathsD): Vec2[][] => paths.map((path) => path.map(({ x, y }): Vec2 => [x, y]));

/**
 * The room inside the hull in a plane across the view's direction, in the view's axes: the outer skin's cut, drawn in by
 * the hull's inset within the plane. The inset is measured in the cut, so where the skin slants to the plane by an angle b
 * the room is too wide by inset (1 / cos b - 1): 1 mm for 30 mm at 15 degrees.
 */
export function hullCut(hull: HullSurface, view: View, at: number): Vec2[][] {
  const centres = hull.offsetM === 0 ? [0] : [hull.offsetM, -hull.offsetM];
  const outer = centres.flatMap((centre) => {
    const ring = view === 'section' ? sectionRing(hull, at, centre) : longRing(hull, view, at, centre);
    return ring.length < 3 ? [] : [ring];
  });
  if (hull.insetM === 0) return outer;
  return toRings(inflatePathsD(toPaths(outer), -hull.insetM, JoinType.Miter, EndType.Polygon, 4, DECIMALS));
}

/** Outer section at x with upright sides above the sheer; counter-clockwise. */
function sectionRing(hull: HullSurface, x: number, centre: number): Vec2[] {
  const section = hull.sectionAt(x).map(([y, z]): Vec2 => [y - hull.offsetM + centre, z]);
  const port = section[0];
  const starboard = section[section.length - 1];
  if (!port || !starboard) return [];
  return [[port[0], SKY_M], ...section, [starboard[0], SKY_M]].reverse() as Vec2[];
}

/** Cut at a height or at a distance off the centreline; counter-clockwise. */
function longRing(hull: HullSurface, view: 'plan' | 'profile', at: number, centre: number): Vec2[] {
  if (view === 'profile') {
    const below = hull.buttockAt(at - centre);
    const first = below[0];
    const last = below[below.length - 1];
    if (!first || !last) return [];
    return [...below, [last[0], SKY_M], [first[0], SKY_M]];
  }
  const columns = Math.max(2, Math.ceil((hull.forwardM - hull.aftM) / COLUMN_M));
  const starboard: Vec2[] = [];
  const port: Vec2[] = [];
  for (let i = 0; i <= columns; i++) {
    const x = hull.aftM + ((hull.forwardM - hull.aftM) * i) / columns;
    const half = at < hull.keelAt(x) ? 0 : hull.halfBreadthAt(x, Math.min(at, hull.sheerAt(x)));
    if (half <= 0) continue;
    starboard.push([x, centre - half]);
    port.push([x, centre + half]);
  }
  return [...starboard, ...port.reverse()];
}

/** The cell's cut by the plane across the view's direction, counter-clockwise in the view's axes; empty when it misses. */
export function cellCut(cell: Cell, view: View, at: number): Vec2[] {
  const [i, j, k] = AXES[view];
  if (at < cell.low[k] || at > cell.high[k]) return [];
  let ring: Vec2[] = [
    [cell.low[i], cell.low[j]],
    [cell.high[i], cell.low[j]],
    [cell.high[i], cell.high[j]],
    [cell.low[i], cell.high[j]],
  ];
  for (const { normal, offset } of cell.planes) {
    const a = normal[i];
    const b = normal[j];
    const c = offset - normal[k] * at;
    if (Math.abs(a) < 1e-12 && Math.abs(b) < 1e-12) {
      if (c < -1e-12) return [];
      continue;
    }
    ring = clipHalfPlane(ring, a, b, c);
    if (ring.length < 3) return [];
  }
  return ring;
}

const cellsIn = (layout: Layout, compartment: string): Cell[] =>
  (layout.cellsOf[compartment] ?? []).map((index) => layout.cells[index] as Cell);

/**
 * The compartment as a view shows it cut at `at` (the coordinate along the view's direction; the middle of the compartment
 * without it), inside the hull when there is one. Rings counter-clockwise, holes clockwise.
 */
export function clippedOutline(
  layout: Layout,
  hull: HullSurface | null,
  compartment: string,
  view: View,
  at?: number,
): Outline2[] {
  const cells = cellsIn(layout, compartment);
  const k = AXES[view][2];
  const level = at ?? (Math.min(...cells.map((c) => c.low[k])) + Math.max(...cells.map((c) => c.high[k]))) / 2;
  const cuts = cells.map((cell) => cellCut(cell, view, level)).filter((ring) => ring.length > 2);
  if (cuts.length === 0) return [];
  const whole = unionD(toPaths(cuts), FillRule.NonZero);
  if (!hull) return toRings(whole);
  return toRings(intersectD(whole, toPaths(hullCut(hull, view, level)), FillRule.NonZero, DECIMALS));
}

export interface Room {
  readonly volumeM3: number;
  /** Centre of the room; null without room. */
  readonly centre: Vec3 | null;
  /** Bounds of the room as the slices show them. */
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Abscissas of the two-point Gauss rule on [-1, 1]: exact for cubics, and so for any prism in a hull of quadratic form. */
const GAUSS = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/**
 * Room of a compartment inside the hull: sections of its cells, cut by the hull's inner skin, integrated along x in slices
 * of at most 100 mm that end where a cell's outline turns. Without a hull the prism's own volume.
 */
export function compartmentVolume(layout: Layout, hull: HullSurface | null, compartment: string): Room {
  let volumeM3 = 0;
  let moment: Vec3 = [0, 0, 0];
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const cell of cellsIn(layout, compartment))
    for (const [from, to] of slicesOf(cell, hull))
      for (const g of GAUSS) {
        const x = (from + to) / 2 + (g * (to - from)) / 2;
        const own = cellCut(cell, 'section', x);
        if (own.length < 3) continue;
        for (const ring of hull ? insideCell(sectionOf(hull, x), cell, x) : [own]) {
          const area = areaOf(ring);
          const dv = (area * (to - from)) / 2;
          const [cy, cz] = centroidOf(ring);
          volumeM3 += dv;
          moment = [moment[0] + dv * x, moment[1] + dv * cy, moment[2] + dv * cz];
          if (area < 1e-9) continue;
          for (const [y, z] of ring)
            [x, y, z].forEach((value, k) => {
              low[k] = Math.min(low[k] as number, value);
              high[k] = Math.max(high[k] as number, value);
            });
        }
      }
  const centre: Vec3 | null =
    volumeM3 > 1e-9 ? [moment[0] / volumeM3, moment[1] / volumeM3, moment[2] / volumeM3] : null;
  return { volumeM3, centre, low, high };
}

/** Sections of hulls already cut: neighbours meet the same slices. */
const sectionsOf = new WeakMap<HullSurface, Map<number, Vec2[][]>>();

function sectionOf(hull: HullSurface, x: number): Vec2[][] {
  const known = sectionsOf.get(hull) ?? new Map<number, Vec2[][]>();
  sectionsOf.set(hull, known);
  const rings = known.get(x) ?? hullCut(hull, 'section', x);
  known.set(x, rings);
  return rings;
}

/** Stretches of x between the cell's own corners and the boat's round tenths of a metre, within the hull. */
function slicesOf(cell: Cell, hull: HullSurface | null): (readonly [number, number])[] {
  const from = hull ? Math.max(cell.low[0], hull.aftM + hull.insetM) : cell.low[0];
  const to = hull ? Math.min(cell.high[0], hull.forwardM) : cell.high[0];
  const stops = new Set([from, to, ...cell.corners.map((p) => p[0])]);
  for (let i = Math.ceil(from / SLICE_M); i * SLICE_M < to; i++) stops.add(i * SLICE_M);
  const inside = [...stops].filter((x) => x >= from && x <= to).sort((a, b) => a - b);
  return inside.slice(1).flatMap((b, i) => {
    const a = inside[i] as number;
    return b - a < 1e-9 ? [] : [[a, b] as const];
  });
}

/** Parts of rings that lie in the cell's section at x. A hollow ring keeps its area though its sides may double back. */
function insideCell(rings: readonly (readonly Vec2[])[], cell: Cell, x: number): Vec2[][] {
  return rings.flatMap((ring) => {
    let rest: Vec2[] = [...ring];
    for (const { normal, offset } of cell.planes) {
      const c = offset - normal[0] * x;
      if (Math.abs(normal[1]) < 1e-12 && Math.abs(normal[2]) < 1e-12) continue;
      rest = clipHalfPlane(rest, normal[1], normal[2], c);
      if (rest.length < 3) return [];
    }
    return [rest];
  });
}

/** True when the point is in the compartment and inside the hull's inner skin. */
export const isInRoom = (layout: Layout, hull: HullSurface | null, compartment: string, p: Vec3): boolean =>
  cellsIn(layout, compartment).some((c) => c.planes.every(({ normal, offset }) => dot(normal, p) <= offset)) &&
  (hull === null || hull.clearance(p, p, 0.001) >= 0);
