/**
 * One line's sight of the boat. Cells are read through the view only when something of this line comes near them, so that the
 * reads recorded by the engine are those that the answer rests on.
 */
import { along } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { SolidPack } from '../../shape/space/kernel';
import type { CapsuleSolid, Solid } from '../../shape/space/solids';
import { leadStraightM } from './straights';
import { type Structure, structureOf } from './structure';
import type { RoutingLine, RoutingView } from './types';
import { WishPrices } from './wishes/prices';
import { NO_WISHES } from './wishes/wishes';

/** Least distance between the surfaces of two runs. */
export const RUN_GAP_M = 0.002;

/** A solid as one line sees it. */
export interface Obstacle {
  readonly pack: SolidPack;
  readonly index: number;
  /** Added to the hose's radius. Runs beside a hole that the line shares with them may come to touch it. */
  gapM: number;
  /** Panel that the plate belongs to, -1 for everything else. */
  readonly panel: number;
  readonly owner: string;
  /** What a person would name: the thing, the panel or the line. */
  readonly id: string;
  readonly label: string;
  readonly kind: 'wall' | 'thing' | 'run';
}

interface PackedThings {
  readonly pack: SolidPack;
  readonly hard: readonly number[];
  readonly soft: readonly number[];
}
const packedThings = new WeakMap<readonly Solid[], PackedThings>();
const packedRuns = new WeakMap<readonly CapsuleSolid[], SolidPack>();

function packThings(solids: readonly Solid[]): PackedThings {
  const known = packedThings.get(solids);
  if (known) return known;
  const hard: number[] = [];
  const soft: number[] = [];
  solids.forEach((solid, k) => {
    if (solid.layer === 'serviceKeepOut') soft.push(k);
    else hard.push(k);
  });
  const packed = { pack: new SolidPack(solids), hard, soft };
  packedThings.set(solids, packed);
  return packed;
}

function packRuns(solids: readonly CapsuleSolid[]): SolidPack {
  const known = packedRuns.get(solids);
  if (known) return known;
  const pack = new SolidPack(solids);
  packedRuns.set(solids, pack);
  return pack;
}

/** Capsules of a run are numbered behind the id of its line. */
export function lineOfCapsule(id: string): string {
  const cut = id.lastIndexOf('/');
  return cut < 0 ? id : id.slice(0, cut);
}

const wallsSeen = new WeakMap<Structure, readonly Obstacle[]>();

function wallObstacles(structure: Structure): readonly Obstacle[] {
  const known = wallsSeen.get(structure);
  if (known) return known;
  const seen = structure.layout.walls.map(
    (wall, index): Obstacle => ({
      pack: structure.walls,
      index,
      gapM: 0,
      panel: structure.wallPanel[index] as number,
      owner: '',
      id: wall.panelId ?? wall.id,
      label: wall.label,
      kind: 'wall',
    }),
  );
  wallsSeen.set(structure, seen);
  return seen;
}

export class World {
  readonly structure: Structure;
  /** What the run keeps clear of: the hull within its ribs, or between them where an end of the line stands there. */
  readonly hull: HullSurface | null;
  /** What its ends keep clear of. */
  readonly skin: HullSurface | null;
  readonly obstacles: Obstacle[];
  readonly radiusM: number;
  /** What the run pays for the wishes that it does not keep; nothing where the length binds. */
  readonly prices: WishPrices;
  private readonly ofCell: (readonly number[] | null)[];
  private readonly softOfCell: (readonly number[])[];
  /** Ranks by the ids of solids. */
  private readonly things = new Map<string, number>();
  private readonly runs = new Map<string, number>();
  /** Bounds of the obstacles: low xyz then high xyz, six numbers each. */
  private bounds: Float64Array;
  private marks: Int32Array;
  private mark = 0;
  private sharing: ReadonlySet<string> = new Set();
  private readonly from: [number, number, number] = [0, 0, 0];
  private readonly to: [number, number, number] = [0, 0, 0];

