/**
 * The fillet band: moves the corners of a tangent polygon until the filleted hose is short and clears everything. What counts is
 * the filleted shape; a corner may lie inside an obstacle. Violations cost so much more than length that none is left at rest.
 */

import { BETWEEN_HOLES_M } from './nodes';
import { CLIP_STRAIGHT_M, cornersOf, type Element, placeCorners } from './polygon';
import { SOFT_WEIGHT, SUCTION_WEIGHT, tangentOf } from './search';
import { depthInOutline } from './structure';
import type { Obstacle, World } from './world';

/** Price of a metre of violation, in metres of length. */
const VIOLATION_WEIGHT = 40;
/** The band works to slightly more than what is asked, so that its rest is valid to the last digit. */
const SPARE_M = 0.00008;
/** Bends shrink by up to this share where two of them want the same straight. */
const RADIUS_SPARE = 4e-4;
/** Chords stand for arcs; the hose grows by their sagitta there. */
const SAGITTA_M = 0.0008;
/** Obstacles within this beyond the clearance are kept in a piece's list. */
const LIST_MARGIN_M = 0.06;
const FIRST_STEP_M = 0.06;
const LAST_STEP_M = 0.00025;
const FIRST_SETTLING_STEP_M = 0.001;
const SETTLED_STEP_M = 0.00001;
const LARGEST_STEP_M = 0.2;
const LARGEST_TURN_RAD = 2.5;
/** A bend begins right behind a lead or stub when less than this is between. */
const TIGHT_M = 0.0004;
/** Two tight bends that face each other settle in a few rounds. */
const TIGHTENINGS = 3;
/** Crests are smoothed over this, or the band would stick at level pieces. */
const CREST_SMOOTH_M = 0.004;

interface PieceList {
  ranks: number[];
  soft: number[];
  nearHull: boolean;
  /** Ends (and middle) of the piece when the list was made. */
  at: number[];
}

export interface BandInput {
  readonly world: World;
  readonly radiusM: number;
  readonly bendRadiusM: number;
  readonly holeRadiusM: number;
  readonly suction: boolean;
  /** True for an obstacle that the first pieces from the start, or the last before the goal, need not clear. */
  readonly exempt: readonly [(obstacle: Obstacle) => boolean, (obstacle: Obstacle) => boolean];
}

export interface Violation {
  readonly byM: number;
  readonly at: readonly [number, number, number];
  readonly kind: 'clearance' | 'bend' | 'hole';
  readonly blocker: string;
}

export class Band {
  elements: Element[];
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly z: number[] = [];
  private first: number[] = [];
  private steps: number[][] = [];
  private readonly R: number;
  private readonly r: number;
  // Edge k runs from corner k to k + 1; bend k is at corner k.
  private edgeElement: number[] = [];
  private len: number[] = [];
  private dx: number[] = [];
  private dy: number[] = [];
  private dz: number[] = [];
  angle: number[] = [];
  tangent: number[] = [];
  private edgeCost: number[] = [];
  private edgeClear: number[] = [];
  private bendCost: number[] = [];
  private bendClear: number[] = [];
  private holeCost: number[] = [];
  private edgeLists: (PieceList | null)[] = [];
  private bendLists: (PieceList | null)[] = [];
  private split = 0;
  private readonly bendAt: number[] = [];
  private work = 0;
  private lastStep = LAST_STEP_M;

