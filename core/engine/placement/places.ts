import { distance, type Vec3 } from '../../base/vec';
import { poseOf } from '../../boat/edits';
import { quantised } from '../../boat/quantise';
import type { Boat } from '../../boat/schema/boat';
import type { Facts } from '../../rules/facts';
import type { Finding } from '../../rules/finding';
import { startSearch } from '../../runs/routing/route';
import type { BlockReason, RunOutcome } from '../../runs/routing/types';
import { convexOf } from '../../shape/space/convex';
import type { Solid } from '../../shape/space/solids';
import { factsOver } from '../facts';
import { allRouted, bound, finalRun } from '../final-run';
import { findingsOf, findingsOn, subjects } from '../finding-stages';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { NO_RUNS } from '../laid-run';
import { judged } from '../remedies/trial';
import { runReport } from '../report-stages';
import { blockedByWish, ranked, viewOver, wish } from '../run-stages';
import { hull, layout } from '../shape-stages';
import { solidsOf } from '../solid-stages';
import { held, heldSpare, line, lineIds, openings, partIds, type Source, sourceOf, thingIds } from '../source';
import { Store } from '../store';
import { type AppliedPlace, appliedPlace, changedBy, linesAt } from './applied-place';
import { dryness, knownLevels } from './dry';
import { boxOf, firstTints, leadsOf, type Tints } from './first-tints';
import { type FreePlace, freePlaces, type Ground } from './free-places';
import { type MovedGroup, movedGroup } from './moved-group';
import { brokenBy, brokenByHole, demandsOn, type PlaceDemand, tooFar } from './place-demands';
import type { BestPlace, CompartmentAnswer, PlaceReport, PlaceTest, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';
import { deciding, notJudged, passed, resultsFrom } from './place-tests';
import { rankedAnswers, verdictOf } from './place-verdict';

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

/** What the question stands on. */
interface Site {
  readonly source: Source;
  readonly group: MovedGroup;
  readonly lines: readonly string[];
  readonly facts: Facts;
  readonly demands: readonly PlaceDemand[];
  readonly store: Store<Source>;
  readonly home: string | null;
  /** Length of the lines as they run now; null while one does not. */
  readonly hoseNowM: () => number | null;
  /** Whether the parts belong to the arrangement already: then putting them elsewhere changes little of what the store was given. */
  readonly isArranged: boolean;
}

function siteOf(store: Store<Source>, source: Source, group: MovedGroup): Site {
  const { boat, arrangementId } = source;
  const facts = factsOver(store.read);
  const now = group.lead.now;
  const lines = linesAt(boat, group.ids);
  const arranged = store.read(partIds);
  return {
    source,
    group,
    lines,
    facts,
    demands: demandsOn(boat, group.ids),
    store,
    home: now && store.read(layout).compartmentAt(now.at),
    hoseNowM: () =>
      hoseOf(
        store,
        lines.filter((id) => store.read(line, id) !== undefined),
      ),
    isArranged: group.ids.every((id) => arranged.includes(id) && poseOf(boat, arrangementId, id) !== null),
  };
}

function hoseOf(store: Pick<Store<Source>, 'read'>, lines: readonly string[]): number | null {
  let sum = 0;
  for (const id of lines) {
    const outcome = store.read(finalRun, id);
    if (outcome.status !== 'routed') return null;
    sum += outcome.lengthM;
  }
  return sum;
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
  return { compartment, isNow, box, tests, breaks, best: null, isDone: breaks.length > 0 || isFailed(tests) };
}

const isFailed = (tests: Tints): boolean => Object.values(tests).some(({ outcome }) => outcome === 'fail');

function answerOf({ compartment, isNow, tests, breaks, best, isDone }: Entry, boat: Boat): CompartmentAnswer {
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
    stowageLostL: null,
    breaks,
  };
}

/** A place that no quick test rules out, with the edit. */
interface Proposed {
  readonly place: FreePlace;
  readonly applied: AppliedPlace | null;
}

/** Tests that hang on the place alone, and on no run. */
const NEAR_RULES: readonly string[] = [
  'access/way-in',
  'access/overlap',
  'hull/mounting',
  'access/hold-down',
  'access/service-space',
  'power/cool',
  'power/compass-parts',
  'power/battery-place',
  'power/ignition',
];

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

