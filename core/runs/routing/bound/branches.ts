import { along, type Vec3 } from '../../../base/vec';
import { CostHeap } from '../heap';
import { eventOf, intoCell, leastBetween, type Way } from './crossings';
import { halves } from './domain';
import { type BoundEvent, type Chain, type Dual, dualValue, leastLeg, optimiseDual } from './dual';
import type { Clutter, Cut } from './obstacles';
import { type Field, type Question, ROUNDS } from './question';

/** One event of a chain and the leg that leads to it. */
interface Link {
  readonly event: BoundEvent;
  /** Node of the crossing; NONE for the start, BESIDE for a place beside a thing. */
  readonly node: number;
  /** Least length of the leg before it. */
  readonly leg: number;
  readonly where: Where;
}
/** The room that a leg lies in, null where it may be anywhere; `stays`: what leaves the room is looked at apart. */
interface Where {
  readonly room: number | null;
  readonly stays: boolean;
}
const ANYWHERE: Where = { room: null, stays: false };
const NONE = -1;
const BESIDE = -2;

/** A sequence of crossings under way: all runs that begin with it cost at least `value`. */
interface Branch {
  readonly links: readonly Link[];
  /** Of the leg to the goal. */
  readonly last: Where;
  readonly places: readonly Vec3[];
  readonly rooms: readonly number[];
  readonly costs: number;
  readonly value: number;
  /** Certified length up to the last event, once judged. */
  readonly prefix: number;
  readonly judged: boolean;
  /** Complete: it ends in a room of the goal. */
  readonly complete: boolean;
  readonly loose: Dual['loose'];
  readonly splits: number;
  /** Cuts that it has been led past. */
  readonly cuts: number;
}

/** A longer sequence that has not been written out: most never come to it. */
interface Sprout {
  readonly parent: Branch;
  readonly node: number;
  readonly leg: number;
  readonly value: number;
}

/** A chain whose places leave less undecided than this share is not split further. */
const SPLIT_SHARE = 0.002;
const MOST_SPLITS = 10;
/** Legs shorter than this turn hard at both ends. */
const TIGHT_RADII = 3;
/** A crossing beside such a leg is halved down to this share of the radius. */
const TIGHT_SIZE = 0.25;
const MOST_CUTS = 8;
const MOST_WAYS = 4;
const SETTLED: Dual['loose'] = { event: -1, gap: 0 };

/** A place of a chain: a crossing, by the index of its portal, or null for a place beside a thing. */
export interface ChainPlace {
  readonly portal: number | null;
  readonly at: Vec3;
  readonly direction: Vec3 | null;
}

/**
 * Branch and bound over sequences of crossings, best first. Every value on the heap is a bound for all runs behind it, so the
 * least of them is one for all runs, whenever the search stops; it never falls as steps rise.
 *
 * A run that comes back to a room is covered by the sequence without the loop: fewer events ask for less. So no sequence here
 * passes a room twice; only a leg that a thing blocks may leave its room and come back.
 */
export class BranchSearch {
  /** Certified so far. */
  value: number;
  steps = 0;
  isClosed = false;
  private readonly branches: (Branch | Sprout | null)[] = [];
  private readonly heap = new CostHeap();
  private readonly legs = new Map<number, number>();
  private readonly toGoal = new Map<number, number>();
  private readonly complete: Branch[] = [];

  constructor(
    private readonly question: Question,
    private readonly field: Field,
    private readonly clutter: Clutter | null,
    private readonly withCosts: boolean,
    floor: number,
  ) {
    this.value = Math.max(floor, question.leads + field.fromStart);
    for (const room of question.startCells)
      this.put({
        links: [{ event: question.start, node: NONE, leg: 0, where: ANYWHERE }],
        last: { room, stays: false },
        places: [],
        rooms: [room],
        costs: 0,
        value: this.value,
        prefix: 0,
        judged: false,
        complete: question.goalCells.has(room),
        loose: SETTLED,
        splits: 0,
        cuts: 0,
      });
  }

