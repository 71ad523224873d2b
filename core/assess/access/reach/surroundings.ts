import type { Vec3 } from '../../../base/vec';
import type { HullSurface } from '../../../shape/hull/types';
import { HULL } from '../../../shape/space/free-depth';
import { SolidPack } from '../../../shape/space/kernel';
import { type Arm, ELBOW, type FlatPose, HAND, handAxes, SHOULDER, WRIST } from './arm';
import { BoxOverlaps } from './hand-overlap';
import type { Obstruction } from './types';

/** Lines along the hand box that have to be clear of the hull: its edges and the middles of its faces, so far from each other at most. */
const HAND_LINES = [-1, 0, 1] as const;
/** The hull may bulge by so much between two of those lines: a hollow of 0.5 m radius over 60 mm. */
const BETWEEN_LINES_M = 0.001;

/** The hull says how free something is up to a cut-off that it adds its lining to and takes off again: so much is lost on the way, metres. */
const ROUNDING_M = 1e-9;
/** Stands for the hull among the places of `around`. */
const HULL_INDEX = -1;
/** The bodies that are asked about: each keeps its own lists. */
export const FOREARM = 0;
export const UPPER_ARM = 1;
const HAND_BOX = 2;
const TOOL = 3;
export const TRUNK = 4;
export const HEAD = 5;
const BODIES = 6;
/** A list of what is near a body holds for all places that are no farther than this from where it was made, metres. */
const SLACK_M = 0.08;

/**
 * What is about a task, asked over and over by one body after another. Bodies move in small steps: what is near one is listed once for a
 * while. What was met last is tried first: it is most likely to be met again, and the answer is the same in any order.
 */
export class Surroundings {
  private readonly pack: SolidPack;
  private readonly overlaps: BoxOverlaps;
  private readonly lists: readonly NearList[];
  private readonly isOwn: Uint8Array;
  /** Leaves of openings and things, by place in `around`: walls alone are plates. */
  private readonly standing: readonly number[];
  private readonly lowestSheerM: number;
  private isHullFirst = false;
  /** Middle, axes and half sides of the hand box in hand. */
  private readonly frame = new Float64Array(15);

  constructor(
    readonly around: readonly Obstruction[],
    readonly hull: HullSurface | null,
    /** Where the hull has the origin of everything else. */
    private readonly origin: Vec3,
    private readonly own: string,
    /** What else is about; of what stands here only arms and hands keep clear, trunk and head do not. */
    private readonly beyond: Surroundings | null = null,
  ) {
    const solids = around.map(({ solid }) => solid);
    this.pack = new SolidPack(solids);
    this.overlaps = new BoxOverlaps(solids);
    const all = Int32Array.from(solids.keys());
    this.lists = Array.from({ length: BODIES }, () => new NearList(Int32Array.from(all), this.pack.bounds));
    this.lowestSheerM = hull ? Math.min(...[...hull.columnsM].map((xM) => hull.sheerAt(xM))) : 0;
    this.standing = around.flatMap((one, index) => (one.solid.type === 'plate' ? [] : [index]));
    this.isOwn = Uint8Array.from(around, ({ owner }) => (owner === own ? 1 : 0));
  }

  /** These surroundings with an arm that is already in. */
  withArm(bodies: readonly Obstruction[]): Surroundings {
    return new Surroundings(bodies, null, this.origin, this.own, this);
  }

  /** Whether a segment with a radius, a link of the arm or a part of the body, is clear of everything; own things where it may touch them. */
  isFree(
    body: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    radius: number,
    mayTouchOwn = false,
  ): boolean {
    if (this.isHullFirst && !this.hullIsClear(ax, ay, az, bx, by, bz, radius)) return false;
    if (!this.beyond || body < TRUNK) {
      const list = this.lists[body] as NearList;
      list.attend(
        (ax < bx ? ax : bx) - radius,
        (ay < by ? ay : by) - radius,
        (az < bz ? az : bz) - radius,
        (ax < bx ? bx : ax) + radius,
        (ay < by ? by : ay) + radius,
        (az < bz ? bz : az) + radius,
      );
      const { near } = list;
      for (let k = 0; k < list.count; k += 1) {
        const index = near[k] as number;
        if (mayTouchOwn && this.isOwn[index] === 1) continue;
        if (this.pack.distance(index, ax, ay, az, bx, by, bz, radius) >= radius) continue;
        this.isHullFirst = false;
        toFront(near, k);
        return false;
      }
    }
    if (this.beyond) return this.beyond.isFree(body, ax, ay, az, bx, by, bz, radius, mayTouchOwn);
    if (this.isHullFirst || this.hullIsClear(ax, ay, az, bx, by, bz, radius)) return true;
    this.isHullFirst = true;
    return false;
  }

