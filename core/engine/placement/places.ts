import type { Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { allRouted, finalRun } from '../final-run';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { judged } from '../remedies/trial';
import { layout } from '../shape-stages';
import { lineIds, placeChoices, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { boxOf, firstTints, leadsOf, type Tints } from './first-tints';
import { ruledOutQuickly } from './foretold';
import { type FreePlace, freePlaces } from './free-places';
import { type MovedGroup, movedGroup } from './moved-group';
import { inOrderUntilFail, isFailed } from './near-tests';
import { brokenBy } from './place-demands';
import type { BestPlace, CompartmentAnswer, PlaceReport, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';
import { notJudged } from './place-tests';
import { rankedAnswers, verdictOf } from './place-verdict';
import { PlacesInTurn } from './places-in-turn';
import type { JudgedPlace, Proposed } from './proposed-place';
import { groundOf, type Site, type Stores, siteOf } from './site';
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
    whole: store.fork(),
    before,
    atRest: new Map(store.read(lineIds).map((id) => [id, store.read(finalRun, id)])),
    suspects: [],
  };
  yield { done: 1, of };
  const open = entries.filter((entry) => !entry.isDone);
  let done = 1 + entries.length - open.length;
  const survivors: Survivor[] = [];
  for (const entry of open) {
    const candidates = new PlacesInTurn(placesIn(entry, site), stores.trial, site, before);
    const first = candidates.next();
    if (first) {
      survivors.push({ entry, first, candidates });
      yield null;
      continue;
    }
    if (candidates.unfit) {
      const { tests, best, breaks } = candidates.unfit;
      Object.assign(entry, { tests: inOrderUntilFail(tests), best, breaks: [...entry.breaks, ...breaks] });
    }
    entry.isDone = true;
    done += 1;
    yield { done, of, partial: told('first') };
  }
  yield { done, of, partial: told('first') };
  for (const survivor of survivors.sort((a, b) => a.first.place.hoseM - b.first.place.hoseM)) {
    yield* settle(survivor, stores, site);
    done += 1;
    yield { done, of, partial: told('first') };
  }
  return told('settled');
}

/** A compartment with a place that only runs can speak against. */
interface Survivor {
  readonly entry: Entry;
  readonly first: Proposed;
  readonly candidates: PlacesInTurn;
}

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

/** Free places in a compartment, that of now first; where there is none, the entry says so. */
function placesIn(entry: Entry, site: Site): readonly FreePlace[] {
  const { group, store } = site;
  const now = entry.isNow && group.lead.now;
  const mountedOn = store.read(placeChoices, group.lead.id)?.mountedOn ?? null;
  const own: FreePlace[] = now ? [{ lead: now, mountedOn, hoseM: 0, tasksMissing: 0, leadsShortM: 0 }] : [];
  const { places, tried } = freePlaces(group, groundOf(entry.compartment, site));
  if (own.length + places.length > 0) return [...own, ...places];
  const fits: PlaceTestResult = {
    ...notJudged,
    outcome: 'fail',
    reason: 'noPlaceFound',
    measured: { value: tried, unit: 'count' },
    about: [entry.compartment],
  };
  entry.tests = { ...entry.tests, fits };
  return [];
}

/** Places of one compartment that are routed: the second only where the first fails. */
const MOST_JUDGED = 2;

/** Puts the parts there, routes, judges, and keeps what comes out best. */
function* settle({ entry, first, candidates }: Survivor, stores: Stores, site: Site): Generator<null, void> {
  let kept: JudgedPlace | null = null;
  let proposed: Proposed | null = first;
  for (let k = 0; proposed && k < MOST_JUDGED; k++) {
    const ruledOut = proposed.applied === null ? null : yield* ruledOutQuickly(stores, proposed, site);
    const place: JudgedPlace = ruledOut ?? (yield* judgedThere(stores.whole, proposed, site, stores.before));
    if (!kept || standing(place) < standing(kept)) kept = place;
    if (standing(place) === 0 || ruledOut?.isElsewhere) break;
    proposed = candidates.next();
  }
  if (kept) {
    entry.tests = kept.tests;
    entry.best = kept.isSure ? kept.best : null;
    entry.stowageLostL = kept.stowageLostL;
    entry.breaks = [...entry.breaks, ...kept.breaks];
  }
  entry.isDone = true;
}

/** The lower the better: what does, what is not known, what breaks a demand, what fails; of these the one that passes more tests. */
const standing = ({ tests, breaks, isSure }: JudgedPlace): number => {
  if (isFailed(tests)) return 100 - Object.keys(tests).length + (isSure ? 0 : 0.5);
  return breaks.length > 0 ? 50 : isSure ? 0 : 25;
};