function bestOf(place: FreePlace, applied: AppliedPlace | null, { group }: Site): BestPlace {
  return {
    poses: group.posesWith(place.lead),
    mountedOn: place.mountedOn,
    moreHoseM: null,
    newHoles: null,
    patches: applied?.patches ?? [],
  };
}

/** Gives the store the boat with the parts put somewhere, or as it is; with runs that are taken for granted, or none. */
function put(
  store: Store<Source>,
  applied: AppliedPlace | null,
  { source, group, isArranged }: Site,
  shown: Source['held'] = source.held,
): void {
  const next = { ...(applied?.source ?? source), held: shown };
  if (!isArranged) {
    store.set(next);
    return;
  }
  const lines = Object.keys(source.boat.lines);
  store.setFew(next, [
    ...changedBy(source.boat, group.ids),
    ...lines.flatMap((id) => [[held, id] as const, [heldSpare, id] as const]),
  ]);
}

/** Results of what hangs on no run, and bounds of the lines. */
function nearResults(store: Store<Source>, site: Site, before: readonly Finding[]): Tints {
  const { group, lines } = site;
  const found = NEAR_RULES.flatMap((rule) => {
    const asked = store.read(subjects, rule);
    return group.ids.flatMap((id) => (asked.includes(id) ? store.read(findingsOn, `${rule}|${id}`) : []));
  });
  const near = resultsFrom(found, before, { parts: new Set(group.ids), lines: new Set() });
  const results: Partial<Record<PlaceTest, PlaceTestResult>> = { ...near };
  if (isFailed(results)) return results;
  for (const id of lines) {
    const usableM = usableOf(id, store);
    const certified = usableM === null ? null : store.read(bound, id);
    if (usableM === null || !certified || certified.lengthM <= usableM) continue;
    results.reaches = tooShort(id, certified.lengthM, usableM);
    break;
  }
  return results;
}

function usableOf(lineId: string, store: Store<Source>): number | null {
  const supplied = store.read(line, lineId)?.supplied;
  return supplied ? supplied.lengthM - supplied.spareM : null;
}

/** Up to the first test that fails, in the order of the columns: what comes after is not judged. */
function inOrderUntilFail(tests: Tints): Tints {
  const kept: Partial<Record<PlaceTest, PlaceTestResult>> = {};
  for (const test of PLACE_TESTS) {
    const result = tests[test];
    if (!result) continue;
    kept[test] = result;
    if (result.outcome === 'fail') break;
  }
  return kept;
}

function groundOf(compartment: string, { source, group, lines, facts, demands, store }: Site): Ground {
  const { boat } = source;
  const moved = new Set(group.ids);
  const box = boxOf(store.read(layout), compartment);
  const solids = store
    .read(thingIds)
    .filter((id) => !moved.has(id))
    .flatMap((id) => store.read(solidsOf, id).filter(({ layer }) => layer !== 'serviceKeepOut'));
  return {
    compartment,
    layout: store.read(layout),
    hull: store.read(hull),
    openings: store.read(openings),
    surfaces: Object.entries(boat.mountingSurfaces)
      .filter(([, surface]) => surface.compartment === compartment)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
    solids: box ? solidsNear(solids, box) : solids,
    leads: leadsOf(group, lines, facts),
    dryFrom: knownLevels(compartment, facts),
    outsideBy: (pose) => tooFar(Object.values(group.posesWith(pose)), demands, boat),
  };
}

const solidsNear = (solids: readonly Solid[], [low, high]: readonly [Vec3, Vec3]): readonly Solid[] =>
  solids.filter((solid) => {
    const near = convexOf(solid);
    return ([0, 1, 2] as const).every((k) => near.low[k] < high[k] && near.high[k] > low[k]);
  });

/** Places of one compartment that are judged by all checks: the second only where the first fails. */
const MOST_JUDGED = 2;

/** What came of one place. Sure: the boat with the parts there has that verdict; else a quick search alone speaks, and nothing is proposed. */
interface JudgedPlace {
  readonly tests: Tints;
  readonly best: BestPlace;
  readonly breaks: readonly string[];
  readonly isSure: boolean;
}

