import type { HoleRanking } from '../assess/water/which-hole';
import type { Pose } from '../base/vec';
import { applied, type Patch } from '../boat/edits';
import type { Boat } from '../boat/schema/boat';
import type { Finding } from '../rules/finding';
import type { NextReading } from '../rules/next-reading';
import type { Remedy } from '../rules/remedy';
import type { Alternative } from '../runs/alternative';
import type { SlidCrossing } from '../runs/routing/pull';
import type { Effort } from '../runs/routing/types';
import { startAlternatives } from './alternatives/alternatives';
import { Drag } from './drag';
import { closeBound, deepened, unsolved } from './final-run';
import { lateFindings, lateQuestions } from './finding-stages';
import { holes } from './hole-stages';
import type { InSlices } from './in-slices';
import { startNextReadings } from './measure-next/next-readings';
import type { PlaceReport } from './placement/place-report';
import { startPlaces } from './placement/places';
import { type StowageReport, stowageOf } from './placement/stowage';
import { startMends } from './remedies/mending';
import { startRemedies } from './remedies/remedies';
import type { Report, RunReport } from './report';
import { report } from './report-stages';
import { STEPS_A_SLICE } from './route-passes';
import { taskOutcome } from './service/outcome-stages';
import { everyTask, type ServiceUnderway } from './service/service';
import { ServiceAnswers } from './service/service-answers';
import type { RehearsalStep, ServiceReport } from './service/service-report';
import { lineIds, type Source, sourceOf, type TriedClips } from './source';
import { type SlicedStage, Store, sameItems } from './store';

export interface WhatIf {
  /** Counts the steps of a drag; the answer carries it. */
  readonly seq: number;
  /** Poses that are tried, by the id of the part or fixture. */
  readonly places: Readonly<Record<string, Pose>>;
  /** Clip points that are tried in place of those of the arrangement, by line. */
  readonly clips?: TriedClips;
  /** Crossings that are slid in their panels, by line: the run follows warm, and is not searched for anew. */
  readonly slid?: Readonly<Record<string, SlidCrossing>>;
}

/** News of a drag: what is different from what was told before. */
export interface Delta {
  readonly seq: number;
  /** Whether findings go by the runs that are shown; false while runs are still being brought along. */
  readonly fresh: boolean;
  readonly runs: readonly RunReport[];
  readonly findings: readonly Finding[];
  /** Keys of findings that are gone. */
  readonly gone: readonly string[];
}

/** What a slice of deeper tries came to. */
export interface Deepened {
  readonly done: boolean;
  /** The answer with the deeper tries in it, told once and only where it differs from the one at rest. */
  readonly report: Report | null;
}

/** A piece of deeper work: the close bound of a line, another try at its run, or what a late rule says of one subject. */
interface DeeperPiece {
  readonly stage: SlicedStage<unknown>;
  readonly key: string;
}

export interface SessionOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  readonly effort?: Effort;
}

/** Growth of the store at which it is swept: with all that is known in use, and with deeper work left aside. */
const SWEPT_AT = 1.5;
const SWEPT_LATE_AT = 3;

/**
 * A boat and its answers, kept up to date from edit to edit. At rest the answer is that of `analyze` from cold, whatever was
 * edited, undone or dragged before. Runs and findings that an edit does not change keep their identity from report to report.
 */
export class Session {
  private source: Source;
  private readonly store: Store<Source>;
  private drag: Drag | null = null;
  /** Deeper work under way: what is left of it, and the slices of the first piece. */
  private deepening: { readonly left: DeeperPiece[]; work: ReturnType<Store<Source>['inSlices']> | null } | null = null;

  private readonly servicing = new ServiceAnswers(() => ({ store: this.store, source: this.source }));

  constructor(
    boat: Boat,
    private readonly options: SessionOptions = {},
  ) {
    this.source = this.sourceFor(boat);
    this.store = new Store(this.source);
  }

  get boat(): Boat {
    return this.source.boat;
  }

  /** Another boat, or the same one after an edit that was made elsewhere. Ends a drag. */
  open(boat: Boat): void {
    this.drag = null;
    this.deepening = null;
    this.source = this.sourceFor(boat);
    this.store.set(this.source);
  }

  /** One edit, by the patches that `edit` of core/boat gave; undo is the inverse patches. Ends a drag. */
  edit(patches: readonly Patch[]): void {
    this.open(applied(this.source.boat, patches));
  }

  /** A step of a drag: the boat stays as it is, poses and clip points are tried. Ask `step` for the news. */
  whatIf({ seq, places, clips, slid }: WhatIf): void {
    const before = this.drag ?? new Drag(this.store, this.source, this.store.read(report));
    this.drag = before;
    this.deepening = null;
    before.move(seq, places, clips, slid);
  }

  /** The drag is over; nothing was changed. */
  endWhatIf(): void {
    if (!this.drag) return;
    this.drag = null;
    this.store.set(this.source);
  }

  /**
   * The next piece of news of a drag: first the runs, warm, a few at a time; then findings; then what searches found, about `steps` of work
   * at a time. Null when there is nothing more to do until the next move. An empty piece means that a search goes on.
   */
  step(steps: number = STEPS_A_SLICE): Delta | null {
    return this.drag?.step(steps) ?? null;
  }

  /** The answer at rest. Ends a drag. */
  settled(): Report {
    this.endWhatIf();
    const answer = this.store.read(report);
    // What deeper work found is not part of this answer, and mostly still holds: only plenty is worth losing it.
    this.store.sweep(this.source.deeper ? SWEPT_AT : SWEPT_LATE_AT);
    return answer;
  }

