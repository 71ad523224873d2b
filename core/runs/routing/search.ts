/**
 * Lazy A* over the sparse graph: sight between two nodes is tested only when the cheaper one comes out of the heap. Turns cost
 * what a bend of the hose's radius costs: extra length where the direction is given, missing straight length everywhere.
 */
import * as portable from '../../base/portable';
import { dot, type Vec3 } from '../../base/vec';
import type { Cell } from '../../shape/layout/types';
import { FeedRoom } from './feed-room';
import { goalField } from './field';
import { CostHeap } from './heap';
import { contains, type HoseClass, type Nodes, nodesOf, pointsBeside } from './nodes';
import { Offers } from './offers';
import { Places } from './places';
import { pointsByRidges } from './ridges';
import { Seats } from './seats';
import { type Stop, type StretchEnd, type StretchWay, WHOLE_LINE } from './stretch';
import type { PortalFrame } from './structure';
import { tangentAt, turnExcess } from './turns';
import type { RunWishes } from './wishes/wishes';
import type { Obstacle, World } from './world';

export interface Penalty {
  readonly at: Vec3;
  readonly radiusM: number;
  readonly costM: number;
}

export const SUCTION_WEIGHT = 3;
/** Straight length missing for a bend costs this much a metre: the band can sometimes find it, but not for nothing. */
const MISSING_WEIGHT = 1.5;
/** More than 1 looks ahead more boldly: a fifth of the work, and a way of the graph that may be up to this much dearer than the cheapest. */
export const GUIDE_WEIGHT = 1.15;
/** Sight lines keep this much more than the hose needs. */
const SIGHT_SPARE_M = 0.0005;

/** A state reached for good, and the offers out of it. */
interface Reached {
  readonly state: number;
  readonly parent: number;
  readonly cost: number;
  readonly tangent: number;
  readonly from: number;
  to: number;
  /** The offer that stands in the heap for this state. */
  best: number;
}

interface Delayed {
  /** Of the state that it leads out of. */
  readonly place: number;
  readonly offer: number;
}
/** Corners of a run that must rise stand this share of the bend radius above the height: a bend cuts its corner. */
const RISE_OVER = 0.3;
const RISE_AT = [0.12, 0.5, 0.88] as const;
/** Entries of the heap from here on are delayed offers. */
const DELAYED = 2 ** 40;
/** An edge that its wishes make dearer by less than this is taken as it comes. */
const DEAR_M = 0.002;

export class Search {
  readonly nodes: Nodes;
  private readonly places: Places;
  private readonly ofCell: (readonly number[] | null)[];
  private readonly start: number;
  private readonly goal: number;
  private readonly penalties: Penalty[] = [];
  private readonly rise: RunWishes['rise'];
  /** What penalties add at each node. */
  private readonly dear: number[] = [];
  private guideWeight = GUIDE_WEIGHT;
  private readonly offers = new Offers();
  /** States reached for good, in order. */
  private reached: Reached[] = [];
  private readonly sights = new Map<number, boolean>();
  private readonly seats: Seats;
  /** Offers that turned out dearer than they looked. */
  private readonly delayed: Delayed[] = [];

  constructor(
    private readonly world: World,
    private readonly hose: HoseClass,
    private readonly from: StretchEnd,
    private readonly to: StretchEnd,
    private readonly isAllowed: (cell: number) => boolean,
    private readonly suction: { readonly up: Vec3 } | null,
    /** What the cost of a hole counts for: 1, or 0 when length alone matters. */
    private readonly holeWeight: number,
    private readonly way: StretchWay = WHOLE_LINE,
  ) {
    this.rise = way.mustRise ? world.prices.wishes.rise : null;
    this.nodes = nodesOf(world.view.layout, world.hull, hose);
    this.start = this.nodes.count;
    this.goal = this.nodes.count + 1;
    const field = goalField(
      this.nodes,
      { x: to.at[0], y: to.at[1], z: to.at[2], cell: to.cell },
      isAllowed,
      holeWeight,
      from.cell,
      way.isThorough ? Number.POSITIVE_INFINITY : undefined,
    );
    this.places = new Places(this.nodes, field);
    this.seats = new Seats(world.view, world.line, world.structure, this.nodes, hose);
    for (const node of this.seats.shutNodes()) this.places.guide[node] = Number.POSITIVE_INFINITY;
    this.ofCell = world.view.layout.cells.map(() => null);
    this.add(from.at, from.cell);
    this.add(to.at, to.cell);
  }

