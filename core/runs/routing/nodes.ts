/**
 * Places that a hose may be led by, as nodes of a sparse graph: points in open panels, pairs of points on both sides of holes
 * (existing ones and those that could be drilled), points beside the corners of things and along hollows of the hull.
 */
import * as portable from '../../base/portable';
import { distance, dot, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import type { Cell, Layout, Panel, PanelHole } from '../../shape/layout/types';
import type { Solid } from '../../shape/space/solids';
import { carriedOnly, holeInPlane, placesBeside, pointInHole } from './hole-room';
import { holeStraightM } from './straights';
import {
  deepestIn,
  depthInOutline,
  depthInPanel,
  frameOfHole,
  insetOutline,
  type PortalFrame,
  pointOnPortal,
  type Structure,
  structureOf,
} from './structure';

/** What the nodes depend on besides the boat. */
export interface HoseClass {
  readonly radiusM: number;
  readonly bendRadiusM: number;
  readonly holeRadiusM: number;
}

/** A way through a panel, between nodes `k` and its mate. */
export interface Passage {
  readonly frame: number;
  readonly panel: Panel;
  readonly hole: PanelHole | null;
  readonly at: Vec3;
  /** Half the straight length that the hole asks for. */
  readonly stubM: number;
  readonly costM: number;
}

/** Nodes of one hole: pairs of them, one for each place that a run may take in it. */
export interface HoleNodes {
  readonly hole: PanelHole;
  readonly panel: Panel;
  readonly frame: number;
  readonly first: number;
  readonly pairs: number;
}

export interface Nodes {
  readonly count: number;
  readonly at: Float64Array;
  readonly cell: Int32Array;
  /** Other node of the pair, -1 for a single node. */
  readonly mate: Int32Array;
  /** Direction from the node to its mate; zero where the direction is free. */
  readonly toward: Float64Array;
  readonly passage: readonly (Passage | null)[];
  /** Portal frame of each node, -1 for a single node. */
  readonly frame: Int32Array;
  readonly ofCell: readonly (readonly number[])[];
  /** Holes that are there already or planned, by the cells on both sides. */
  readonly holesOfCell: readonly (readonly HoleNodes[])[];
  /** False where hull or walls leave no room: tried when first asked, since most lines come near few nodes. */
  isFree(node: number): boolean;
}

/** Nodes stand this much clearer than the hose needs. */
const SPARE_M = 0.0015;
/** Straight hose at a hole beyond what is asked for. */
const STUB_SPARE_M = 0.001;

export const stubOf = (panel: Panel, hose: HoseClass): number => holeStraightM(panel, hose.radiusM) + STUB_SPARE_M;

/** Nodes of a layout in one hull, by class, with what the classes share. */
interface Built {
  readonly hull: HullSurface | null;
  readonly classes: Map<string, Nodes>;
  /** Frames of portals whose rim stays so far from the hull that candidates need not be tried against it one by one. */
  readonly amidships: readonly boolean[];
}
const built = new WeakMap<Layout, Built[]>();
const AMIDSHIPS_M = 0.08;

/** Nodes that the layout and the hull give to every hose of a class. */
export function nodesOf(layout: Layout, hull: HullSurface | null, hose: HoseClass): Nodes {
  const entries = built.get(layout) ?? [];
  if (!built.has(layout)) built.set(layout, entries);
  let entry = entries.find((one) => one.hull === hull);
  if (!entry) {
    entry = { hull, classes: new Map(), amidships: amidships(structureOf(layout), hull) };
    entries.push(entry);
  }
  const key = `${hose.radiusM}|${hose.holeRadiusM}`;
  const known = entry.classes.get(key);
  if (known) return known;
  const nodes = new NodeBuilder(structureOf(layout), entry, hose).build();
  entry.classes.set(key, nodes);
  return nodes;
}

function amidships(structure: Structure, hull: HullSurface | null): boolean[] {
  return structure.frames.map(({ portal: { polygon } }) =>
    polygon.every((p, k) => {
      const next = polygon[(k + 1) % polygon.length] as Vec3;
      return !hull || hull.clearance(p, next, AMIDSHIPS_M) >= AMIDSHIPS_M - 1e-9;
    }),
  );
}

const UNTRIED = 0;
const FREE = 1;
const TAKEN = 2;

class NodeBuilder {
  private readonly at: number[] = [];
  private readonly cell: number[] = [];
  private readonly mate: number[] = [];
  private readonly toward: number[] = [];
  private readonly passage: (Passage | null)[] = [];
  private readonly frame: number[] = [];
  private readonly holes: HoleNodes[] = [];

  constructor(
    private readonly structure: Structure,
    private readonly shared: Built,
    private readonly hose: HoseClass,
  ) {}

  private get hull(): HullSurface | null {
    return this.shared.hull;
  }

  build(): Nodes {
    this.structure.frames.forEach((frame, index) => {
      const { panel } = frame;
      if (!panel || panel.rule === 'open') this.addOpen(frame, index);
      else if (panel.rule === 'drill') this.addDrillable(frame, index, panel);
    });
    for (const id of this.structure.panelIds) this.addExisting(this.structure.layout.panels[id] as Panel);
    const ofCell: number[][] = this.structure.layout.cells.map(() => []);
    this.cell.forEach((cell, k) => {
      ofCell[cell]?.push(k);
    });
    const holesOfCell: HoleNodes[][] = this.structure.layout.cells.map(() => []);
    for (const hole of this.holes)
      for (const node of [hole.first, hole.first + 1]) holesOfCell[this.cell[node] as number]?.push(hole);
    const mate = Int32Array.from(this.mate);
    const tried = new Uint8Array(this.cell.length);
    return {
      count: this.cell.length,
      at: Float64Array.from(this.at),
      cell: Int32Array.from(this.cell),
      mate,
      toward: Float64Array.from(this.toward),
      passage: this.passage,
      frame: Int32Array.from(this.frame),
      ofCell,
      holesOfCell,
      isFree: (node) => {
        if (tried[node] === UNTRIED) {
          const found = this.hasRoom(node) ? FREE : TAKEN;
          tried[node] = found;
          tried[mate[node] as number] = found;
        }
        return tried[node] === FREE;
      },
    };
  }

  private hasRoom(node: number): boolean {
    const index = this.frame[node] as number;
    const isAmidships = this.shared.amidships[index] as boolean;
    const passage = this.passage[node];
    if (!passage) return isAmidships || this.clearsHull(this.placeOf(node), this.hose.radiusM);
    const { panel, hole, at } = passage;
    if (!hole && !isAmidships && !this.clearsHull(at, this.hose.holeRadiusM + panel.edgeM)) return false;
    const other = this.mate[node] as number;
    const [a, b] = [this.placeOf(node), this.placeOf(other)];
    const { n, panelIndex } = this.structure.frames[index] as PortalFrame;
    return (
      this.tipIsFree(a, this.cell[node] as number, panelIndex, n) &&
      this.tipIsFree(b, this.cell[other] as number, panelIndex, n) &&
      (isAmidships || !this.hull || this.hull.clearance(a, b, this.hose.radiusM + SPARE_M) >= this.hose.radiusM)
    );
  }

  private placeOf(node: number): Vec3 {
    return [this.at[3 * node] as number, this.at[3 * node + 1] as number, this.at[3 * node + 2] as number];
  }

  private addOpen(frame: PortalFrame, index: number): void {
    const inset = insetOutline(frame.outline, this.hose.radiusM + SPARE_M);
    if (inset.length === 0) return;
    const points = gridIn(inset, 10, 0.14, 0.4);
    // Corners and middles of the edge: the shortest way round a frame bends there.
    inset.forEach(([x, y], k) => {
      const [nextX, nextY] = inset[(k + 1) % inset.length] as readonly [number, number];
      points.push([x, y]);
      if (portable.hypot(nextX - x, nextY - y) > 0.25) points.push([(x + nextX) / 2, (y + nextY) / 2]);
    });
    for (const [x, y] of points) {
      const at = pointOnPortal(frame, x, y);
      const first = this.cell.length;
      this.push(at, frame.portal.cells[0], first + 1, null, null, index);
      this.push(at, frame.portal.cells[1], first, null, null, index);
    }
  }

  private addDrillable(frame: PortalFrame, index: number, panel: Panel): void {
    const away = this.hose.holeRadiusM + Math.max(panel.edgeM, SPARE_M);
    const inset = insetOutline(frame.outline, away);
    const points = inset.length > 0 ? gridIn(inset, 16, 0.1, 0.28) : [];
    // Seams between pieces of one panel are no edges: holes may lie across them.
    if (frame.sheet)
      for (const [x, y] of [...gridIn(frame.outline, 16, 0.1, 0.28), deepestIn(frame)])
        if (depthInPanel(frame, x, y) >= this.hose.holeRadiusM + panel.edgeM) points.push([x, y]);
    for (const [x, y] of points) {
      const at = pointOnPortal(frame, x, y);
      const crowded = panel.holes.some(
        (hole) => distance(hole.at, at) < hole.diameterM / 2 + this.hose.holeRadiusM + BETWEEN_HOLES_M,
      );
      if (!crowded) this.addPair(frame, index, panel, null, at);
    }
  }

  private addExisting(panel: Panel): void {
    for (const hole of panel.holes) {
      const places = placesBeside(hole.diameterM, this.hose, carriedOnly(hole));
      if (places.length === 0) continue;
      const index = frameOfHole(this.structure, panel, hole);
      if (index < 0) continue;
      const frame = this.structure.frames[index] as PortalFrame;
      const centre = holeInPlane(hole, frame);
      this.holes.push({ hole, panel, frame: index, first: this.cell.length, pairs: places.length });
      for (const place of places) this.addPair(frame, index, panel, hole, pointInHole(centre, frame, place));
    }
  }

  private addPair(frame: PortalFrame, index: number, panel: Panel, hole: PanelHole | null, at: Vec3): void {
    const stubM = stubOf(panel, this.hose);
    const tip = (side: number): Vec3 => [
      at[0] + frame.n[0] * side * stubM,
      at[1] + frame.n[1] * side * stubM,
      at[2] + frame.n[2] * side * stubM,
    ];
    const [a, b] = [tip(-1), tip(1)];
    const passage = { frame: index, panel, hole, at, stubM, costM: hole ? 0 : panel.newHoleCostM };
    const first = this.cell.length;
    this.push(a, frame.portal.cells[0], first + 1, frame.n, passage, index);
    const back: Vec3 = [-frame.n[0], -frame.n[1], -frame.n[2]];
    this.push(b, frame.portal.cells[1], first, back, passage, index);
  }

  private tipIsFree(p: Vec3, cell: number, panelIndex: number, n: Vec3): boolean {
    const { layout, walls, wallPanel, wallsOfCell } = this.structure;
    const { planes } = layout.cells[cell] as Cell;
    const r = this.hose.radiusM;
    let nearOthers = false;
    for (const { normal, offset } of planes) {
      const room = offset - (normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2]);
      if (room < -1e-6) return false;
      if (room < r + PLATE_INTO_CELL_M && Math.abs(dot(normal, n)) < 0.999) nearOthers = true;
    }
    if (!nearOthers) return true;
    for (const k of wallsOfCell[cell] as Int32Array) {
      if (wallPanel[k] === panelIndex) continue;
      if (walls.distance(k, p[0], p[1], p[2], p[0], p[1], p[2], r) < r) return false;
    }
    return true;
  }

  private clearsHull(p: Vec3, byM: number): boolean {
    return !this.hull || this.hull.clearance(p, p, byM + SPARE_M) >= byM;
  }

  private push(
    at: Vec3,
    cell: number,
    mate: number,
    toward: Vec3 | null,
    passage: Passage | null,
    frame: number,
  ): void {
    this.at.push(at[0], at[1], at[2]);
    this.cell.push(cell);
    this.mate.push(mate);
    this.toward.push(...(toward ?? [0, 0, 0]));
    this.passage.push(passage);
    this.frame.push(frame);
  }
}
/** A panel thicker than the gap that it fills reaches this far into a cell at most, or nearly always. */
const PLATE_INTO_CELL_M = 0.02;
/** Wood left between the edges of two holes. */
export const BETWEEN_HOLES_M = 0.004;