  constructor(
    readonly view: RoutingView,
    readonly line: RoutingLine,
  ) {
    this.structure = structureOf(view.layout);
    this.skin = view.skin ?? view.hull;
    this.hull = this.skin && standsBetweenRibs(view, line) ? this.skin : view.hull;
    this.radiusM = line.radiusM;
    this.obstacles = [...wallObstacles(this.structure)];
    this.ofCell = view.layout.cells.map(() => null);
    this.softOfCell = view.layout.cells.map(() => []);
    this.marks = new Int32Array(Math.max(256, this.obstacles.length * 2));
    this.bounds = new Float64Array(6 * this.marks.length);
    this.bounds.set(this.structure.walls.bounds);
    this.prices = new WishPrices(this, line.lengthLimitM === undefined ? (line.wishes ?? NO_WISHES) : NO_WISHES);
  }

  /** Obstacles that touch the cell, walls first, as ranks in `obstacles`. */
  inCell(cell: number): readonly number[] {
    const read = this.ofCell[cell];
    if (read) return read;
    const list: number[] = [...(this.structure.wallsOfCell[cell] as Int32Array)];
    const things = this.view.thingsIn(cell);
    const packed = packThings(things);
    for (const k of packed.hard) list.push(this.admit(things[k] as Solid, packed.pack, k, 'thing'));
    this.softOfCell[cell] = packed.soft.map((k) => this.admit(things[k] as Solid, packed.pack, k, 'thing'));
    const runs = this.view.runsIn(cell);
    if (runs.length > 0) {
      const pack = packRuns(runs);
      runs.forEach((run, k) => {
        list.push(this.admit(run, pack, k, 'run'));
      });
    }
    this.ofCell[cell] = list;
    return list;
  }

  /** Spaces for service that touch the cell: a hose may cross them, at a price. */
  softIn(cell: number): readonly number[] {
    this.inCell(cell);
    return this.softOfCell[cell] as readonly number[];
  }

  /** Holes that the line passes, by the owner that capsules beside them carry: what it shares with others is settled in the hole. */
  shareHoles(owners: ReadonlySet<string>): void {
    this.sharing = owners;
    for (const obstacle of this.obstacles)
      if (obstacle.kind === 'run') obstacle.gapM = owners.has(obstacle.owner) ? 0 : RUN_GAP_M;
  }

  private admit(solid: Solid, pack: SolidPack, index: number, kind: 'thing' | 'run'): number {
    const ranks = kind === 'run' ? this.runs : this.things;
    const known = ranks.get(solid.id);
    if (known !== undefined) return known;
    const rank = this.obstacles.length;
    ranks.set(solid.id, rank);
    if (rank === this.marks.length) this.grow();
    for (let k = 0; k < 6; k += 1) this.bounds[6 * rank + k] = pack.bounds[6 * index + k] as number;
    this.obstacles.push({
      pack,
      index,
      gapM: kind === 'run' && !this.sharing.has(solid.owner) ? RUN_GAP_M : 0,
      panel: -1,
      owner: solid.owner,
      id: kind === 'run' ? lineOfCapsule(solid.id) : solid.owner,
      label: solid.label,
      kind,
    });
    return rank;
  }

  /**
   * Ranks of the obstacles in cells that the box touches whose bounds come within `marginM` of it, each once, in ascending order of cell
   * and rank. `soft` gets the spaces for service.
   */
  near(
    lowX: number,
    lowY: number,
    lowZ: number,
    highX: number,
    highY: number,
    highZ: number,
    soft: number[] | null = null,
    marginM = RUN_GAP_M,
  ): number[] {
    const found: number[] = [];
    this.mark += 1;
    const { mark } = this;
    const cells = this.structure.columns.between(lowX, highX);
    const cellBounds = this.structure.cellBounds;
    for (let n = 0; n < cells.length; n += 1) {
      const cell = cells[n] as number;
      const k = 6 * cell;
      if ((cellBounds[k] as number) > highX || (cellBounds[k + 3] as number) < lowX) continue;
      if ((cellBounds[k + 1] as number) > highY || (cellBounds[k + 4] as number) < lowY) continue;
      if ((cellBounds[k + 2] as number) > highZ || (cellBounds[k + 5] as number) < lowZ) continue;
      const list = this.inCell(cell);
      const { bounds, marks } = this;
      for (let i = 0; i < list.length; i += 1) {
        const rank = list[i] as number;
        if (marks[rank] === mark) continue;
        marks[rank] = mark;
        const at = 6 * rank;
        if ((bounds[at] as number) - marginM > highX || (bounds[at + 3] as number) + marginM < lowX) continue;
        if ((bounds[at + 1] as number) - marginM > highY || (bounds[at + 4] as number) + marginM < lowY) continue;
        if ((bounds[at + 2] as number) - marginM > highZ || (bounds[at + 5] as number) + marginM < lowZ) continue;
        found.push(rank);
      }
      if (soft)
        for (const rank of this.softOfCell[cell] as readonly number[]) {
          if (marks[rank] === mark) continue;
          marks[rank] = mark;
          soft.push(rank);
        }
    }
    return found;
  }