  /** True when some chain of panels, open, holed or drillable, leads from start to goal. */
  get isConnected(): boolean {
    return this.guideOf(this.start) < Number.POSITIVE_INFINITY;
  }

  /** Of the places that the last look reached, the one nearest to the goal by the guide. */
  get farthest(): Vec3 {
    let node = this.start;
    let least = Number.POSITIVE_INFINITY;
    for (const { state } of this.reached) {
      const one = this.key(state);
      const left = this.guideOf(one);
      if (left < least) {
        least = left;
        node = one;
      }
    }
    return [this.px(node), this.py(node), this.pz(node)];
  }

  penalise(penalty: Penalty): void {
    this.penalties.push(penalty);
    const { count, at } = this.places;
    const { radiusM } = penalty;
    const x = penalty.at[0];
    for (let node = this.dear.length; node < count; node += 1) this.dear.push(0);
    for (let node = 0; node < count; node += 1) {
      const dx = (at[3 * node] as number) - x;
      if (dx > radiusM || dx < -radiusM) continue;
      const price = priceNear(penalty, x + dx, at[3 * node + 1] as number, at[3 * node + 2] as number);
      if (price > 0) this.dear[node] = (this.dear[node] as number) + price;
    }
  }

  /**
   * The cheapest way found, or null when there is none within the budget. Yields its work now and then, in sight tests.
   */
  *run(popLimit: number, guideWeight = GUIDE_WEIGHT): Generator<number, readonly Stop[] | null> {
    const { offers, places } = this;
    this.guideWeight = guideWeight;
    const heap = new CostHeap();
    offers.count = 0;
    this.reached = [];
    this.delayed.length = 0;
    places.reached.fill(-1);
    const reach = (state: number, parent: number, cost: number, tangent: number): void => {
      const place = this.reached.length;
      const one: Reached = { state, parent, cost, tangent, from: offers.count, to: offers.count, best: -1 };
      this.reached.push(one);
      places.reached[state] = place;
      this.expand(one);
      one.to = offers.count;
      offers.arrange(one.from, one.to);
      one.best = one.to > one.from ? (offers.order[one.from] as number) : -1;
      if (one.best >= 0) heap.push(offers.total[one.best] as number, place);
    };
    reach(this.state(this.start, 0), -1, 0, 0);
    let pops = 0;
    let since = 0;
    for (let place = heap.pop(); place >= 0; place = heap.pop()) {
      if (place >= DELAYED) {
        const { place: parent, offer } = this.delayed[place - DELAYED] as Delayed;
        const later = offers.state[offer] as number;
        if ((places.reached[later] as number) >= 0) continue;
        const before = this.reached[parent] as Reached;
        if (this.key(later) === this.goal) {
          yield since;
          return this.stops(before);
        }
        reach(later, before.state, offers.cost[offer] as number, offers.tangent[offer] as number);
        continue;
      }
      const one = this.reached[place] as Reached;
      const k = one.best;
      one.to = offers.take(one.from, one.to);
      one.best = one.to > one.from ? (offers.order[one.from] as number) : -1;
      if (one.best >= 0) heap.push(offers.total[one.best] as number, place);
      const state = offers.state[k] as number;
      if ((places.reached[state] as number) >= 0) continue;
      const node = this.key(state);
      if (node < this.nodes.count && !this.nodes.isFree(node)) {
        places.guide[node] = Number.POSITIVE_INFINITY;
        continue;
      }
      pops += 1;
      since += 1;
      if (since >= 64) {
        yield since;
        since = 0;
      }
      if (pops > popLimit) break;
      if (!this.sees(one.state, state)) continue;
      // What an edge pays for wishes is asked only now: most edges are never looked at.
      const wished = this.wishedAlong(this.key(one.state), node);
      if (wished > DEAR_M) {
        offers.cost[k] = (offers.cost[k] as number) + wished;
        heap.push((offers.total[k] as number) + wished, DELAYED + this.delayed.length);
        this.delayed.push({ place, offer: k });
        continue;
      }
      offers.cost[k] = (offers.cost[k] as number) + wished;
      if (this.key(state) === this.goal) {
        yield since;
        return this.stops(one);
      }
      reach(state, one.state, offers.cost[k] as number, offers.tangent[k] as number);
    }
    yield since;
    return null;
  }

