/** What a stretch of hose pays for the wishes that it does not keep. */
import * as portable from '../../../base/portable';
import type { Vec3 } from '../../../base/vec';
import type { Cell } from '../../../shape/layout/types';
import { SolidPack } from '../../../shape/space/kernel';
import { placesOn, primLength } from '../prims';
import type { Prim } from '../types';
import type { Obstacle, World } from '../world';
import { type Nearness, nearnessOf } from './nearness';
import {
  APART_M,
  CLIP_REACH_M,
  FADE_M,
  HANGING_FULL_M,
  LEAST_FALL,
  type RunCosts,
  type RunWishes,
  SERVICE_FULL_M,
  type ZoneKind,
} from './wishes';
import type { WishZone } from './zones';

/** Samples along a straight: one for each of these, at most so many. */
const SAMPLE_M = 0.12;
const MOST_SAMPLES = 12;
/** For the bill. */
const FINE_SAMPLE_M = 0.02;
/** Drains are smoothed over this, or the band would stick where the fall is just enough. */
const FALL_SMOOTH_M = 0.004;
/** Of a thing whose second longest side is this long a clip finds a face. */
export const FACE_M = 0.3;

/** What may cost something near a stretch. */
export interface WishesNear {
  readonly zones: readonly { readonly zone: WishZone; readonly cell: Cell; readonly price: number }[];
  /** Runs of the other kind. */
  readonly others: readonly number[];
  /** Everything solid there, and of it what a clip holds to, looked for when first asked. */
  readonly ranks: readonly number[];
  holds: readonly number[] | null;
  /** Spaces of service tasks. */
  readonly soft: readonly number[];
}
const NOTHING: readonly never[] = [];
const NOTHING_NEAR: WishesNear = { zones: NOTHING, others: NOTHING, ranks: NOTHING, holds: NOTHING, soft: NOTHING };

/** Power beside signal pays within this. */
const APART_PAID_M = APART_M + FADE_M;

type Term = ZoneKind | 'apart' | 'surface' | 'service';
type Bill = Record<Term, number>;

const packs = new WeakMap<WishZone, SolidPack>();
function packOf(zone: WishZone): SolidPack | null {
  if (!zone.solid) return null;
  const found = packs.get(zone);
  if (found) return found;
  const pack = new SolidPack([zone.solid]);
  packs.set(zone, pack);
  return pack;
}

/** Level distance from the envelope of the thing that a zone is about. */
export function asideOf({ low, high, reachM }: WishZone, x: number, y: number): number {
  const aside = Math.max(0, low[0] + reachM - x, x - high[0] + reachM);
  const across = Math.max(0, low[1] + reachM - y, y - high[1] + reachM);
  return Math.sqrt(aside * aside + across * across);
}

/** Distance of a place from what a zone is about, at least as far as the zone and a hose go; 0 in a zone that is a whole compartment. */
export const awayFrom = (zone: WishZone, [x, y, z]: Vec3): number =>
  packOf(zone)?.distance(0, x, y, z, x, y, z, zone.reachM + BEYOND_M) ?? 0;
/** More than the radius of any hose. */
const BEYOND_M = 0.25;

/** Share of its price that a zone asks at a point: 1 in the middle, 0 where it ends. `radiusM` is that of the hose. */
function zoneShare(zone: WishZone, x: number, y: number, z: number, radiusM: number): number {
  const { low, high, reachM, kind } = zone;
  if (x < low[0] - radiusM || y < low[1] - radiusM || z < low[2] - radiusM) return 0;
  if (x > high[0] + radiusM || y > high[1] + radiusM || z > high[2] + radiusM) return 0;
  const pack = packOf(zone);
  if (!pack) return 1;
  if (kind === 'electrics') {
    // Drips fall straight down: what counts is how far aside the hose passes.
    return Math.max(0, 1 - Math.max(0, asideOf(zone, x, y) - radiusM) / reachM);
  }
  const away = pack.distance(0, x, y, z, x, y, z, reachM + radiusM) - radiusM;
  return Math.max(0, Math.min(1, 1 - away / reachM));
}

/** Share of the price of hanging free: 0 within reach of a clip, 1 far from everything. `awayM` is from the hose's surface. */
const hangingShare = (awayM: number): number =>
  Math.max(0, Math.min(1, (awayM - CLIP_REACH_M) / (HANGING_FULL_M - CLIP_REACH_M)));

/** Height that a drain lacks over a stretch of level length `levelM` that rises by `riseM`. */
export const lackingFall = (levelM: number, riseM: number): number => Math.max(0, riseM + LEAST_FALL * levelM);