  /** Judges up to so many chains; true when more would not raise the bound. */
  step(most: number): boolean {
    const last = this.steps + most;
    while (!this.isClosed && this.heap.size > 0) {
      const index = this.heap.pop();
      const next = this.branches[index] as Branch | Sprout;
      this.value = Math.max(this.value, next.value);
      const branch = 'parent' in next ? this.grown(next) : next;
      if (!branch.judged && this.steps >= last) {
        this.branches[index] = branch;
        this.heap.push(branch.value, index);
        return false;
      }
      this.branches[index] = null;
      this.open(branch);
    }
    // A heap that ran out would say that there is no way at all; things are known too roughly to say so.
    return this.isClosed || this.heap.size === 0;
  }

  /** The cheapest sequences known, each way of crossing once, best first. */
  ways(): readonly (readonly ChainPlace[])[] {
    const best = new Map<string, Branch>();
    for (const branch of this.complete) {
      const key = branch.links.map(({ node }) => node).join(' ');
      const known = best.get(key);
      if (!known || known.splits < branch.splits || (known.splits === branch.splits && branch.value < known.value))
        best.set(key, branch);
    }
    return [...best.values()]
      .sort((a, b) => a.value - b.value)
      .slice(0, MOST_WAYS)
      .map((branch) => this.placesOf(branch));
  }

  private placesOf({ links, places }: Branch): ChainPlace[] {
    return links.slice(1).map(({ event, node }, k) => ({
      portal: node === BESIDE ? null : (this.question.ways[node >> 1] as Way).portal,
      at: places[k + 1] as Vec3,
      direction: event.tangent,
    }));
  }

  private open(branch: Branch): void {
    if (!branch.judged) {
      const judged = this.judge(branch);
      if (judged.complete) this.complete.push(judged);
      this.put(judged);
      return;
    }
    if (!branch.complete) {
      this.extend(branch);
      return;
    }
    const { event, gap } = branch.loose;
    if (event >= 1 && gap >= SPLIT_SHARE * branch.value && branch.splits < MOST_SPLITS) {
      this.split(branch, event);
      return;
    }
    const tight = this.tightEvent(branch);
    if (tight >= 0) {
      this.split(branch, tight);
      return;
    }
    const blocked = branch.cuts < MOST_CUTS ? this.blockedLeg(branch) : null;
    if (blocked) this.passBeside(branch, blocked.link, blocked.cut);
    else {
      this.isClosed = true;
      this.complete.push({ ...branch, splits: MOST_SPLITS + 1 });
    }
  }

  private put(branch: Branch | Sprout): void {
    this.heap.push(branch.value, this.branches.length);
    this.branches.push(branch);
  }

  private judge(branch: Branch): Branch {
    const { leads, radius, goal } = this.question;
    this.steps += 1;
    const { links, complete, costs } = branch;
    const end = links[links.length - 1] as Link;
    const events = links.map(({ event }) => event);
    const chain: Chain = {
      events: [...events, goal],
      leastLegs: [...links.slice(1).map(({ leg }) => leg), this.legToGoal(branch)],
    };
    const isRoot = end.node === NONE;
    const dual = optimiseDual(chain, radius, isRoot ? ROUNDS.root : ROUNDS.child, branch.places);
    const prefix = isRoot ? 0 : dualValue(chain, dual.directions, radius, events.length - 1);
    // What lies behind the last crossing: at least the field from there on.
    const beyond = complete || isRoot ? 0 : prefix + end.event.stub + (this.field.after[end.node] as number);
    const tight = complete ? this.withoutFree(chain) : 0;
    const value = Math.max(branch.value, leads + costs + Math.max(dual.value, beyond, tight));
    return { ...branch, value, prefix, judged: true, places: dual.places, loose: dual.loose };
  }

