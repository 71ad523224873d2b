import { UNIT_AXES, type Vec3 } from '../../base/vec';
import { applied, type BoatRecipe, edit, placed } from '../../boat/edits';
import type { Boat, Place } from '../../boat/schema/boat';
import { sameValue } from '../../boat/schema-walk';
import type { Finding } from '../../rules/finding';
import type { FailedFinding, Mend } from '../../rules/mend';
import { RULES } from '../../rules/registry';
import { MENDED_RULES, type Remedy } from '../../rules/remedy';
import { startAlternatives } from '../alternatives/alternatives';
import { factsOver } from '../facts';
import { allRouted } from '../final-run';
import { findingsOn } from '../finding-stages';
import { hazardsOfAll, touched } from '../hazards';
import { atOnce, type InSlices, inSlices, type Progress } from '../in-slices';
import { compartmentOf } from '../shape-stages';
import { line, type Source, sourceOf } from '../source';
import { Store } from '../store';
import { CHANGE_COST_M } from './change-cost';
import { type RemediesOptions, remediesOfLine } from './remedies';
import { judged, leastMoves } from './trial';
import { sideEffects } from './worse';

/** How far a part is moved, the least first, and how fine the least move is told, metres. */
const MOVES_M = [0.05, 0.15, 0.3] as const;
const MOVE_FINE_M = 0.01;
/** Parts that are tried elsewhere: the subject and what else the finding names, the first that are placed. */
const MOST_MOVED = 2;
const TURNS_DEG = [90, -90, 180] as const;

/** What would mend a failed finding, the cheapest first: all of it applied to a copy of the boat, routed and judged again. */
export function mends(boat: Boat, key: string, options: RemediesOptions = {}): readonly Remedy[] {
  return atOnce(startMends(boat, key, options));
}

/** The same in slices. */
export function startMends(
  boat: Boat,
  key: string,
  { arrangement, store }: RemediesOptions = {},
): InSlices<readonly Remedy[]> {
  const source = sourceOf(boat, arrangement);
  const own = store ?? new Store(source);
  own.set(source);
  return inSlices(search(own, source, key));
}

function* search(store: Store<Source>, source: Source, key: string): Generator<Progress | null, readonly Remedy[]> {
  yield* allRouted(store);
  const before = yield* judged(store);
  const failed = before.find((finding): finding is FailedFinding => finding.key === key && finding.outcome === 'fail');
  const { boat, arrangementId } = source;
  if (!failed || arrangementId === null) return [];
  const isOfRun = MENDED_RULES.includes(failed.rule) && store.read(line, failed.subject) !== undefined;
  const found: Remedy[] = isOfRun ? [...(yield* remediesOfLine(store, source, failed.subject))] : [];
  store.set(source);
  const proposed = proposals(store, boat, arrangementId, failed);
  const movers = isOfRun ? [] : moversOf(boat, arrangementId, failed);
  const of = proposed.length + movers.length;
  for (const [done, one] of [...proposed, ...movers].entries()) {
    yield { done, of };
    // a rule may know several places for the same thing: the first that helps is enough
    if (!('way' in one) && found.some(({ change, what }) => change === one.change && sameValue(what, one.what)))
      continue;
    for (const mend of 'way' in one ? yield* leastMove(store, source, failed, one) : [one]) {
      const remedy = yield* tried(store, source, mend, failed, before);
      if (!remedy) continue;
      found.push(remedy);
      break;
    }
  }
  store.set(source);
  // Cheapest first: the first other way that keeps its word is enough.
  for (const one of isOfRun ? [] : yield* otherWays(store, source, failed)) {
    const remedy = yield* tried(store, source, one, failed, before);
    if (!remedy) continue;
    found.push({ ...remedy, ...one.run });
    break;
  }
  store.set(source);
  return leastMoves(found).sort((a, b) => a.costM - b.costM || (a.id < b.id ? -1 : 1));
}

/** What the rule itself proposes, and quarter turns of the parts. */
function proposals(store: Store<Source>, boat: Boat, arrangementId: string, failed: FailedFinding): readonly Mend[] {
  const rule = RULES.find(({ id }) => id === failed.rule);
  const own = rule?.mends?.(failed, { boat, arrangementId, facts: factsOver(store.read) }) ?? [];
  const turns = partsOf(boat, arrangementId, failed).flatMap(([thing, place]) =>
    TURNS_DEG.map(
      (byDeg): Mend => ({
        id: `turn ${thing} ${byDeg}`,
        change: 'turn',
        what: { thing, byDeg },
        recipe: placed(arrangementId, thing, { at: place.at, yawDeg: turned(place.yawDeg, byDeg) }),
      }),
    ),
  );
  return [...own, ...turns];
}

const turned = (yawDeg: number, byDeg: number): number => ((((yawDeg + byDeg + 180) % 360) + 360) % 360) - 180;

/** Placed parts that the finding names and that are not fitted yet, the subject first; of a line the parts at its ends. */
function partsOf(
  boat: Boat,
  arrangementId: string,
  { subject, related }: Finding,
): readonly (readonly [string, Place])[] {
  const arrangement = boat.arrangements[arrangementId];
  const named = [subject, ...related].flatMap((id) => {
    const own = Object.hasOwn(boat.lines, id) ? boat.lines[id] : undefined;
    return own ? [own.from.thing, own.to.thing] : [id];
  });
  return [...new Set(named)]
    .flatMap((id): readonly (readonly [string, Place])[] => {
      const place =
        Object.hasOwn(boat.parts, id) && arrangement && Object.hasOwn(arrangement.places, id)
          ? arrangement.places[id]
          : undefined;
      return place && !arrangement?.asBuilt?.includes(id) ? [[id, place]] : [];
    })
    .slice(0, MOST_MOVED);
}