  constructor(
    private readonly input: BandInput,
    elements: readonly Element[],
  ) {
    this.R = input.bendRadiusM * (1 + RADIUS_SPARE);
    this.r = input.radiusM + SPARE_M;
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

  /** Moves corners until no step helps, at most `sweeps` times over all of them. Yields its work, in pieces looked at. */
  *relax(sweeps: number): Generator<number, void> {
    for (let sweep = 0; sweep < sweeps; sweep += 1) {
      this.work = 0;
      const moved = this.sweep(sweep % 2 === 1);
      if (sweep === 1 || sweep === 4 || sweep % 8 === 7 || !moved) {
        const removed = this.dropCorners();
        this.chooseSplit();
        if (!moved && !removed) {
          yield this.work;
          return;
        }
      }
      yield this.work;
    }
    this.dropCorners();
    yield this.work;
  }

  /** Takes out the last hair of violation by small steps. */
  *settle(sweeps: number): Generator<number, void> {
    this.lastStep = SETTLED_STEP_M;
    for (const steps of this.steps) steps.fill(FIRST_SETTLING_STEP_M);
    for (let sweep = 0; sweep < sweeps; sweep += 1) {
      this.work = 0;
      const moved = this.sweep(sweep % 2 === 1);
      yield this.work;
      if (!moved) return;
    }
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
      const by = this.holeViolation(e);
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

  private report(rank: number, byM: number, at: readonly [number, number, number]): Violation {
    const blocker = rank < 0 ? 'hull' : (this.input.world.obstacles[rank] as Obstacle).id;
    return { byM, at, kind: 'clearance', blocker };
  }

  private pointOnEdge(k: number, t: number): readonly [number, number, number] {
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

  private layOut(edgeLists: (PieceList | null)[] = [], bendLists: (PieceList | null)[] = []): void {
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
      this.steps.push(element.params.map(() => FIRST_STEP_M));
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
    this.total();
  }

  private total(): number {
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
      this.holeCost[e] = VIOLATION_WEIGHT * this.holeViolation(e);
      sum += this.holeCost[e] as number;
    });
    return sum;
  }

  /** Lengths, directions and turns around corners i..j. */
  private geometry(i: number, j: number): void {
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
      const angle = Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), cos);
      this.angle[k] = angle;
      this.tangent[k] = tangentOf(angle, this.R);
    }
  }

  // ---- prices

  /** Straight length that the bends and the element at edge k ask for and do not get. */
  private missing(k: number): number {
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

  private priceEdge(k: number): number {
    let price = (this.len[k] as number) + VIOLATION_WEIGHT * this.missing(k);
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

  private priceBend(k: number): number {
    const angle = this.angle[k] as number;
    const over = angle > LARGEST_TURN_RAD ? VIOLATION_WEIGHT * this.R * (1 + angle - LARGEST_TURN_RAD) : 0;
    return this.R * angle - 2 * (this.tangent[k] as number) + over;
  }

  private holeViolation(e: number): number {
    const element = this.elements[e] as Element;
    if (element.kind !== 'hole' || element.hole) return 0;
    const { panel, frame } = element;
    const u = element.params[0] as number;
    const v = element.params[1] as number;
    const rh = this.input.holeRadiusM + SPARE_M;
    let sum = Math.max(0, rh + panel.edgeM - depthInOutline(frame.outline, u, v));
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
  private clearEdge(k: number, tell?: (rank: number, byM: number) => void): number {
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
      list = this.listFor([ax, ay, az, bx, by, bz], k, k, last);
      this.edgeLists[k] = list;
    }
    const panel = element?.kind === 'hole' ? element.frame.panelIndex : -2;
    this.work += 1 + list.ranks.length;
    return this.clearChord(list, ax, ay, az, bx, by, bz, 0, panel, tell);
  }

  private clearChord(
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
    for (const rank of list.ranks) {
      const obstacle = world.obstacles[rank] as Obstacle;
      if (obstacle.panel === panel) continue;
      const need = this.r + obstacle.gapM + swell;
      const d = obstacle.pack.distance(obstacle.index, ax, ay, az, bx, by, bz, need);
      if (d < need) {
        sum += VIOLATION_WEIGHT * (need - d);
        tell?.(rank, need - d);
      }
    }
    if (list.nearHull) {
      const need = this.r + swell;
      const d = world.hullClearance(ax, ay, az, bx, by, bz, need);
      if (d < need) {
        sum += VIOLATION_WEIGHT * (need - d);
        tell?.(-1, need - d);
      }
    }
    for (const rank of list.soft) {
      const d = world.distance(rank, ax, ay, az, bx, by, bz, this.r);
      if (d < this.r) sum += SOFT_WEIGHT * (this.r - d);
    }
    return sum;
  }

  private clearBend(k: number, tell?: (rank: number, byM: number) => void): number {
    const angle = this.angle[k] as number;
    if (angle < 1e-7) return 0;
    const T = this.tangent[k] as number;
    const R = T / Math.tan(Math.min(angle, 2.618) / 2);
    const ux = this.dx[k - 1] as number;
    const uy = this.dy[k - 1] as number;
    const uz = this.dz[k - 1] as number;
    const ax = (this.x[k] as number) - ux * T;
    const ay = (this.y[k] as number) - uy * T;
    const az = (this.z[k] as number) - uz * T;
    // Unit normal to the arrival, towards the centre.
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const nx = ((this.dx[k] as number) - ux * cos) / sin;
    const ny = ((this.dy[k] as number) - uy * cos) / sin;
    const nz = ((this.dz[k] as number) - uz * cos) / sin;
    const chords = Math.max(1, Math.ceil(angle / (2 * Math.acos(Math.max(0, 1 - SAGITTA_M / R)))));
    const half = angle / chords / 2;
    const swell = R * (1 - Math.cos(half));
    const points = this.bendAt;
    for (let c = 0; c <= chords; c += 1) {
      const turn = 2 * half * c;
      const forward = R * Math.sin(turn);
      const inward = R * (1 - Math.cos(turn));
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
      list = this.listFor(at as number[], k - 1, k, last);
      this.bendLists[k] = list;
    }
    if (list.ranks.length === 0 && !list.nearHull && list.soft.length === 0) return 0;
    let sum = 0;
    let worst = 0;
    for (let c = 0; c < chords; c += 1) {
      this.work += 1 + list.ranks.length;
      const i = 3 * c;
      const price = this.clearChord(
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
    return worst + (sum - worst) * 0.1;
  }

  /** Obstacles near a piece given by two or three points. Pieces next to an end leave out what that end is exempt from. */
  private listFor(at: number[], firstEdge: number, lastEdge: number, edges: number): PieceList {
    const { world, exempt } = this.input;
    const reach = this.r + LIST_MARGIN_M + 0.003;
    const low = [0, 1, 2].map((axis) => {
      let least = Number.POSITIVE_INFINITY;
      for (let k = axis; k < at.length; k += 3) least = Math.min(least, at[k] as number);
      return least - reach;
    });
    const high = [0, 1, 2].map((axis) => {
      let most = Number.NEGATIVE_INFINITY;
      for (let k = axis; k < at.length; k += 3) most = Math.max(most, at[k] as number);
      return most + reach;
    });
    const soft: number[] = [];
    const near = world.near(
      low[0] as number,
      low[1] as number,
      low[2] as number,
      high[0] as number,
      high[1] as number,
      high[2] as number,
      soft,
    );
    // The sagitta between the points of a wide arc.
    let bow = 0;
    if (at.length === 9) {
      const mx = ((at[0] as number) + (at[6] as number)) / 2 - (at[3] as number);
      const my = ((at[1] as number) + (at[7] as number)) / 2 - (at[4] as number);
      const mz = ((at[2] as number) + (at[8] as number)) / 2 - (at[5] as number);
      bow = Math.sqrt(mx * mx + my * my + mz * mz) * 0.35;
    }
    const within = (rank: number): boolean => {
      const cutoff = reach + bow + (world.obstacles[rank] as Obstacle).gapM;
      for (let k = 0; k + 5 < at.length; k += 3)
        if (
          world.distance(
            rank,
            at[k] as number,
            at[k + 1] as number,
            at[k + 2] as number,
            at[k + 3] as number,
            at[k + 4] as number,
            at[k + 5] as number,
            cutoff,
          ) < cutoff
        )
          return true;
      return false;
    };
    const ranks = near.filter((rank) => {
      const obstacle = world.obstacles[rank] as Obstacle;
      if (firstEdge <= 1 && exempt[0](obstacle)) return false;
      if (lastEdge >= edges - 2 && exempt[1](obstacle)) return false;
      return within(rank);
    });
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
    return { ranks, soft: soft.filter(within), nearHull, at: [...at] };
  }

  // ---- moves

  private sweep(backwards: boolean): boolean {
    let moved = false;
    const count = this.elements.length;
    for (let i = 0; i < count; i += 1) {
      const e = backwards ? count - 1 - i : i;
      if (this.moveElement(e)) moved = true;
    }
    return moved;
  }

  private moveElement(e: number): boolean {
    const element = this.elements[e] as Element;
    const steps = this.steps[e] as number[];
    const frame = element.kind === 'free' || element.kind === 'clip' ? this.frameAt(this.first[e] as number) : null;
    let moved = false;
    let alive = false;
    for (let p = 0; p < steps.length; p += 1) {
      if (element.kind === 'hole' && element.hole && p < 2) continue;
      let step = steps[p] as number;
      if (step < this.lastStep) continue;
      alive = true;
      const gained = this.tryStep(e, frame, p, step) || this.tryStep(e, frame, p, -step);
      if (gained) {
        moved = true;
        step = Math.min(LARGEST_STEP_M, step * 1.7);
      } else step *= 0.45;
      steps[p] = step;
    }
    return moved || alive;
  }

  /** Axes for a free corner: along the band, towards the inside of its bend, and square to both. */
  private frameAt(k: number): readonly number[] {
    let tx = (this.dx[k - 1] as number) + (this.dx[k] as number);
    let ty = (this.dy[k - 1] as number) + (this.dy[k] as number);
    let tz = (this.dz[k - 1] as number) + (this.dz[k] as number);
    let size = Math.sqrt(tx * tx + ty * ty + tz * tz);
    if (size < 1e-6) {
      tx = this.dx[k] as number;
      ty = this.dy[k] as number;
      tz = this.dz[k] as number;
      size = 1;
    }
    tx /= size;
    ty /= size;
    tz /= size;
    let bx = (this.dx[k] as number) - (this.dx[k - 1] as number);
    let by = (this.dy[k] as number) - (this.dy[k - 1] as number);
    let bz = (this.dz[k] as number) - (this.dz[k - 1] as number);
    let along = bx * tx + by * ty + bz * tz;
    bx -= tx * along;
    by -= ty * along;
    bz -= tz * along;
    size = Math.sqrt(bx * bx + by * by + bz * bz);
    if (size < 1e-6) {
      // Straight here: any square direction, the one nearest to the vertical.
      along = tz;
      bx = -tx * along;
      by = -ty * along;
      bz = 1 - tz * along;
      size = Math.sqrt(bx * bx + by * by + bz * bz);
      if (size < 1e-3) {
        bx = 1 - tx * tx;
        by = -ty * tx;
        bz = -tz * tx;
        size = Math.sqrt(bx * bx + by * by + bz * bz);
      }
    }
    bx /= size;
    by /= size;
    bz /= size;
    return [bx, by, bz, ty * bz - tz * by, tz * bx - tx * bz, tx * by - ty * bx, tx, ty, tz];
  }

  private readonly old: number[] = [];
  private readonly saved: number[] = [];

  private tryStep(e: number, frame: readonly number[] | null, p: number, step: number): boolean {
    const from = Math.max(0, e - 1);
    const to = Math.min(this.elements.length - 1, e + 1);
    let o = 0;
    for (let n = from; n <= to; n += 1) for (const value of (this.elements[n] as Element).params) this.old[o++] = value;
    const tight = this.tightSides(e, p);
    const element = this.elements[e] as Element;
    const params = element.params;
    if (frame && p < 3) {
      params[0] = (params[0] as number) + (frame[3 * p] as number) * step;
      params[1] = (params[1] as number) + (frame[3 * p + 1] as number) * step;
      params[2] = (params[2] as number) + (frame[3 * p + 2] as number) * step;
    } else {
      const next = (params[p] as number) + step;
      const least = element.kind === 'lead' ? element.leadM : element.kind === 'hole' && p >= 2 ? element.stubM : 0;
      if ((element.kind !== 'hole' || p >= 2) && next < least) {
        if ((params[p] as number) <= least + 1e-9) return false;
        params[p] = least;
      } else params[p] = next;
    }
    if (this.attempt(e, tight)) return true;
    o = 0;
    for (let n = from; n <= to; n += 1) {
      const old = (this.elements[n] as Element).params;
      for (let q = 0; q < old.length; q += 1) old[q] = this.old[o++] as number;
    }
    return false;
  }

  /**
   * Which bends beside the moving element begin right where their lead or stub ends: bit 0 behind the element before, 1 and 2
   * before and behind the element itself, 3 before the one after. They keep doing so while it moves, or the band would stick
   * where two of them meet: no corner could move alone.
   */
  private tightSides(e: number, p: number): number {
    const isOwnMove = (this.elements[e] as Element).kind === 'hole' && p < 2;
    return (
      (e > 0 && this.isTight(e - 1, true) ? 1 : 0) |
      (isOwnMove && this.isTight(e, false) ? 2 : 0) |
      (isOwnMove && this.isTight(e, true) ? 4 : 0) |
      (e + 1 < this.elements.length && this.isTight(e + 1, false) ? 8 : 0)
    );
  }

  private isTight(e: number, behind: boolean): boolean {
    const element = this.elements[e] as Element;
    if (element.kind === 'lead') {
      if ((e === 0) !== behind) return false;
      const slack = (element.params[0] as number) - element.leadM - (this.tangent[this.first[e] as number] as number);
      return Math.abs(slack) < TIGHT_M;
    }
    if (element.kind !== 'hole') return false;
    const corner = (this.first[e] as number) + (behind ? 1 : 0);
    const slack =
      (element.params[behind ? 3 : 2] as number) - element.stubM - SPARE_M - (this.tangent[corner] as number);
    return Math.abs(slack) < TIGHT_M;
  }

  /** Sets a lead's or stub's corner so that its bend begins where the straight ends and points at the next corner. */
  private tighten(e: number, behind: boolean): void {
    const element = this.elements[e] as Element;
    if (element.kind !== 'lead' && element.kind !== 'hole') return;
    const corner = (this.first[e] as number) + (element.kind === 'hole' && behind ? 1 : 0);
    const other = behind ? corner + 1 : corner - 1;
    const p = element.kind === 'lead' ? 0 : behind ? 3 : 2;
    const reserve = element.kind === 'lead' ? element.leadM : element.stubM + SPARE_M;
    const n = element.kind === 'lead' ? element.out : element.frame.n;
    const side = element.kind === 'lead' || element.forward === behind ? 1 : -1;
    const back = (element.params[p] as number) - reserve;
    const dx = (this.x[other] as number) - (this.x[corner] as number) + n[0] * side * back;
    const dy = (this.y[other] as number) - (this.y[corner] as number) + n[1] * side * back;
    const dz = (this.z[other] as number) - (this.z[corner] as number) + n[2] * side * back;
    const ahead = (dx * n[0] + dy * n[1] + dz * n[2]) * side;
    const aside = Math.sqrt(Math.max(0, dx * dx + dy * dy + dz * dz - ahead * ahead));
    // Circle of the bend: centre R aside of the end of the straight; the tangent from the other corner to it.
    const free = ahead * ahead + (aside - this.R) ** 2 - this.R * this.R;
    if (free <= 0) return;
    let angle = Math.atan2(aside - this.R, ahead) + Math.atan2(this.R, Math.sqrt(free));
    if (angle < 0) angle = 0;
    if (angle > LARGEST_TURN_RAD) return;
    element.params[p] = reserve + tangentOf(angle, this.R);
    placeCorners(element, this.first[e] as number, this.x, this.y, this.z);
  }

  /** Takes the element's new parameters if they lower the price; else everything but the parameters is put back. */
  private attempt(e: number, tight: number): boolean {
    const element = this.elements[e] as Element;
    const i = this.first[tight & 1 ? e - 1 : e] as number;
    const end = tight & 8 ? e + 1 : e;
    const j = (this.first[end] as number) + cornersOf(this.elements[end] as Element) - 1;
    const last = this.corners - 1;
    const edgeFrom = Math.max(0, i - 2);
    const edgeTo = Math.min(last - 1, j + 1);
    const bendFrom = Math.max(1, i - 1);
    const bendTo = Math.min(last - 1, j + 1);
    let before = this.holeCost[e] as number;
    for (let k = edgeFrom; k <= edgeTo; k += 1) before += (this.edgeCost[k] as number) + (this.edgeClear[k] as number);
    for (let k = bendFrom; k <= bendTo; k += 1) before += (this.bendCost[k] as number) + (this.bendClear[k] as number);
    const saved = this.saved;
    let s = 0;
    for (let k = i; k <= j; k += 1) {
      saved[s++] = this.x[k] as number;
      saved[s++] = this.y[k] as number;
      saved[s++] = this.z[k] as number;
    }
    placeCorners(element, this.first[e] as number, this.x, this.y, this.z);
    for (let round = tight === 0 ? TIGHTENINGS : 0; round < TIGHTENINGS; round += 1) {
      if (tight & 1) this.tighten(e - 1, true);
      if (tight & 2) this.tighten(e, false);
      if (tight & 4) this.tighten(e, true);
      if (tight & 8) this.tighten(e + 1, false);
    }
    this.geometry(i, j);
    const fresh: number[] = this.fresh;
    let f = 0;
    let after = 0;
    const goal = before - 1e-7;
    for (let k = edgeFrom; k <= edgeTo; k += 1) after += fresh[f++] = this.priceEdge(k);
    for (let k = bendFrom; k <= bendTo; k += 1) after += fresh[f++] = this.priceBend(k);
    let taken = after < goal;
    if (taken) {
      after += fresh[f++] = VIOLATION_WEIGHT * this.holeViolation(e);
      taken = after < goal;
    }
    for (let k = bendFrom; taken && k <= bendTo; k += 1) {
      after += fresh[f++] = this.clearBend(k);
      taken = after < goal;
    }
    for (let k = edgeFrom; taken && k <= edgeTo; k += 1) {
      after += fresh[f++] = this.clearEdge(k);
      taken = after < goal;
    }
    if (!taken) {
      s = 0;
      for (let k = i; k <= j; k += 1) {
        this.x[k] = saved[s++] as number;
        this.y[k] = saved[s++] as number;
        this.z[k] = saved[s++] as number;
      }
      this.geometry(i, j);
      return false;
    }
    f = 0;
    for (let k = edgeFrom; k <= edgeTo; k += 1) this.edgeCost[k] = fresh[f++] as number;
    for (let k = bendFrom; k <= bendTo; k += 1) this.bendCost[k] = fresh[f++] as number;
    this.holeCost[e] = fresh[f++] as number;
    for (let k = bendFrom; k <= bendTo; k += 1) this.bendClear[k] = fresh[f++] as number;
    for (let k = edgeFrom; k <= edgeTo; k += 1) this.edgeClear[k] = fresh[f++] as number;
    return true;
  }
  private readonly fresh: number[] = [];

  /** Free corners that only cost are left out. */
  private dropCorners(): boolean {
    let dropped = false;
    for (let e = this.elements.length - 2; e >= 1; e -= 1) {
      if ((this.elements[e] as Element).kind !== 'free') continue;
      const kept = this.elements;
      const steps = this.steps;
      const { edgeLists, bendLists } = this;
      const before = this.total();
      const corner = this.first[e] as number;
      this.elements = kept.filter((_, k) => k !== e);
      // Lists know for which place they were made: those of the other pieces stay good.
      this.layOut(
        edgeLists.filter((_, k) => k !== corner),
        bendLists.filter((_, k) => k !== corner),
      );
      this.steps = steps.filter((_, k) => k !== e).map((one) => one.map((step) => Math.max(step, 0.01)));
      if (this.total() <= before + 1e-9) {
        dropped = true;
        continue;
      }
      this.elements = kept;
      this.layOut(edgeLists, bendLists);
      this.steps = steps;
    }
    return dropped;
  }

  /** Where falling ends and rising begins at the least price: one valley is free, only crests between cost. */
  private chooseSplit(): void {
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

function outOfReach(at: readonly number[], k: number, x: number, y: number, z: number): boolean {
  const dx = (at[k] as number) - x;
  const dy = (at[k + 1] as number) - y;
  const dz = (at[k + 2] as number) - z;
  return dx * dx + dy * dy + dz * dz > LIST_MARGIN_M * LIST_MARGIN_M;
}