  /**
   * The same chain with fewer events asks for less; yet where two legs are short their directions ask for more at once than each of them
   * does with a free end between.
   */
  private withoutFree({ events, leastLegs }: Chain): number {
    const { radius } = this.question;
    const kept: BoundEvent[] = [events[0] as BoundEvent];
    const legs: number[] = [];
    let sum = 0;
    for (let k = 1; k < events.length; k++) {
      const event = events[k] as BoundEvent;
      const before = leastLegs[k - 1] as number;
      sum += before;
      const isFree = event.tangent === null && k + 1 < events.length;
      if (isFree && Math.min(before, leastLegs[k] as number) < TIGHT_RADII * radius) continue;
      legs.push(Math.max(sum, leastLeg(kept[kept.length - 1] as BoundEvent, event, radius)));
      kept.push(event);
      sum = 0;
    }
    if (kept.length === events.length) return 0;
    return optimiseDual({ events: kept, leastLegs: legs }, radius, ROUNDS.child, []).value;
  }

  /** The widest crossing beside a leg so short that it matters where in it the hose passes; -1 without one. */
  private tightEvent({ links, splits }: Branch): number {
    if (splits >= MOST_SPLITS) return -1;
    const { radius } = this.question;
    let [widest, found] = [TIGHT_SIZE * radius, -1];
    for (let k = 1; k < links.length; k++) {
      const { event, leg } = links[k] as Link;
      const least = Math.min(leg, links[k + 1]?.leg ?? Number.POSITIVE_INFINITY);
      if (event.domain.ring.length < 2 || event.domain.size <= widest || least >= TIGHT_RADII * radius) continue;
      widest = event.domain.size;
      found = k;
    }
    return found;
  }

  private extend(branch: Branch): void {
    const { ways, leaving, leads } = this.question;
    const { after } = this.field;
    const end = branch.links[branch.links.length - 1] as Link;
    const from = branch.rooms[branch.rooms.length - 1] as number;
    for (const node of leaving.get(from) ?? []) {
      const beyond = after[node] as number;
      if (branch.rooms.includes(intoCell(ways, node)) || !Number.isFinite(beyond)) continue;
      const event = eventOf(ways, node);
      const leg = this.legBetween(end, node, event);
      // Cheap first: the chain is judged only when nothing cheaper is left.
      const ahead = branch.prefix + end.event.stub + leg + 2 * event.stub + beyond;
      const value = Math.max(branch.value, leads + branch.costs + this.costOf(node) + ahead);
      this.put({ parent: branch, node, leg, value });
    }
  }

  private grown({ parent, node, leg, value }: Sprout): Branch {
    const { ways, goalCells } = this.question;
    const from = parent.rooms[parent.rooms.length - 1] as number;
    const room = intoCell(ways, node);
    return {
      links: [...parent.links, { event: eventOf(ways, node), node, leg, where: { room: from, stays: false } }],
      last: { room, stays: false },
      places: parent.places.slice(0, parent.links.length),
      rooms: [...parent.rooms, room],
      costs: parent.costs + this.costOf(node),
      value,
      prefix: 0,
      judged: false,
      complete: goalCells.has(room),
      loose: SETTLED,
      splits: 0,
      cuts: 0,
    };
  }

  private costOf(node: number): number {
    return this.withCosts ? (this.question.ways[node >> 1] as Way).costM : 0;
  }

  /** Two chains, each with one half of where the event may be. */
  private split(branch: Branch, k: number): void {
    for (const domain of halves((branch.links[k] as Link).event.domain)) {
      const links = branch.links.map((link, i) => (i === k ? { ...link, event: { ...link.event, domain } } : link));
      this.put({ ...branch, links: this.remeasured(links, k), judged: false, splits: branch.splits + 1 });
    }
  }

  /** The same links with the legs beside one of them measured again; they only grow. */
  private remeasured(links: readonly Link[], k: number): Link[] {
    return links.map((link, i) => {
      if (i !== k && i !== k + 1) return link;
      const before = links[i - 1];
      return before
        ? { ...link, leg: Math.max(link.leg, leastLeg(before.event, link.event, this.question.radius)) }
        : link;
    });
  }

