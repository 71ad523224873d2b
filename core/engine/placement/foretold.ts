import { distance } from '../../base/vec';
import type { Finding } from '../../rules/finding';
import { startSearch } from '../../runs/routing/route';
import type { RunOutcome } from '../../runs/routing/types';
import { findingsOf, findingsOn, subjects } from '../finding-stages';
import { NO_RUNS } from '../laid-run';
import { blockedByWish, ranked, viewOver, wish } from '../run-stages';
import type { Source } from '../source';
import type { Store } from '../store';
import type { Tints } from './first-tints';
import { inOrderUntilFail, isFailed, nearResults, noRun, noRunYet, tooShort, usableOf } from './near-tests';
import type { PlaceTestResult } from './place-report';
import { resultsFrom } from './place-tests';
import { bestOf, type JudgedPlace, type Proposed } from './proposed-place';
import { put, type Site, type Stores } from './site';
import { taskFindings } from './whole-judgement';

/** Work of a quick search, in its steps: what finds a run by itself mostly takes a quarter of it. What takes more is told as not known. */
const QUICK_STEPS = 12_000;

/** A line of the parts before any way was looked for. */
const NOT_LOOKED_FOR: RunOutcome = {
  status: 'blocked',
  proved: false,
  reason: { kind: 'notFound', at: null, blocker: null, shortByM: null, tries: 0 },
  lowerBoundM: 0,
};

/** Verdicts on the parts and on what stands there that hang on no run at all. */
const OF_PARTS: readonly string[] = ['flooding/bowl-spill'];
const OF_OTHERS: readonly string[] = ['access/services-taken'];

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
];
/** What fails so fails all over the compartment. */
const EVERYWHERE: ReadonlySet<string> = new Set(['flooding/bowl-spill/stays', 'flooding/bowl-spill/onBerth']);

/** What of a place is known before any way is looked for; the ways of all other lines are as they are now. */
function byPlaceAlone({ trial, before, atRest }: Stores, { applied }: Proposed, site: Site): Tints {
  const own = site.lines.map((id) => [id, NOT_LOOKED_FOR] as const);
  put(trial, applied, site, new Map([...atRest, ...own]));
  const { ids } = site.group;
  const found = [...findingsAbout(ids, OF_PARTS, trial), ...OF_OTHERS.flatMap((rule) => trial.read(findingsOf, rule))];
  return resultsFrom(found, before, { parts: new Set(ids), lines: new Set() });
}

function findingsAbout(
  ids: readonly string[],
  rules: readonly string[],
  { read }: Pick<Store<Source>, 'read'>,
): readonly Finding[] {
  return rules.flatMap((rule) => {
    const asked = new Set(read(subjects, rule));
    return ids.flatMap((id) => (asked.has(id) ? read(findingsOn, `${rule}|${id}`) : []));
  });
}

/**
 * A line that finds no run there though no other line is in the way, or one that is longer than the hose that is to be used; or a verdict that
 * the runs found so already tell while all others lie as they do now. Null where nothing of it speaks against the place. The lines that failed
 * last are asked first.
 */
export function* ruledOutQuickly(stores: Stores, proposed: Proposed, site: Site): Generator<null, RuledOut | null> {
  const { trial, before, suspects, atRest } = stores;
  const { place, applied } = proposed;
  const ruledOut = (tests: Tints, isElsewhere: boolean): RuledOut => ({
    tests: inOrderUntilFail(tests),
    best: bestOf(place, applied, site),
    breaks: [],
    stowageLostL: null,
    isSure: false,
    isElsewhere,
  });
  const alone = byPlaceAlone(stores, proposed, site);
  yield null;
  if (isFailed(alone))
    return ruledOut({ ...nearResults(trial, site, before), ...failuresOf(alone) }, isEverywhere(alone));
  put(trial, applied, site);
  const lines = trial.read(ranked).filter((id) => site.lines.includes(id));
  const inTurn = [...suspects.filter((id) => lines.includes(id)), ...lines.filter((id) => !suspects.includes(id))];
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
  put(trial, applied, site, new Map([...atRest, ...runs]));
  const judgedGroup = { parts: new Set(site.group.ids), lines: new Set(lines) };
  const ofRuns = resultsFrom(findingsAbout([...site.group.ids, ...lines], FORETOLD, trial), before, judgedGroup);
  yield null;
  // Arms are tried last; what they meet hardly hangs on the runs that would lie elsewhere.
  const foretold = isFailed(ofRuns) ? ofRuns : resultsFrom(taskFindings(trial.read, site.group.ids), [], judgedGroup);
  yield null;
  if (!isFailed(foretold)) return null;
  return ruledOut({ ...ofRuns, ...nearResults(trial, site, before), ...failuresOf(foretold) }, isEverywhere(foretold));
}

const isEverywhere = (tests: Tints): boolean =>
  Object.values(tests).some(({ outcome, reason }) => outcome === 'fail' && reason !== null && EVERYWHERE.has(reason));

const failuresOf = (tests: Tints): Tints =>
  Object.fromEntries(Object.entries(tests).filter(([, { outcome }]) => outcome === 'fail'));

/** Elsewhere: what stops it lies nearer to the other end of a line, or all over the compartment: another place there helps little. */
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
  if (!outcome) return { result: noRunYet(lineId), isElsewhere: false };
  const { from, to } = asked.line;
  const [own, far] = moved.includes(from.thing) ? [from, to] : [to, from];
  const { at } = outcome.reason;
  return {
    result: noRun(lineId, outcome.reason),
    isElsewhere: at !== null && distance(at, far.at) < distance(at, own.at),
  };
}
