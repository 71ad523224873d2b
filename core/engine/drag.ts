import { meets } from '../base/slices';
import type { Pose, Vec3 } from '../base/vec';
import type { Finding } from '../rules/finding';
import { runCapsules } from '../runs/routing/capsules';
import type { SlidCrossing } from '../runs/routing/pull';
import type { Routed, RoutingLine, RunOutcome } from '../runs/routing/types';
import { warmRun } from '../runs/routing/warm';
import type { Spare } from '../runs/spare/spare';
import { segmentToSolid } from '../shape/space/kernel';
import type { CapsuleSolid } from '../shape/space/solids';
import { run } from './final-run';
import { findings } from './finding-stages';
import { LaidRun, NO_RUNS, sortedById } from './laid-run';
import type { Report, RunReport } from './report';
import { runReport } from './report-stages';
import { startPasses } from './route-passes';
import { avoided, baseRun, laidRun, ranked, sameRun, viewOver, wish } from './run-stages';
import type { Delta } from './session';
import { layout } from './shape-stages';
import { type BoundedSolid, boundsOf } from './solid-stages';
import type { Source, TriedClips } from './source';
import * as source from './source';
import { spare } from './spare-stages';
import type { Store } from './store';

/** A run that comes this close to what is moved is tried again. */
const TOUCH_M = 0.002;
/** Runs that are brought along in one piece of news: few enough for a frame, whatever hangs on what is moved. */
const WARM_RUNS_A_PIECE = 3;

interface Search {
  readonly lineId: string;
  /** Move for which it was begun. */
  readonly seq: number;
  step(steps: number): RunOutcome | null;
}

/**
 * A drag. Runs that hang on what is moved, and runs that it pushes aside, are shown warm at every move: same holes, same
 * corners. While the hand rests they are searched for, one after the other, and the better run is shown. Shown runs stand in
 * for those at rest, so that findings are judged by what is shown. None of this outlives the drag.
 */
export class Drag {
  private given: Source;
  private readonly start: Source;
  private seq = 0;
  private tried: Readonly<Record<string, Pose>> = {};
  private clips: TriedClips = {};
  private slid: Readonly<Record<string, SlidCrossing>> = {};
  /** Runs at rest when the drag began. */
  private readonly atRest = new Map<string, RunOutcome>();
  private readonly shown = new Map<string, RunOutcome>();
  /** What was told last, of runs and of findings. */
  private readonly toldRuns = new Map<string, RunReport>();
  private toldFindings: ReadonlyMap<string, Finding>;
  private readonly attached = new Map<string, readonly string[]>();
  private phase: 'warm' | 'findings' | 'search' | 'rest' = 'rest';
  /** Warm runs in one piece of news, the place in the order of routing that comes next, lines that were tried in this move. */
  private piece = WARM_RUNS_A_PIECE;
  private next = 0;
  private affected: string[] = [];
  private queue: string[] = [];
  private search: Search | null = null;
  private readonly laid = new WeakMap<RunOutcome, LaidRun>();
  /** The last run that was legal, to start from when the shown one is not. */
  private readonly lastRouted = new Map<string, Routed>();
  private readonly lists = new Map<string, readonly CapsuleSolid[]>();
  private rankedAs: readonly string[] = [];
  private ranks: ReadonlyMap<string, number> = new Map();
  /** Lines whose shown run touches a cell. */
  private readonly linesIn = new Map<number, Set<string>>();
  /** The runs by which that list goes, and lines that it does not know as they are shown. */
  private readonly placed = new Map<string, RunOutcome>();
  private readonly unplaced = new Set<string>();

  constructor(
    private readonly store: Store<Source>,
    start: Source,
    told: Report,
  ) {
    this.given = start;
    const atRest = new Map<string, { run: RunOutcome; spare: Spare | null }>();
    for (const lineId of store.read(source.lineIds)) {
      const outcome = store.read(run, lineId);
      this.atRest.set(lineId, outcome);
      atRest.set(lineId, { run: outcome, spare: store.read(spare, lineId) });
      const base = store.read(baseRun, lineId);
      const laid = store.read(laidRun, lineId);
      if (laid && outcome.status === 'routed' && base.status === 'routed' && base.prims === outcome.prims)
        this.laid.set(outcome, laid);
      this.show(lineId, outcome);
      const line = store.read(source.line, lineId);
      for (const end of [line?.from.thing, line?.to.thing]) {
        if (end !== undefined) this.attached.set(end, [...(this.attached.get(end) ?? []), lineId]);
      }
    }
    this.start = { ...start, atRest };
    for (const one of told.runs) this.toldRuns.set(one.lineId, one);
    this.toldFindings = new Map(told.findings.map((finding) => [finding.key, finding]));
  }

