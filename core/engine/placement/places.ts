import type { Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import type { Finding } from '../../rules/finding';
import { allRouted, finalRun } from '../final-run';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { judged } from '../remedies/trial';
import { layout } from '../shape-stages';
import { lineIds, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { appliedPlace } from './applied-place';
import { boxOf, firstTints, leadsOf, type Tints } from './first-tints';
import { ruledOutQuickly } from './foretold';
import { type FreePlace, freePlaces } from './free-places';
import { type MovedGroup, movedGroup } from './moved-group';
import { inOrderUntilFail, isFailed, nearResults } from './near-tests';
import { brokenBy, tooFar } from './place-demands';
import type { BestPlace, CompartmentAnswer, PlaceReport } from './place-report';
import { PLACE_TESTS } from './place-report';
import { notJudged } from './place-tests';
import { rankedAnswers, verdictOf } from './place-verdict';
import { bestOf, type JudgedPlace, type Proposed } from './proposed-place';
import { groundOf, put, type Site, type Stores, siteOf } from './site';
import { judgedThere } from './whole-judgement';

export interface PlacesOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  /** A store that may know some of it already. It is worked in, and left to nobody else. */
  readonly store?: Store<Source>;
}

/** Where parts can go, all of it at once. Throws NoSuchGroup where they cannot be asked for. */
export const placesFor = (boat: Boat, ids: readonly string[], options: PlacesOptions = {}): PlaceReport =>
  atOnce(startPlaces(boat, ids, options));

/**
 * Where a part can go, or several that keep their offsets: first what bounds tell of every compartment, then each compartment with the place
 * found in it, put there and judged by all checks. In slices; the report as it stands is told with those that bring something.
 */
export function startPlaces(
  boat: Boat,
  ids: readonly string[],
  { arrangement, store }: PlacesOptions = {},
): InSlices<PlaceReport, PlaceReport> {
  const source = sourceOf(boat, arrangement);
  const group = movedGroup(boat, source.arrangementId, ids);
  const own = store ?? new Store(source);
  own.set(source);
  return inSlices(search(own, source, group));
}

type Told = Progress | (Progress & { readonly partial: PlaceReport }) | null;

/** What is known of one compartment so far. */
interface Entry {
  readonly compartment: string;
  readonly isNow: boolean;
  readonly box: readonly [Vec3, Vec3] | null;
  tests: Tints;
  breaks: readonly string[];
  best: BestPlace | null;
  stowageLostL: number | null;
  isDone: boolean;
}

function* search(store: Store<Source>, source: Source, group: MovedGroup): Generator<Told, PlaceReport> {
  const { boat, arrangementId } = source;
  const site = siteOf(store, source, group);
  const entries = Object.keys(boat.compartments)
    .sort()
    .map((compartment) => tinted(compartment, site));
  const of = entries.length + 1;
  const told = (stage: PlaceReport['stage']): PlaceReport => ({
    part: group.lead.id,
    group: group.ids,
    arrangement: arrangementId,
    stage,
    compartments: rankedAnswers(
      entries.map((entry) => answerOf(entry, boat)),
      boat,
    ),
  });
  yield { done: 0, of, partial: told('first') };
  // Whatever fails there is judged against the boat as it is.
  yield* allRouted(store);
  const before = yield* judged(store);
  const stores: Stores = {
    trial: store.fork(),
    base: store,
    before,
    atRest: new Map(store.read(lineIds).map((id) => [id, store.read(finalRun, id)])),
    suspects: [],
  };
  yield { done: 1, of };
  const open = entries.filter((entry) => !entry.isDone);
  let done = 1 + entries.length - open.length;
  const survivors: { readonly entry: Entry; readonly candidates: readonly Proposed[] }[] = [];
  for (const entry of open) {
    const candidates = proposedIn(entry, stores.trial, site, before);
    if (entry.isDone) {
      done += 1;
      yield { done, of, partial: told('first') };
    } else {
      survivors.push({ entry, candidates });
      yield null;
    }
  }
  yield { done, of, partial: told('first') };
  for (const { entry, candidates } of survivors.sort(byPromise)) {
    yield* settle(entry, candidates, stores, site);
    done += 1;
    yield { done, of, partial: told('first') };
  }
  return told('settled');
}

const byPromise = (
  a: { readonly candidates: readonly Proposed[] },
  b: { readonly candidates: readonly Proposed[] },
): number => (a.candidates[0]?.place.hoseM ?? 0) - (b.candidates[0]?.place.hoseM ?? 0);

function tinted(compartment: string, { source: { boat }, group, lines, facts, demands, store, home }: Site): Entry {
  const cells = store.read(layout);
  const box = boxOf(cells, compartment);
  const isNow = home === compartment;
  const leads = leadsOf(group, lines, facts);
  const { fits, ...tints } = firstTints(group, compartment, { boat, layout: cells, facts, leads });
  // what stands there now shows by itself whether it does
  const tests: Tints = isNow ? {} : { ...tints, ...(fits ? { fits } : {}) };
  const breaks = box ? brokenBy(compartment, demands, boat, box) : [];
  return {
    compartment,
    isNow,
    box,
    tests,
    breaks,
    best: null,
    stowageLostL: null,
    isDone: breaks.length > 0 || isFailed(tests),
  };
}

function answerOf(
  { compartment, isNow, tests, breaks, best, stowageLostL, isDone }: Entry,
  boat: Boat,
): CompartmentAnswer {
  const all = Object.fromEntries(
    PLACE_TESTS.map((test) => [test, tests[test] ?? notJudged]),
  ) as CompartmentAnswer['tests'];
  const { verdict, decides } = verdictOf(all, breaks, isDone);
  return {
    compartment,
    name: boat.compartments[compartment]?.name ?? compartment,
    verdict,
    tests: all,
    decides,
    isNow,
    best,
    stowageLostL,
    breaks,
  };
}

/** Places in a compartment that may do; where none does, the entry says by which test and is done. */
function proposedIn(entry: Entry, store: Store<Source>, site: Site, before: readonly Finding[]): readonly Proposed[] {
  const { group, source } = site;
  const now = entry.isNow && group.lead.now;
  const own: FreePlace[] = now ? [{ lead: now, mountedOn: null, hoseM: 0, tasksMissing: 0, leadsShortM: 0 }] : [];
  const { places, tried } = freePlaces(group, groundOf(entry.compartment, site));
  const all = [...own, ...places];
  if (all.length === 0) {
    entry.tests = {
      ...entry.tests,
      fits: {
        ...notJudged,
        outcome: 'fail',
        reason: 'noPlaceFound',
        measured: { value: tried, unit: 'count' },
        about: [entry.compartment],
      },
    };
    entry.isDone = true;
    return [];
  }
  let nearest: { readonly tests: Tints; readonly best: BestPlace; readonly breaks: readonly string[] } | null = null;
  const proposed: Proposed[] = [];
  for (const place of all) {
    const applied =
      place.lead === now
        ? null
        : appliedPlace(source.boat, source.arrangementId, group.posesWith(place.lead), {
            [group.lead.id]: place.mountedOn,
          });
    put(store, applied, site);
    const near = nearResults(store, site, before);
    const breaks =
      tooFar(Object.values(group.posesWith(place.lead)), site.demands, source.boat) > 1e-9 ? farDemands(site) : [];
    if (!isFailed(near) && breaks.length === 0) {
      proposed.push({ place, applied });
      continue;
    }
    if (!nearest) nearest = { tests: near, best: bestOf(place, applied, site), breaks };
  }
  if (proposed.length > 0) return proposed;
  if (nearest) {
    entry.tests = inOrderUntilFail(nearest.tests);
    entry.best = nearest.best;
    entry.breaks = [...entry.breaks, ...nearest.breaks];
    entry.isDone = true;
  }
  return [];
}

const farDemands = ({ demands }: Site): readonly string[] =>
  demands.filter(({ kind }) => kind === 'keepWithin').map(({ id }) => id);

/** Places of one compartment that are routed: the second only where the first fails. */
const MOST_JUDGED = 2;

/** Puts the parts there, routes, judges, and keeps what comes out best. */
function* settle(entry: Entry, candidates: readonly Proposed[], stores: Stores, site: Site): Generator<null, void> {
  let kept: JudgedPlace | null = null;
  for (const proposed of candidates.slice(0, MOST_JUDGED)) {
    const ruledOut = proposed.applied === null ? null : yield* ruledOutQuickly(stores, proposed, site);
    const place: JudgedPlace = ruledOut ?? (yield* judgedThere(stores.base.fork(), proposed, site, stores.before));
    if (!kept || isBetter(place, kept)) kept = place;
    if (!isFailed(place.tests) && place.breaks.length === 0) break;
    if (ruledOut?.isElsewhere) break;
  }
  if (kept) {
    entry.tests = kept.tests;
    entry.best = kept.isSure ? kept.best : null;
    entry.stowageLostL = kept.stowageLostL;
    entry.breaks = [...entry.breaks, ...kept.breaks];
  }
  entry.isDone = true;
}

const isBetter = (a: JudgedPlace, b: JudgedPlace): boolean => {
  const rank = ({ tests, breaks, isSure }: JudgedPlace): number =>
    isFailed(tests) ? 100 - Object.keys(tests).length + (isSure ? 0 : 0.5) : breaks.length > 0 ? 50 : 0;
  return rank(a) < rank(b);
};
