import type { Finding } from '../../rules/finding';
import type { BlockReason } from '../../runs/routing/types';
import { bound } from '../final-run';
import { findingsOn, subjects } from '../finding-stages';
import { line, type Source } from '../source';
import type { Store } from '../store';
import type { Tints } from './first-tints';
import type { PlaceTest, PlaceTestResult } from './place-report';
import { PLACE_TESTS } from './place-report';
import { notJudged, resultsFrom } from './place-tests';
import type { Site } from './site';

/** Tests that hang on the place alone, and on no run. */
const NEAR_RULES: readonly string[] = [
  'access/overlap',
  'hull/mounting',
  'access/hold-down',
  'access/service-space',
  'power/cool',
  'power/compass-parts',
  'power/battery-place',
  'power/ignition',
];

/** A search of its own: asked only where nothing else speaks against the place. */
const LATE_RULES: readonly string[] = ['access/way-in'];

/** Results of what hangs on no run, and bounds of the lines. */
export function nearResults(store: Store<Source>, site: Site, before: readonly Finding[]): Tints {
  const { group, lines } = site;
  const foundBy = (rules: readonly string[]): Tints => {
    const found = rules.flatMap((rule) => {
      const asked = store.read(subjects, rule);
      return group.ids.flatMap((id) => (asked.includes(id) ? store.read(findingsOn, `${rule}|${id}`) : []));
    });
    return resultsFrom(found, before, { parts: new Set(group.ids), lines: new Set() });
  };
  const near = foundBy(NEAR_RULES);
  if (isFailed(near)) return near;
  for (const id of lines) {
    const usableM = usableOf(id, store);
    const certified = usableM === null ? null : store.read(bound, id);
    if (usableM !== null && certified && certified.lengthM > usableM)
      return { ...near, reaches: tooShort(id, certified.lengthM, usableM) };
  }
  return { ...near, ...foundBy(LATE_RULES) };
}

export function usableOf(lineId: string, store: Store<Source>): number | null {
  const supplied = store.read(line, lineId)?.supplied;
  return supplied ? supplied.lengthM - supplied.spareM : null;
}

export const noRun = (
  lineId: string,
  { shortByM, blocker }: Pick<BlockReason, 'shortByM' | 'blocker'>,
): PlaceTestResult => ({
  ...notJudged,
  outcome: 'fail',
  reason: 'noRun',
  measured: shortByM === null ? null : { value: shortByM, unit: 'm' },
  limit: shortByM === null ? null : { value: 0, bound: 'atMost' },
  about: [lineId, ...(blocker === null ? [] : [blocker])],
});

/** A search that was ended before it was through. */
export const noRunYet = (lineId: string): PlaceTestResult => ({
  ...notJudged,
  outcome: 'cannotTell',
  reason: 'noRunYet',
  about: [lineId],
});

export const tooShort = (lineId: string, neededM: number, usableM: number): PlaceTestResult => ({
  ...notJudged,
  outcome: 'fail',
  reason: 'lineTooShort',
  measured: { value: neededM, unit: 'm' },
  limit: { value: usableM, bound: 'atMost' },
  about: [lineId],
});

/** Up to the first test that fails, in the order of the columns: what comes after is not judged. */
export function inOrderUntilFail(tests: Tints): Tints {
  const kept: Partial<Record<PlaceTest, PlaceTestResult>> = {};
  for (const test of PLACE_TESTS) {
    const result = tests[test];
    if (!result) continue;
    kept[test] = result;
    if (result.outcome === 'fail') break;
  }
  return kept;
}

export const isFailed = (tests: Tints): boolean => Object.values(tests).some(({ outcome }) => outcome === 'fail');
