import { EndType, inflatePathsD, JoinType, type PathsD } from 'clipper2-ts';
import type { Vec2, Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { areaOf, centroidOf, clipHalfPlane } from './polygon';
import type { Cell, Layout } from './types';

/** Above the sheer the sides go on upright, higher than any interior. */
const SKY_M = 50;
/** Slices of a volume are no thicker (metres). */
const SLICE_M = 0.1;
/** Decimals that polygon clipping keeps: a micrometre, as the boat file. */
const DECIMALS = 6;

const toPaths = (rings: readonly (readonly Vec2[])[]): PathsD => rings.map((r) => r.map(([x, y]) => ({ x, y })));
const toRings = (paths: PathsD): Vec2[][] => paths.map((path) => path.map(({ x, y }): Vec2 => [x, y]));

/**
 * The room inside the hull at x as [y, z] rings: the outer skin's section, drawn in by the hull's inset within its plane. Where the
 * skin slants to that plane by an angle b the room is too wide by inset (1 / cos b - 1): 1 mm for 30 mm at 15 degrees.
 */
function hullSection(hull: HullSurface, x: number): Vec2[][] {
  const centres = hull.offsetM === 0 ? [0] : [hull.offsetM, -hull.offsetM];
  const outer = centres.flatMap((centre) => {
    const ring = outerRing(hull, x, centre);
    return ring.length < 3 ? [] : [ring];
  });
  if (hull.insetM === 0) return outer;
  return toRings(inflatePathsD(toPaths(outer), -hull.insetM, JoinType.Miter, EndType.Polygon, 4, DECIMALS));
}

/** Outer section at x with upright sides above the sheer; counter-clockwise. */
function outerRing(hull: HullSurface, x: number, centre: number): Vec2[] {
  const section = hull.sectionAt(x).map(([y, z]): Vec2 => [y - hull.offsetM + centre, z]);
  const port = section[0];
  const starboard = section[section.length - 1];
  if (!port || !starboard) return [];
  return [[port[0], SKY_M], ...section, [starboard[0], SKY_M]].reverse() as Vec2[];
}

/** The cell's own section at x, counter-clockwise; empty when the plane misses it. */
const cellSection = (cell: Cell, x: number): Vec2[] =>
  x < cell.low[0] || x > cell.high[0]
    ? []
    : withinCell(
        [
          [cell.low[1], cell.low[2]],
          [cell.high[1], cell.low[2]],
          [cell.high[1], cell.high[2]],
          [cell.low[1], cell.high[2]],
        ],
        cell,
        x,
      );

const cellsIn = (layout: Layout, compartment: string): Cell[] =>
  (layout.cellsOf[compartment] ?? []).map((index) => layout.cells[index] as Cell);

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
        const own = cellSection(cell, x);
        if (own.length < 3) continue;
        for (const ring of hull
          ? sectionOf(hull, x)
              .map((ring) => withinCell(ring, cell, x))
              .filter((ring) => ring.length > 2)
          : [own]) {
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
  const rings = known.get(x) ?? hullSection(hull, x);
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

/** Part of a ring that lies in the cell's section at x. A hollow ring keeps its area though its sides may double back. */
function withinCell(ring: readonly Vec2[], cell: Cell, x: number): Vec2[] {
  let rest: Vec2[] = [...ring];
  for (const { normal, offset } of cell.planes) {
    const c = offset - normal[0] * x;
    if (Math.abs(normal[1]) < 1e-12 && Math.abs(normal[2]) < 1e-12) continue;
    rest = clipHalfPlane(rest, normal[1], normal[2], c);
    if (rest.length < 3) return [];
  }
  return rest;
}