export class WishPrices {
  readonly wishes: RunWishes;
  /** Whether anything but the slope of the run may cost. */
  readonly isFree: boolean;
  private readonly nearness: Nearness | null;
  private readonly r: number;
  private readonly ofCell = new Map<number, WishesNear>();

  constructor(
    private readonly world: World,
    wishes: RunWishes,
  ) {
    this.wishes = wishes;
    this.r = world.radiusM;
    this.nearness = wishes.surface > 0 ? nearnessOf(world.structure, world.hull) : null;
    this.isFree =
      wishes.surface === 0 && wishes.apart === 0 && wishes.service === 0 && Object.keys(wishes.zones).length === 0;
  }

  /** What counts in a box, its obstacles given: those within `marginM` of it may be left out. */
  near(low: Vec3, high: Vec3, ranks: readonly number[], soft: readonly number[]): WishesNear {
    if (this.isFree) return NOTHING_NEAR;
    const { wishes } = this;
    const zones = this.zonesIn(low, high);
    const kept = wishes.service > 0 ? soft : NOTHING;
    const others = wishes.apart > 0 ? this.othersIn(low, high) : NOTHING;
    return { zones, others, ranks, holds: null, soft: kept };
  }

  private zonesIn(low: Vec3, high: Vec3): WishesNear['zones'] {
    const { world, wishes } = this;
    const { zonesIn, layout } = world.view;
    if (!zonesIn) return NOTHING;
    const found: { zone: WishZone; cell: Cell; price: number }[] = [];
    const { cellBounds: bounds, columns } = world.structure;
    for (const cell of columns.between(low[0], high[0])) {
      const k = 6 * cell;
      if ((bounds[k] as number) > high[0] || (bounds[k + 3] as number) < low[0]) continue;
      if ((bounds[k + 1] as number) > high[1] || (bounds[k + 4] as number) < low[1]) continue;
      if ((bounds[k + 2] as number) > high[2] || (bounds[k + 5] as number) < low[2]) continue;
      for (const zone of zonesIn.call(world.view, cell)) {
        const price = priceOfZone(zone, wishes);
        if (price === 0 || !meets(zone, low, high, this.r)) continue;
        found.push({ zone, cell: layout.cells[cell] as Cell, price });
      }
    }
    return found.length === 0 ? NOTHING : found;
  }

  private othersIn(low: Vec3, high: Vec3): readonly number[] {
    const { world, wishes } = this;
    const grow = APART_PAID_M + this.r;
    const around = world.near(
      low[0] - grow,
      low[1] - grow,
      low[2] - grow,
      high[0] + grow,
      high[1] + grow,
      high[2] + grow,
    );
    return around.filter((rank) => {
      const obstacle = world.obstacles[rank] as Obstacle;
      if (obstacle.kind !== 'run') return false;
      const solid = obstacle.pack.solids[obstacle.index];
      return solid?.type === 'capsule' && isOther(solid.carries, wishes.carries);
    });
  }

  /** What counts for a sight line inside one cell. */
  inCell(cell: number): WishesNear {
    const found = this.ofCell.get(cell);
    if (found) return found;
    const bounds = this.world.view.layout.cells[cell] as Cell;
    const near = this.near(bounds.low, bounds.high, this.world.inCell(cell), this.world.softIn(cell));
    const own = { ...near, zones: near.zones.filter((one) => one.cell.index === cell) };
    this.ofCell.set(cell, own);
    return own;
  }

  /** Price of a straight piece of the centre line; without what hanging free costs unless `hanging`. */
  along(
    near: WishesNear,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    hanging: boolean,
  ): number {
    if (!(hanging && this.nearness) && isBare(near)) return 0;
    const dx = bx - ax;
    const dy = by - ay;
    const dz = bz - az;
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (length < 1e-9) return 0;
    const count = Math.min(MOST_SAMPLES, Math.max(1, Math.ceil(length / SAMPLE_M)));
    const { samples } = this;
    for (let n = 0; n < count; n += 1) {
      const t = (n + 0.5) / count;
      samples[3 * n] = ax + dx * t;
      samples[3 * n + 1] = ay + dy * t;
      samples[3 * n + 2] = az + dz * t;
    }
    return (this.sumAt(near, samples, count, hanging) * length) / count;
  }
  private readonly samples = new Float64Array(3 * MOST_SAMPLES);

