import { along, distance, subtract, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { HULL } from '../../shape/space/free-depth';
import { SolidPack } from '../../shape/space/kernel';
import type { Named } from './in-the-way';
import type { Obstruction } from './reach/types';

/** What is to be seen: a glass, a gauge, a mark. */
export interface SeenDisc {
  readonly at: Vec3;
  /** Unit, out of its face; null: nobody has said, then no angle is asked for. */
  readonly normal: Vec3 | null;
  readonly radiusM: number;
  /** Thing that it is a part of: within a finger's breadth of the disc that one hides nothing. */
  readonly own?: string;
}

export interface SightRay {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly isFree: boolean;
  /** Where it is stopped first and by whom; null of a free one. */
  readonly stop: Vec3 | null;
  readonly by: string | null;
}

/** A ray may end this far before the disc, which lies on a surface; before its own thing so far. */
const END_M = 5e-4;
const OWN_END_M = 0.015;
/** A line nearer than this to a solid meets it. */
const MEETS_M = 1e-9;
const CUTOFF_M = 1e-6;
/** The place where a ray is stopped is found to this. */
const STOP_M = 1e-4;

/** Straight lines that end at a disc, among obstructions; counts what it was asked. */
export class SightRays {
  tried = 0;
  /** What stopped the last ray is likely to stop the next; which one stops a ray is never told from this. */
  private likely = 0;
  private readonly pack: SolidPack;

  constructor(
    private readonly obstructions: readonly Obstruction[],
    private readonly hull: HullSurface | null,
    private readonly disc: SeenDisc,
  ) {
    this.pack = new SolidPack(obstructions.map(({ solid }) => solid));
  }

  /** Whether a line from an eye to a point of the disc is free. */
  reaches(from: Vec3, to: Vec3): boolean {
    return this.isFree(from, to, true);
  }

  /** Whether a line between two places in the air is free. */
  isOpen(from: Vec3, to: Vec3): boolean {
    return this.isFree(from, to, false);
  }

  /** Whether a ball is clear of everything. */
  isClear(at: Vec3, radiusM: number): boolean {
    for (let k = 0; k < this.pack.size; k += 1)
      if (this.pack.distance(k, at[0], at[1], at[2], at[0], at[1], at[2], radiusM) < radiusM) return false;
    return !this.hull || this.hull.clearance(at, at, radiusM) >= radiusM;
  }

  /** All that stand in the line, in no order that means anything. */
  stops(from: Vec3, to: Vec3, isToDisc = true): Named[] {
    const end = isToDisc ? shortOf(from, to, END_M) : to;
    const stops: Named[] = this.obstructions.filter((_, k) => this.meets(k, from, end, to, isToDisc));
    return this.meetsHull(from, end) ? [...stops, HULL] : stops;
  }

  /** The line with where it is stopped first. */
  drawn(from: Vec3, to: Vec3, isToDisc = true): SightRay {
    const line = subtract(to, from);
    const freeTo = (t: number): boolean => this.isFree(from, along(from, line, t), isToDisc && t === 1);
    if (freeTo(1)) return { from, to, isFree: true, stop: null, by: null };
    let [low, high] = [0, 1];
    while ((high - low) * distance(from, to) > STOP_M) {
      const middle = (low + high) / 2;
      if (freeTo(middle)) low = middle;
      else high = middle;
    }
    const owners = this.stops(from, along(from, line, high), isToDisc && high === 1).map(({ owner }) => owner);
    return { from, to, isFree: false, stop: along(from, line, high), by: owners.sort()[0] ?? null };
  }

  private isFree(from: Vec3, to: Vec3, isToDisc: boolean): boolean {
    this.tried += 1;
    const { size } = this.pack;
    const end = isToDisc ? shortOf(from, to, END_M) : to;
    for (let n = 0; n < size; n += 1) {
      const k = n === 0 ? this.likely : n <= this.likely ? n - 1 : n;
      if (!this.meets(k, from, end, to, isToDisc)) continue;
      this.likely = k;
      return false;
    }
    return !this.meetsHull(from, end);
  }

  private meets(k: number, from: Vec3, end: Vec3, to: Vec3, isToDisc: boolean): boolean {
    const isMet = this.pack.distance(k, from[0], from[1], from[2], end[0], end[1], end[2], CUTOFF_M) < MEETS_M;
    if (!isMet || !isToDisc || this.disc.own === undefined || this.obstructions[k]?.owner !== this.disc.own)
      return isMet;
    const before = shortOf(from, to, OWN_END_M);
    return this.pack.distance(k, from[0], from[1], from[2], before[0], before[1], before[2], CUTOFF_M) < MEETS_M;
  }

  private meetsHull(from: Vec3, end: Vec3): boolean {
    return this.hull !== null && this.hull.clearance(from, end, CUTOFF_M) < -MEETS_M;
  }
}

/** The end of a line that is so much shorter. */
function shortOf(from: Vec3, to: Vec3, by: number): Vec3 {
  const lengthM = distance(from, to);
  const t = lengthM > by ? 1 - by / lengthM : 0;
  return [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t, from[2] + (to[2] - from[2]) * t];
}
