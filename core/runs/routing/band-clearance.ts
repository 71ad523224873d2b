import { along, distance, dot, norm, scale, subtract, unit, type Vec3 } from '../../base/vec';
import type { AnySolid } from '../../shape/space/kernel';
import type { WishesNear } from './wishes/prices';
import { type Obstacle, RUN_GAP_M, type World } from './world';

/** Price of a metre of violation, in metres of length. */
export const VIOLATION_WEIGHT = 40;
/** The band works to slightly more than what is asked, so that its rest is valid to the last digit. */
export const SPARE_M = 0.00008;
/** Obstacles within this beyond the clearance are kept in a piece's list. */
const LIST_MARGIN_M = 0.06;

/** Obstacles that a piece of the band may meet, good while the piece stays near where it was made. */
export interface PieceList {
  ranks: number[];
  /** What may cost something there without being in the way; null: nothing. */
  wishes: WishesNear | null;
  nearHull: boolean;
  /** Ends (and middle) of the piece when the list was made. */
  at: number[];
  /** Direction in which a bend that lies on the nearest of them may slide along it, once asked for; null: none. */
  slide?: Vec3 | null;
}

export interface BandInput {
  readonly world: World;
  readonly radiusM: number;
  readonly bendRadiusM: number;
  readonly holeRadiusM: number;
  readonly suction: boolean;
  /** Corners are moved and dropped from the far end first. */
  readonly isBackward?: boolean;
  /** Hanging free costs from the first. */
  readonly hangs: boolean;
  /** True for an obstacle that the first pieces from the start, or the last before the goal, need not clear. */
  readonly exempt: readonly [(obstacle: Obstacle) => boolean, (obstacle: Obstacle) => boolean];
}

/** What stands near the pieces of a band. */
export class BandClearance {
  /** Price of a metre of violation. */
  weight = VIOLATION_WEIGHT;
  private readonly r: number;

  constructor(private readonly input: BandInput) {
    this.r = input.radiusM + SPARE_M;
  }

  /**
   * Price of what a chord does not clear. `swell` is added to the hose's radius; plates of `panel` are passed by; `tell` hears of
   * each obstacle (-1: the hull) and how much is missing.
   */
  chord(
    list: PieceList,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    swell: number,
    panel: number,
    tell?: (rank: number, byM: number) => void,
  ): number {
    const { world } = this.input;
    let sum = 0;
    const { ranks } = list;
    const lowX = ax < bx ? ax : bx;
    const lowY = ay < by ? ay : by;
    const lowZ = az < bz ? az : bz;
    const highX = ax < bx ? bx : ax;
    const highY = ay < by ? by : ay;
    const highZ = az < bz ? bz : az;
    for (let n = 0; n < ranks.length; n += 1) {
      const rank = ranks[n] as number;
      const obstacle = world.obstacles[rank] as Obstacle;
      if (obstacle.panel === panel) continue;
      const need = this.r + obstacle.gapM + swell;
      const { bounds } = obstacle.pack;
      const at = 6 * obstacle.index;
      if ((bounds[at] as number) - need > highX || (bounds[at + 3] as number) + need < lowX) continue;
      if ((bounds[at + 1] as number) - need > highY || (bounds[at + 4] as number) + need < lowY) continue;
      if ((bounds[at + 2] as number) - need > highZ || (bounds[at + 5] as number) + need < lowZ) continue;
      const d = obstacle.pack.distance(obstacle.index, ax, ay, az, bx, by, bz, need);
      if (d < need) {
        sum += this.weight * (need - d);
        tell?.(rank, need - d);
      }
    }
    if (list.nearHull) {
      const need = this.r + swell;
      const d = world.hullClearance(ax, ay, az, bx, by, bz, need);
      if (d < need) {
        sum += this.weight * (need - d);
        tell?.(-1, need - d);
      }
    }
    return sum;
  }

