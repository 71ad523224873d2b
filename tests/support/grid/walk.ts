import { inner, normalised, type P3, plus, size, times } from '../geometry-oracle';
import { type Lattice, nodeAt, pointOf, SPACING, visit } from './lattice';
import type { HoleSpot } from './tighten';

/** The 26 ways from a node to its neighbours. */
const STEPS: readonly (readonly [number, number, number])[] = [-1, 0, 1].flatMap((i) =>
  [-1, 0, 1].flatMap((j) => [-1, 0, 1].flatMap((k) => (i || j || k ? [[i, j, k] as const] : []))),
);
const HEADINGS: readonly P3[] = STEPS.map((step) => normalised(step as unknown as P3));
const STEP_M = STEPS.map((step) => SPACING * size(step as unknown as P3));
/** No single turn is sharper. */
const SHARPEST = 0.5;

const headingOf = (d: P3): number =>
  HEADINGS.reduce((best, h, k) => (inner(h, d) > inner(HEADINGS[best] as P3, d) ? k : best), 0);

interface Turn {
  readonly to: number;
  /** In nodes. */
  readonly by: readonly [number, number, number];
  /** Places on the way, in nodes from its start. */
  readonly over: readonly (readonly [number, number, number])[];
  readonly costM: number;
  readonly tangentM: number;
}
const turnsOf = new Map<number, readonly (readonly Turn[])[]>();

/** From each heading to those near it, on an arc of the bend radius, its end moved to the nearest node. */
function turnsFor(bend: number): readonly (readonly Turn[])[] {
  const known = turnsOf.get(bend);
  if (known) return known;
  const made = HEADINGS.map((from) =>
    HEADINGS.flatMap((to, k): Turn[] => {
      const cos = inner(from, to);
      if (cos < SHARPEST || cos > 1 - 1e-9) return [];
      const angle = Math.acos(cos);
      const tangentM = bend * Math.tan(angle / 2);
      const across = normalised(plus(to, times(from, -cos)));
      const place = (a: number): P3 => plus(times(from, bend * Math.sin(a)), times(across, bend * (1 - Math.cos(a))));
      const nodes = (p: P3): [number, number, number] =>
        p.map((v) => Math.round(v / SPACING)) as [number, number, number];
      let end = nodes(place(angle));
      let costM = bend * angle;
      if (end.every((v) => v === 0)) {
        end = [...(STEPS[k] as readonly [number, number, number])];
        costM += STEP_M[k] as number;
      }
      const looks = Math.max(1, Math.ceil((bend * angle) / 0.03));
      const over = Array.from({ length: looks }, (_, i) => nodes(place((angle * (i + 1)) / looks))).slice(0, -1);
      return [{ to: k, by: end, over: [...over, end], costM: costM + 0.005, tangentM }];
    }),
  );
  turnsOf.set(bend, made);
  return made;
}

export interface Jump {
  readonly spot: HoleSpot;
  /** Index of the compartment before and of the one behind the hole. */
  readonly rooms: readonly [number, number];
}

export interface WalkWish {
  readonly radius: number;
  readonly bend: number;
  readonly from: { readonly tip: P3; readonly out: P3 };
  readonly to: { readonly tip: P3; readonly out: P3 };
  /** Each hole both ways. */
  readonly jumps: readonly Jump[];
}

export type Waypoint =
  | { readonly kind: 'corner'; readonly at: P3 }
  | { readonly kind: 'hole'; readonly spot: HoleSpot };

/** Nodes may lie a little nearer than the hose needs: the way is drawn exactly afterwards. */
const TOLERANCE = 0.012;
const COMFORT = 0.015;
const BESIDE_HOLES = [0, 0.02, 0.04, 0.06];
const CLOSE_TO_PORT = 0.075;
const MOST_POPS = 100_000;

/** A* over places and headings on one lattice: straight steps, arcs of the bend radius, and holes. */
export class Walk {
  private readonly lattice: Lattice;
  private readonly clear: Float32Array;
  /** Added to a step into the node. */
  private readonly dear: Float32Array;

  constructor(lattice: Lattice, others: readonly { readonly points: readonly P3[]; readonly radius: number }[]) {
    this.lattice = lattice;
    this.clear = lattice.clear.slice();
    this.dear = new Float32Array(lattice.clear.length);
    for (const { points, radius } of others)
      for (const at of points)
        visit(lattice, at, at, radius + 0.06, (node, p) => {
          const d = Math.hypot(p[0] - at[0], p[1] - at[1], p[2] - at[2]) - radius - 0.002;
          if (d < (this.clear[node] as number)) this.clear[node] = d;
        });
  }

