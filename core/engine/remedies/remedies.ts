import { UNIT_AXES, type Vec3 } from '../../base/vec';
import { type BoatRecipe, type Edited, edit, placed } from '../../boat/edits';
import type { Boat } from '../../boat/schema/boat';
import type { Finding } from '../../rules/finding';
import { type Caution, MENDED_RULES, type Remedy } from '../../rules/remedy';
import { heightAbove } from '../../shape/hull/attitude';
import { allRouted, finalRun } from '../final-run';
import { findingsOn } from '../finding-stages';
import { hazardsOfAll, touched } from '../hazards';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import type { HoleReport } from '../report';
import { runReport } from '../report-stages';
import { baseRun, wish } from '../run-stages';
import { compartmentOf, layout } from '../shape-stages';
import { compartmentKind, line, lineKind, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { attitude } from '../water-stages';
import {
  type Candidate,
  elbowCandidates,
  holeCandidates,
  kindCandidates,
  lengthCandidates,
  type Trouble,
  turnCandidates,
} from './candidates';
import { CHANGE_COST_M } from './change-cost';
import { judged, leastMoves } from './trial';
import { unionCandidates } from './union';
import { sideEffects } from './worse';

export interface RemediesOptions {
  /** Default: the arrangement that is marked current, else the first by id. */
  readonly arrangement?: string;
  /** A store that may know some of it already. It is worked in, and left to nobody else. */
  readonly store?: Store<Source>;
}

/** Reasons that no change of the boat mends: something has to be drawn or placed first. */
const NOT_MENDED: ReadonlySet<string> = new Set(['notPlaced', 'noSuchPort', 'portOutside']);
/** How far a part is moved at most, and how fine the least move is told, metres. */
const MOVES_M = [0.02, 0.05, 0.1, 0.2, 0.3] as const;
const MOVE_FINE_M = 0.005;
const MILLIMETRE = 0.001;

/** What would mend the failing run of a line, the cheapest first: all of it routed and judged. */
export function remedies(boat: Boat, lineId: string, options: RemediesOptions = {}): readonly Remedy[] {
  return atOnce(startRemedies(boat, lineId, options));
}

/** The same in slices: each routes one line, or judges by one rule. */
export function startRemedies(
  boat: Boat,
  lineId: string,
  { arrangement, store }: RemediesOptions = {},
): InSlices<readonly Remedy[]> {
  const source = sourceOf(boat, arrangement);
  const own = store ?? new Store(source);
  own.set(source);
  return inSlices(remediesOfLine(own, source, lineId));
}

/** The work of it: what it changes in the store is undone when it ends. */
export function* remediesOfLine(
  store: Store<Source>,
  source: Source,
  lineId: string,
): Generator<Progress | null, readonly Remedy[]> {
  yield* allRouted(store);
  const before = yield* judged(store);
  const trouble = troubleOf(store, source, lineId, before);
  if (!trouble) return [];
  const neededM = trouble.outcome.status === 'routed' ? trouble.outcome.lengthM : null;
  const candidates: (Candidate | Mover)[] = [
    ...lengthCandidates(trouble, neededM),
    ...holeCandidates(trouble),
    ...elbowCandidates(trouble),
    ...kindCandidates(trouble),
    ...unionCandidates(trouble),
    ...turnCandidates(trouble),
    ...movers(trouble),
  ];
  const found: Remedy[] = [];
  for (const [done, one] of candidates.entries()) {
    yield { done, of: candidates.length };
    // Of the same hole, elbow or length the first that helps is enough.
    if (found.some((known) => sameKind(known, one))) continue;
    const remedy =
      'way' in one
        ? yield* moved(store, source, trouble, one, before)
        : yield* tried(store, source, one, trouble, before);
    if (remedy) found.push(remedy);
  }
  store.set(source);
  return leastMoves(found).sort((a, b) => a.costM - b.costM || (a.id < b.id ? -1 : 1));
}

const sameKind = (known: Remedy, one: Candidate | Mover): boolean =>
  !('way' in one) &&
  known.change === one.change &&
  (one.change === 'longerHose' || (known.what.panel !== undefined && known.what.panel === one.what.panel));

function troubleOf(
  store: Store<Source>,
  { boat, arrangementId }: Source,
  lineId: string,
  before: readonly Finding[],
): Trouble | null {
  const own = store.read(line, lineId);
  const kind = own && store.read(lineKind, own.kind);
  const asked = own && kind ? store.read(wish, lineId) : null;
  const outcome = asked && store.read(finalRun, lineId);
  if (!own || !kind || asked?.outcome !== 'line' || !outcome || arrangementId === null) return null;
  if (outcome.status === 'blocked' && NOT_MENDED.has(outcome.reason.kind)) return null;
  if (!before.some((finding) => isHealed(finding, lineId))) return null;
  return { boat, arrangementId, lineId, line: own, kind, asked: asked.line, outcome, layout: store.read(layout) };
}

const isHealed = (finding: Finding, lineId: string): boolean =>
  finding.outcome === 'fail' && finding.subject === lineId && MENDED_RULES.includes(finding.rule);

function* tried(
  store: Store<Source>,
  source: Source,
  candidate: Candidate,
  trouble: Trouble,
  before: readonly Finding[],
): Generator<null, Remedy | null> {
  const edited = edit(trouble.boat, candidate.recipe);
  if (!edited.ok) return null;
  store.set(sourceOf(edited.boat, source.arrangementId));
  // The line itself first: where it finds no way among those before it, the rest need not be routed.
  for (const id of candidate.lines) {
    if (store.read(baseRun, id).status === 'blocked') return null;
    yield null;
  }
  yield* allRouted(store);
  const runs = candidate.lines.map((id) => store.read(finalRun, id));
  if (runs.some(({ status }) => status === 'blocked')) return null;
  yield null;
  const after = yield* judged(store);
  if (after.some((finding) => candidate.lines.some((id) => isHealed(finding, id)))) return null;
  const mended = before.flatMap((finding) =>
    finding.outcome === 'fail' && isHealed(finding, trouble.lineId) ? [finding.severity] : [],
  );
  const { worse, brings } = sideEffects(before, after, mended);
  if (worse.length > 0) return null;
  return { ...remedyOf(store, candidate, edited, trouble), brings };
}

function remedyOf(
  store: Store<Source>,
  candidate: Candidate,
  edited: Extract<Edited, { ok: true }>,
  trouble: Trouble,
): Omit<Remedy, 'brings'> {
  const runs = candidate.lines.map((id) => store.read(runReport, id));
  const sum = (value: (run: (typeof runs)[number]) => number): number =>
    runs.reduce((total, run) => total + value(run), 0);
  const newHoles = runs.flatMap(({ holes }) => holes.filter(({ existing }) => !existing));
  const { panel, change } = candidate;
  const planned = change === 'newHole' && panel ? panel.newHoleCostM : 0;
  return {
    id: candidate.id,
    change,
    what: candidate.what,
    patches: edited.patches,
    costM: sum(({ costM }) => costM ?? 0) + planned + CHANGE_COST_M[change] + Number(candidate.what.byM ?? 0),
    lengthM: sum(({ lengthM }) => lengthM ?? 0),
    newHoles,
    prims: runs.flatMap(({ prims }) => prims),
    cautions: cautionsOf(store, candidate, newHoles, trouble),
    hazards: hazardsOfAll([trouble.lineId, ...touched(candidate.what)], [], (stage, key) => store.read(stage, key)),
  };
}

/** What to think of: holes below the water or into the engine space, panels that were not to be drilled, joints. */
function cautionsOf(
  store: Store<Source>,
  { panel, change }: Candidate,
  newHoles: readonly HoleReport[],
  { kind, layout: cells }: Trouble,
): readonly Caution[] {
  const found: Caution[] = [];
  if (panel?.rule === 'noDrill' && change !== 'widerHole') found.push({ kind: 'noDrill', data: { panel: panel.id } });
  const water = store.read(attitude);
  const seen = new Set<string>();
  for (const { panelId, at, diameterM } of newHoles) {
    const depthM = diameterM / 2 - heightAbove(water, at);
    if (depthM > 0) found.push({ kind: 'belowWater', data: { panel: panelId, depthM } });
    const between = cells.panels[panelId]?.between ?? [];
    const engine = between.find((id) => store.read(compartmentKind, id) === 'engineSpace');
    if (engine && !seen.has(panelId)) found.push({ kind: 'engineSpace', data: { panel: panelId } });
    seen.add(panelId);
  }
  if (change === 'union') found.push({ kind: 'joint', data: {} });
  if ((change === 'elbow' || change === 'union') && kind.crimpedEnds) found.push({ kind: 'crimpedEnds', data: {} });
  return found;
}

/** A part that may be moved along one direction. */
interface Mover {
  readonly thing: string;
  readonly way: Vec3;
  readonly name: string;
}

const WAYS: readonly { readonly name: string; readonly way: Vec3 }[] = UNIT_AXES.flatMap((way, k) => [
  { name: ['forward', 'to port', 'up'][k] as string, way },
  { name: ['aft', 'to starboard', 'down'][k] as string, way: [-way[0], -way[1], -way[2]] as const },
]);

/** The placed parts at the ends, and the part that stands in the way. */
function movers({ boat, arrangementId, line: { from, to }, outcome }: Trouble): readonly Mover[] {
  const places = boat.arrangements[arrangementId]?.places ?? {};
  const blocker = outcome.status === 'blocked' ? outcome.reason.blocker : null;
  const things = [...new Set([blocker, from.thing, to.thing])].filter(
    (id): id is string => id !== null && Object.hasOwn(boat.parts, id) && Object.hasOwn(places, id),
  );
  return things.flatMap((thing) => WAYS.map(({ name, way }) => ({ thing, way, name })));
}

/** The least move of a part along a direction with which the line finds a run; null where none within reach does. */
function* moved(
  store: Store<Source>,
  source: Source,
  trouble: Trouble,
  { thing, way, name }: Mover,
  before: readonly Finding[],
): Generator<null, Remedy | null> {
  const { boat, arrangementId, lineId } = trouble;
  const place = boat.arrangements[arrangementId]?.places[thing];
  if (!place) return null;
  const recipe = (byM: number): BoatRecipe => {
    const at = (k: 0 | 1 | 2): number => (place.at[k] ?? 0) + way[k] * byM;
    return placed(arrangementId, thing, { at: [at(0), at(1), at(2)] });
  };
  const fits = (byM: number): boolean => {
    const edited = edit(boat, recipe(byM));
    if (!edited.ok) return false;
    store.set(sourceOf(edited.boat, source.arrangementId));
    if (store.read(compartmentOf, thing) === null) return false;
    if (store.read(findingsOn, `access/overlap|${thing}`).some(({ outcome }) => outcome === 'fail')) return false;
    if (store.read(baseRun, lineId).status === 'blocked') return false;
    if (trouble.outcome.status === 'blocked') return true;
    return MENDED_RULES.every(
      (rule) => !store.read(findingsOn, `${rule}|${lineId}`).some((one) => isHealed(one, lineId)),
    );
  };
  let low = 0;
  let high: number | null = null;
  for (const byM of MOVES_M) {
    yield null;
    if (fits(byM)) {
      high = byM;
      break;
    }
    low = byM;
  }
  if (high === null) return null;
  const helpedAt = high;
  while (high - low > MOVE_FINE_M) {
    yield null;
    const middle: number = Math.round((low + high) / 2 / MILLIMETRE) * MILLIMETRE;
    if (fits(middle)) high = middle;
    else low = middle;
  }
  // The least move may end where something else suffers that a little more would spare.
  for (const byM of [...new Set([Math.round(high / MILLIMETRE) * MILLIMETRE, helpedAt])]) {
    const candidate: Candidate = {
      id: `move ${thing} ${name}`,
      change: 'move',
      what: { thing, way: name, byM },
      recipe: recipe(byM),
      lines: [lineId],
    };
    const remedy = yield* tried(store, source, candidate, trouble, before);
    if (remedy) return remedy;
  }
  return null;
}