  /** Obstacles near a piece given by two or three points. Pieces next to an end leave out what that end is exempt from. */
  listFor(at: number[], firstEdge: number, lastEdge: number, edges: number): PieceList {
    const { world, exempt } = this.input;
    const reach = this.r + LIST_MARGIN_M + 0.003;
    const isBend = at.length === 9;
    const ax = at[0] as number;
    const ay = at[1] as number;
    const az = at[2] as number;
    const bx = at[3] as number;
    const by = at[4] as number;
    const bz = at[5] as number;
    const cx = isBend ? (at[6] as number) : bx;
    const cy = isBend ? (at[7] as number) : by;
    const cz = isBend ? (at[8] as number) : bz;
    const low: [number, number, number] = [
      Math.min(ax, bx, cx) - reach,
      Math.min(ay, by, cy) - reach,
      Math.min(az, bz, cz) - reach,
    ];
    const high: [number, number, number] = [
      Math.max(ax, bx, cx) + reach,
      Math.max(ay, by, cy) + reach,
      Math.max(az, bz, cz) + reach,
    ];
    // The sagitta between the points of a wide arc.
    let bow = 0;
    if (isBend) {
      const mx = (ax + cx) / 2 - bx;
      const my = (ay + cy) / 2 - by;
      const mz = (az + cz) / 2 - bz;
      bow = Math.sqrt(mx * mx + my * my + mz * mz) * 0.35;
    }
    const soft: number[] = [];
    const near = world.near(low[0], low[1], low[2], high[0], high[1], high[2], soft, bow + RUN_GAP_M);
    const within = (rank: number): boolean => {
      const obstacle = world.obstacles[rank] as Obstacle;
      const { pack, index } = obstacle;
      const cutoff = reach + bow + obstacle.gapM;
      if (pack.distance(index, ax, ay, az, bx, by, bz, cutoff) < cutoff) return true;
      return isBend && pack.distance(index, bx, by, bz, cx, cy, cz, cutoff) < cutoff;
    };
    const isFirst = firstEdge <= 1;
    const isLast = lastEdge >= edges - 2;
    const ranks: number[] = [];
    for (let n = 0; n < near.length; n += 1) {
      const rank = near[n] as number;
      const obstacle = world.obstacles[rank] as Obstacle;
      if (isFirst && exempt[0](obstacle)) continue;
      if (isLast && exempt[1](obstacle)) continue;
      if (within(rank)) ranks.push(rank);
    }
    let nearHull = false;
    const hullReach = reach + bow;
    for (let k = 0; k + 5 < at.length && !nearHull; k += 3)
      nearHull =
        world.hullClearance(
          at[k] as number,
          at[k + 1] as number,
          at[k + 2] as number,
          at[k + 3] as number,
          at[k + 4] as number,
          at[k + 5] as number,
          hullReach,
        ) < hullReach;
    const wishes = world.prices.isFree ? null : world.prices.near(low, high, ranks, soft.filter(within));
    return { ranks, wishes, nearHull, at };
  }
}

/** Direction of the edge that lies nearest to the middle of a bend. */
export function slideOf(list: PieceList, world: World): Vec3 | null {
  const { at } = list;
  const middle: Vec3 = [at[3] as number, at[4] as number, at[5] as number];
  let nearest: Obstacle | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const rank of list.ranks) {
    const d = world.distance(rank, ...middle, ...middle, least);
    if (d >= least) continue;
    least = d;
    nearest = world.obstacles[rank] as Obstacle;
  }
  return nearest ? edgeBy(nearest.pack.solids[nearest.index] as AnySolid, middle) : null;
}

function edgeBy(solid: AnySolid, p: Vec3): Vec3 | null {
  if (solid.type === 'box') {
    // Along the edge nearest to p it lies deeper between the ends of the box than across.
    const depth = solid.axes.map(
      (axis, k) => (solid.half[k] as number) - Math.abs(dot(axis, subtract(p, solid.centre))),
    );
    return solid.axes[depth.indexOf(Math.max(...depth))] ?? null;
  }
  if (solid.type !== 'plate') {
    const axis = subtract(solid.to, solid.from);
    return norm(axis) > 1e-6 ? unit(axis) : null;
  }
  let edge: Vec3 | null = null;
  let least = Number.POSITIVE_INFINITY;
  solid.polygon.forEach((from, k) => {
    const d = subtract(solid.polygon[(k + 1) % solid.polygon.length] as Vec3, from);
    const length = norm(d);
    if (length < 1e-6) return;
    const u = scale(d, 1 / length);
    const off = distance(p, along(from, u, Math.max(0, Math.min(length, dot(subtract(p, from), u)))));
    if (off < least) [edge, least] = [u, off];
  });
  return edge;
}

export function outOfReach(at: readonly number[], k: number, x: number, y: number, z: number): boolean {
  const dx = (at[k] as number) - x;
  const dy = (at[k + 1] as number) - y;
  const dz = (at[k + 2] as number) - z;
  return dx * dx + dy * dy + dz * dz > LIST_MARGIN_M * LIST_MARGIN_M;
}
