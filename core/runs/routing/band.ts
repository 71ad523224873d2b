/**
 * The fillet band: moves the corners of a tangent polygon until the filleted hose is short and clears everything. What counts is
 * the filleted shape; a corner may lie inside an obstacle. Violations cost so much more than length that none is left at rest.
 */
import { SPARE_M, slideOf, VIOLATION_WEIGHT } from './band-clearance';
import { cornerFrame, tightAngle } from './band-geometry';
import { BandShape, LARGEST_TURN_RAD } from './band-shape';
import { cornersOf, type Element, holeCentre, placeCorners } from './polygon';
import { tangentOf } from './turns';

const LOOKS_PER_SIGHT = 100;
const FIRST_SETTLING_STEP_M = 0.001;
const HANGING_STEP_M = 0.03;
/** A straight this much longer than two bends take gets a corner. */
const LONG_M = 0.3;
/** Price of a metre of violation while the band is loose: more than the pull of a taut hose, so that little is left. */
const LOOSE_WEIGHT = 5;
const LOOSE_STEP_M = 0.02;
const SETTLED_STEP_M = 0.00001;
const LARGEST_STEP_M = 0.2;
/** Rank of the direction along an edge among the steps of a free corner. */
const SLIDE = 3;
/** A bend begins right behind a lead or stub when less than this is between. */
const TIGHT_M = 0.0004;
/** Two tight bends that face each other settle in a few rounds. */
const TIGHTENINGS = 3;

export type { Violation } from './band-shape';

export class Band extends BandShape {
  /**
   * Relaxed with violations cheap, so that corners slide past each other where none could move alone, and then dear again, which takes
   * out what is left of them.
   */
  *loosen(sweeps: number): Generator<number, void> {
    this.price(LOOSE_WEIGHT);
    yield* this.relax(sweeps);
    this.price(VIOLATION_WEIGHT);
    yield* this.relax(sweeps);
  }

  private price(weight: number): void {
    this.clearance.weight = weight;
    for (const steps of this.steps) for (const [p, step] of steps.entries()) steps[p] = Math.max(step, LOOSE_STEP_M);
    this.total();
  }

  private get isBackward(): boolean {
    return this.input.isBackward ?? false;
  }

  /** Moves corners until no step helps, at most `sweeps` times over all of them. Yields its work, in sight tests. */
  *relax(sweeps: number): Generator<number, void> {
    for (let sweep = 0; sweep < sweeps; sweep += 1) {
      this.work = 0;
      const moved = this.sweep((sweep % 2 === 1) !== this.isBackward);
      if (sweep === 1 || sweep === 4 || sweep % 8 === 7 || !moved) {
        const removed = this.dropCorners();
        this.chooseSplit();
        if (!moved && !removed) {
          yield this.workDone();
          return;
        }
      }
      yield this.workDone();
    }
    this.dropCorners();
    yield this.workDone();
  }

  /** Work since last asked, in sight tests of a search: one weighs as much as many looks at an obstacle. */
  private workDone(): number {
    return Math.ceil(this.work / LOOKS_PER_SIGHT);
  }

  /** Draws the band towards what clips can hold it to; at most `sweeps` times over all corners. */
  *hang(sweeps: number): Generator<number, void> {
    for (const steps of this.steps) steps.fill(HANGING_STEP_M);
    yield* this.relax(sweeps);
  }

  /** A long straight in the air may be led aside at its middle. */
  addCorners(): void {
    const { prices } = this.input.world;
    const elements: Element[] = [];
    this.elements.forEach((element, e) => {
      elements.push(element);
      if (e === this.elements.length - 1) return;
      const k = (this.first[e] as number) + cornersOf(element) - 1;
      const from = this.tangent[k] as number;
      const to = (this.len[k] as number) - (this.tangent[k + 1] as number);
      if (to - from < LONG_M + 2 * this.R) return;
      const t = (from + to) / 2 / (this.len[k] as number);
      const middle = this.pointOnEdge(k, t);
      if (prices.hangs(middle)) elements.push({ kind: 'free', params: [...middle] });
    });
    if (elements.length === this.elements.length) return;
    this.elements = elements;
    this.layOut();
  }