  /** Above the sheer a deck, a house or nothing bounds the room, which are drawn as walls or not at all; so beyond the ends. */
  private hullIsClear(ax: number, ay: number, az: number, bx: number, by: number, bz: number, radius: number): boolean {
    const piece = this.belowSheer(ax, ay, az, bx, by, bz);
    return piece === null || (this.hull as HullSurface).clearance(piece[0], piece[1], radius + ROUNDING_M) >= radius;
  }

  /** The piece of a segment that lies below the sheer, as the hull has it; null where none does. */
  private belowSheer(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
  ): readonly [Vec3, Vec3] | null {
    const { hull, origin } = this;
    if (!hull) return null;
    const from: Vec3 = [ax + origin[0], ay + origin[1], az + origin[2]];
    const to: Vec3 = [bx + origin[0], by + origin[1], bz + origin[2]];
    if (Math.max(from[0], to[0]) < hull.aftM || Math.min(from[0], to[0]) > hull.forwardM) return null;
    if (from[2] <= this.lowestSheerM && to[2] <= this.lowestSheerM) return [from, to];
    const within = (x: number): number => Math.max(hull.aftM, Math.min(hull.forwardM, x));
    const topM = Math.max(hull.sheerAt(within(from[0])), hull.sheerAt(within(to[0])));
    if (from[2] >= topM && to[2] >= topM) return null;
    if (from[2] <= topM && to[2] <= topM) return [from, to];
    const share = (topM - from[2]) / (to[2] - from[2]);
    const cut: Vec3 = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share, topM];
    return from[2] < topM ? [from, cut] : [cut, to];
  }

  /** Whether the hand box of a pose is clear of everything; own things do not count where they may be touched. */
  handIsFree(pose: FlatPose, arm: Arm, mayTouchOwn: boolean): boolean {
    this.setFrame(pose, arm);
    const f = this.frame;
    const x = f[0] as number;
    const y = f[1] as number;
    const z = f[2] as number;
    const around = aroundHand(arm);
    const within = Math.min(...arm.halfM);
    const list = this.lists[HAND_BOX] as NearList;
    list.attend(x - around, y - around, z - around, x + around, y + around, z + around);
    const { near } = list;
    for (let k = 0; k < list.count; k += 1) {
      const index = near[k] as number;
      if (mayTouchOwn && this.isOwn[index] === 1) continue;
      const away = this.pack.distance(index, x, y, z, x, y, z, around);
      if (away >= around || (away >= within && !this.overlaps.meets(index, f))) continue;
      toFront(near, k);
      return false;
    }
    return this.beyond ? this.beyond.handIsFree(pose, arm, mayTouchOwn) : this.handClearsHull(around, arm);
  }

  /** Whether the shank of a tool, from the grip on, is clear. */
  toolIsFree(
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    radius: number,
    mayTouchOwn: boolean,
  ): boolean {
    return this.isFree(TOOL, ax, ay, az, bx, by, bz, radius, mayTouchOwn);
  }

  private handClearsHull(around: number, arm: Arm): boolean {
    if (!this.hull) return true;
    const f = this.frame;
    const x = f[0] as number;
    const y = f[1] as number;
    const z = f[2] as number;
    if (this.hullIsClear(x, y, z, x, y, z, around)) return true;
    const [a, b, c] = arm.halfM;
    for (const i of HAND_LINES)
      for (const j of HAND_LINES) {
        if (i === 0 && j === 0) continue;
        const lx = x + (f[3] as number) * a * i + (f[9] as number) * c * j;
        const ly = y + (f[4] as number) * a * i + (f[10] as number) * c * j;
        const lz = z + (f[5] as number) * a * i + (f[11] as number) * c * j;
        const [dx, dy, dz] = [(f[6] as number) * b, (f[7] as number) * b, (f[8] as number) * b];
        if (!this.hullIsClear(lx - dx, ly - dy, lz - dz, lx + dx, ly + dy, lz + dz, BETWEEN_LINES_M)) return false;
      }
    return true;
  }

  private setFrame(pose: FlatPose, arm: Arm): void {
    const f = this.frame;
    const ahead = arm.handM - arm.behindM;
    f[0] = (pose[WRIST] as number) + (pose[HAND] as number) * ahead;
    f[1] = (pose[WRIST + 1] as number) + (pose[HAND + 1] as number) * ahead;
    f[2] = (pose[WRIST + 2] as number) + (pose[HAND + 2] as number) * ahead;
    handAxes(pose, f, 3);
    f[12] = arm.halfM[0];
    f[13] = arm.halfM[1];
    f[14] = arm.halfM[2];
  }

  /** Free distance of the links of a pose from everything, up to the cut-off. */
  linkClearance(pose: FlatPose, arm: Arm, cutoffM: number): number {
    return Math.min(
      this.segmentClearance(pose, ELBOW, WRIST, arm.foreRadiusM, cutoffM),
      this.segmentClearance(pose, SHOULDER, ELBOW, arm.upperRadiusM, cutoffM),
    );
  }

  private segmentClearance(pose: FlatPose, from: number, to: number, radius: number, cutoffM: number): number {
    const [ax, ay, az] = [pose[from] as number, pose[from + 1] as number, pose[from + 2] as number];
    const [bx, by, bz] = [pose[to] as number, pose[to + 1] as number, pose[to + 2] as number];
    let least = Math.min(cutoffM, this.beyond?.segmentClearance(pose, from, to, radius, cutoffM) ?? cutoffM) + radius;
    for (let index = 0; index < this.pack.size; index += 1)
      least = Math.min(least, this.pack.distance(index, ax, ay, az, bx, by, bz, least));
    const piece = this.hull ? this.belowSheer(ax, ay, az, bx, by, bz) : null;
    if (piece) least = Math.min(least, (this.hull as HullSurface).clearance(piece[0], piece[1], least));
    return least - radius;
  }

  /** What the arm of a pose meets, by place in `around`; HULL_INDEX: the hull. Own things do not count for the hand. */
  met(pose: FlatPose, arm: Arm): readonly number[] {
    this.setFrame(pose, arm);
    const met: number[] = [];
    for (const index of this.standing)
      if (this.linkMeets(index, pose, arm) || (this.isOwn[index] === 0 && this.handMeets(index, arm))) met.push(index);
    if (!this.hull) return met;
    const isClear = (from: number, to: number, radius: number): boolean =>
      this.hullIsClear(
        pose[from] as number,
        pose[from + 1] as number,
        pose[from + 2] as number,
        pose[to] as number,
        pose[to + 1] as number,
        pose[to + 2] as number,
        radius,
      );
    const clears =
      isClear(ELBOW, WRIST, arm.foreRadiusM) &&
      isClear(SHOULDER, ELBOW, arm.upperRadiusM) &&
      this.handClearsHull(aroundHand(arm), arm);
    return clears ? met : [...met, HULL_INDEX];
  }

  /** The first leaf or thing that stands across a line with a radius, by place in `around`; null: none does. */
  firstAcross(ax: number, ay: number, az: number, bx: number, by: number, bz: number, radius: number): number | null {
    if (this.beyond) return this.beyond.firstAcross(ax, ay, az, bx, by, bz, radius);
    for (const index of this.standing)
      if (this.pack.distance(index, ax, ay, az, bx, by, bz, radius) < radius) return index;
    return null;
  }

  /** What a segment with a radius meets, by place in `around`; the ends stand in six numbers. */
  inSegment(ends: Float64Array, radius: number): readonly number[] {
    const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0] = ends;
    const met = [...this.around.keys()].filter(
      (index) => this.pack.distance(index, ax, ay, az, bx, by, bz, radius) < radius,
    );
    return this.hullIsClear(ax, ay, az, bx, by, bz, radius) ? met : [...met, HULL_INDEX];
  }

  nameOf(index: number): { readonly owner: string; readonly label: string } {
    return index === HULL_INDEX ? HULL : (this.around[index] as Obstruction);
  }

  private handMeets(index: number, arm: Arm): boolean {
    const f = this.frame;
    const [a, b, c] = arm.halfM;
    const around = Math.sqrt(a * a + b * b + c * c);
    const x = f[0] as number;
    const y = f[1] as number;
    const z = f[2] as number;
    return this.pack.distance(index, x, y, z, x, y, z, around) < around && this.overlaps.meets(index, f);
  }

  private linkMeets(index: number, pose: FlatPose, arm: Arm): boolean {
    const meets = (from: number, to: number, radius: number): boolean =>
      this.pack.distance(
        index,
        pose[from] as number,
        pose[from + 1] as number,
        pose[from + 2] as number,
        pose[to] as number,
        pose[to + 1] as number,
        pose[to + 2] as number,
        radius,
      ) < radius;
    return meets(ELBOW, WRIST, arm.foreRadiusM) || meets(SHOULDER, ELBOW, arm.upperRadiusM);
  }
}

