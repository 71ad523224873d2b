import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
/**
 * What a layout alone decides, computed once for it: walls packed for distances, which portals and walls a cell has, and the
 * frame of every portal. Nothing here depends on who asked first.
 */
import { cross, dot, squareTo, subtract, type Vec3 } from '../../base/vec';
import type { Cell, Layout, Panel, PanelHole, Plane, Portal, Wall } from '../../shape/layout/types';
import { SolidPack } from '../../shape/space/kernel';

export interface PortalFrame {
  readonly portal: Portal;
  readonly panel: Panel | null;
  /** Rank of the panel among the layout's, -1 for a cut inside one compartment. */
  readonly panelIndex: number;
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly n: Vec3;
  /** Convex outline in u and v, counter-clockwise. */
  readonly outline: Outline;
  /** Of a panel in several pieces, all of it in u and v: the seams between its pieces are no edges. */
  readonly sheet: Sheet | null;
}
type Outline = readonly (readonly [number, number])[];

interface Sheet {
  readonly pieces: readonly Outline[];
  /** Sides of the true outline, four numbers each. */
  readonly edges: Float64Array;
}

export interface Structure {
  readonly layout: Layout;
  readonly walls: SolidPack;
  /** Panel index of each wall, -1 for faces towards undrawn space. */
  readonly wallPanel: Int32Array;
  readonly wallsOfCell: readonly Int32Array[];
  /** Bounds of the cells: low xyz then high xyz, six numbers a cell. */
  readonly cellBounds: Float64Array;
  /** Cells by the stretches of x that they reach into. */
  readonly columns: CellColumns;
  readonly panelIds: readonly string[];
  readonly panelIndex: ReadonlyMap<string, number>;
  readonly frames: readonly PortalFrame[];
  readonly portalsOfCell: readonly (readonly number[])[];
  /** The space of each open panel between the two outlines that it joins. */
  readonly doorways: readonly Doorway[];
}

const COLUMN_M = 0.5;

/** Cells by stretches of x, so that what is near a place is found without going through all of them. */
export class CellColumns {
  private readonly fromM: number;
  private readonly columns: readonly (readonly number[])[];
  /** Cells of a box that lies in several columns, in the order of their numbers. */
  private readonly joined = new Map<number, readonly number[]>();

  constructor(cellBounds: Float64Array) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < cellBounds.length; k += 6) {
      low = Math.min(low, cellBounds[k] as number);
      high = Math.max(high, cellBounds[k + 3] as number);
    }
    this.fromM = Number.isFinite(low) ? low : 0;
    const columns = Array.from({ length: Number.isFinite(low) ? this.columnOf(high) + 1 : 1 }, (): number[] => []);
    for (let cell = 0, k = 0; k < cellBounds.length; cell += 1, k += 6) {
      const last = this.columnOf(cellBounds[k + 3] as number);
      for (let c = this.columnOf(cellBounds[k] as number); c <= last; c += 1) columns[c]?.push(cell);
    }
    this.columns = columns;
  }

  private columnOf(xM: number): number {
    return Math.floor((xM - this.fromM) / COLUMN_M);
  }

  /** Cells that may reach into a stretch of x, each once, in ascending order. */
  between(lowM: number, highM: number): readonly number[] {
    const last = this.columns.length - 1;
    const from = Math.max(0, this.columnOf(lowM));
    const to = Math.min(last, this.columnOf(highM));
    if (from > to) return [];
    if (from === to) return this.columns[from] as readonly number[];
    const key = from * (last + 1) + to;
    const known = this.joined.get(key);
    if (known) return known;
    const cells = [...new Set(this.columns.slice(from, to + 1).flat())].sort((a, b) => a - b);
    this.joined.set(key, cells);
    return cells;
  }
}

/** A convex piece of space that belongs to no cell but may be passed. */
export interface Doorway {
  readonly planes: readonly Plane[];
  readonly low: Vec3;
  readonly high: Vec3;
}

