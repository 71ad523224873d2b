import { differenceD, EndType, FillRule, inflatePathsD, intersectD, JoinType, type PathsD } from 'clipper2-ts';
import { signedArea } from '../../base/ring';
import type { Vec2, Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';

import { GREATEST_GAP_M } from './panels';
import { cellSection, freeSection, type Room, RoomSum, type Slice, slicesBetween } from './room';
import type { Cell, Layout } from './types';

/** A connected piece of the hull's interior that no compartment holds. */
export interface UndrawnPiece {
  readonly volumeM3: number;
  readonly at: Vec3;
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface UndrawnSpace {
  /** The interior below the sheer, within the hull's inner face. */
  readonly interiorM3: number;
  /** What of it lies in no compartment: pieces and gaps together. */
  readonly volumeM3: number;
  /** Where a hand's breadth or more is undrawn, largest first. */
  readonly pieces: readonly UndrawnPiece[];
  /** What is too narrow to be a space of its own: the thickness of panels, wedges along the skin. */
  readonly gapsM3: number;
}

/** Room narrower than a panel may be thick is a gap. */
const NARROW_M = GREATEST_GAP_M;
/** Smaller pieces are gaps too. */
const LEAST_PIECE_M3 = 1e-3;
/** Decimals that polygon clipping keeps. */
const DECIMALS = 8;
const DUST_M2 = 1e-8;
/** Farther than any hull reaches. */
const FAR_M = 60;

const toPaths = (rings: readonly (readonly Vec2[])[]): PathsD => rings.map((r) => r.map(([x, y]) => ({ x, y })));
const toRings = (paths: PathsD): Vec2[][] => paths.map((path) => path.map(({ x, y }): Vec2 => [x, y]));

const known = new WeakMap<Layout, WeakMap<HullSurface, UndrawnSpace>>();

/** What of the hull's interior no compartment holds, and where it is. Above the sheer nothing is missed: there a trunk may stand or not. */
export function undrawnSpace(layout: Layout, hull: HullSurface): UndrawnSpace {
  const ofLayout = known.get(layout) ?? new WeakMap<HullSurface, UndrawnSpace>();
  known.set(layout, ofLayout);
  const space = ofLayout.get(hull) ?? foundIn(layout, hull);
  ofLayout.set(hull, space);
  return space;
}

/** Slices of the whole hull, stopping at its columns and at every corner of every cell. */
const slicesOfHull = (layout: Layout, hull: HullSurface): readonly Slice[] =>
  slicesBetween(hull.aftM, hull.forwardM, [
    ...hull.columnsM,
    ...layout.cells.flatMap((cell) => cell.corners.map((p) => p[0])),
  ]);

function foundIn(layout: Layout, hull: HullSurface): UndrawnSpace {
  const interior = new RoomSum();
  const missing = new RoomSum();
  const groups = new Groups();
  slicesOfHull(layout, hull).forEach((slice, k) => {
    const free = belowSheer(hull, slice.x);
    for (const ring of toRings(free)) interior.add(ring, slice);
    const drawn = toPaths(layout.cells.map((cell) => cellSection(cell, slice.x)).filter((ring) => ring.length > 2));
    const rest = drawn.length > 0 && free.length > 0 ? differenceD(free, drawn, FillRule.NonZero, DECIMALS) : free;
    for (const ring of toRings(rest)) missing.add(ring, slice);
    // Of the two planes of a slice one shows where the pieces are: now the after one, now the forward one.
    if (k % 4 === 0 || k % 4 === 3) groups.pass(roomy(rest), { ...slice, widthM: 2 * slice.widthM });
  });
  const volumeM3 = missing.room().volumeM3;
  const pieces = groups
    .rooms()
    .flatMap(({ volumeM3: piece, centre, low, high }): UndrawnPiece[] =>
      centre && piece >= LEAST_PIECE_M3 && high[0] - low[0] > NARROW_M
        ? [{ volumeM3: piece, at: centre, low, high }]
        : [],
    )
    .sort((a, b) => b.volumeM3 - a.volumeM3 || a.at[0] - b.at[0]);
  return {
    interiorM3: interior.room().volumeM3,
    volumeM3,
    pieces,
    gapsM3: Math.max(0, volumeM3 - pieces.reduce((sum, piece) => sum + piece.volumeM3, 0)),
  };
}

/**
 * The free section up to the sheer. Cut by the library of polygons, which leaves it tidy: of a ring cut by hand it has made wrong
 * differences where points of the cut nearly coincide.
 */
function belowSheer(hull: HullSurface, x: number): PathsD {
  const rings = freeSection(hull, x, hull.insetM);
  const top = hull.sheerAt(x);
  const below: Vec2[] = [
    [-FAR_M, -FAR_M],
    [FAR_M, -FAR_M],
    [FAR_M, top],
    [-FAR_M, top],
  ];
  return rings.length > 0 ? intersectD(toPaths(rings), toPaths([below]), FillRule.NonZero, DECIMALS) : [];
}

/** The parts of a region that a disc as wide as the narrowest space can reach. */
function roomy(region: PathsD): Vec2[][] {
  const opened = inflatePathsD(region, -NARROW_M / 2, JoinType.Miter, EndType.Polygon, 2, DECIMALS);
  if (opened.length === 0) return [];
  const closed = inflatePathsD(opened, NARROW_M / 2, JoinType.Miter, EndType.Polygon, 2, DECIMALS);
  return toRings(intersectD(closed, region, FillRule.NonZero, DECIMALS));
}

interface Part {
  /** Outline first, then its holes. */
  readonly rings: readonly (readonly Vec2[])[];
  group: Group;
}
interface Group {
  parts: { readonly rings: Part['rings']; readonly slice: Slice }[];
  joined: Group | null;
}

/** Parts of successive slices that cover one another are one piece. */
class Groups {
  private readonly all: Group[] = [];
  private before: readonly Part[] = [];

  pass(rings: readonly (readonly Vec2[])[], slice: Slice): void {
    const parts = partsOf(rings).map((own): Part => {
      const met = new Set(this.before.filter((part) => cover(part.rings, own)).map((part) => rootOf(part.group)));
      const [first, ...others] = [...met];
      const group = first ?? this.fresh();
      for (const other of others) {
        group.parts.push(...other.parts);
        other.parts = [];
        other.joined = group;
      }
      group.parts.push({ rings: own, slice });
      return { rings: own, group };
    });
    this.before = parts;
  }

  rooms(): readonly Room[] {
    return this.all
      .filter((group) => group.joined === null)
      .map((group) => {
        const sum = new RoomSum();
        for (const { rings, slice } of group.parts) for (const ring of rings) sum.add(ring, slice);
        return sum.room();
      });
  }

  private fresh(): Group {
    const group: Group = { parts: [], joined: null };
    this.all.push(group);
    return group;
  }
}

function rootOf(group: Group): Group {
  let root = group;
  while (root.joined) root = root.joined;
  return root;
}

function partsOf(rings: readonly (readonly Vec2[])[]): (readonly (readonly Vec2[])[])[] {
  const outlines = rings.filter((ring) => signedArea(ring) > DUST_M2).map((ring) => [ring]);
  for (const hole of rings.filter((ring) => signedArea(ring) < -DUST_M2)) {
    // Its own outline is the smallest that covers it.
    const around = outlines
      .filter(([outline]) => outline && cover([outline], [[...hole].reverse()]))
      .sort(([a], [b]) => signedArea(a ?? []) - signedArea(b ?? []))[0];
    around?.push(hole);
  }
  return outlines;
}

const cover = (a: Part['rings'], b: Part['rings']): boolean =>
  intersectD(toPaths(a), toPaths(b), FillRule.NonZero, DECIMALS).some(
    (path) => Math.abs(signedArea(path.map(({ x, y }): Vec2 => [x, y]))) > DUST_M2,
  );

/** Thinner than this no space, gap or overlap is meant. */
const SLIVER_M = 0.005;
const MET_M = 2e-4;

export interface Sliver {
  readonly kind: 'gap' | 'overlap' | 'compartment';
  /** One compartment, or the two between which it is. */
  readonly compartments: readonly string[];
  readonly thicknessM: number;
  readonly at: Vec3;
}

/** Gaps between neighbours, overlaps and compartments that are thinner than 5 mm: drawn by a slip, not meant. */
export function slivers(layout: Layout): readonly Sliver[] {
  const gaps = Object.values(layout.panels).flatMap((panel): Sliver[] =>
    panel.gapM > MET_M && panel.gapM < SLIVER_M
      ? [{ kind: 'gap', compartments: panel.between, thicknessM: panel.gapM, at: middleOf(panel.pieces.flat()) }]
      : [],
  );
  const overlaps = layout.overlaps.flatMap(({ between, depthM, at }): Sliver[] =>
    depthM < SLIVER_M ? [{ kind: 'overlap', compartments: between, thicknessM: depthM, at }] : [],
  );
  const thin = Object.keys(layout.cellsOf).flatMap((id): Sliver[] => {
    const cells = (layout.cellsOf[id] ?? []).map((index) => layout.cells[index] as Cell);
    const thicknessM = Math.max(0, ...cells.map(thicknessOf));
    return cells.length > 0 && thicknessM < SLIVER_M
      ? [{ kind: 'compartment', compartments: [id], thicknessM, at: middleOf(cells.flatMap((c) => c.corners)) }]
      : [];
  });
  return [...gaps, ...overlaps, ...thin];
}

/** Least width of a convex cell square to one of its faces. */
function thicknessOf({ planes, corners }: Cell): number {
  return Math.min(
    ...planes.map(({ normal, offset }) =>
      Math.max(...corners.map((p) => offset - normal[0] * p[0] - normal[1] * p[1] - normal[2] * p[2])),
    ),
  );
}

const middleOf = (points: readonly Vec3[]): Vec3 => {
  const mean = (k: 0 | 1 | 2): number => points.reduce((sum, p) => sum + p[k], 0) / Math.max(1, points.length);
  return [mean(0), mean(1), mean(2)];
};