/** Radius of the ball about the hand box. */
function aroundHand({ halfM: [a, b, c] }: Arm): number {
  return Math.sqrt(a * a + b * b + c * c);
}

/**
 * The solids whose bounds come near to those of a body. It is made anew where the body has moved on, and holds everything while the body jumps
 * about: a list is worth its making only where it is used again.
 */
class NearList {
  near: Int32Array;
  count: number;
  private readonly listed: Int32Array;
  /** Bounds that the list holds for, and those of the body when it was last asked about. */
  private readonly held = new Float64Array(6);
  private readonly last = new Float64Array(6);

  constructor(
    private readonly all: Int32Array,
    private readonly bounds: Float64Array,
  ) {
    this.listed = new Int32Array(all.length);
    this.near = all;
    this.count = all.length;
  }

  attend(x0: number, y0: number, z0: number, x1: number, y1: number, z1: number): void {
    const { held, last } = this;
    const isHeld =
      x0 >= (held[0] as number) &&
      y0 >= (held[1] as number) &&
      z0 >= (held[2] as number) &&
      x1 <= (held[3] as number) &&
      y1 <= (held[4] as number) &&
      z1 <= (held[5] as number);
    if (isHeld) {
      this.near = this.listed;
      this.count = this.length;
      return;
    }
    const moved =
      Math.abs(x0 - (last[0] as number)) +
      Math.abs(y0 - (last[1] as number)) +
      Math.abs(z0 - (last[2] as number)) +
      Math.abs(x1 - (last[3] as number)) +
      Math.abs(y1 - (last[4] as number)) +
      Math.abs(z1 - (last[5] as number));
    last[0] = x0;
    last[1] = y0;
    last[2] = z0;
    last[3] = x1;
    last[4] = y1;
    last[5] = z1;
    if (moved < SLACK_M) {
      this.list();
      this.near = this.listed;
      this.count = this.length;
    } else {
      this.near = this.all;
      this.count = this.all.length;
    }
  }

  private length = 0;

  /** Lists what is near the bounds of the body with slack all round. */
  private list(): void {
    const { held, last, all, bounds, listed } = this;
    for (let k = 0; k < 3; k += 1) {
      held[k] = (last[k] as number) - SLACK_M;
      held[3 + k] = (last[3 + k] as number) + SLACK_M;
    }
    let length = 0;
    for (let k = 0; k < all.length; k += 1) {
      const index = all[k] as number;
      const b = index * 6;
      if (
        (bounds[b] as number) <= (held[3] as number) &&
        (bounds[b + 1] as number) <= (held[4] as number) &&
        (bounds[b + 2] as number) <= (held[5] as number) &&
        (bounds[b + 3] as number) >= (held[0] as number) &&
        (bounds[b + 4] as number) >= (held[1] as number) &&
        (bounds[b + 5] as number) >= (held[2] as number)
      ) {
        listed[length] = index;
        length += 1;
      }
    }
    this.length = length;
  }
}

/** Moves what was met half way to the front: one chance hit does not push out what is met all the time. */
function toFront(order: Int32Array, k: number): void {
  const to = k >> 1;
  const index = order[k] as number;
  order.copyWithin(to + 1, to, k);
  order[to] = index;
}