  /**
   * The bounds are worked out closely, and lines that are blocked without proof are tried again with more effort, about `steps` of
   * work at a time; an edit or a drag takes the work back. What is known from before costs no steps. Once done, the session
   * answers as `analyze` with `deeper` does, until the next edit. Ends a drag.
   */
  deepen(steps: number = STEPS_A_SLICE): Deepened {
    this.endWhatIf();
    if (this.source.deeper) return { done: true, report: null };
    this.deepening ??= { left: this.deeperPieces(), work: null };
    const { left } = this.deepening;
    for (let next = left[0]; next !== undefined; next = left[0]) {
      this.deepening.work ??= this.store.inSlices(next.stage, next.key);
      const isKnown = this.deepening.work === null;
      if (this.deepening.work?.step(steps) !== false) {
        left.shift();
        this.deepening.work = null;
      }
      if (!isKnown) return { done: false, report: null };
    }
    this.deepening = null;
    const before = this.store.read(report);
    this.source = { ...this.source, deeper: true };
    this.store.set(this.source);
    const after = this.store.read(report);
    this.store.sweep(SWEPT_AT);
    return { done: true, report: sameAnswer(before, after) ? null : after };
  }

  private deeperPieces(): DeeperPiece[] {
    return [
      ...this.store.read(lineIds).map((key) => ({ stage: closeBound, key })),
      ...this.store.read(unsolved).map((key) => ({ stage: deepened, key })),
      // Most of what late rules ask is worked out task by task, so that no piece is long.
      ...everyTask(this.store).map((key) => ({ stage: taskOutcome, key })),
      ...this.store.read(lateQuestions).map((key) => ({ stage: lateFindings, key })),
    ];
  }

  /** Every through-hull ranked as intake and as brine outlet; `year`: the year that it is, for the age of fittings. Ends a drag. */
  holes(year: number | null = null): HoleRanking {
    this.endWhatIf();
    return this.store.read(holes, year === null ? '' : String(year));
  }

  /** The readings that would settle most, at most so many, in slices: what is known here is not worked out again. Ends a drag. */
  nextReadings(most: number): InSlices<readonly NextReading[]> {
    this.endWhatIf();
    const { boat, arrangementId } = this.source;
    return startNextReadings(boat, {
      most,
      store: this.store.fork(),
      ...(arrangementId === null ? {} : { arrangement: arrangementId }),
    });
  }

  /** What would mend the failing run of a line, routed before it is offered, in slices. Ends a drag. */
  remedies(lineId: string): InSlices<readonly Remedy[]> {
    this.endWhatIf();
    const { boat, arrangementId } = this.source;
    return startRemedies(boat, lineId, {
      store: this.store.fork(),
      ...(arrangementId === null ? {} : { arrangement: arrangementId }),
    });
  }

  /** What would mend the failed finding of that key, applied and judged before it is offered, in slices. Ends a drag. */
  mends(key: string): InSlices<readonly Remedy[]> {
    this.endWhatIf();
    const { boat, arrangementId } = this.source;
    return startMends(boat, key, {
      store: this.store.fork(),
      ...(arrangementId === null ? {} : { arrangement: arrangementId }),
    });
  }

  /**
   * Where a part can go, or several that keep their offsets, in slices: first what bounds tell of every compartment, then what each comes to.
   * Throws NoSuchGroup where they cannot be asked for. Ends a drag.
   */
  places(partIds: readonly string[]): InSlices<PlaceReport, PlaceReport> {
    this.endWhatIf();
    const { boat, arrangementId } = this.source;
    return startPlaces(boat, partIds, {
      store: this.store.fork(),
      ...(arrangementId === null ? {} : { arrangement: arrangementId }),
    });
  }

  /** Room that the plan takes of each compartment, and where what must be stowed finds some. Ends a drag. */
  stowage(): StowageReport {
    this.endWhatIf();
    return stowageOf(this.store, this.source);
  }

  /** The run of a line and truly different ones, each with the edit that chooses it, in slices. Ends a drag. */
  alternatives(lineId: string, most?: number): InSlices<readonly Alternative[]> {
    this.endWhatIf();
    const { boat, arrangementId } = this.source;
    return startAlternatives(boat, lineId, {
      store: this.store.fork(),
      ...(most === undefined ? {} : { most }),
      ...(arrangementId === null ? {} : { arrangement: arrangementId }),
    });
  }

  /**
   * Every service task, now and on the boat as bought, in slices: tasks that no edit came near are not judged again. The first slice after
   * an edit tells which ways of before still go. `person`: a record of people. Ends a drag.
   */
  service(person: string | null = null): InSlices<ServiceReport, ServiceUnderway> {
    this.endWhatIf();
    return this.servicing.service(person);
  }

  /** The steps of one task, by its key in the service report. Ends a drag. */
  rehearsal(key: string, person: string | null = null): InSlices<readonly RehearsalStep[]> {
    this.endWhatIf();
    return this.servicing.rehearsal(key, person);
  }

  /** Computations so far, by stage. */
  computed(): ReadonlyMap<string, number> {
    return this.store.computed();
  }

  /** An arrangement that was asked for and is gone falls back to the current one. */
  private sourceFor(boat: Boat): Source {
    const { arrangement, effort } = this.options;
    const asked = arrangement !== undefined && Object.hasOwn(boat.arrangements, arrangement) ? arrangement : undefined;
    return sourceOf(boat, asked, effort);
  }
}

/** Runs and findings that did not change are the same objects. */
const sameAnswer = (a: Report, b: Report): boolean => sameItems(a.runs, b.runs) && sameItems(a.findings, b.findings);
