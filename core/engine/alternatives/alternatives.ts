import { along, distance, type Vec3 } from '../../base/vec';
import { edit } from '../../boat/edits';
import type { Boat } from '../../boat/schema/boat';
import type { Alternative } from '../../runs/alternative';
import type { DearPlace, Routed, RoutingLine, RunOutcome } from '../../runs/routing/types';
import { allRouted, finalRun, viewAmongAll } from '../final-run';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { STEPS_A_SLICE, startPasses } from '../route-passes';
import { avoided, ranked, wish } from '../run-stages';
import { layout } from '../shape-stages';
import { effort, pin, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { choicesFor } from './choice';
import { differenceOf } from './difference';
import { areDistinct, farthestApartM, samplesOf } from './distinct';

export interface AlternativesOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  /** Runs besides the present one; default 4. */
  readonly most?: number;
  /** A store that may know some of it already. It is worked in, and left to nobody else. */
  readonly store?: Store<Source>;
}

export const USUAL_ALTERNATIVES = 4;

/** What makes a place dear that a run of before passes, and how far round it. */
const DEAR_COST_M = 1.2;
const DEAR_RADIUS_M = 0.3;
/** To lead it clear of a whole panel. */
const FAR_COST_M = 4;
const FAR_RADIUS_M = 1.2;
/** Ways that are looked for, for each one that is wanted. */
const TRIES_EACH = 4;
/** A way that costs this many times the present one is none that anybody wants; short runs may cost more by so much. */
const DEAREST = 2;
const DEARER_M = 1.5;
/** The run that comes of the edit is the one that was offered when no part of it is farther off, and it costs no more. */
const SAME_WITHIN_M = 0.04;
const SAME_COST = 1.02;
const SAME_COST_M = 0.02;

/** The present run and others that are truly different, the cheapest first. */
export function alternatives(boat: Boat, lineId: string, options: AlternativesOptions = {}): readonly Alternative[] {
  return atOnce(startAlternatives(boat, lineId, options));
}

/** The same in slices: each searches for about 8 ms, or routes one line. */
export function startAlternatives(
  boat: Boat,
  lineId: string,
  { arrangement, most = USUAL_ALTERNATIVES, store }: AlternativesOptions = {},
): InSlices<readonly Alternative[]> {
  const source = sourceOf(boat, arrangement);
  const own = store ?? new Store(source);
  own.set(source);
  return inSlices(search(own, source, lineId, most));
}

function* search(
  store: Store<Source>,
  source: Source,
  lineId: string,
  most: number,
): Generator<Progress | null, readonly Alternative[]> {
  yield* allRouted(store);
  const { arrangementId, boat } = source;
  const asked = store.read(wish, lineId);
  const present = store.read(finalRun, lineId);
  if (asked.outcome !== 'line' || arrangementId === null || store.read(pin, lineId)) return [];
  const wasRouted = routedLines(store);
  const cells = store.read(layout);
  const found: Routed[] = present.status === 'routed' ? [present] : [];
  const of = most * (TRIES_EACH + 1);
  const far = (done: number): Progress => ({ done: Math.min(done, of), of });
  let tries = 0;
  for (const variant of variantsOf(asked.line, found, store)) {
    if (tries >= most * TRIES_EACH) break;
    tries += 1;
    const isFar = variant.dear?.some(({ costM }) => costM === FAR_COST_M) ?? false;
    const outcome = yield* ways(variant, isFar ? [] : store.read(avoided, lineId), lineId, store, far(tries));
    if (outcome.status !== 'routed' || isTooDear(outcome, present)) continue;
    if (found.every((known) => areDistinct(known, outcome))) found.push(outcome);
  }
  const base = found[0];
  const answer: Alternative[] = [];
  const told = (run: Routed, patches: Alternative['patches'], id: string): Alternative => ({
    id,
    isCurrent: run === present,
    prims: run.prims,
    holes: run.crossings.map(({ panelId, at, diameterM, holeId }) => ({
      panelId,
      at,
      diameterM,
      existing: holeId !== null,
    })),
    lengthM: run.lengthM,
    costM: run.costM,
    costs: run.costs,
    difference: differenceOf(base ?? run, run, cells),
    patches,
  });
  if (present.status === 'routed') answer.push(told(present, [], 'present'));
  const others = found.filter((run) => run !== present).sort((a, b) => a.costM - b.costM);
  for (const [k, run] of others.entries()) {
    if (answer.filter(({ isCurrent }) => !isCurrent).length >= most) break;
    for (const recipe of choicesFor(run, present, arrangementId, lineId, cells)) {
      yield far(tries + k);
      const edited = edit(boat, recipe);
      if (!edited.ok) continue;
      store.set(sourceOf(edited.boat, arrangementId));
      yield* allRouted(store);
      const now = store.read(finalRun, lineId);
      const isKept = routedLines(store).size >= wasRouted.size && isSame(run, now);
      store.set(source);
      if (!isKept || now.status !== 'routed') continue;
      // Holes that are decided on cost nothing any more: what is told is what they cost now.
      answer.push({ ...told(run, edited.patches, `way-${k + 1}`), prims: now.prims, lengthM: now.lengthM });
      break;
    }
  }
  return answer.sort((a, b) => a.costM - b.costM || (a.id < b.id ? -1 : 1));
}