  /** Sum of the prices of a metre at the first `count` of the points, given as xyz. */
  sumAt(near: WishesNear, points: Float64Array, count: number, hanging: boolean): number {
    const { nearness, r } = this;
    const bare = isBare(near);
    let sum = 0;
    if (!hanging || !nearness) {
      for (let n = 0; n < count; n += 1)
        sum += this.at(
          near,
          points[3 * n] as number,
          points[3 * n + 1] as number,
          points[3 * n + 2] as number,
          false,
          null,
        );
      return sum;
    }
    if (this.aways.length < count) this.aways = new Float64Array(2 * count);
    const { aways } = this;
    nearness.read(points, count, aways);
    for (let n = 0; n < count; n += 1) {
      const away = (aways[n] as number) - r;
      if (bare && away <= CLIP_REACH_M) continue;
      const x = points[3 * n] as number;
      const y = points[3 * n + 1] as number;
      const z = points[3 * n + 2] as number;
      let price = bare ? 0 : this.at(near, x, y, z, false, null);
      if (away > CLIP_REACH_M) price += this.hanging(near, x, y, z, away);
      sum += price;
    }
    return sum;
  }
  private aways = new Float64Array(MOST_SAMPLES);

  /** Price of hanging free at a point that far from walls and hull. */
  private hanging(near: WishesNear, x: number, y: number, z: number, away: number): number {
    const { world, r } = this;
    near.holds ??= near.ranks.filter((rank) => this.isHold(rank));
    const { holds } = near;
    let least = away;
    for (let n = 0; n < holds.length; n += 1) {
      const { pack, index } = world.obstacles[holds[n] as number] as Obstacle;
      const { bounds } = pack;
      const at = 6 * index;
      const reach = least + r;
      if (x < (bounds[at] as number) - reach || x > (bounds[at + 3] as number) + reach) continue;
      if (y < (bounds[at + 1] as number) - reach || y > (bounds[at + 4] as number) + reach) continue;
      if (z < (bounds[at + 2] as number) - reach || z > (bounds[at + 5] as number) + reach) continue;
      least = Math.min(least, pack.distance(index, x, y, z, x, y, z, reach) - r);
    }
    return this.wishes.surface * hangingShare(least);
  }

  /** Whether no wall is within reach of a clip there. */
  hangs([x, y, z]: Vec3): boolean {
    return this.nearness !== null && this.nearness.at(x, y, z) - this.r > CLIP_REACH_M;
  }

  /** Price of a metre at a point; `bill` gets it by term. */
  at(near: WishesNear, x: number, y: number, z: number, hanging: boolean, bill: Bill | null): number {
    const { world, wishes, r } = this;
    let sum = 0;
    for (let n = 0; n < near.zones.length; n += 1) {
      const { zone, cell, price } = near.zones[n] as WishesNear['zones'][number];
      const share = zoneShare(zone, x, y, z, r);
      if (share === 0 || !holdsPoint(cell, x, y, z)) continue;
      sum += price * share;
      if (bill) bill[zone.kind] += price * share;
    }
    for (let n = 0; n < near.soft.length; n += 1) {
      const rank = near.soft[n] as number;
      const inside = r - world.distance(rank, x, y, z, x, y, z, r);
      if (inside <= 0) continue;
      const price = wishes.service * Math.min(1, inside / SERVICE_FULL_M);
      sum += price;
      if (bill) bill.service += price;
    }
    if (near.others.length > 0) {
      let gap = APART_PAID_M;
      for (const rank of near.others) gap = Math.min(gap, world.distance(rank, x, y, z, x, y, z, gap + r) - r);
      const price = wishes.apart * (1 - Math.max(0, gap) / APART_PAID_M);
      sum += price;
      if (bill) bill.apart += price;
    }
    if (hanging && this.nearness) {
      const away = this.nearness.at(x, y, z) - r;
      if (away > CLIP_REACH_M) {
        const price = this.hanging(near, x, y, z, away);
        sum += price;
        if (bill) bill.surface += price;
      }
    }
    return sum;
  }

  private isHold(rank: number): boolean {
    const known = this.holdsByRank[rank];
    if (known !== undefined) return known;
    const found = isHold(this.world.obstacles[rank] as Obstacle);
    this.holdsByRank[rank] = found;
    return found;
  }
  private readonly holdsByRank: boolean[] = [];

  /** Price of the slope of a straight piece: level length and rise. */
  slope(length: number, rise: number): number {
    const { fall } = this.wishes;
    if (fall === 0) return 0;
    const lacking = lackingFall(Math.sqrt(Math.max(0, length * length - rise * rise)), rise);
    return fall * (lacking < FALL_SMOOTH_M ? (lacking * lacking) / (2 * FALL_SMOOTH_M) : lacking - FALL_SMOOTH_M / 2);
  }