const built = new WeakMap<Layout, Structure>();

export function structureOf(layout: Layout): Structure {
  const known = built.get(layout);
  if (known) return known;
  const panelIds = Object.keys(layout.panels).sort();
  const panelIndex = new Map(panelIds.map((id, index) => [id, index]));
  const walls = new SolidPack(
    layout.walls.map((wall) => ({
      type: 'plate',
      id: wall.id,
      label: wall.label,
      polygon: wall.polygon,
      normal: wall.normal,
      thicknessM: wall.thicknessM,
    })),
  );
  const wallPanel = Int32Array.from(layout.walls, (wall) =>
    wall.panelId === undefined ? -1 : (panelIndex.get(wall.panelId) ?? -1),
  );
  const wallsOfCell = layout.cells.map((cell) => {
    const near: number[] = [];
    for (let k = 0; k < walls.size; k += 1)
      if (!boundsApart(walls, k, cell) && !planesApart(layout.walls[k] as Wall, cell)) near.push(k);
    return Int32Array.from(near);
  });
  const frames = layout.portals.map((portal) => frameOfPortal(portal, layout, panelIndex));
  const portalsOfCell: number[][] = layout.cells.map(() => []);
  frames.forEach(({ portal }, index) => {
    for (const cell of portal.cells) portalsOfCell[cell]?.push(index);
  });
  const doorways = frames.filter(({ panel }) => panel?.rule === 'open').map(doorwayOf);
  const cellBounds = Float64Array.from(layout.cells.flatMap(({ low, high }) => [...low, ...high]));
  const structure = {
    layout,
    walls,
    cellBounds,
    columns: new CellColumns(cellBounds),
    wallPanel,
    wallsOfCell,
    panelIds,
    panelIndex,
    frames,
    portalsOfCell,
    doorways,
  };
  built.set(layout, structure);
  return structure;
}
/**
 * A wall this near a cell can stand in the way of a hose in it. What lies deeper stands behind another wall; through an open
 * face the hose is near the next cell as well, which has its own list.
 */
const NEAR_CELL_M = 0.004;

function boundsApart(walls: SolidPack, k: number, cell: Cell): boolean {
  for (let axis = 0; axis < 3; axis += 1)
    if (
      (walls.bounds[6 * k + axis] as number) > (cell.high[axis] as number) + NEAR_CELL_M ||
      (walls.bounds[6 * k + 3 + axis] as number) < (cell.low[axis] as number) - NEAR_CELL_M
    )
      return true;
  return false;
}

/** True when a face of the cell, or the plane of the wall, has the two on different sides. */
function planesApart({ polygon, normal: n, thicknessM }: Wall, { planes, corners }: Cell): boolean {
  const apart = thicknessM / 2 + NEAR_CELL_M;
  for (const { normal, offset } of planes) if (leastAlong(polygon, normal, 1) - offset > apart) return true;
  const level = dot(n, polygon[0] as Vec3);
  return leastAlong(corners, n, 1) - level > apart || leastAlong(corners, n, -1) + level > apart;
}

/** Least of side times dot(n, p) over the points. */
function leastAlong(points: readonly Vec3[], n: Vec3, side: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < points.length; k += 1) {
    const p = points[k] as Vec3;
    const height = side * (n[0] * p[0] + n[1] * p[1] + n[2] * p[2]);
    if (height < least) least = height;
  }
  return least;
}