  /** The leg whose straight string lies deepest in a thing, by the link that it leads to: links.length for the one to the goal. */
  private blockedLeg({ links, last, places }: Branch): { readonly link: number; readonly cut: Cut } | null {
    if (!this.clutter) return null;
    let worst: { readonly link: number; readonly cut: Cut } | null = null;
    for (let k = 1; k <= links.length; k++) {
      const { room } = links[k]?.where ?? last;
      if (room === null) continue;
      const [a, b] = [(links[k - 1] as Link).event, links[k]?.event ?? this.question.goal];
      const cut = this.clutter.across(
        room,
        a,
        b,
        a.tangent ? along(places[k - 1] as Vec3, a.tangent, a.stub) : (places[k - 1] as Vec3),
        b.tangent ? along(places[k] as Vec3, b.tangent, -b.stub) : (places[k] as Vec3),
      );
      if (cut && (!worst || cut.depthM > worst.cut.depthM)) worst = { link: k, cut };
    }
    return worst;
  }

  /** Chains past a cut: on each side of it that is open, or by any way out of the room. */
  private passBeside(branch: Branch, k: number, cut: Cut): void {
    const { ways, leaving } = this.question;
    const { room, stays } = branch.links[k]?.where ?? branch.last;
    if (room === null) return;
    const inside = { room, stays: true };
    for (const event of this.clutter?.sides(room, cut) ?? [])
      this.insert(branch, k, { event, node: BESIDE, leg: 0, where: inside }, inside, 0);
    if (stays) return;
    for (const node of leaving.get(room) ?? [])
      this.insert(branch, k, { event: eventOf(ways, node), node, leg: 0, where: inside }, ANYWHERE, this.costOf(node));
  }

  /** The chain with another event before link k. */
  private insert(branch: Branch, k: number, link: Link, behind: Where, costM: number): void {
    const { radius, leads, goal } = this.question;
    const next = branch.links[k];
    const moved = [
      ...branch.links.slice(0, k),
      link,
      ...(next ? [{ ...next, where: behind, leg: 0 }] : []),
      ...branch.links.slice(k + 1),
    ];
    const links = this.remeasured(moved, k);
    const end = links[links.length - 1] as Link;
    const sum = links.reduce((total, { event, leg }) => total + leg + 2 * event.stub, 0);
    const costs = branch.costs + costM;
    this.put({
      ...branch,
      links,
      last: next ? branch.last : behind,
      places: [...branch.places.slice(0, k), link.event.domain.centre, ...branch.places.slice(k)],
      costs,
      value: Math.max(branch.value, leads + costs + sum + leastLeg(end.event, goal, radius)),
      judged: false,
      cuts: branch.cuts + 1,
    });
  }

  /** Looked up by the crossings at its two ends; exact where one of them is a single place. */
  private legBetween({ node: before, event: a }: Link, node: number, b: BoundEvent): number {
    const { ways, radius, gap } = this.question;
    const key = (before + 1) * (2 * ways.length + 1) + node;
    const known = this.legs.get(key);
    if (known !== undefined) return known;
    const isPlace = before < 0 || (ways[before >> 1] as Way).isHole || (ways[node >> 1] as Way).isHole;
    const leg = isPlace ? leastLeg(a, b, radius) : leastBetween(ways, before, node, radius, gap);
    this.legs.set(key, leg);
    return leg;
  }

  private legToGoal({ links, splits, cuts }: Branch): number {
    const { goal, radius } = this.question;
    const { node, event } = links[links.length - 1] as Link;
    if (splits > 0 || cuts > 0) return leastLeg(event, goal, radius);
    const leg = this.toGoal.get(node) ?? leastLeg(event, goal, radius);
    this.toGoal.set(node, leg);
    return leg;
  }
}