  /** What a run pays for its wishes. Heights are above the boat's water: `levelM` along up. */
  bill(prims: readonly Prim[], levelM: number): Omit<RunCosts, 'lengthM' | 'holesM' | 'suctionM'> {
    const { world, wishes } = this;
    const { up } = world.view;
    const bill = emptyBill();
    let fallM = 0;
    let highest = Number.NEGATIVE_INFINITY;
    for (const prim of prims) {
      const length = primLength(prim);
      const count = Math.max(1, Math.ceil(length / FINE_SAMPLE_M));
      const pointAt = placesOn(prim);
      const near = this.around(Array.from({ length: 9 }, (_, n) => pointAt(n / 8)));
      const share = emptyBill();
      let last = pointAt(0);
      for (let n = 0; n < count; n += 1) {
        const p = pointAt((n + 0.5) / count);
        if (!this.isFree) this.at(near, p[0], p[1], p[2], true, share);
        const next = pointAt((n + 1) / count);
        const height = dotUp(next, up) - levelM;
        highest = Math.max(highest, height, dotUp(last, up) - levelM);
        if (wishes.fall > 0) {
          const rise = dotUp(next, up) - dotUp(last, up);
          const step = portable.hypot(next[0] - last[0], next[1] - last[1], next[2] - last[2]);
          fallM += wishes.fall * lackingFall(Math.sqrt(Math.max(0, step * step - rise * rise)), rise);
        }
        last = next;
      }
      for (const term of TERMS) bill[term] += (share[term] * length) / count;
    }
    return {
      electricsM: bill.electrics,
      heatM: bill.heat,
      compassM: bill.compass,
      apartM: bill.apart,
      surfaceM: bill.surface,
      fallM,
      riseM: wishes.rise ? wishes.rise.price * Math.max(0, wishes.rise.toM - highest) : 0,
      stowageM: bill.stowage,
      feetM: bill.feet,
      serviceM: bill.service,
    };
  }

  private around(points: readonly Vec3[]): WishesNear {
    if (this.isFree) return NOTHING_NEAR;
    const reach = HANGING_FULL_M + this.r;
    const edge = (axis: 0 | 1 | 2, pick: (...values: number[]) => number, grow: number): number =>
      pick(...points.map((p) => p[axis])) + grow;
    const low: Vec3 = [edge(0, Math.min, -reach), edge(1, Math.min, -reach), edge(2, Math.min, -reach)];
    const high: Vec3 = [edge(0, Math.max, reach), edge(1, Math.max, reach), edge(2, Math.max, reach)];
    const soft: number[] = [];
    const ranks = this.world.near(...low, ...high, soft);
    return this.near(low, high, ranks, soft);
  }
}

const emptyBill = (): Bill => ({
  electrics: 0,
  heat: 0,
  compass: 0,
  feet: 0,
  stowage: 0,
  apart: 0,
  surface: 0,
  service: 0,
});
const TERMS = ['electrics', 'heat', 'compass', 'feet', 'stowage', 'apart', 'surface', 'service'] as const;
/** Nothing there costs anything but hanging free. */
export const isBare = ({ zones, others, soft }: WishesNear): boolean =>
  zones.length === 0 && others.length === 0 && soft.length === 0;

const dotUp = (p: Vec3, up: Vec3): number => p[0] * up[0] + p[1] * up[1] + p[2] * up[2];

/** What a metre in the middle of a zone costs a line; what stands the heat, and what ends there, pays nothing. */
function priceOfZone(zone: WishZone, wishes: RunWishes): number {
  if (zone.kind === 'heat' && wishes.standsC >= zone.heatC) return 0;
  if (!zone.isKnown || wishes.ownThings.includes(zone.owner)) return 0;
  return wishes.zones[zone.kind] ?? 0;
}

const isOther = (a: string | undefined, b: string): boolean =>
  (a === 'power' && b === 'signal') || (a === 'signal' && b === 'power');

function meets({ low, high }: WishZone, from: Vec3, to: Vec3, radiusM: number): boolean {
  return (
    low[0] - radiusM <= to[0] &&
    high[0] + radiusM >= from[0] &&
    low[1] - radiusM <= to[1] &&
    high[1] + radiusM >= from[1] &&
    low[2] - radiusM <= to[2] &&
    high[2] + radiusM >= from[2]
  );
}

function holdsPoint({ planes }: Cell, x: number, y: number, z: number): boolean {
  for (const { normal, offset } of planes) if (normal[0] * x + normal[1] * y + normal[2] * z > offset) return false;
  return true;
}

/** A run that lies there already shares its clips; of things only a large one has a face for a clip. */
function isHold({ kind, pack, index }: Obstacle): boolean {
  if (kind === 'run') return true;
  if (kind === 'wall') return false;
  const sides = [0, 1, 2].map(
    (axis) => (pack.bounds[6 * index + 3 + axis] as number) - (pack.bounds[6 * index + axis] as number),
  );
  sides.sort((a, b) => a - b);
  return (sides[1] as number) >= FACE_M;
}