/** Grid of about `count` points in a convex outline, centred on it so that mirrored panels get mirrored points. */
function gridIn(
  outline: readonly (readonly [number, number])[],
  count: number,
  finestM: number,
  coarsestM: number,
): [number, number][] {
  // Along the longest edge: the grid then turns with the panel.
  let [ux, uy, longest] = [1, 0, 0];
  outline.forEach(([x, y], k) => {
    const [nextX, nextY] = outline[(k + 1) % outline.length] as readonly [number, number];
    const length = portable.hypot(nextX - x, nextY - y);
    if (length > longest + 1e-9) [ux, uy, longest] = [(nextX - x) / length, (nextY - y) / length, length];
  });
  let [lowA, highA, lowB, highB] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of outline) {
    const a = x * ux + y * uy;
    const b = y * ux - x * uy;
    lowA = Math.min(lowA, a);
    highA = Math.max(highA, a);
    lowB = Math.min(lowB, b);
    highB = Math.max(highB, b);
  }
  const spacing = Math.min(coarsestM, Math.max(finestM, Math.sqrt(((highA - lowA) * (highB - lowB)) / count)));
  const across = Math.max(1, Math.min(12, Math.round((highA - lowA) / spacing)));
  const up = Math.max(1, Math.min(12, Math.round((highB - lowB) / spacing)));
  const points: [number, number][] = [];
  for (let i = 0; i < across; i += 1)
    for (let j = 0; j < up; j += 1) {
      // The outermost rows lie on the inset edge itself: a hose often wants the corner.
      const a = across === 1 ? (lowA + highA) / 2 : lowA + ((highA - lowA) * i) / (across - 1);
      const b = up === 1 ? (lowB + highB) / 2 : lowB + ((highB - lowB) * j) / (up - 1);
      const x = a * ux - b * uy;
      const y = a * uy + b * ux;
      if (depthInOutline(outline, x, y) >= -1e-9) points.push([x, y]);
    }
  return points;
}