  move(
    seq: number,
    tried: Readonly<Record<string, Pose>>,
    clips: TriedClips = {},
    slid: Readonly<Record<string, SlidCrossing>> = {},
  ): void {
    // A hand that outruns the pieces gets whole moves, so that no line stays behind for longer than one.
    this.piece = this.phase === 'warm' && this.affected.length > 0 ? Number.POSITIVE_INFINITY : WARM_RUNS_A_PIECE;
    this.seq = seq;
    this.tried = tried;
    this.clips = clips;
    this.slid = slid;
    this.phase = 'warm';
    this.next = 0;
    this.affected = [];
    this.apply();
  }

  step(steps: number): Delta | null {
    switch (this.phase) {
      case 'warm':
        if (this.warm()) this.phase = 'findings';
        return this.news(false);
      case 'findings':
        this.phase = 'search';
        return this.news(true);
      case 'search':
        if (this.searchOn(steps)) return this.news(true);
        this.phase = 'rest';
        return null;
      case 'rest':
        return null;
    }
  }

  private show(lineId: string, outcome: RunOutcome): void {
    if (this.shown.get(lineId) === outcome) return;
    this.shown.set(lineId, outcome);
    this.unplaced.add(lineId);
  }

  /** Brings the list of lines by cell up to date with what is shown of the lines before a rank. */
  private placeShown(rank: number): void {
    for (const lineId of this.unplaced) {
      if (this.rankOf(lineId) >= rank) continue;
      this.unplaced.delete(lineId);
      const before = this.placed.get(lineId);
      const outcome = this.shown.get(lineId);
      if (before) for (const cell of this.cellsOf(lineId, before)) this.linesIn.get(cell)?.delete(lineId);
      if (!outcome) continue;
      this.placed.set(lineId, outcome);
      for (const cell of this.cellsOf(lineId, outcome)) {
        const lines = this.linesIn.get(cell);
        if (lines) lines.add(lineId);
        else this.linesIn.set(cell, new Set([lineId]));
      }
    }
  }

  private cellsOf(lineId: string, outcome: RunOutcome): Iterable<number> {
    return this.laidOf(lineId, outcome)?.cells().keys() ?? [];
  }

  /** Gives the store the poses that are tried and the runs that are shown. */
  private apply(): void {
    const next: Source = { ...this.start, tried: this.tried, clips: this.clips, held: new Map(this.shown) };
    this.store.setFew(next, source.differing(this.given, next));
    this.given = next;
  }

  /** The next piece of warm runs; true when it was the last. */
  private warm(): boolean {
    const moved = Object.keys(this.tried);
    const hanging = new Set([
      ...moved.flatMap((id) => this.attached.get(id) ?? []),
      ...Object.keys(this.clips),
      ...Object.keys(this.slid),
    ]);
    const solids = moved.flatMap((id) => this.store.read(boundsOf, id));
    const order = this.order();
    let left = this.piece;
    while (left > 0 && this.next < order.length) {
      const lineId = order[this.next++] as string;
      const asked = this.store.read(wish, lineId);
      if (asked.outcome !== 'line') continue;
      const before = this.shown.get(lineId);
      const rest = this.atRest.get(lineId);
      if (!before || !rest) continue;
      if (this.store.read(source.pin, lineId)) {
        // It stays where it was built; what is moved only changes what it meets.
        this.show(lineId, this.store.read(baseRun, lineId));
        continue;
      }
      if (!hanging.has(lineId)) {
        // What was pushed aside goes back as soon as it can.
        if (rest.status === 'blocked' || this.isClear(lineId, rest, solids)) {
          this.show(lineId, rest);
          continue;
        }
        if (before !== rest && this.isClear(lineId, before, solids)) continue;
      }
      left -= 1;
      this.affected.push(lineId);
      this.show(lineId, this.warmOf(asked.line, before, rest));
    }
    this.apply();
    if (this.next < order.length) return false;
    this.queue = this.turns(this.affected.filter((id) => !Object.hasOwn(this.slid, id)));
    return true;
  }

  /** Lines to search for: those without a run first, then from where the last round stopped. */
  private turns(affected: readonly string[]): string[] {
    const last = affected.indexOf(this.queue[0] ?? '');
    const round = last > 0 ? [...affected.slice(last), ...affected.slice(0, last)] : [...affected];
    const isBlocked = (id: string): boolean => this.shown.get(id)?.status !== 'routed';
    return [...round.filter(isBlocked), ...round.filter((id) => !isBlocked(id))];
  }

  /** Warm from the run that is shown, else from the last one that was legal. */
  private warmOf(asked: RoutingLine, before: RunOutcome, rest: RunOutcome): RunOutcome {
    const from = [before, this.lastRouted.get(asked.id), rest].find((run) => run?.status === 'routed');
    if (from?.status !== 'routed') return before;
    const warm = warmRun(this.view(asked.id), asked, from, this.slid[asked.id]);
    if (warm.status === 'routed') this.lastRouted.set(asked.id, warm);
    return warm;
  }

