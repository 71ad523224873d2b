/**
 * The shape of a band: its corners, the lines and bends between them, and what each piece costs. Nothing moves here.
 */
import * as portable from '../../base/portable';
import { BandClearance, type BandInput, outOfReach, type PieceList, SPARE_M } from './band-clearance';
import { FeedRoom, type FeedShortage } from './feed-room';
import { BETWEEN_HOLES_M } from './nodes';
import { CLIP_STRAIGHT_M, cornersOf, type Element, holeCentre, placeCorners } from './polygon';
import { SUCTION_WEIGHT } from './search';
import { depthInPanel } from './structure';
import { tangentOf } from './turns';
import { isBare, type WishesNear } from './wishes/prices';
import type { Obstacle } from './world';

/** Bends shrink by up to this share where two of them want the same straight. */
const RADIUS_SPARE = 4e-4;
/** Chords stand for arcs; the hose grows by their sagitta there. */
const SAGITTA_M = 0.0008;
const FIRST_STEP_M = 0.06;
const LAST_STEP_M = 0.00025;
export const LARGEST_TURN_RAD = 2.5;
/** Crests are smoothed over this, or the band would stick at level pieces. */
const CREST_SMOOTH_M = 0.004;
/** Wishes are looked at this often along a bend. */
const BEND_SAMPLE_M = 0.1;

export interface Violation {
  readonly byM: number;
  readonly at: readonly [number, number, number];
  readonly kind: 'clearance' | 'bend' | 'hole' | 'feed';
  readonly blocker: string;
}

/** What the pieces of a band cost. */
interface PieceCosts {
  readonly edgeCost: readonly number[];
  readonly edgeClear: readonly number[];
  readonly bendCost: readonly number[];
  readonly bendClear: readonly number[];
  readonly holeCost: readonly number[];
}

/** What the pieces cost before one free corner was left out: those that do not touch it still cost as much. */
interface Before {
  readonly costs: PieceCosts;
  /** Of the element and the corner that are gone; -1: none. */
  readonly element: number;
  readonly corner: number;
}

export class BandShape {
  elements: Element[];
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly z: number[] = [];
  protected first: number[] = [];
  protected steps: number[][] = [];
  protected readonly R: number;
  protected readonly clearance: BandClearance;
  // Edge k runs from corner k to k + 1; bend k is at corner k.
  protected edgeElement: number[] = [];
  protected len: number[] = [];
  protected dx: number[] = [];
  protected dy: number[] = [];
  protected dz: number[] = [];
  angle: number[] = [];
  tangent: number[] = [];
  protected edgeCost: number[] = [];
  protected edgeClear: number[] = [];
  protected bendCost: number[] = [];
  protected bendClear: number[] = [];
  protected holeCost: number[] = [];
  protected edgeLists: (PieceList | null)[] = [];
  protected bendLists: (PieceList | null)[] = [];
  protected split = 0;
  /** Corner whose bend is to reach the height that the run must rise to; 0: none. */
  protected peak = 0;
  /** Wishes are left aside: what is in the way alone counts. */
  protected isPlain = false;
  /** Hanging free costs as well: only once the shape is found, for it makes the band slow. */
  protected readonly isHung: boolean;
  protected readonly bendAt: number[] = [];
  protected work = 0;
  protected lastStep = LAST_STEP_M;

  constructor(
    protected readonly input: BandInput,
    elements: readonly Element[],
  ) {
    this.R = input.bendRadiusM * (1 + RADIUS_SPARE);
    this.isHung = input.hangs;
    this.clearance = new BandClearance(input);
    this.elements = [...elements];
    this.layOut();
  }

  get corners(): number {
    return this.x.length;
  }
  get filletRadiusM(): number {
    return this.R;
  }
  elementOfEdge(k: number): Element | null {
    const at = this.edgeElement[k] as number;
    return at >= 0 ? (this.elements[at] as Element) : null;
  }
  firstCorner(element: number): number {
    return this.first[element] as number;
  }

