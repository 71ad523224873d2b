import type { Vec3 } from '../../base/vec';
import { quantised } from '../../boat/quantise';
import type { Finding } from '../../rules/finding';
import { factsOver } from '../facts';
import { allRouted } from '../final-run';
import { findingsOn, subjects } from '../finding-stages';
import { judged } from '../remedies/trial';
import type { HoleReport } from '../report';
import { runReport } from '../report-stages';
import { brokenDemand } from '../service/demand-stages';
import { outcomeKey, usualPerson } from '../service/outcome-stages';
import { taskGroups } from '../service/task-stages';
import { layout } from '../shape-stages';
import { line, lineIds, type Source } from '../source';
import type { Read, Store } from '../store';
import { dryness } from './dry';
import { inOrderUntilFail, isFailed } from './near-tests';
import { brokenByHole, type PlaceDemand } from './place-demands';
import type { PlaceTest, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';
import { deciding, passed, resultsFrom } from './place-tests';
import { bestOf, type JudgedPlace, type Proposed } from './proposed-place';
import { hoseOf, put, type Site } from './site';
import { takenL } from './stowage';

/**
 * What each test comes to on a boat in which the parts stand where they are, from its findings and those that the boat had before. What is told
 * of a place that is proposed is this, of the boat after the edit.
 */
export function testsThere(
  read: Read,
  ids: readonly string[],
  after: readonly Finding[],
  before: readonly Finding[],
): Tests {
  const lines = linesHere(read, ids);
  const judgedGroup = { parts: new Set(ids), lines: new Set(lines) };
  const prompt = { ...resultsFrom(after, before, judgedGroup) };
  const dry = dryness(ids, factsOver(read));
  prompt.dry = prompt.dry ? deciding(prompt.dry, dry) : dry;
  const holes = newHolesOf(read, lines).length;
  prompt.holes ??= { ...passed('newHoles'), measured: { value: holes, unit: 'count' }, about: lines };
  // Arms are tried last, and only where nothing else speaks against the place.
  const { serves } = isFailed(prompt) ? {} : resultsFrom(taskFindings(read, ids), [], judgedGroup);
  const whole = serves ? { ...prompt, serves: prompt.serves ? deciding(prompt.serves, serves) : serves } : prompt;
  return Object.fromEntries(PLACE_TESTS.map((test) => [test, whole[test] ?? passed('nothingAsked')])) as Tests;
}

const SERVICE_TASK = 'access/service-task';

/** What the service tasks of the parts come to where they stand. */
export function taskFindings(read: Read, ids: readonly string[]): readonly Finding[] {
  const asked = read(subjects, SERVICE_TASK);
  return ids.flatMap((id) => (asked.includes(id) ? read(findingsOn, `${SERVICE_TASK}|${id}`) : []));
}

/** Demands on seeing and dismantling that a service task of the parts breaks there. */
function brokenByTasks(read: Read, ids: readonly string[], demands: readonly PlaceDemand[]): readonly string[] {
  const asked = demands.filter(({ kind }) => kind === 'noDismantling' || kind === 'seenFrom');
  if (asked.length === 0) return [];
  const person = read(usualPerson);
  const broken = new Set(
    ids.flatMap((id) =>
      read(taskGroups, id).flatMap(({ keys }) => keys.map((key) => read(brokenDemand, outcomeKey(person, key)))),
    ),
  );
  return asked.filter(({ kind }) => broken.has(kind as 'noDismantling' | 'seenFrom')).map(({ id }) => id);
}

/** Litres that parts and their runs take of the compartment that the first of them stands in. */
function takenHere(store: Store<Source>, at: Vec3, ids: readonly string[], lines: readonly string[]): number | null {
  const compartment = store.read(layout).compartmentAt(at);
  return compartment === null ? null : takenL(store.read, compartment, ids, lines);
}

type Tests = Readonly<Record<PlaceTest, PlaceTestResult>>;

/** Lines of the arrangement that end at one of the parts. */
const linesHere = (read: Read, ids: readonly string[]): readonly string[] =>
  read(lineIds).filter((id) => {
    const own = read(line, id);
    return own !== undefined && (ids.includes(own.from.thing) || ids.includes(own.to.thing));
  });

const newHolesOf = (read: Read, lines: readonly string[]): readonly HoleReport[] =>
  lines.flatMap((id) => read(runReport, id).holes.filter(({ existing }) => !existing));

/** Puts the parts there, routes all lines and asks all checks. */
export function* judgedThere(
  store: Store<Source>,
  { place, applied }: Proposed,
  site: Site,
  before: readonly Finding[],
): Generator<null, JudgedPlace> {
  put(store, applied, site);
  const { group, demands } = site;
  const best = bestOf(place, applied, site);
  const lines = linesHere(store.read, group.ids);
  yield* allRouted(store);
  const after = yield* judged(store);
  const tests = testsThere(store.read, group.ids, after, before);
  const holes = newHolesOf(store.read, lines);
  const hoseM = hoseOf(store, lines);
  const hoseNowM = group.lead.now ? site.hoseNowM() : null;
  return {
    tests: isFailed(tests) ? inOrderUntilFail(tests) : tests,
    best: {
      ...best,
      moreHoseM: hoseM === null || hoseNowM === null ? null : quantised(hoseM - hoseNowM),
      newHoles: holes.length,
    },
    breaks: [
      ...brokenByHole(
        after.filter(({ subject }) => group.ids.includes(subject)),
        demands,
      ),
      ...(isFailed(tests) ? [] : brokenByTasks(store.read, group.ids, demands)),
    ],
    stowageLostL: takenHere(store, place.lead.at, group.ids, lines),
    isSure: true,
  };
}