/** Puts the parts there, routes, judges, and keeps what comes out best. */
function* settle(entry: Entry, candidates: readonly Proposed[], stores: Stores, site: Site): Generator<null, void> {
  let kept: JudgedPlace | null = null;
  let count = 0;
  for (const proposed of candidates) {
    if (count >= MOST_JUDGED) break;
    const ruledOut = proposed.applied === null ? null : yield* ruledOutQuickly(stores, proposed, site);
    if (!ruledOut) count += 1;
    const place: JudgedPlace = ruledOut ?? (yield* judgedThere(stores.base.fork(), proposed, site, stores.before));
    if (!kept || isBetter(place, kept)) kept = place;
    if (!isFailed(place.tests) && place.breaks.length === 0) break;
    if (ruledOut?.isElsewhere) break;
  }
  if (kept) {
    entry.tests = kept.tests;
    entry.best = kept.isSure ? kept.best : null;
    entry.breaks = [...entry.breaks, ...kept.breaks];
  }
  entry.isDone = true;
}

const isBetter = (a: JudgedPlace, b: JudgedPlace): boolean => {
  const rank = ({ tests, breaks, isSure }: JudgedPlace): number =>
    isFailed(tests) ? 100 - Object.keys(tests).length + (isSure ? 0 : 0.5) : breaks.length > 0 ? 50 : 0;
  return rank(a) < rank(b);
};

/** Stores to try in: one for what is quick, one from which each whole judgement begins; and what was found of the boat as it is. */
interface Stores {
  readonly trial: Store<Source>;
  readonly base: Store<Source>;
  readonly before: readonly Finding[];
  /** Runs of the boat as it is. */
  readonly atRest: ReadonlyMap<string, RunOutcome>;
  /** Lines that found no run somewhere, the last first. */
  readonly suspects: string[];
}

/** Work of a quick search, in its steps: what finds a run by itself mostly takes a quarter of it. */
const QUICK_STEPS = 8000;

/** Verdicts that a run found by itself foretells: they hang on where it lies, and hardly on the runs beside it. */
const FORETOLD: readonly string[] = [
  'runs/supplied-length',
  'runs/near-heat',
  'runs/pressure-near-berth',
  'water/suction-crest',
  'water/suction-pressure',
  'water/over-electrics',
  'water/loop-rise',
  'water/drain-fall',
  'water/tank-end',
  'power/motor-voltage',
  'power/near-compass',
  'power/fuse-distance',
  'flooding/siphon',
  'flooding/drip-on-electrics',
  'flooding/bowl-spill',
];
/** Of these also what is found of other things. */
const OF_OTHERS: readonly string[] = ['access/services-taken'];

/**
 * A line that finds no run there though no other line is in the way, or one that is longer than the hose that is to be used; or a verdict that
 * the runs found so already tell while all others lie as they do now. Null where nothing of it speaks against the place. The lines that failed
 * last are asked first.
 */
function* ruledOutQuickly(stores: Stores, proposed: Proposed, site: Site): Generator<null, RuledOut | null> {
  const { trial, before, suspects } = stores;
  const { place, applied } = proposed;
  put(trial, applied, site);
  const lines = trial.read(ranked).filter((id) => site.lines.includes(id));
  const inTurn = [...suspects.filter((id) => lines.includes(id)), ...lines.filter((id) => !suspects.includes(id))];
  const ruledOut = (tests: Tints, isElsewhere: boolean): RuledOut => ({
    tests: inOrderUntilFail(tests),
    best: bestOf(place, applied, site),
    breaks: [],
    isSure: false,
    isElsewhere,
  });
  const runs = new Map<string, RunOutcome>();
  for (const id of inTurn) {
    const quick = quickRun(trial, id, site.group.ids);
    yield null;
    if ('run' in quick) {
      runs.set(id, quick.run);
      continue;
    }
    suspects.splice(0, suspects.length, id, ...suspects.filter((other) => other !== id));
    return ruledOut({ ...nearResults(trial, site, before), reaches: quick.result }, quick.isElsewhere);
  }
  put(trial, applied, site, new Map([...stores.atRest, ...runs]));
  const own = [...site.group.ids, ...lines];
  const found = FORETOLD.flatMap((rule) => {
    const asked = new Set(trial.read(subjects, rule));
    return own.flatMap((id) => (asked.has(id) ? trial.read(findingsOn, `${rule}|${id}`) : []));
  });
  found.push(...OF_OTHERS.flatMap((rule) => trial.read(findingsOf, rule)));
  yield null;
  const foretold = resultsFrom(found, before, { parts: new Set(site.group.ids), lines: new Set(lines) });
  const tests = { ...foretold, ...nearResults(trial, site, before) };
  return isFailed(foretold) ? ruledOut({ ...tests, ...failuresOf(foretold) }, false) : null;
}