  /** Sum of everything that is not as it must be, metres. */
  violation(): number {
    return this.violations().reduce((sum, one) => sum + one.byM, 0);
  }

  violations(): Violation[] {
    const found: Violation[] = [];
    const last = this.corners - 1;
    for (let k = 0; k < last; k += 1) {
      const short = this.missing(k);
      const middle = [0.5, 0.5];
      if (short > 1e-9)
        found.push({ byM: short, at: this.pointOnEdge(k, middle[0] as number), kind: 'bend', blocker: '' });
      this.clearEdge(k, (rank, by) => found.push(this.report(rank, by, this.pointOnEdge(k, 0.5))));
    }
    for (let k = 1; k < last; k += 1) {
      if ((this.angle[k] as number) > LARGEST_TURN_RAD + 1e-9)
        found.push({
          byM: this.R,
          at: [this.x[k] as number, this.y[k] as number, this.z[k] as number],
          kind: 'bend',
          blocker: '',
        });
      this.clearBend(k, (rank, by) =>
        found.push(this.report(rank, by, [this.x[k] as number, this.y[k] as number, this.z[k] as number])),
      );
    }
    this.elements.forEach((element, e) => {
      const feed = this.feedShortage(e, SPARE_M);
      if (feed && element.kind === 'hole')
        found.push({ byM: feed.byM, at: holeCentre(element), kind: 'feed', blocker: feed.blocker });
      const by = this.edgeViolation(e);
      if (by > 1e-9 && element.kind === 'hole')
        found.push({
          byM: by,
          at: this.pointOnEdge(this.first[e] as number, 0.5),
          kind: 'hole',
          blocker: element.panel.id,
        });
    });
    return found;
  }

  protected report(rank: number, byM: number, at: readonly [number, number, number]): Violation {
    const blocker = rank < 0 ? 'hull' : (this.input.world.obstacles[rank] as Obstacle).id;
    return { byM, at, kind: 'clearance', blocker };
  }

  protected pointOnEdge(k: number, t: number): readonly [number, number, number] {
    return [
      (this.x[k] as number) * (1 - t) + (this.x[k + 1] as number) * t,
      (this.y[k] as number) * (1 - t) + (this.y[k + 1] as number) * t,
      (this.z[k] as number) * (1 - t) + (this.z[k + 1] as number) * t,
    ];
  }

  /** Filleted length. */
  lengthM(): number {
    let sum = 0;
    for (let k = 0; k < this.corners - 1; k += 1) sum += this.len[k] as number;
    for (let k = 1; k < this.corners - 1; k += 1)
      sum -= 2 * (this.tangent[k] as number) - this.R * (this.angle[k] as number);
    return sum;
  }

  /** Height trapped in crests by the corners, metres: what suction pays for. */
  crestM(): number {
    const up = this.input.world.view.up;
    let sum = 0;
    for (let k = 0; k < this.corners - 1; k += 1) {
      const rise =
        (this.len[k] as number) *
        ((this.dx[k] as number) * up[0] + (this.dy[k] as number) * up[1] + (this.dz[k] as number) * up[2]);
      sum += Math.max(0, k < this.split ? rise : -rise);
    }
    return sum;
  }

  // ---- layout of corners and pieces