  /** Makes a place dear, so that the next search goes another way if there is one. */
  avoid(at: P3, within: number, costM: number): void {
    visit(this.lattice, at, at, within, (node, p) => {
      if (Math.hypot(p[0] - at[0], p[1] - at[1], p[2] - at[2]) < within)
        this.dear[node] = (this.dear[node] as number) + costM;
    });
  }

  search(wish: WalkWish): readonly Waypoint[] | null {
    const { lattice, clear } = this;
    const [start, goal] = [nodeAt(lattice, wish.from.tip), nodeAt(lattice, wish.to.tip)];
    if (start < 0 || goal < 0) return null;
    const [nx, ny, nz] = lattice.count;
    const byPort = new Set<number>();
    for (const tip of [wish.from.tip, wish.to.tip])
      visit(lattice, tip, tip, CLOSE_TO_PORT, (node, p) => {
        if (Math.hypot(p[0] - tip[0], p[1] - tip[1], p[2] - tip[2]) < CLOSE_TO_PORT) byPort.add(node);
      });
    const least = wish.radius - TOLERANCE;
    const isFree = (node: number): boolean =>
      (lattice.room[node] as number) >= 0 && ((clear[node] as number) >= least || byPort.has(node));
    const isOneRoom = (a: number, b: number): boolean => {
      const [p, q] = [lattice.room[a] as number, lattice.room[b] as number];
      return p === q || lattice.joined.has(p * lattice.rooms + q);
    };
    /** The node so many steps away, or -1. */
    const beyond = (node: number, by: readonly [number, number, number]): number => {
      const [i, j, k] = [
        (node % nx) + by[0],
        (Math.floor(node / nx) % ny) + by[1],
        Math.floor(node / (nx * ny)) + by[2],
      ];
      return i < 0 || j < 0 || k < 0 || i >= nx || j >= ny || k >= nz ? -1 : i + nx * (j + ny * k);
    };
    const price = (node: number): number =>
      (this.dear[node] as number) + 0.03 * Math.max(0, 1 - ((clear[node] as number) - least) / (TOLERANCE + COMFORT));
    const leaving = new Map<number, { node: number; heading: number; spot: HoleSpot; costM: number }[]>();
    const arriving = new Map<number, { node: number; costM: number }[]>();
    /** The nearest free node straight before or behind a hole, in the right compartment. */
    const besideHole = ({ at, along, straightM }: HoleSpot, side: 1 | -1, room: number): number => {
      for (const beyondM of BESIDE_HOLES) {
        const node = nodeAt(lattice, plus(at, times(along, side * (straightM + beyondM))));
        if (node >= 0 && lattice.room[node] === room && isFree(node)) return node;
      }
      return -1;
    };
    for (const { spot, rooms } of wish.jumps) {
      const [a, b] = [besideHole(spot, -1, rooms[0]), besideHole(spot, 1, rooms[1])];
      if (a < 0 || b < 0) continue;
      const costM = size(plus(pointOf(lattice, a), times(pointOf(lattice, b), -1))) + spot.costM;
      const heading = headingOf(spot.along);
      leaving.set(a, [...(leaving.get(a) ?? []), { node: b, heading, spot, costM }]);
      arriving.set(b, [...(arriving.get(b) ?? []), { node: a, costM }]);
    }
    // Distances to the goal over places alone guide the search.
    const ahead = new Float32Array(clear.length).fill(Number.POSITIVE_INFINITY);
    const heap = new Heap();
    ahead[goal] = 0;
    heap.push(0, goal);
    let limit = Number.POSITIVE_INFINITY;
    for (let node = heap.pop(); node >= 0; node = heap.pop()) {
      const here = heap.popped;
      if (here > limit) break;
      if (here > (ahead[node] as number) + 1e-6) continue;
      if (node === start) limit = 1.35 * here + 1;
      const offer = (next: number, costM: number): void => {
        // Kept in single precision: a hair less is no gain.
        if (costM >= (ahead[next] as number) - 1e-5) return;
        ahead[next] = costM;
        heap.push(costM, next);
      };
      STEPS.forEach((step, k) => {
        const next = beyond(node, step);
        if (next >= 0 && isFree(next) && isOneRoom(node, next)) offer(next, here + (STEP_M[k] as number) + price(next));
      });
      for (const { node: next, costM } of arriving.get(node) ?? []) offer(next, here + costM);
    }
    if (ahead[start] === Number.POSITIVE_INFINITY) return null;
    return this.walk(wish, { start, goal, ahead, limit, isFree, isOneRoom, beyond, price, leaving });
  }