  private grow(): void {
    const marks = new Int32Array(2 * this.marks.length);
    const bounds = new Float64Array(6 * marks.length);
    marks.set(this.marks);
    bounds.set(this.bounds);
    this.marks = marks;
    this.bounds = bounds;
  }

  distance(
    rank: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cutoffM: number,
  ): number {
    const obstacle = this.obstacles[rank] as Obstacle;
    return obstacle.pack.distance(obstacle.index, ax, ay, az, bx, by, bz, cutoffM);
  }

  /** Free distance to the hull, cutoffM without one or when at least that. */
  hullClearance(ax: number, ay: number, az: number, bx: number, by: number, bz: number, cutoffM: number): number {
    return this.clearanceOf(this.hull, ax, ay, az, bx, by, bz, cutoffM);
  }

  /** The same to the hull without its ribs. */
  skinClearance(ax: number, ay: number, az: number, bx: number, by: number, bz: number, cutoffM: number): number {
    return this.clearanceOf(this.skin, ax, ay, az, bx, by, bz, cutoffM);
  }

  private clearanceOf(
    hull: HullSurface | null,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cutoffM: number,
  ): number {
    if (!hull) return cutoffM;
    this.from[0] = ax;
    this.from[1] = ay;
    this.from[2] = az;
    this.to[0] = bx;
    this.to[1] = by;
    this.to[2] = bz;
    const free = hull.clearance(this.from, this.to, cutoffM);
    // The inset is added and taken off again inside: a far hull may come back a rounding short of the cutoff.
    return free >= cutoffM - 1e-12 ? cutoffM : free;
  }

  /** True when a hose of radius `radiusM` along the segment, inside one cell, clears all that touches the cell. */
  isClear(
    cell: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    radiusM: number,
    exempt: (obstacle: Obstacle) => boolean = never,
  ): boolean {
    const list = this.inCell(cell);
    const { bounds } = this;
    const reach = radiusM + RUN_GAP_M;
    const lowX = (ax < bx ? ax : bx) - reach;
    const lowY = (ay < by ? ay : by) - reach;
    const lowZ = (az < bz ? az : bz) - reach;
    const highX = (ax < bx ? bx : ax) + reach;
    const highY = (ay < by ? by : ay) + reach;
    const highZ = (az < bz ? bz : az) + reach;
    // Things come last in the list and stop a sight line most often.
    for (let k = list.length - 1; k >= 0; k -= 1) {
      const rank = list[k] as number;
      const at = 6 * rank;
      if ((bounds[at] as number) > highX || (bounds[at + 3] as number) < lowX) continue;
      if ((bounds[at + 1] as number) > highY || (bounds[at + 4] as number) < lowY) continue;
      if ((bounds[at + 2] as number) > highZ || (bounds[at + 5] as number) < lowZ) continue;
      const obstacle = this.obstacles[rank] as Obstacle;
      const need = radiusM + obstacle.gapM;
      if (obstacle.pack.distance(obstacle.index, ax, ay, az, bx, by, bz, need) < need && !exempt(obstacle))
        return false;
    }
    return this.hullClearance(ax, ay, az, bx, by, bz, radiusM) >= radiusM;
  }
}
const never = (): boolean => false;

/** Whether the straight from a port ends among the ribs: then they are taken to stand beside it. */
function standsBetweenRibs({ hull, skin }: RoutingView, line: RoutingLine): boolean {
  if (!hull || !skin || hull === skin) return false;
  return [line.from, line.to].some((lead) => {
    const tip = along(lead.at, lead.direction, leadStraightM(lead, line.radiusM));
    return hull.clearance(tip, tip, 2 * line.radiusM) < line.radiusM;
  });
}
