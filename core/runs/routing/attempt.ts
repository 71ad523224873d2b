/**
 * One try: a tangent polygon is relaxed, and what comes of it is judged. Legs that do badly are tried again as the shortest
 * curves between their ends.
 */

import { ONE_PLANE_DEG, twistOf } from '../twist';
import { Band, type Violation } from './band';
import { type BandInput, SPARE_M } from './band-clearance';
import { holeOwner } from './capsules';
import { filleted, type Piece } from './fillet';
import { holeInPlane } from './hole-room';
import type { End } from './leads';
import type { HoseClass } from './nodes';
import { type Element, holeCentre } from './polygon';
import { bendsOf } from './prims';
import { SUCTION_WEIGHT } from './search';
import { elementsFromSeed, type Seed, seedOf } from './seed';
import type { Crossing, Routed, RoutingLine } from './types';
import { validate } from './validate';
import { WishPrices } from './wishes/prices';
import { costOf, NO_WISHES, type RunCosts } from './wishes/wishes';
import { reworded } from './words';
import type { Obstacle, World } from './world';

/** A line in its boat, ready to be tried. */
export interface Task {
  readonly world: World;
  readonly line: RoutingLine;
  readonly hose: HoseClass;
  readonly ends: readonly [End, End];
  readonly boundM: number;
  readonly costBoundM: number;
  /** Bands are relaxed from the far end: as they would be if the line were called by its ends the other way round. */
  readonly isBackward?: boolean;
}

/** A band this far from valid is not worth a look at exact shapes. */
const VALID_M = 2e-4;
const ROUNDING_M = 1e-9;
/** Within this small steps may make it valid. */
const NEARLY_M = 0.006;
const SETTLING_SWEEPS = 16;
const HANGING_SWEEPS = 8;

/** Words tried for the legs of one polygon. */
const MOST_WORDS = 3;
/** A leg this much longer than a word is worth a try with it. */
const WORD_SHARE = 0.01;
const FAR_BEHIND = 1.1;
/** A trial that begins with more than this in its way is not relaxed, nor on with more than that after the first sweeps. */
const HOPELESS_M = 0.12;
const STILL_HOPELESS_M = 0.015;
const TRIAL_SWEEPS = 8;

/**
 * A run, or what is wrong, after the legs that do badly have been tried as words: the cheapest of all. A run that costs far more
 * than one that is known already is left as it is.
 */
export function* attempted(
  task: Task,
  elements: readonly Element[],
  sweeps: number,
  price: (run: Routed) => number,
  known: Routed | null,
  wordsAfterMiss: boolean,
): Generator<number, Routed | Violation> {
  let best = yield* relaxed(task, elements, sweeps);
  if (known && 'status' in best && price(best) > FAR_BEHIND * price(known)) return best;
  for (let rank = 0; rank < MOST_WORDS && ('status' in best || wordsAfterMiss); rank += 1) {
    const isRun = 'status' in best;
    const from = 'status' in best ? elementsOfRun(task, best) : elements;
    const words = from && reworded(from, task.line.bendRadiusM, rank, WORD_SHARE, isRun);
    if (!words) continue;
    const next = yield* relaxed(task, words, sweeps, true);
    if ('status' in next && (!('status' in best) || price(next) < price(best))) best = next;
  }
  return best;
}

/** The ends of a line as elements, their corners where nothing bends. */
export function leadElements(task: Task): [LeadElement, LeadElement] {
  const lead = ({ lead: { at, direction: out }, leadM }: End): LeadElement => ({
    kind: 'lead',
    at,
    out,
    leadM,
    params: [leadM],
  });
  return [lead(task.ends[0]), lead(task.ends[1])];
}
type LeadElement = Extract<Element, { kind: 'lead' }>;

export const elementsOfRun = (task: Task, { seed }: Routed): Element[] | null =>
  elementsFromSeed(seed as Seed, task.world.structure, leadElements(task), task.line.clipPoints);

/**
 * Relaxes the polygon and judges it: a run, or the worst of what is wrong. A trial is given up where it promises
 * little; `hanging`: it is drawn towards surfaces from the first, with more corners for that or with those that it has.
 */
export function* relaxed(
  task: Task,
  elements: readonly Element[],
  sweeps: number,
  isTrial = false,
  hanging: 'not' | 'addCorners' | 'asItIs' = 'not',
): Generator<number, Routed | Violation> {
  const { world, line, ends } = task;
  const exempt =
    (end: End) =>
    (obstacle: Obstacle): boolean =>
      obstacle.kind === 'run' && obstacle.owner === end.shared;
  world.shareHoles(
    new Set(elements.flatMap((one) => (one.kind === 'hole' && one.hole ? [holeOwner(one.panel.id, one.hole.id)] : []))),
  );
  const input: BandInput = {
    world,
    radiusM: line.radiusM,
    bendRadiusM: line.bendRadiusM,
    holeRadiusM: task.hose.holeRadiusM,
    suction: line.suction && line.lengthLimitM === undefined,
    isBackward: task.isBackward ?? false,
    hangs: hanging !== 'not' && world.prices.wishes.surface > 0,
    exempt: [exempt(ends[0]), exempt(ends[1])],
  };
  const band = new Band(input, elements);
  if (input.hangs) {
    if (hanging === 'addCorners') band.addCorners();
    yield* band.hang(sweeps);
    return yield* judged(task, band);
  }
  if (!isTrial) yield* band.relax(sweeps);
  else if (band.violation() < HOPELESS_M) {
    yield* band.relax(TRIAL_SWEEPS);
    if (band.violation() < STILL_HOPELESS_M) yield* band.relax(sweeps - TRIAL_SWEEPS);
  }
  return yield* judged(task, band);
}