  private isClear(lineId: string, outcome: RunOutcome, moved: readonly BoundedSolid[]): boolean {
    const laid = this.laidOf(lineId, outcome);
    if (!laid) return false;
    if (!moved.some((one) => meets(one, laid.low, laid.high, TOUCH_M))) return true;
    for (const { from, to, radius } of laid.capsules) {
      for (const { solid, low, high } of moved) {
        if ([0, 1, 2].some((axis) => isApart(from, to, radius + TOUCH_M, low, high, axis as 0 | 1 | 2))) continue;
        if (segmentToSolid(from, to, solid, radius + TOUCH_M) < radius) return false;
      }
    }
    return true;
  }

  private laidOf(lineId: string, outcome: RunOutcome): LaidRun | null {
    const known = this.laid.get(outcome);
    if (known) return known;
    const asked = this.store.read(wish, lineId);
    if (outcome.status !== 'routed' || asked.outcome !== 'line') return null;
    const laid = new LaidRun(this.store.read(layout), runCapsules(asked.line, outcome));
    this.laid.set(outcome, laid);
    return laid;
  }

  private searchOn(steps: number): boolean {
    if (!this.search) {
      const lineId = this.queue.shift();
      if (lineId === undefined) return false;
      this.search = this.searchFor(lineId);
      if (!this.search) return true;
    }
    const outcome = this.search.step(steps);
    if (!outcome) return true;
    const { lineId, seq } = this.search;
    this.search = null;
    const found = seq === this.seq ? outcome : this.brought(lineId, outcome);
    const shown = this.shown.get(lineId);
    if (found && (!shown || isBetter(found, shown))) {
      this.show(lineId, found);
      this.apply();
    }
    return true;
  }

  /** A run that was found for an earlier move, brought to where things are now. */
  private brought(lineId: string, outcome: RunOutcome): RunOutcome | null {
    const asked = this.store.read(wish, lineId);
    if (asked.outcome !== 'line' || outcome.status !== 'routed') return null;
    this.lastRouted.set(lineId, outcome);
    return warmRun(this.view(lineId), asked.line, outcome);
  }

  private searchFor(lineId: string): Search | null {
    const asked = this.store.read(wish, lineId);
    if (asked.outcome !== 'line') return null;
    const view = this.view(lineId);
    const living = this.store.read(avoided, lineId);
    const passes = startPasses(asked.line, living, view, this.start.effort);
    return { lineId, seq: this.seq, step: (steps) => passes.step(steps) };
  }

  /** What a line sees during the drag: things as they are tried, the shown runs before it. */
  private view(lineId: string): ReturnType<typeof viewOver> {
    const rank = this.rankOf(lineId);
    this.placeShown(rank);
    return viewOver(this.store.read, (cell) => {
      const parts: CapsuleSolid[] = [];
      for (const id of this.linesIn.get(cell) ?? [])
        if (this.rankOf(id) < rank) parts.push(...this.capsulesIn(id, cell));
      if (parts.length === 0) return NO_RUNS;
      // The same list again for the same runs, so that what the router keeps by list serves again.
      const key = `${lineId}|${cell}`;
      const known = this.lists.get(key);
      const list = sortedById(parts);
      if (known && known.length === list.length && known.every((capsule, index) => capsule === list[index]))
        return known;
      this.lists.set(key, list);
      return list;
    });
  }

  private capsulesIn(lineId: string, cell: number): readonly CapsuleSolid[] {
    const outcome = this.shown.get(lineId);
    return (outcome && this.laidOf(lineId, outcome)?.inCell(cell)) ?? NO_RUNS;
  }

  /** Place of a line in the order of routing. */
  private rankOf(lineId: string): number {
    const order = this.order();
    if (this.rankedAs !== order) {
      this.rankedAs = order;
      this.ranks = new Map(order.map((id, index) => [id, index]));
    }
    return this.ranks.get(lineId) ?? -1;
  }

  private order(): readonly string[] {
    return this.store.read(ranked);
  }

  private news(withFindings: boolean): Delta {
    const runs: RunReport[] = [];
    for (const lineId of this.shown.keys()) {
      const now = this.store.read(runReport, lineId);
      if (this.toldRuns.get(lineId) === now) continue;
      this.toldRuns.set(lineId, now);
      runs.push(now);
    }
    if (!withFindings) return { seq: this.seq, fresh: false, runs, findings: [], gone: [] };
    const now = new Map(this.store.read(findings).map((finding) => [finding.key, finding]));
    const changed = [...now.values()].filter((finding) => this.toldFindings.get(finding.key) !== finding);
    const gone = [...this.toldFindings.keys()].filter((key) => !now.has(key));
    this.toldFindings = now;
    return { seq: this.seq, fresh: true, runs, findings: changed, gone };
  }
}

function isBetter(found: RunOutcome, shown: RunOutcome): boolean {
  if (found.status === 'blocked') return shown.status === 'blocked' && !sameRun(found, shown);
  return shown.status === 'blocked' || found.costM < shown.costM - 1e-6;
}

/** Whether a capsule and a box lie apart along one axis. */
const isApart = (from: Vec3, to: Vec3, radius: number, low: Vec3, high: Vec3, axis: 0 | 1 | 2): boolean =>
  Math.min(from[axis], to[axis]) - radius > high[axis] || Math.max(from[axis], to[axis]) + radius < low[axis];