function frameOfPortal(portal: Portal, layout: Layout, panelIndex: ReadonlyMap<string, number>): PortalFrame {
  const n = portal.normal;
  const u = squareTo(n);
  const v = cross(n, u);
  const count = portal.polygon.length;
  const origin: Vec3 = [0, 1, 2].map(
    (axis) => portal.polygon.reduce((sum, p) => sum + (p[axis] as number), 0) / count,
  ) as [number, number, number];
  const onFrame = (p: Vec3): readonly [number, number] => {
    const from = subtract(p, origin);
    return [dot(from, u), dot(from, v)];
  };
  const flat = portal.polygon.map(onFrame);
  const outline = signedArea(flat) < 0 ? [...flat].reverse() : flat;
  const panel = portal.kind === 'panel' ? (layout.panels[portal.panelId] ?? null) : null;
  const sheet = panel && panel.pieces.length > 1 ? sheetOf(panel, onFrame) : null;
  const index = panel ? (panelIndex.get(panel.id) ?? -1) : -1;
  return { portal, panel, panelIndex: index, origin, u, v, n, outline, sheet };
}

function sheetOf(panel: Panel, onFrame: (p: Vec3) => readonly [number, number]): Sheet {
  const pieces = panel.pieces.map((piece) => {
    const flat = piece.map(onFrame);
    return signedArea(flat) < 0 ? flat.reverse() : flat;
  });
  return { pieces, edges: Float64Array.from(panel.edges.flatMap(([p, q]) => [...onFrame(p), ...onFrame(q)])) };
}

/** Beside a seam a point may lie in neither piece by rounding. */
const SEAM_M = 1e-6;

/** How far a point of the plane lies from the true edge of the frame's panel; negative outside. */
export function depthInPanel({ outline, sheet }: PortalFrame, x: number, y: number): number {
  if (!sheet) return depthInOutline(outline, x, y);
  const { edges, pieces } = sheet;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < edges.length; k += 4) {
    const ax = edges[k] as number;
    const ay = edges[k + 1] as number;
    const dx = (edges[k + 2] as number) - ax;
    const dy = (edges[k + 3] as number) - ay;
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    const square = (x - ax - dx * t) ** 2 + (y - ay - dy * t) ** 2;
    if (square < least) least = square;
  }
  const away = Math.sqrt(least);
  return pieces.some((piece) => depthInOutline(piece, x, y) >= -SEAM_M) ? away : -away;
}

function doorwayOf({ panel, portal, outline, origin, n, u, v }: PortalFrame): Doorway {
  const half = Math.max(0, (panel?.gapM ?? 0) / 2) + DOORWAY_SLACK_M;
  const planes = outline.map(([x, y], k): Plane => {
    const [nextX, nextY] = outline[(k + 1) % outline.length] as readonly [number, number];
    const size = portable.hypot(nextX - x, nextY - y) || 1;
    const [ox, oy] = [(nextY - y) / size, (x - nextX) / size];
    const normal: Vec3 = [u[0] * ox + v[0] * oy, u[1] * ox + v[1] * oy, u[2] * ox + v[2] * oy];
    return { normal, offset: ox * x + oy * y + dot(normal, origin) };
  });
  planes.push(
    { normal: n, offset: dot(n, origin) + half },
    { normal: [-n[0], -n[1], -n[2]], offset: half - dot(n, origin) },
  );
  const bound = (pick: (...values: number[]) => number, pad: number): Vec3 => [
    pick(...portal.polygon.map((p) => p[0])) + pad,
    pick(...portal.polygon.map((p) => p[1])) + pad,
    pick(...portal.polygon.map((p) => p[2])) + pad,
  ];
  return { planes, low: bound(Math.min, -half), high: bound(Math.max, half) };
}
const DOORWAY_SLACK_M = 1e-5;