/** A run drawn towards what clips can hold it to; as it was where that cannot be done. */
export function* hung(task: Task, run: Routed): Generator<number, Routed> {
  const elements = task.world.prices.wishes.surface > 0 ? elementsOfRun(task, run) : null;
  if (!elements) return run;
  const next = yield* relaxed(task, elements, HANGING_SWEEPS, false, 'addCorners');
  return 'status' in next && next.costM < run.costM && !wrings(task.line, run, next) ? next : run;
}

/** Whether a hose that is held at both ends, as made, would be bent out of its plane: that harms it more than a clip that is missing. */
function wrings({ from, to, clipPoints }: RoutingLine, before: Routed, after: Routed): boolean {
  if (![from, to].every(({ crimped, swivel }) => crimped && !swivel)) return false;
  const twistDeg = ({ prims }: Routed): number => twistOf(prims, clipPoints)?.angleDeg ?? 0;
  return twistDeg(after) > Math.max(ONE_PLANE_DEG, twistDeg(before));
}

/** The run that a relaxed band makes, or the worst of what is wrong with it. */
function* judged(task: Task, band: Band): Generator<number, Routed | Violation> {
  const { world, line, ends } = task;
  let violations = band.violations();
  let sum = sumOf(violations);
  if (sum > 1e-6 && sum < NEARLY_M) {
    yield* band.settle(SETTLING_SWEEPS);
    violations = band.violations();
    sum = sumOf(violations);
  }
  if (sum > VALID_M) return violations.reduce((worst, one) => (one.byM > worst.byM ? one : worst));
  // Nothing looks at the wood round a hole again: beyond what the band keeps to spare it is too near an edge.
  const tooNear = violations.find(({ kind, byM }) => kind === 'hole' && byM > SPARE_M + ROUNDING_M);
  if (tooNear) return tooNear;
  const pieces = filleted(band, line.bendRadiusM);
  if (!pieces) return { byM: VALID_M, at: line.from.at, kind: 'bend', blocker: '' };
  const { flaw, minClearanceM } = validate(world, line, pieces, ends);
  if (flaw) return { byM: flaw.byM, at: flaw.at, kind: 'clearance', blocker: flaw.blocker ?? '' };
  const tight = tightFeed(band);
  if (tight) return tight;
  return runFrom(task, band, pieces, minClearanceM);
}

/** A hole that a crimped end cannot come through. */
function tightFeed(band: Band): Violation | null {
  for (const [e, element] of band.elements.entries()) {
    const feed = band.feedShortage(e);
    if (feed && element.kind === 'hole')
      return { byM: feed.byM, at: holeCentre(element), kind: 'feed', blocker: feed.blocker };
  }
  return null;
}

const sumOf = (violations: readonly Violation[]): number => violations.reduce((total, one) => total + one.byM, 0);

function runFrom(task: Task, band: Band, pieces: readonly Piece[], minClearanceM: number): Routed {
  const { line, hose, boundM, costBoundM } = task;
  const crossings: Crossing[] = [];
  let holesM = 0;
  for (const element of band.elements) {
    if (element.kind !== 'hole') continue;
    const n = element.frame.n;
    crossings.push({
      panelId: element.panel.id,
      at: holeCentre(element),
      diameterM: element.hole ? element.hole.diameterM : 2 * hose.holeRadiusM,
      holeId: element.hole ? element.hole.id : null,
      ...(element.hole ? { holeAt: holeInPlane(element.hole, element.frame) } : {}),
      ...(line.feed ? { fedFrom: line.feed.fedFrom } : {}),
      ...(element.hole?.newHoleId === undefined ? {} : { newHoleId: element.hole.newHoleId }),
      along: element.forward ? n : [-n[0], -n[1], -n[2]],
      alongM: element.panel.thicknessM / 2,
    });
    if (!element.hole) holesM += element.panel.newHoleCostM;
  }
  const prims = pieces.map((piece) => piece.prim);
  const lengthM = pieces.reduce((sum, piece) => sum + piece.lengthM, 0);
  // Where the length binds the wishes were left aside; they are paid for all the same.
  const { world } = task;
  const prices = line.lengthLimitM === undefined ? world.prices : new WishPrices(world, line.wishes ?? NO_WISHES);
  const costs: RunCosts = {
    lengthM,
    holesM,
    suctionM: line.suction ? SUCTION_WEIGHT * band.crestM() : 0,
    ...prices.bill(prims, world.view.waterLevelM ?? 0),
  };
  return {
    status: 'routed',
    prims,
    crossings,
    lengthM,
    costM: costOf(costs),
    costs,
    lowerBoundM: boundM,
    costBoundM,
    minClearanceM,
    ...bendsOf(prims),
    seed: seedOf(band.elements),
  };
}