  private walk(
    wish: WalkWish,
    {
      start,
      goal,
      ahead,
      limit,
      isFree,
      isOneRoom,
      beyond,
      price,
      leaving,
    }: {
      start: number;
      goal: number;
      ahead: Float32Array;
      limit: number;
      isFree: (node: number) => boolean;
      isOneRoom: (a: number, b: number) => boolean;
      beyond: (node: number, by: readonly [number, number, number]) => number;
      price: (node: number) => number;
      leaving: ReadonlyMap<number, readonly { node: number; heading: number; spot: HoleSpot; costM: number }[]>;
    },
  ): readonly Waypoint[] | null {
    const turns = turnsFor(wish.bend);
    const reached = new Map<number, number>();
    const cameBy = new Map<number, { from: number; waypoint: Waypoint | null }>();
    const done = new Set<number>();
    const heap = new Heap();
    const stateOf = (node: number, heading: number): number => node * 26 + heading;
    const offer = (state: number, costM: number, from: number, waypoint: Waypoint | null): void => {
      if (costM >= (reached.get(state) ?? Number.POSITIVE_INFINITY)) return;
      const h = ahead[Math.floor(state / 26)] as number;
      if (!(h <= limit)) return;
      reached.set(state, costM);
      cameBy.set(state, { from, waypoint });
      heap.push(costM + 1.05 * h, state);
    };
    const first = stateOf(start, headingOf(wish.from.out));
    const home = headingOf(times(wish.to.out, -1));
    offer(first, 0, -1, null);
    let pops = 0;
    for (let state = heap.pop(); state >= 0 && pops < MOST_POPS; state = heap.pop()) {
      if (done.has(state)) continue;
      done.add(state);
      pops += 1;
      const [node, heading] = [Math.floor(state / 26), state % 26];
      const here = reached.get(state) as number;
      if (heading === home && (node === goal || STEPS.some((step) => beyond(node, step) === goal)))
        return retrace(state);
      const straight = beyond(node, STEPS[heading] as readonly [number, number, number]);
      if (straight >= 0 && isFree(straight) && isOneRoom(node, straight))
        offer(stateOf(straight, heading), here + (STEP_M[heading] as number) + price(straight), state, null);
      for (const turn of turns[heading] as readonly Turn[]) {
        let [last, extra] = [node, 0];
        const isOpen = turn.over.every((by) => {
          const next = beyond(node, by);
          if (next < 0 || !isFree(next) || !isOneRoom(last, next)) return false;
          if (next !== last) extra += price(next);
          last = next;
          return true;
        });
        if (!isOpen) continue;
        const corner = plus(pointOf(this.lattice, node), times(HEADINGS[heading] as P3, turn.tangentM));
        offer(stateOf(last, turn.to), here + turn.costM + extra, state, { kind: 'corner', at: corner });
      }
      for (const jump of leaving.get(node) ?? [])
        if (jump.heading === heading)
          offer(stateOf(jump.node, heading), here + jump.costM, state, { kind: 'hole', spot: jump.spot });
    }
    return null;

    function retrace(state: number): Waypoint[] {
      const waypoints: Waypoint[] = [];
      for (let at = state; at >= 0; ) {
        const step = cameBy.get(at) as { from: number; waypoint: Waypoint | null };
        if (step.waypoint) waypoints.unshift(step.waypoint);
        at = step.from;
      }
      return waypoints;
    }
  }
}

/** Binary heap of numbered states. */
class Heap {
  private readonly keys: number[] = [];
  private readonly states: number[] = [];
  /** Key of the state that was popped last. */
  popped = 0;

  push(key: number, state: number): void {
    let i = this.keys.length;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if ((this.keys[up] as number) <= key) break;
      this.keys[i] = this.keys[up] as number;
      this.states[i] = this.states[up] as number;
      i = up;
    }
    this.keys[i] = key;
    this.states[i] = state;
  }

  pop(): number {
    const state = this.states[0];
    if (state === undefined) return -1;
    this.popped = this.keys[0] as number;
    const key = this.keys.pop() as number;
    const last = this.states.pop() as number;
    const count = this.keys.length;
    if (count > 0) {
      let i = 0;
      for (;;) {
        let down = 2 * i + 1;
        if (down >= count) break;
        if (down + 1 < count && (this.keys[down + 1] as number) < (this.keys[down] as number)) down += 1;
        if ((this.keys[down] as number) >= key) break;
        this.keys[i] = this.keys[down] as number;
        this.states[i] = this.states[down] as number;
        i = down;
      }
      this.keys[i] = key;
      this.states[i] = last;
    }
    return state;
  }
}