/** How far a point of the plane lies inside a convex outline; negative outside. */
export function depthInOutline(outline: readonly (readonly [number, number])[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let from = outline[outline.length - 1] as readonly [number, number];
  for (let k = 0; k < outline.length; k += 1) {
    const to = outline[k] as readonly [number, number];
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const length = Math.sqrt(dx * dx + dy * dy);
    const inside = length < 1e-9 ? least : (dx * (y - from[1]) - dy * (x - from[0])) / length;
    if (inside < least) least = inside;
    from = to;
  }
  return least;
}

const deepest = new WeakMap<PortalFrame, readonly [number, number]>();

/** The place in the portal that lies deepest in its panel: where a hole fits last. */
export function deepestIn(frame: PortalFrame): readonly [number, number] {
  const known = deepest.get(frame);
  if (known) return known;
  const found = searchDeepest(frame);
  deepest.set(frame, found);
  return found;
}

function searchDeepest(frame: PortalFrame): readonly [number, number] {
  let [x, y] = [0, 0];
  let depth = depthInPanel(frame, x, y);
  // Seams cross a panel where it turns a corner: there it is deepest.
  frame.outline.forEach(([ax, ay], k) => {
    const [bx, by] = frame.outline[(k + 1) % frame.outline.length] as readonly [number, number];
    for (let t = 1; t < SEAM_STEPS; t += 1) {
      const [px, py] = [ax + ((bx - ax) * t) / SEAM_STEPS, ay + ((by - ay) * t) / SEAM_STEPS];
      const next = depthInPanel(frame, px, py);
      if (next > depth + 1e-9) [x, y, depth] = [px, py, next];
    }
  });
  for (let step = FIRST_STEP_M; step > LAST_STEP_M; ) {
    let [bestX, bestY, best] = [x, y, depth];
    for (let turn = 0; turn < 16; turn += 1) {
      const angle = (Math.PI * turn) / 8;
      const [nextX, nextY] = [x + step * portable.cos(angle), y + step * portable.sin(angle)];
      if (depthInOutline(frame.outline, nextX, nextY) < 0) continue;
      const next = depthInPanel(frame, nextX, nextY);
      if (next > best) [bestX, bestY, best] = [nextX, nextY, next];
    }
    if (best > depth) [x, y, depth] = [bestX, bestY, best];
    else step *= 0.5;
  }
  return [x, y];
}
const FIRST_STEP_M = 0.1;
const LAST_STEP_M = 1e-5;
const SEAM_STEPS = 10;

/** Index of the portal of a panel that holds a hole, or lies nearest to it. */
export function frameOfHole({ frames }: Structure, panel: Panel, { at }: PanelHole): number {
  let best = -1;
  let most = Number.NEGATIVE_INFINITY;
  frames.forEach((frame, index) => {
    if (frame.panel !== panel) return;
    const from = subtract(at, frame.origin);
    const depth = depthInOutline(frame.outline, dot(from, frame.u), dot(from, frame.v));
    if (depth > most) [best, most] = [index, depth];
  });
  return best;
}

/** The outline moved inwards by `insetM`, empty when nothing is left. */
export function insetOutline(
  outline: readonly (readonly [number, number])[],
  insetM: number,
): readonly (readonly [number, number])[] {
  let ring: (readonly [number, number])[] = [...outline];
  for (let k = 0; k < outline.length && ring.length > 0; k += 1) {
    const [ax, ay] = outline[k] as readonly [number, number];
    const [bx, by] = outline[(k + 1) % outline.length] as readonly [number, number];
    const length = portable.hypot(bx - ax, by - ay);
    if (length < 1e-9) continue;
    const side = (p: readonly [number, number]): number =>
      ((bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)) / length - insetM;
    const kept: (readonly [number, number])[] = [];
    ring.forEach((p, i) => {
      const q = ring[(i + 1) % ring.length] as readonly [number, number];
      const here = side(p);
      const there = side(q);
      if (here >= 0) kept.push(p);
      if (here >= 0 !== there >= 0) {
        const t = here / (here - there);
        kept.push([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]);
      }
    });
    ring = kept;
  }
  return ring.length >= 3 && Math.abs(signedArea(ring)) > 1e-8 ? ring : [];
}

/** Point of the portal's plane in the boat. */
export const pointOnPortal = (frame: PortalFrame, x: number, y: number): Vec3 => [
  frame.origin[0] + frame.u[0] * x + frame.v[0] * y,
  frame.origin[1] + frame.u[1] * x + frame.v[1] * y,
  frame.origin[2] + frame.u[2] * x + frame.v[2] * y,
];