interface Mover {
  readonly thing: string;
  readonly place: Place;
  readonly arrangementId: string;
  readonly name: string;
  readonly way: Vec3;
}

function moversOf(boat: Boat, arrangementId: string, failed: Finding): readonly Mover[] {
  const ways = UNIT_AXES.flatMap((way, k) => [
    { name: ['forward', 'to port', 'up'][k] as string, way },
    { name: ['aft', 'to starboard', 'down'][k] as string, way: [-way[0], -way[1], -way[2]] as const },
  ]);
  return partsOf(boat, arrangementId, failed).flatMap(([thing, place]) =>
    ways.map(({ name, way }) => ({ thing, place, arrangementId, name, way })),
  );
}

const movedBy = ({ thing, place, arrangementId, way }: Mover, byM: number): BoatRecipe =>
  placed(arrangementId, thing, {
    at: [place.at[0] + way[0] * byM, place.at[1] + way[1] * byM, place.at[2] + way[2] * byM],
  });

/** The least move of a part one way after which the failure is gone and the part is still inside, and the step that found it. */
function* leastMove(
  store: Store<Source>,
  source: Source,
  failed: FailedFinding,
  mover: Mover,
): Generator<null, readonly Mend[]> {
  const helps = (byM: number): boolean => {
    const edited = edit(source.boat, movedBy(mover, byM));
    if (!edited.ok) return false;
    store.set(sourceOf(edited.boat, source.arrangementId));
    if (store.read(compartmentOf, mover.thing) === null) return false;
    if (store.read(findingsOn, `access/overlap|${mover.thing}`).some(({ outcome }) => outcome === 'fail')) return false;
    return isHealed(store, failed);
  };
  let low = 0;
  let high: number | null = null;
  for (const byM of MOVES_M) {
    yield null;
    if (helps(byM)) {
      high = byM;
      break;
    }
    low = byM;
  }
  if (high === null) return [];
  const helpedAt = high;
  while (high - low > MOVE_FINE_M) {
    yield null;
    const middle: number = Math.round(((low + high) / 2) * 1000) / 1000;
    if (helps(middle)) high = middle;
    else low = middle;
  }
  // The least move may end where something else suffers that a little more would spare.
  return [...new Set([high, helpedAt])].map((byM) => ({
    id: `move ${mover.thing} ${mover.name}`,
    change: 'move',
    what: { thing: mover.thing, way: mover.name, byM },
    recipe: movedBy(mover, byM),
  }));
}

/** Another way to lead the line that a finding is about. */
interface OtherWay extends Mend {
  readonly run: Pick<Remedy, 'lengthM' | 'newHoles' | 'prims'>;
}

/** Truly different runs of the line that has failed, the cheapest first; none where it is no line, or is not led by the router. */
function* otherWays(
  store: Store<Source>,
  { boat, arrangementId }: Source,
  { subject }: FailedFinding,
): Generator<null, readonly OtherWay[]> {
  if (!Object.hasOwn(boat.lines, subject) || arrangementId === null) return [];
  const work = startAlternatives(boat, subject, { arrangement: arrangementId, store: store.fork() });
  for (;;) {
    const step = work.step();
    yield null;
    if (!('answer' in step)) continue;
    return step.answer
      .filter(({ isCurrent }) => !isCurrent)
      .map(({ id, patches, prims, holes, lengthM, difference: { into, through } }) => ({
        id: `way ${id}`,
        change: 'way',
        what: {
          line: subject,
          ...(into[0] === undefined ? {} : { into: into[0] }),
          ...(through[0] === undefined ? {} : { through: through[0] }),
        },
        recipe: (draft) => {
          applied(draft as Boat, patches);
        },
        run: { prims, lengthM, newHoles: holes.filter(({ existing }) => !existing) },
      }));
  }
}

/** The failure is gone: the verdict passes, does not apply any more, or has lost its subject. Not to know is no cure. */
function isHealed(store: Store<Source>, { key, rule, subject }: FailedFinding): boolean {
  const now = store.read(findingsOn, `${rule}|${subject}`).find((finding) => finding.key === key);
  return now === undefined || now.outcome === 'pass' || now.outcome === 'notApplicable';
}

function* tried(
  store: Store<Source>,
  source: Source,
  mend: Mend,
  failed: FailedFinding,
  before: readonly Finding[],
): Generator<null, Remedy | null> {
  const edited = edit(source.boat, mend.recipe);
  if (!edited.ok || edited.patches.length === 0) return null;
  store.set(sourceOf(edited.boat, source.arrangementId));
  yield* allRouted(store);
  const after = yield* judged(store);
  const now = after.find(({ key }) => key === failed.key);
  if (now && now.outcome !== 'pass' && now.outcome !== 'notApplicable') return null;
  const { worse, brings } = sideEffects(before, after, [failed.severity]);
  if (worse.length > 0) return null;
  return {
    id: mend.id,
    change: mend.change,
    what: mend.what,
    patches: edited.patches,
    costM: CHANGE_COST_M[mend.change] + Number(mend.what.byM ?? 0),
    lengthM: null,
    newHoles: [],
    prims: [],
    cautions: [],
    brings,
    hazards: hazardsOfAll(touched(mend.what), failed.hazards, (stage, key) => store.read(stage, key)),
  };
}