  /** Returns the price of the whole. */
  protected layOut(
    edgeLists: (PieceList | null)[] = [],
    bendLists: (PieceList | null)[] = [],
    before: Before | null = null,
  ): number {
    this.x.length = 0;
    this.y.length = 0;
    this.z.length = 0;
    this.first = [];
    this.steps = [];
    this.edgeElement = [];
    let k = 0;
    const ends = [this.elements[0], this.elements.at(-1)] as [Element, Element];
    if (ends[0].kind !== 'lead' || ends[1].kind !== 'lead') throw new Error('Band: expected a lead at each end');
    [this.x[0], this.y[0], this.z[0]] = ends[0].at;
    this.edgeElement.push(0);
    k = 1;
    this.elements.forEach((element, e) => {
      this.first.push(k);
      placeCorners(element, k, this.x, this.y, this.z);
      const count = cornersOf(element);
      if (count === 2) this.edgeElement.push(e);
      k += count;
      this.edgeElement.push(e === this.elements.length - 1 ? e : -1);
      // A free corner has three directions of its own and one along what its bend lies on.
      this.steps.push(Array(element.kind === 'free' ? 4 : element.params.length).fill(FIRST_STEP_M));
    });
    [this.x[k], this.y[k], this.z[k]] = ends[1].at;
    const edges = k;
    this.edgeLists = Array.from({ length: edges }, (_, i) => edgeLists[i] ?? null);
    this.bendLists = Array.from({ length: edges }, (_, i) => bendLists[i] ?? null);
    this.len.length = edges;
    this.angle.length = edges;
    this.tangent.length = edges + 1;
    this.tangent[0] = 0;
    this.tangent[edges] = 0;
    this.geometry(0, k);
    this.chooseSplit();
    // Where prices hang on the whole shape, all are worked out anew.
    const isLocal = !this.input.suction && !this.input.world.prices.wishes.rise;
    return before && isLocal ? this.totalAfter(before) : this.total();
  }

  protected costs(): PieceCosts {
    return {
      edgeCost: this.edgeCost.slice(),
      edgeClear: this.edgeClear.slice(),
      bendCost: this.bendCost.slice(),
      bendClear: this.bendClear.slice(),
      holeCost: this.holeCost.slice(),
    };
  }

  /** The price of the whole; only pieces that touch the corner that is gone are priced anew. */
  private totalAfter({ costs, element, corner }: Before): number {
    let sum = 0;
    const last = this.corners - 1;
    const isNear = (k: number, by: number): boolean => corner >= 0 && k >= corner - by && k <= corner;
    const was = (k: number): number => (corner >= 0 && k >= corner ? k + 1 : k);
    for (let k = 0; k < last; k += 1) {
      const isFresh = isNear(k, 2);
      this.edgeCost[k] = isFresh ? this.priceEdge(k) : (costs.edgeCost[was(k)] as number);
      this.edgeClear[k] = isFresh ? this.clearEdge(k) : (costs.edgeClear[was(k)] as number);
      sum += (this.edgeCost[k] as number) + (this.edgeClear[k] as number);
    }
    for (let k = 1; k < last; k += 1) {
      const isFresh = isNear(k, 1);
      this.bendCost[k] = isFresh ? this.priceBend(k) : (costs.bendCost[was(k)] as number);
      this.bendClear[k] = isFresh ? this.clearBend(k) : (costs.bendClear[was(k)] as number);
      sum += (this.bendCost[k] as number) + (this.bendClear[k] as number);
    }
    for (let e = 0; e < this.elements.length; e += 1) {
      this.holeCost[e] = isNear(this.first[e] as number, 2)
        ? this.clearance.weight * this.holeViolation(e)
        : (costs.holeCost[element >= 0 && e >= element ? e + 1 : e] as number);
      sum += this.holeCost[e] as number;
    }
    return sum;
  }

  protected total(): number {
    let sum = 0;
    const last = this.corners - 1;
    for (let k = 0; k < last; k += 1) {
      this.edgeCost[k] = this.priceEdge(k);
      this.edgeClear[k] = this.clearEdge(k);
      sum += (this.edgeCost[k] as number) + (this.edgeClear[k] as number);
    }
    for (let k = 1; k < last; k += 1) {
      this.bendCost[k] = this.priceBend(k);
      this.bendClear[k] = this.clearBend(k);
      sum += (this.bendCost[k] as number) + (this.bendClear[k] as number);
    }
    this.elements.forEach((_, e) => {
      this.holeCost[e] = this.clearance.weight * this.holeViolation(e);
      sum += this.holeCost[e] as number;
    });
    return sum;
  }