const routedLines = (store: Store<Source>): ReadonlySet<string> =>
  new Set(store.read(ranked).filter((id) => store.read(finalRun, id).status === 'routed'));

function isTooDear(run: Routed, present: RunOutcome): boolean {
  return present.status === 'routed' && run.costM > Math.max(DEAREST * present.costM, present.costM + DEARER_M);
}

function isSame(offered: Routed, now: RunOutcome): boolean {
  if (now.status !== 'routed' || now.costM > SAME_COST * offered.costM + SAME_COST_M) return false;
  return farthestApartM(offered, now) <= SAME_WITHIN_M;
}

/** Asks that lead elsewhere: round what was found so far, and clear of one compartment after the other that it lies in. */
function* variantsOf(line: RoutingLine, found: readonly Routed[], store: Store<Source>): Generator<RoutingLine> {
  const cells = store.read(layout);
  const first = found[0];
  if (!first) {
    yield line;
    return;
  }
  const ends = new Set(
    [line.from, line.to, ...line.clipPoints.map((at) => ({ at }))]
      .flatMap(placesNear)
      .map((p) => cells.compartmentAt(p)),
  );
  yield roundOf(line, placesOn(first));
  const entered = new Set(samplesOf(first).map((p) => cells.compartmentAt(p)));
  for (const compartment of [...entered].sort()) {
    if (compartment === null || ends.has(compartment)) continue;
    yield { ...line, forbiddenCompartments: [...new Set([...line.forbiddenCompartments, compartment])].sort() };
  }
  for (const crossing of first.crossings) yield roundOf(line, [crossing.at]);
  // Clear of a whole panel, too: by another one, or by way of a living space after all.
  for (const crossing of first.crossings)
    yield { ...line, dear: [{ at: crossing.at, radiusM: FAR_RADIUS_M, costM: FAR_COST_M }] };
  // By then the list has grown.
  for (let k = 1; ; k += 1) yield roundOf(line, found.slice(0, k + 1).flatMap(placesOn));
}

function placesNear(end: { readonly at: Vec3; readonly direction?: Vec3 }): readonly Vec3[] {
  return end.direction ? [along(end.at, end.direction, 0.02)] : [end.at];
}

/** Where a run is most itself: its holes, and places along it far from its ends. */
function placesOn(run: Routed): readonly Vec3[] {
  const samples = samplesOf(run);
  const between = [0.3, 0.5, 0.7].map((share) => samples[Math.floor(share * (samples.length - 1))] as Vec3);
  return [...run.crossings.map(({ at }) => at), ...between];
}

function roundOf(line: RoutingLine, places: readonly Vec3[]): RoutingLine {
  const spread = places.filter((p, k) => places.slice(0, k).every((q) => distance(p, q) > DEAR_RADIUS_M / 2));
  const dear: readonly DearPlace[] = spread.map((at) => ({ at, radiusM: DEAR_RADIUS_M, costM: DEAR_COST_M }));
  return { ...line, dear };
}

function* ways(
  line: RoutingLine,
  living: readonly string[],
  lineId: string,
  store: Store<Source>,
  far: Progress,
): Generator<Progress, RunOutcome> {
  const search = startPasses(line, living, viewAmongAll(lineId, store.read), store.read(effort));
  for (;;) {
    const outcome = search.step(STEPS_A_SLICE);
    if (outcome) return outcome;
    yield far;
  }
}