  private offer(state: number, cost: number, tangent: number): void {
    const h = this.guideOf(this.key(state));
    if (h === Number.POSITIVE_INFINITY) return;
    const ahead = this.suction ? this.pumpAhead(state) : this.rise ? this.riseAhead(state) : 0;
    this.offers.add(state, cost, cost + this.guideWeight * h + ahead, tangent);
  }

  // With suction each place is two states: phase 0 pays for rising, phase 1 for falling, and 0 may turn into 1 anywhere. Of a run that
  // must rise to a height phase 1 has been there: 0 turns into 1 for what is missing, and only 1 may arrive.
  private state(node: number, phase: number): number {
    return 2 * node + phase;
  }
  private key(state: number): number {
    return state >> 1;
  }

  private get hasPhases(): boolean {
    return this.suction !== null || this.rise !== null;
  }

  /** How much lower a place is than the height that the run must rise to. */
  private lackingAt(node: number): number {
    const { up, waterLevelM = 0 } = this.world.view;
    const height = this.px(node) * up[0] + this.py(node) * up[1] + this.pz(node) * up[2] - waterLevelM;
    return this.rise ? Math.max(0, this.rise.toM - height) : 0;
  }

  /** In phase 0: what the way by the height is longer than the straight one, or what it costs to do without. */
  private riseAhead(state: number): number {
    const node = this.key(state);
    const here = this.lackingAt(node);
    if (!this.rise || (state & 1) === 1 || here === 0) return 0;
    const level = portable.hypot(this.px(node) - this.to.at[0], this.py(node) - this.to.at[1]);
    const there = this.lackingAt(this.goal);
    const detour = portable.hypot(level, here + there) - portable.hypot(level, here - there);
    return Math.min(detour, this.rise.price * here);
  }

  /** Places where zones end, at the heights of the stretch's ends and over the zone: a detour begins there. */
  private pointsRoundZones(bounds: Cell): Vec3[] {
    const { zones } = this.world.prices.inCell(bounds.index);
    const points: Vec3[] = [];
    const { radiusM } = this.hose;
    const inset = radiusM + SIGHT_SPARE_M;
    const within = (value: number, axis: 0 | 1 | 2): number =>
      Math.max(bounds.low[axis] + inset, Math.min(bounds.high[axis] - inset, value));
    for (const { zone } of zones) {
      if (!zone.solid) continue;
      const xs = [
        within(zone.low[0] - radiusM, 0),
        (zone.low[0] + zone.high[0]) / 2,
        within(zone.high[0] + radiusM, 0),
      ];
      const ys = [
        within(zone.low[1] - radiusM, 1),
        (zone.low[1] + zone.high[1]) / 2,
        within(zone.high[1] + radiusM, 1),
      ];
      const over = zone.kind === 'electrics' ? [] : [within(zone.high[2] + radiusM, 2)];
      const heights = [within(this.from.at[2], 2), within(this.to.at[2], 2)];
      xs.forEach((x, i) => {
        ys.forEach((y, j) => {
          const isMiddle = i === 1 && j === 1;
          for (const z of isMiddle ? over : [...heights, ...over])
            if (contains(bounds, [x, y, z], -radiusM)) points.push([x, y, z]);
        });
      });
    }
    return points;
  }

  /** Places at the height that the run must rise to: nothing else might stand there. */
  private pointsAtHeight({ low, high, planes }: Cell): Vec3[] {
    if (!this.rise) return [];
    const { up, waterLevelM = 0 } = this.world.view;
    const { radiusM, bendRadiusM } = this.hose;
    const over = this.rise.toM + waterLevelM + RISE_OVER * bendRadiusM;
    const points: Vec3[] = [];
    const put = (x: number, y: number): void => {
      // Where it cannot be had, as high as the compartment goes.
      const p: Vec3 = [x, y, Math.min(high[2] - radiusM - SIGHT_SPARE_M, (over - x * up[0] - y * up[1]) / up[2])];
      if (planes.every(({ normal, offset }) => dot(normal, p) <= offset - radiusM)) points.push(p);
    };
    for (const end of [this.from, this.to]) put(end.at[0], end.at[1]);
    for (const u of RISE_AT)
      for (const v of RISE_AT) put(low[0] + (high[0] - low[0]) * u, low[1] + (high[1] - low[1]) * v);
    return points;
  }