  /** Takes out the last hair of violation by small steps; wishes no longer count. */
  *settle(sweeps: number): Generator<number, void> {
    this.isPlain = true;
    this.total();
    this.lastStep = SETTLED_STEP_M;
    for (const steps of this.steps) steps.fill(FIRST_SETTLING_STEP_M);
    for (let sweep = 0; sweep < sweeps; sweep += 1) {
      this.work = 0;
      const moved = this.sweep((sweep % 2 === 1) !== this.isBackward);
      yield this.workDone();
      if (!moved) return;
    }
  }

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
      if (p === SLIDE && element.kind === 'free' && frame?.length === 9) continue;
      let step = steps[p] as number;
      if (step < this.lastStep) continue;
      alive = true;
      const first = this.isFirst(element, frame, p) ? step : -step;
      const gained = this.tryStep(e, frame, p, first) || this.tryStep(e, frame, p, -first);
      if (gained) {
        moved = true;
        step = Math.min(LARGEST_STEP_M, step * 1.7);
      } else step *= 0.45;
      steps[p] = step;
    }
    return moved || alive;
  }

  /**
   * Whether a step along the axis of a parameter is tried before the one against it: upward before downward, forward before aft, inboard
   * before outboard. Boats that are alike but for their mirror side, or for which end of a line is which, are relaxed alike.
   */
  private isFirst(element: Element, frame: readonly number[] | null, p: number): boolean {
    if (element.kind === 'hole' && p < 2) {
      const [x, y, z] = p === 0 ? element.frame.u : element.frame.v;
      return isUpOrForward(x, y, z, holeCentre(element)[1]);
    }
    // A corner goes towards the inside of its bend first.
    if (!frame || p === 0 || 3 * p + 2 >= frame.length || (p === SLIDE && element.kind !== 'free')) return true;
    const [x, y, z] = [frame[3 * p] as number, frame[3 * p + 1] as number, frame[3 * p + 2] as number];
    return isUpOrForward(x, y, z, element.params[1] as number);
  }

  /** Directions for a corner: three of its own, and one along the edge that its bend lies on where there is one. */
  private frameAt(k: number): readonly number[] {
    const { dx, dy, dz } = this;
    const frame = cornerFrame(
      dx[k - 1] as number,
      dy[k - 1] as number,
      dz[k - 1] as number,
      dx[k] as number,
      dy[k] as number,
      dz[k] as number,
    );
    const list = this.bendLists[k];
    if (!list || list.ranks.length === 0) return frame;
    if (list.slide === undefined) list.slide = slideOf(list, this.input.world);
    return list.slide ? [...frame, ...list.slide] : frame;
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
    if (frame && (p < 3 || (p === SLIDE && element.kind === 'free'))) {
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
    const angle = tightAngle(ahead, aside, this.R);
    if (angle === null || angle > LARGEST_TURN_RAD) return;
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
      after += fresh[f++] = this.clearance.weight * this.holeViolation(e);
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
    let before = Number.NaN;
    const count = this.elements.length;
    let gone = 0;
    for (let n = count - 2; n >= 1; n -= 1) {
      const e = this.isBackward ? count - 1 - n - gone : n;
      if ((this.elements[e] as Element).kind !== 'free') continue;
      if (Number.isNaN(before)) before = this.total();
      const kept = this.elements;
      const steps = this.steps;
      const { edgeLists, bendLists } = this;
      const whole = this.costs();
      const corner = this.first[e] as number;
      this.elements = kept.filter((_, k) => k !== e);
      // Lists know for which place they were made: those of the other pieces stay good, and most of their prices.
      const after = this.layOut(
        edgeLists.filter((_, k) => k !== corner),
        bendLists.filter((_, k) => k !== corner),
        { costs: whole, element: e, corner },
      );
      if (after <= before + 1e-9) {
        this.steps = steps.filter((_, k) => k !== e).map((one) => one.map((step) => Math.max(step, 0.01)));
        before = after;
        dropped = true;
        gone += 1;
        continue;
      }
      this.elements = kept;
      before = this.layOut(edgeLists, bendLists, { costs: whole, element: -1, corner: -1 });
      this.steps = steps;
    }
    return dropped;
  }
}

/** Components of a direction this small are rounding. */
const LEVEL = 1e-6;

const isUpOrForward = (x: number, y: number, z: number, aside: number): boolean =>
  Math.abs(z) > LEVEL ? z > 0 : Math.abs(x) > LEVEL ? x > 0 : Math.abs(aside) > LEVEL ? y * aside < 0 : y > 0;