  /** Lengths, directions and turns around corners i..j. */
  protected geometry(i: number, j: number): void {
    const last = this.corners - 1;
    for (let k = Math.max(0, i - 1); k <= Math.min(last - 1, j); k += 1) {
      const ex = (this.x[k + 1] as number) - (this.x[k] as number);
      const ey = (this.y[k + 1] as number) - (this.y[k] as number);
      const ez = (this.z[k + 1] as number) - (this.z[k] as number);
      const length = Math.sqrt(ex * ex + ey * ey + ez * ez);
      this.len[k] = length;
      const inverse = length > 1e-12 ? 1 / length : 0;
      this.dx[k] = ex * inverse;
      this.dy[k] = ey * inverse;
      this.dz[k] = ez * inverse;
    }
    for (let k = Math.max(1, i - 1); k <= Math.min(last - 1, j + 1); k += 1) {
      const cx =
        (this.dy[k - 1] as number) * (this.dz[k] as number) - (this.dz[k - 1] as number) * (this.dy[k] as number);
      const cy =
        (this.dz[k - 1] as number) * (this.dx[k] as number) - (this.dx[k - 1] as number) * (this.dz[k] as number);
      const cz =
        (this.dx[k - 1] as number) * (this.dy[k] as number) - (this.dy[k - 1] as number) * (this.dx[k] as number);
      const cos =
        (this.dx[k - 1] as number) * (this.dx[k] as number) +
        (this.dy[k - 1] as number) * (this.dy[k] as number) +
        (this.dz[k - 1] as number) * (this.dz[k] as number);
      const angle = portable.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), cos);
      this.angle[k] = angle;
      this.tangent[k] = tangentOf(angle, this.R);
    }
  }

  // ---- prices

  /** Straight length that the bends and the element at edge k ask for and do not get. */
  protected missing(k: number): number {
    const length = this.len[k] as number;
    const here = this.tangent[k] as number;
    const there = this.tangent[k + 1] as number;
    const element = this.elementOfEdge(k);
    if (!element) return Math.max(0, here + there - length);
    switch (element.kind) {
      case 'lead':
        return (
          Math.max(0, element.leadM + here + there - length) +
          Math.max(0, element.leadM - (element.params[0] as number))
        );
      case 'hole': {
        const need = element.stubM + SPARE_M;
        return (
          Math.max(0, need + here - (element.params[2] as number)) +
          Math.max(0, need + there - (element.params[3] as number))
        );
      }
      case 'clip':
        return (
          Math.max(0, CLIP_STRAIGHT_M + here - (length - (element.params[3] as number))) +
          Math.max(0, CLIP_STRAIGHT_M + there - (element.params[3] as number))
        );
      case 'free':
        return 0;
    }
  }

  protected priceEdge(k: number): number {
    let price = (this.len[k] as number) + this.clearance.weight * this.missing(k);
    const { prices } = this.input.world;
    if (prices.wishes.fall > 0 && !this.isPlain) {
      const up = this.input.world.view.up;
      const length = this.len[k] as number;
      const rise =
        length * ((this.dx[k] as number) * up[0] + (this.dy[k] as number) * up[1] + (this.dz[k] as number) * up[2]);
      price += prices.slope(length, rise);
    }
    if (this.input.suction) {
      const up = this.input.world.view.up;
      const rise =
        (this.len[k] as number) *
        ((this.dx[k] as number) * up[0] + (this.dy[k] as number) * up[1] + (this.dz[k] as number) * up[2]);
      const bad = k < this.split ? rise : -rise;
      if (bad > 0)
        price +=
          SUCTION_WEIGHT * (bad < CREST_SMOOTH_M ? (bad * bad) / (2 * CREST_SMOOTH_M) : bad - CREST_SMOOTH_M / 2);
    }
    return price;
  }

  protected priceBend(k: number): number {
    const angle = this.angle[k] as number;
    const over = angle > LARGEST_TURN_RAD ? this.clearance.weight * this.R * (1 + angle - LARGEST_TURN_RAD) : 0;
    const lacking = k === this.peak && !this.isPlain ? this.lackingRise(k) : 0;
    return this.R * angle - 2 * (this.tangent[k] as number) + over + lacking;
  }

  /** Height above the water of the middle of the bend at corner k. */
  private bendHeight(k: number): number {
    const { up, waterLevelM = 0 } = this.input.world.view;
    const ex = (this.dx[k] as number) - (this.dx[k - 1] as number);
    const ey = (this.dy[k] as number) - (this.dy[k - 1] as number);
    const ez = (this.dz[k] as number) - (this.dz[k - 1] as number);
    const size = Math.sqrt(ex * ex + ey * ey + ez * ez);
    const inward =
      size > 1e-9 ? (this.R * (1 / portable.cos(Math.min(this.angle[k] as number, 2.618) / 2) - 1)) / size : 0;
    return (
      ((this.x[k] as number) + ex * inward) * up[0] +
      ((this.y[k] as number) + ey * inward) * up[1] +
      ((this.z[k] as number) + ez * inward) * up[2] -
      waterLevelM
    );
  }

  private lackingRise(k: number): number {
    const { rise } = this.input.world.prices.wishes;
    return rise ? rise.price * Math.max(0, rise.toM - this.bendHeight(k)) : 0;
  }

  /** The highest bend is the one that is to rise. */
  private choosePeak(): boolean {
    const before = this.peak;
    this.peak = 0;
    if (!this.input.world.prices.wishes.rise) return false;
    for (let k = 1; k < this.corners - 1; k += 1)
      if (this.peak === 0 || this.bendHeight(k) > this.bendHeight(this.peak) + 1e-9) this.peak = k;
    return this.peak !== before;
  }

  /** Room that a crimped end lacks to come through the hole of element e. */
  feedShortage(e: number, spareM = 0): FeedShortage | null {
    const element = this.elements[e] as Element;
    const { feed } = this.input.world.line;
    if (element.kind !== 'hole' || !feed || feed.rigidM === 0) return null;
    let room = this.feedRooms.get(element);
    if (!room) {
      room = new FeedRoom(this.input.world, feed, element.frame, element.panel);
      this.feedRooms.set(element, room);
    }
    return room.shortage(holeCentre(element), spareM);
  }
  private readonly feedRooms = new WeakMap<Element, FeedRoom>();

  protected holeViolation(e: number): number {
    return this.edgeViolation(e) + (this.feedShortage(e, SPARE_M)?.byM ?? 0);
  }

  private edgeViolation(e: number): number {
    const element = this.elements[e] as Element;
    if (element.kind !== 'hole' || element.hole) return 0;
    const { panel, frame } = element;
    const u = element.params[0] as number;
    const v = element.params[1] as number;
    const rh = this.input.holeRadiusM + SPARE_M;
    let sum = Math.max(0, rh + panel.edgeM - depthInPanel(frame, u, v));
    const cx = frame.origin[0] + frame.u[0] * u + frame.v[0] * v;
    const cy = frame.origin[1] + frame.u[1] * u + frame.v[1] * v;
    const cz = frame.origin[2] + frame.u[2] * u + frame.v[2] * v;
    for (const hole of panel.holes) {
      const d = Math.sqrt((hole.at[0] - cx) ** 2 + (hole.at[1] - cy) ** 2 + (hole.at[2] - cz) ** 2);
      sum += Math.max(0, hole.diameterM / 2 + rh + BETWEEN_HOLES_M - d);
    }
    const { world } = this.input;
    const need = rh + panel.edgeM;
    sum += Math.max(0, need - world.hullClearance(cx, cy, cz, cx, cy, cz, need));
    // The hole itself, wider than the hose, keeps clear of runs and of their holes.
    const list = this.edgeLists[this.first[e] as number];
    if (list) {
      const half = panel.thicknessM / 2;
      const n = frame.n;
      for (const rank of list.ranks) {
        const obstacle = world.obstacles[rank] as Obstacle;
        if (obstacle.kind !== 'run') continue;
        const wide = rh + obstacle.gapM;
        const d = obstacle.pack.distance(
          obstacle.index,
          cx - n[0] * half,
          cy - n[1] * half,
          cz - n[2] * half,
          cx + n[0] * half,
          cy + n[1] * half,
          cz + n[2] * half,
          wide,
        );
        sum += Math.max(0, wide - d);
      }
    }
    return sum;
  }

  /** Price of what the straight part of edge k does not clear. */
  protected clearEdge(k: number, tell?: (rank: number, byM: number) => void): number {
    const last = this.corners - 1;
    let from = this.tangent[k] as number;
    let to = (this.len[k] as number) - (this.tangent[k + 1] as number);
    const element = this.elementOfEdge(k);
    if (element?.kind === 'lead') {
      if (k === 0) from = element.leadM;
      else to = Math.min(to, (this.len[k] as number) - element.leadM);
    }
    if (to < from) {
      const middle = Math.min(this.len[k] as number, Math.max(0, (from + to) / 2));
      from = middle;
      to = middle;
    }
    const x = this.x[k] as number;
    const y = this.y[k] as number;
    const z = this.z[k] as number;
    const ax = x + (this.dx[k] as number) * from;
    const ay = y + (this.dy[k] as number) * from;
    const az = z + (this.dz[k] as number) * from;
    const bx = x + (this.dx[k] as number) * to;
    const by = y + (this.dy[k] as number) * to;
    const bz = z + (this.dz[k] as number) * to;
    let list = this.edgeLists[k] ?? null;
    if (!list || outOfReach(list.at, 0, ax, ay, az) || outOfReach(list.at, 3, bx, by, bz)) {
      list = this.clearance.listFor([ax, ay, az, bx, by, bz], k, k, last);
      this.edgeLists[k] = list;
    }
    const panel = element?.kind === 'hole' ? element.frame.panelIndex : -2;
    this.work += 1 + list.ranks.length;
    const price = this.clearance.chord(list, ax, ay, az, bx, by, bz, 0, panel, tell);
    if (tell || !list.wishes || this.isPlain) return price;
    return price + this.input.world.prices.along(list.wishes, ax, ay, az, bx, by, bz, this.isHung);
  }

  protected clearBend(k: number, tell?: (rank: number, byM: number) => void): number {
    const angle = this.angle[k] as number;
    if (angle < 1e-7) return 0;
    const T = this.tangent[k] as number;
    const R = T / portable.tan(Math.min(angle, 2.618) / 2);
    const ux = this.dx[k - 1] as number;
    const uy = this.dy[k - 1] as number;
    const uz = this.dz[k - 1] as number;
    const ax = (this.x[k] as number) - ux * T;
    const ay = (this.y[k] as number) - uy * T;
    const az = (this.z[k] as number) - uz * T;
    // Unit normal to the arrival, towards the centre.
    const cos = portable.cos(angle);
    const sin = portable.sin(angle);
    const nx = ((this.dx[k] as number) - ux * cos) / sin;
    const ny = ((this.dy[k] as number) - uy * cos) / sin;
    const nz = ((this.dz[k] as number) - uz * cos) / sin;
    const chords = Math.max(1, Math.ceil(angle / (2 * portable.acos(Math.max(0, 1 - SAGITTA_M / R)))));
    const half = angle / chords / 2;
    const swell = R * (1 - portable.cos(half));
    const points = this.bendAt;
    for (let c = 0; c <= chords; c += 1) {
      const turn = 2 * half * c;
      const forward = R * portable.sin(turn);
      const inward = R * (1 - portable.cos(turn));
      points[3 * c] = ax + ux * forward + nx * inward;
      points[3 * c + 1] = ay + uy * forward + ny * inward;
      points[3 * c + 2] = az + uz * forward + nz * inward;
    }
    const m = 3 * (chords >> 1);
    const e = 3 * chords;
    const last = this.corners - 1;
    let list = this.bendLists[k] ?? null;
    if (
      !list ||
      outOfReach(list.at, 0, ax, ay, az) ||
      outOfReach(list.at, 3, points[m] as number, points[m + 1] as number, points[m + 2] as number) ||
      outOfReach(list.at, 6, points[e] as number, points[e + 1] as number, points[e + 2] as number)
    ) {
      const at = [ax, ay, az, points[m], points[m + 1], points[m + 2], points[e], points[e + 1], points[e + 2]];
      list = this.clearance.listFor(at as number[], k - 1, k, last);
      this.bendLists[k] = list;
    }
    const wished = tell || !list.wishes || this.isPlain ? 0 : this.bendWishes(list.wishes, chords, R * angle);
    if (list.ranks.length === 0 && !list.nearHull) return wished;
    let sum = 0;
    let worst = 0;
    for (let c = 0; c < chords; c += 1) {
      this.work += 1 + list.ranks.length;
      const i = 3 * c;
      const price = this.clearance.chord(
        list,
        points[i] as number,
        points[i + 1] as number,
        points[i + 2] as number,
        points[i + 3] as number,
        points[i + 4] as number,
        points[i + 5] as number,
        swell,
        -2,
        tell,
      );
      sum += price;
      if (price > worst) worst = price;
    }
    // Mostly the worst chord, a little of the sum: else a long arc along an obstacle would weigh ten times a straight.
    return worst + (sum - worst) * 0.1 + wished;
  }

  private samples = new Float64Array(24);

  /** Price of the wishes along the bend whose chords stand in `bendAt`. */
  private bendWishes(near: WishesNear, chords: number, arcM: number): number {
    if (!this.isHung && isBare(near)) return 0;
    const points = this.bendAt;
    const count = Math.min(chords, Math.max(1, Math.ceil(arcM / BEND_SAMPLE_M)));
    if (this.samples.length < 3 * count) this.samples = new Float64Array(6 * count);
    const { samples } = this;
    for (let n = 0; n < count; n += 1) {
      const i = 3 * Math.floor(((n + 0.5) * chords) / count);
      samples[3 * n] = ((points[i] as number) + (points[i + 3] as number)) / 2;
      samples[3 * n + 1] = ((points[i + 1] as number) + (points[i + 4] as number)) / 2;
      samples[3 * n + 2] = ((points[i + 2] as number) + (points[i + 5] as number)) / 2;
    }
    return (this.input.world.prices.sumAt(near, samples, count, this.isHung) * arcM) / count;
  }

  /** Where falling ends and rising begins at the least price: one valley is free, only crests between cost. */
  protected chooseSplit(): void {
    if (this.choosePeak()) this.total();
    if (!this.input.suction) return;
    const up = this.input.world.view.up;
    const last = this.corners - 1;
    const rises: number[] = [];
    for (let k = 0; k < last; k += 1)
      rises.push(
        (this.len[k] as number) *
          ((this.dx[k] as number) * up[0] + (this.dy[k] as number) * up[1] + (this.dz[k] as number) * up[2]),
      );
    let price = rises.reduce((sum, rise) => sum + Math.max(0, -rise), 0);
    let best = price;
    let split = 0;
    for (let k = 0; k < last; k += 1) {
      price += Math.max(0, rises[k] as number) - Math.max(0, -(rises[k] as number));
      if (price < best - 1e-12) {
        best = price;
        split = k + 1;
      }
    }
    if (split === this.split) return;
    this.split = split;
    this.total();
  }
}