  private add(at: Vec3, cell: number): number {
    const node = this.places.add(at, cell);
    if (this.penalties.length > 0)
      this.dear[node] = this.penalties.reduce((sum, one) => sum + priceNear(one, at[0], at[1], at[2]), 0);
    return node;
  }

  private px(node: number): number {
    return this.places.at[3 * node] as number;
  }
  private py(node: number): number {
    return this.places.at[3 * node + 1] as number;
  }
  private pz(node: number): number {
    return this.places.at[3 * node + 2] as number;
  }
  private cellOf(node: number): number {
    return this.places.cell[node] as number;
  }

  private nodesIn(cell: number): readonly number[] {
    const known = this.ofCell[cell];
    if (known) return known;
    const list = [...(this.nodes.ofCell[cell] as readonly number[])];
    if (this.from.cell === cell) list.push(this.start);
    if (this.to.cell === cell) list.push(this.goal);
    const bounds = this.world.view.layout.cells[cell] as (typeof this.world.view.layout.cells)[number];
    const beside = (solids: readonly Parameters<typeof pointsBeside>[0][]): void => {
      for (const solid of solids)
        for (const p of pointsBeside(solid, this.hose, this.way.isNarrow))
          if (contains(bounds, p, 0)) list.push(this.add(p, cell));
    };
    const { hull } = this.world;
    if (hull) for (const p of pointsByRidges(hull, bounds, this.hose)) list.push(this.add(p, cell));
    for (const p of this.pointsAtHeight(bounds)) list.push(this.add(p, cell));
    for (const p of this.pointsRoundZones(bounds)) list.push(this.add(p, cell));
    beside(this.world.view.thingsIn(cell));
    beside(this.world.view.runsIn(cell));
    this.seats.take(cell, (node, at) => this.seat(node, at));
    this.ofCell[cell] = list;
    return list;
  }

  /** Moves a node of a hole to where there is room in it, or shuts it. */
  private seat(node: number, at: Vec3 | null): void {
    if (at) this.places.at.set(at, 3 * node);
    else this.places.guide[node] = Number.POSITIVE_INFINITY;
  }

  /** Relaxed way to the goal from any node: through the nearest node of the layout, or straight within the goal's cell. */
  private guideOf(node: number): number {
    const known = this.places.guide[node] as number;
    if (!Number.isNaN(known)) return known;
    const cell = this.cellOf(node);
    const x = this.px(node);
    const y = this.py(node);
    const z = this.pz(node);
    const { at } = this.nodes;
    let least = Number.POSITIVE_INFINITY;
    if (cell === this.to.cell)
      least = Math.sqrt((x - this.to.at[0]) ** 2 + (y - this.to.at[1]) ** 2 + (z - this.to.at[2]) ** 2);
    else
      for (const n of this.nodes.ofCell[cell] as readonly number[]) {
        const beyond = this.places.guide[n] as number;
        if (beyond >= least) continue;
        const dx = (at[3 * n] as number) - x;
        const dy = (at[3 * n + 1] as number) - y;
        const dz = (at[3 * n + 2] as number) - z;
        const way = beyond + Math.sqrt(dx * dx + dy * dy + dz * dz);
        if (way < least) least = way;
      }
    this.places.guide[node] = least;
    return least;
  }

  private heightOf(node: number): number {
    const up = this.suction?.up;
    return up ? this.px(node) * up[0] + this.py(node) * up[1] + this.pz(node) * up[2] : 0;
  }

  /** In phase 1 every fall costs: at least the height still to be lost. */
  private pumpAhead(state: number): number {
    if (!this.suction || (state & 1) === 0) return 0;
    return SUCTION_WEIGHT * Math.max(0, this.heightOf(this.key(state)) - this.heightOf(this.goal));
  }

