import { signedArea } from '../../base/ring';
import type { Vec2, Vec3 } from '../../base/vec';
import type { HullSurface, WaterPlane } from '../hull/types';
import { centroidOf, clipHalfPlane } from './polygon';
import type { Cell, Layout, Plane } from './types';

/** Slices of a volume are no thicker (metres): where an edge comes in between, a slice is off by a part in a million of a cubic metre. */
const SLICE_M = 0.05;
/** Thinner slices hold nothing. */
const LEAST_SLICE_M = 1e-9;

/** Abscissas of the two-point Gauss rule on [-1, 1]: exact for cubics, and so for a slice in which no edge comes or goes. */
const GAUSS = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/** A plane of constant x, the length along x that it stands for, and the ends of the slice in which it lies. */
export interface Slice {
  readonly x: number;
  readonly widthM: number;
  readonly fromM: number;
  readonly toM: number;
}

/** Slices from end to end that stop wherever something changes its form. */
export function slicesBetween(
  from: number,
  to: number,
  stops: Iterable<number>,
  thickestM = SLICE_M,
): readonly Slice[] {
  const inside = [...new Set([from, to, ...stops])].filter((x) => x >= from && x <= to).sort((a, b) => a - b);
  return inside.slice(1).flatMap((end, k) => {
    const start = inside[k] as number;
    if (end - start < LEAST_SLICE_M) return [];
    const parts = Math.ceil((end - start) / thickestM - 1e-9);
    const widthM = (end - start) / parts;
    return Array.from({ length: parts }, (_, p) => start + p * widthM).flatMap((fromM) =>
      GAUSS.map((g): Slice => ({ x: fromM + ((1 + g) * widthM) / 2, widthM: widthM / 2, fromM, toM: fromM + widthM })),
    );
  });
}

export const cellsIn = (layout: Layout, compartment: string): readonly Cell[] =>
  (layout.cellsOf[compartment] ?? []).map((index) => layout.cells[index] as Cell);

/** Slices of one cell, stopping at the hull's columns and at the cell's corners. */
function slicesOf(cell: Cell, hull: HullSurface | null): readonly Slice[] {
  const from = hull ? Math.max(cell.low[0], hull.aftM) : cell.low[0];
  const to = hull ? Math.min(cell.high[0], hull.forwardM) : cell.high[0];
  return from < to ? slicesBetween(from, to, [...cell.corners.map((p) => p[0]), ...(hull?.columnsM ?? [])]) : [];
}

/** The cell's own section at x, counter-clockwise; empty when the plane misses it. */
export const cellSection = (cell: Cell, x: number): Vec2[] =>
  x < cell.low[0] || x > cell.high[0]
    ? []
    : sectionWithin(
        [
          [cell.low[1], cell.low[2]],
          [cell.high[1], cell.low[2]],
          [cell.high[1], cell.high[2]],
          [cell.low[1], cell.high[2]],
        ],
        cell.planes,
        x,
      );

/**
 * Part of a ring at x that lies in a convex body. A hollow ring keeps its area, though its sides may double back.
 */
export function sectionWithin(ring: readonly Vec2[], planes: readonly Plane[], x: number): Vec2[] {
  let rest: Vec2[] = [...ring];
  for (const { normal, offset } of planes) {
    const c = offset - normal[0] * x;
    if (Math.abs(normal[1]) < 1e-12 && Math.abs(normal[2]) < 1e-12) {
      if (c < -1e-12) return [];
      continue;
    }
    rest = clipHalfPlane(rest, normal[1], normal[2], c);
    if (rest.length < 3) return [];
  }
  return rest;
}

/** Sections of hulls already made: neighbours meet the same columns. */
const sectionsOf = new WeakMap<HullSurface, Map<string, readonly (readonly Vec2[])[]>>();

export function freeSection(hull: HullSurface, x: number, insetM: number): readonly (readonly Vec2[])[] {
  const known = sectionsOf.get(hull) ?? new Map<string, readonly (readonly Vec2[])[]>();
  sectionsOf.set(hull, known);
  const key = `${x} ${insetM}`;
  const rings = known.get(key) ?? hull.insideAt(x, insetM);
  known.set(key, rings);
  return rings;
}

export interface Room {
  readonly volumeM3: number;
  /** Centre of the room; null without room. */
  readonly centre: Vec3 | null;
  /** Bounds of the room as the slices show them. */
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Volume, centre and bounds of what is added slice by slice. */
export class RoomSum {
  private volume = 0;
  private moment: [number, number, number] = [0, 0, 0];
  private readonly low: [number, number, number] = [Infinity, Infinity, Infinity];
  private readonly high: [number, number, number] = [-Infinity, -Infinity, -Infinity];