/** Nodes beside a corner stand this far off: near for a taut hose, farther where the fillet of a stiff one cuts the corner. */
export const offsetsOf = (hose: HoseClass): readonly [number, number] => [
  hose.radiusM + 0.002 + 0.04 * hose.bendRadiusM,
  hose.radiusM + 0.004 + 0.16 * hose.bendRadiusM,
];

export const contains = (cell: Cell, p: Vec3, slack: number): boolean => {
  for (const { normal, offset } of cell.planes)
    if (normal[0] * p[0] + normal[1] * p[1] + normal[2] * p[2] > offset + slack) return false;
  return true;
};

/** In a narrow gap a node stands so near to a thing that the other side of the gap has as much room as can be. */
const NARROW_SPARE_M = 0.0008;

/** Points beside the edges and corners of a thing; in narrow gaps as well where that is asked. */
export function pointsBeside(solid: Solid, hose: HoseClass, isNarrow = false): Vec3[] {
  const points: Vec3[] = [];
  if (solid.layer === 'serviceKeepOut') return points;
  const usual = solid.type === 'capsule' ? [offsetsOf(hose)[0]] : offsetsOf(hose);
  const offsets = isNarrow ? [hose.radiusM + NARROW_SPARE_M, ...usual] : usual;
  for (const offset of offsets) {
    if (solid.type === 'box') {
      const { centre, half, axes } = solid;
      const put = (a: number, b: number, c: number): void => {
        const da = a * (half[0] + offset);
        const db = b * (half[1] + offset);
        const dc = c * (half[2] + offset);
        points.push([
          centre[0] + axes[0][0] * da + axes[1][0] * db + axes[2][0] * dc,
          centre[1] + axes[0][1] * da + axes[1][1] * db + axes[2][1] * dc,
          centre[2] + axes[0][2] * da + axes[1][2] * db + axes[2][2] * dc,
        ]);
      };
      for (const a of [-1, 0, 1])
        for (const b of [-1, 0, 1])
          for (const c of [-1, 0, 1]) if (Math.abs(a) + Math.abs(b) + Math.abs(c) >= 2) put(a, b, c);
    } else {
      const axis: Vec3 = [solid.to[0] - solid.from[0], solid.to[1] - solid.from[1], solid.to[2] - solid.from[2]];
      const length = portable.hypot(...axis);
      if (length < 1e-6 || (solid.type === 'capsule' && length < 0.08)) continue;
      const n: Vec3 = [axis[0] / length, axis[1] / length, axis[2] / length];
      const [u, v] = around(n);
      const out = solid.radius + offset * (solid.type === 'capsule' ? 1 : 1.2);
      const beyond = solid.type === 'cylinder' ? offset / length : -0.5;
      const places = solid.type === 'cylinder' ? [-beyond, 0.5, 1 + beyond] : [0.5];
      const turns = solid.type === 'cylinder' ? 8 : 4;
      for (const t of places)
        for (let k = 0; k < turns; k += 1) {
          const c = portable.cos((2 * Math.PI * k) / turns) * out;
          const s = portable.sin((2 * Math.PI * k) / turns) * out;
          points.push([
            solid.from[0] + axis[0] * t + u[0] * c + v[0] * s,
            solid.from[1] + axis[1] * t + u[1] * c + v[1] * s,
            solid.from[2] + axis[2] * t + u[2] * c + v[2] * s,
          ]);
        }
    }
  }
  return points;
}

function around(n: Vec3): readonly [Vec3, Vec3] {
  const level = portable.hypot(n[0], n[1]);
  const u: Vec3 = level > 1e-6 ? [-n[1] / level, n[0] / level, 0] : [1, 0, 0];
  return [u, [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]]];
}