  private expand({ state, parent, cost, tangent: taken }: Reached): void {
    const before = parent < 0 ? -1 : this.key(parent);
    const node = this.key(state);
    const { nodes, hose } = this;
    const passed = before >= 0 && node < nodes.count && nodes.mate[node] === before;
    const mate = node < nodes.count ? (nodes.mate[node] as number) : -1;
    if (mate >= 0 && !passed) {
      // On the near side of a panel: the way leads through it and nowhere else, or the node would not be on the way.
      if (!this.isAllowed(nodes.cell[mate] as number)) return;
      const passage = nodes.passage[node] ?? null;
      // At an open panel the turn is reckoned behind it, with what the corner before has taken.
      const through = passage ? 2 * passage.stubM + this.holeWeight * passage.costM : 0;
      this.offerPhases(state, mate, cost + through, passage || before < 0 ? 0 : taken, node);
      return;
    }
    const x = this.px(node);
    const y = this.py(node);
    const z = this.pz(node);
    // Direction of arrival: given at the start and behind a hole, from the last node elsewhere. An open panel's pair is one
    // point: the hose comes from where it came to the pair.
    let tx = 0;
    let ty = 0;
    let tz = 0;
    let arrivedM = Number.POSITIVE_INFINITY;
    let isFixed = false;
    if (node === this.start) {
      const given = this.from.direction;
      if (given) {
        [tx, ty, tz] = given;
        isFixed = true;
      }
    } else if (passed && nodes.passage[node]) {
      tx = -(nodes.toward[3 * node] as number);
      ty = -(nodes.toward[3 * node + 1] as number);
      tz = -(nodes.toward[3 * node + 2] as number);
      isFixed = true;
    } else {
      const place = passed ? (this.places.reached[parent] as number) : -1;
      const last = place < 0 ? before : this.key((this.reached[place] as Reached).parent);
      if (last >= 0) {
        tx = x - this.px(last);
        ty = y - this.py(last);
        tz = z - this.pz(last);
        arrivedM = Math.sqrt(tx * tx + ty * ty + tz * tz);
        const inverse = arrivedM > 1e-9 ? 1 / arrivedM : 0;
        tx *= inverse;
        ty *= inverse;
        tz *= inverse;
      }
    }
    const hasArrival = tx !== 0 || ty !== 0 || tz !== 0;
    const R = hose.bendRadiusM;
    const ownFrame = node < nodes.count ? (nodes.frame[node] as number) : -1;
    const around = this.nodesIn(this.cellOf(node));
    const { at, guide, reached } = this.places;
    const { up } = this.world.view;
    const isDrain = this.world.prices.wishes.fall > 0;
    const downhill = this.way.isBackward ? -1 : 1;
    for (const next of around) {
      if (next === node || next === before || next === this.start) continue;
      if (guide[next] === Number.POSITIVE_INFINITY || (!this.hasPhases && (reached[2 * next] as number) >= 0)) continue;
      if (next < nodes.count) {
        const beyond = nodes.mate[next] as number;
        if (beyond >= 0 && (nodes.frame[next] === ownFrame || !this.isAllowed(nodes.cell[beyond] as number))) continue;
      }
      const dx = (at[3 * next] as number) - x;
      const dy = (at[3 * next + 1] as number) - y;
      const dz = (at[3 * next + 2] as number) - z;
      const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
      if (length < 1e-6) continue;
      let extra = 0;
      let tangent = 0;
      if (hasArrival) {
        const cos = (dx * tx + dy * ty + dz * tz) / length;
        tangent = tangentAt(cos, R);
        if (isFixed) extra += turnExcess(cos, R);
        else extra += MISSING_WEIGHT * Math.max(0, tangent + taken - arrivedM);
        extra += MISSING_WEIGHT * Math.max(0, tangent - length);
      }
      // The direction that the next node asks for is known already: its bend must fit on this edge too.
      let ox = 0;
      let oy = 0;
      let oz = 0;
      if (next < nodes.count) {
        if (nodes.passage[next]) {
          ox = nodes.toward[3 * next] as number;
          oy = nodes.toward[3 * next + 1] as number;
          oz = nodes.toward[3 * next + 2] as number;
        }
      } else if (next === this.goal && this.to.direction) [ox, oy, oz] = this.to.direction;
      if (ox !== 0 || oy !== 0 || oz !== 0) {
        const cos = (dx * ox + dy * oy + dz * oz) / length;
        extra += turnExcess(cos, R) + MISSING_WEIGHT * Math.max(0, tangent + tangentAt(cos, R) - length);
      }
      if (this.penalties.length > 0) extra += this.dear[next] ?? 0;
      if (isDrain) extra += this.world.prices.slope(length, downhill * (dx * up[0] + dy * up[1] + dz * up[2]));
      this.offerPhases(state, next, cost + length + extra, tangent, node);
    }
  }