  add(ring: readonly Vec2[], { x, widthM, fromM, toM }: Slice): void {
    const area = signedArea(ring);
    const dv = area * widthM;
    const [cy, cz] = centroidOf(ring);
    this.volume += dv;
    this.moment = [this.moment[0] + dv * x, this.moment[1] + dv * cy, this.moment[2] + dv * cz];
    // Holes have a negative area and lie within what they are holes of.
    if (area < 1e-9) return;
    this.low[0] = Math.min(this.low[0], fromM);
    this.high[0] = Math.max(this.high[0], toM);
    for (const [y, z] of ring) {
      this.low[1] = Math.min(this.low[1], y);
      this.low[2] = Math.min(this.low[2], z);
      this.high[1] = Math.max(this.high[1], y);
      this.high[2] = Math.max(this.high[2], z);
    }
  }

  room(): Room {
    const { volume, moment } = this;
    const centre: Vec3 | null = volume > 1e-9 ? [moment[0] / volume, moment[1] / volume, moment[2] / volume] : null;
    return { volumeM3: volume, centre, low: [...this.low], high: [...this.high] };
  }
}

/**
 * Room of a compartment inside the hull: sections of its cells cut by the hull's inner face, which stands off the skin by `insetM`
 * (default: shell and lining of the hull), integrated along x. Without a hull the prism's own volume.
 */
export function compartmentVolume(
  layout: Layout,
  hull: HullSurface | null,
  compartment: string,
  insetM = hull?.insetM ?? 0,
): Room {
  const sum = new RoomSum();
  for (const cell of cellsIn(layout, compartment))
    for (const slice of slicesOf(cell, hull))
      for (const ring of cellWithinHull(cell, hull, slice.x, insetM)) sum.add(ring, slice);
  return sum.room();
}

/** What the hull leaves of a cell at x. */
export const cellWithinHull = (cell: Cell, hull: HullSurface | null, x: number, insetM: number): Vec2[][] =>
  (hull
    ? freeSection(hull, x, insetM).map((ring) => sectionWithin(ring, cell.planes, x))
    : [cellSection(cell, x)]
  ).filter((ring) => ring.length > 2);

/** A volume below the water is as good as the tape: its slices are thicker than those of a room. */
const WET_SLICE_M = 1.2;

interface WetSection {
  readonly x: number;
  readonly widthM: number;
  readonly ring: readonly Vec2[];
}

/** Sections of compartments already made: many levels are asked for, in many directions. */
const wetSectionsOf = new WeakMap<
  Layout,
  { readonly hull: HullSurface | null; readonly of: Map<string, readonly WetSection[]> }
>();

function wetSections(layout: Layout, hull: HullSurface | null, compartment: string): readonly WetSection[] {
  let known = wetSectionsOf.get(layout);
  if (!known || known.hull !== hull) {
    known = { hull, of: new Map() };
    wetSectionsOf.set(layout, known);
  }
  const found = known.of.get(compartment);
  if (found) return found;
  const made = cellsIn(layout, compartment).flatMap((cell) => {
    const from = hull ? Math.max(cell.low[0], hull.aftM) : cell.low[0];
    const to = hull ? Math.min(cell.high[0], hull.forwardM) : cell.high[0];
    const stops = cell.corners.map((corner) => corner[0]);
    return (from < to ? slicesBetween(from, to, stops, WET_SLICE_M) : []).flatMap(({ x, widthM }): WetSection[] => {
      const rings = hull
        ? skinSections(hull, x).map((ring) => sectionWithin(ring, cell.planes, x))
        : [cellSection(cell, x)];
      return rings.flatMap((ring) => (ring.length > 2 ? [{ x, widthM, ring }] : []));
    });
  });
  known.of.set(compartment, made);
  return made;
}

/** The outer skin at x, closed from sheer to sheer, counter-clockwise; of a hull off the centreline, those of both hulls. */
function skinSections(hull: HullSurface, x: number): readonly (readonly Vec2[])[] {
  const skin = hull.sectionAt(x);
  const ring = signedArea(skin) < 0 ? [...skin].reverse() : skin;
  return hull.offsetM === 0 ? [ring] : [ring, ring.map(([y, z]): Vec2 => [-y, z]).reverse()];
}

/**
 * What of a compartment lies below a water plane, m3, within the outer skin: what is between shell and lining floods too. Slices are up to
 * 1.2 m thick.
 */
export function volumeBelow(
  layout: Layout,
  hull: HullSurface | null,
  compartment: string,
  { up, levelM }: WaterPlane,
): number {
  let volumeM3 = 0;
  for (const { x, widthM, ring } of wetSections(layout, hull, compartment))
    volumeM3 += widthM * signedArea(clipHalfPlane(ring, up[1], up[2], levelM - up[0] * x));
  return volumeM3;
}