const failuresOf = (tests: Tints): Tints =>
  Object.fromEntries(Object.entries(tests).filter(([, { outcome }]) => outcome === 'fail'));

/** Elsewhere: what stops the line lies nearer to its other end, and another place in the compartment helps little. */
interface RuledOut extends JudgedPlace {
  readonly isElsewhere: boolean;
}

/** The run of a line by itself, or what a quick search fails by. */
function quickRun(
  store: Store<Source>,
  lineId: string,
  moved: readonly string[],
): { readonly run: RunOutcome } | { readonly result: PlaceTestResult; readonly isElsewhere: boolean } {
  const asked = store.read(wish, lineId);
  if (asked.outcome !== 'line') return { run: blockedByWish(asked) };
  const { lengthLimitM: _, ...free } = asked.line;
  const search = startSearch(
    viewOver(store.read, () => NO_RUNS),
    free,
    'fast',
  );
  const outcome = search.step(QUICK_STEPS);
  if (outcome?.status === 'routed') {
    const usableM = usableOf(lineId, store);
    if (usableM === null || outcome.lengthM <= usableM) return { run: outcome };
    return { result: tooShort(lineId, outcome.lengthM, usableM), isElsewhere: false };
  }
  const { from, to } = asked.line;
  const [own, far] = moved.includes(from.thing) ? [from, to] : [to, from];
  const at = outcome?.reason.at ?? null;
  return {
    result: noRun(lineId, outcome?.reason ?? { shortByM: null, blocker: null }),
    isElsewhere: at !== null && distance(at, far.at) < distance(at, own.at),
  };
}

const noRun = (lineId: string, { shortByM, blocker }: Pick<BlockReason, 'shortByM' | 'blocker'>): PlaceTestResult => ({
  ...notJudged,
  outcome: 'fail',
  reason: 'noRun',
  measured: shortByM === null ? null : { value: shortByM, unit: 'm' },
  limit: shortByM === null ? null : { value: 0, bound: 'atMost' },
  about: [lineId, ...(blocker === null ? [] : [blocker])],
});

const tooShort = (lineId: string, neededM: number, usableM: number): PlaceTestResult => ({
  ...notJudged,
  outcome: 'fail',
  reason: 'lineTooShort',
  measured: { value: neededM, unit: 'm' },
  limit: { value: usableM, bound: 'atMost' },
  about: [lineId],
});

function* judgedThere(
  store: Store<Source>,
  { place, applied }: Proposed,
  site: Site,
  before: readonly Finding[],
): Generator<null, JudgedPlace> {
  put(store, applied, site);
  const { group, demands } = site;
  const best = bestOf(place, applied, site);
  const lines = site.lines.filter((id) => store.read(lineIds).includes(id));
  yield* allRouted(store);
  const after = yield* judged(store);
  const whole: Partial<Record<PlaceTest, PlaceTestResult>> = {
    ...resultsFrom(after, before, { parts: new Set(group.ids), lines: new Set(lines) }),
  };
  const dry = dryness(group.ids, factsOver(store.read));
  whole.dry = whole.dry ? deciding(whole.dry, dry) : dry;
  const holes = lines.flatMap((id) => store.read(runReport, id).holes.filter(({ existing }) => !existing));
  whole.holes ??= { ...passed('newHoles'), measured: { value: holes.length, unit: 'count' }, about: lines };
  const tests = Object.fromEntries(PLACE_TESTS.map((test) => [test, whole[test] ?? passed('nothingAsked')]));
  const hoseM = hoseOf(store, lines);
  const hoseNowM = group.lead.now ? site.hoseNowM() : null;
  return {
    tests: isFailed(tests) ? inOrderUntilFail(tests) : tests,
    best: {
      ...best,
      moreHoseM: hoseM === null || hoseNowM === null ? null : quantised(hoseM - hoseNowM),
      newHoles: holes.length,
    },
    breaks: brokenByHole(
      after.filter(({ subject }) => group.ids.includes(subject)),
      demands,
    ),
    isSure: true,
  };
}