  private offerPhases(state: number, next: number, cost: number, tangent: number, node: number): void {
    if (this.rise) {
      if ((state & 1) === 0) {
        if (next !== this.goal) this.offer(this.state(next, 0), cost, tangent);
        this.offer(this.state(next, 1), cost + this.rise.price * this.lackingAt(next), tangent);
      } else this.offer(this.state(next, 1), cost, tangent);
      return;
    }
    if (!this.suction) {
      this.offer(this.state(next, 0), cost, tangent);
      return;
    }
    const rise = this.heightOf(next) - this.heightOf(node);
    if ((state & 1) === 0) this.offer(this.state(next, 0), cost + SUCTION_WEIGHT * Math.max(0, rise), tangent);
    this.offer(this.state(next, 1), cost + SUCTION_WEIGHT * Math.max(0, -rise), tangent);
  }

  /** What an edge pays for the wishes that it does not keep; the straight through a panel is not asked. */
  private wishedAlong(from: number, to: number): number {
    const { prices } = this.world;
    if (prices.isFree || (from < this.nodes.count && this.nodes.mate[from] === to)) return 0;
    const cell = this.cellOf(from);
    return prices.along(
      prices.inCell(cell),
      this.px(from),
      this.py(from),
      this.pz(from),
      this.px(to),
      this.py(to),
      this.pz(to),
      true,
    );
  }

  private sees(fromState: number, toState: number): boolean {
    const from = this.key(fromState);
    const to = this.key(toState);
    const pair = from * 2 ** 24 + to;
    const known = this.sights.get(pair);
    if (known !== undefined) return known;
    if (from < this.nodes.count && this.nodes.mate[from] === to) {
      const passes = this.canFeed(from);
      this.sights.set(pair, passes);
      return passes;
    }
    const exempt = this.exemptOn(from, to);
    const seen = this.world.isClear(
      this.cellOf(from),
      this.px(from),
      this.py(from),
      this.pz(from),
      this.px(to),
      this.py(to),
      this.pz(to),
      this.hose.radiusM + SIGHT_SPARE_M,
      exempt,
    );
    this.sights.set(pair, seen);
    return seen;
  }

  /** Whether an end that is crimped on comes through the hole of a node. */
  private canFeed(node: number): boolean {
    const passage = this.seats.passage(node);
    const { feed } = this.world.line;
    if (!passage || !feed || feed.rigidM === 0) return true;
    const frame = this.world.structure.frames[passage.frame] as PortalFrame;
    return !new FeedRoom(this.world, feed, frame, passage.panel).shortage(passage.at);
  }

  private exemptOn(from: number, to: number): ((obstacle: Obstacle) => boolean) | undefined {
    const atEnd = from === this.start ? this.from.exempt : to === this.goal ? this.to.exempt : undefined;
    const { seats } = this;
    if (!seats.hasBeside(from) && !seats.hasBeside(to)) return atEnd;
    return (obstacle) => (atEnd?.(obstacle) ?? false) || seats.isBeside(from, obstacle) || seats.isBeside(to, obstacle);
  }

  private stops(last: Reached): readonly Stop[] {
    const chain: number[] = [];
    for (let one: Reached | undefined = last; one && one.parent >= 0; ) {
      chain.push(this.key(one.state));
      one = this.reached[this.places.reached[one.parent] as number];
    }
    chain.reverse();
    const stops: Stop[] = [];
    for (let k = 0; k < chain.length; k += 1) {
      const node = chain[k] as number;
      if (node === this.goal || node === this.start) continue;
      const mate = node < this.nodes.count ? (this.nodes.mate[node] as number) : -1;
      if (mate < 0) {
        stops.push({ kind: 'free', at: [this.px(node), this.py(node), this.pz(node)] });
        continue;
      }
      const passage = this.seats.passage(node);
      if (passage) {
        const forward = this.nodes.cell[node] === this.world.structure.frames[passage.frame]?.portal.cells[0];
        stops.push({ kind: 'passage', passage, forward });
      } else stops.push({ kind: 'free', at: [this.px(node), this.py(node), this.pz(node)] });
      k += 1;
    }
    return stops;
  }
}

const priceNear = ({ at, radiusM, costM }: Penalty, x: number, y: number, z: number): number => {
  const d = Math.sqrt((x - at[0]) ** 2 + (y - at[1]) ** 2 + (z - at[2]) ** 2);
  return d < radiusM ? costM * (1 - d / radiusM) : 0;
};
