import type { Finding } from '../../rules/finding';
import { worseFindings } from '../remedies/worse';
import type { PlaceOutcome, PlaceTest, PlaceTestResult } from './place-report';

/** What each test goes by: rules by their ids. A rule that is not named goes by its subject folder. */
const TEST_OF_RULE: Readonly<Record<string, PlaceTest>> = {
  'access/way-in': 'passes',
  'access/lift': 'passes',
  'access/overlap': 'fits',
  'access/level': 'fits',
  'access/noise-near-berth': 'fits',
  'power/ignition': 'fits',
  'power/near-compass': 'fits',
  'power/compass-parts': 'fits',
  'power/battery-place': 'fits',
  'access/hold-down': 'mounts',
  'hull/mounting': 'mounts',
  'hull/screw-length': 'mounts',
  'water/over-electrics': 'dry',
  'flooding/bowl-spill': 'spills',
  'power/cool': 'cool',
  'runs/near-heat': 'cool',
  'runs/hole-crowded': 'holes',
  'runs/chafe': 'holes',
};

const TEST_OF_FOLDER: Readonly<Record<string, PlaceTest>> = {
  access: 'serves',
  runs: 'reaches',
  water: 'reaches',
  power: 'reaches',
  flooding: 'dry',
  hull: 'holes',
};

/** Verdicts that are the same wherever a part stands: they hang on what it is and what it is joined to. */
const BY_CIRCUIT: ReadonlySet<string> = new Set([
  'power/data-sheet',
  'power/day-budget',
  'power/fuse-interrupts',
  'power/isolator',
  'power/mains',
  'water/backflow',
  'water/dead-head',
  'water/filter-order',
  'water/flush-chlorine',
  'water/flush-reaches',
  'water/flush-water',
  'water/intake-apart',
  'water/intake-immersion',
  'water/isolated',
  'water/line-rating',
  'water/product-open',
  'water/reject-to-tap',
  'water/runs-dry',
  'water/shared-intake',
  'hull/panel-record',
  'hull/compartment-overlap',
  'hull/seacock',
  'hull/through-hull-sound',
]);

const testOfRule = (rule: string): PlaceTest =>
  TEST_OF_RULE[rule] ?? TEST_OF_FOLDER[rule.slice(0, rule.indexOf('/'))] ?? 'serves';

export const notJudged: PlaceTestResult = {
  outcome: 'notJudged',
  reason: null,
  measured: null,
  limit: null,
  about: [],
  enterNext: null,
  finding: null,
};

/** A test that passes without a finding: nothing of the parts asks for it, or it is known apart from the checks. */
export const passed = (reason: string | null): PlaceTestResult => ({ ...notJudged, outcome: 'pass', reason });

const RANK: Readonly<Record<PlaceOutcome, number>> = { fail: 4, cannotTell: 3, close: 2, pass: 1, notJudged: 0 };

/** Of two results of one test the one that decides it: the worse, of equals that with less to spare. */
export function deciding(a: PlaceTestResult, b: PlaceTestResult): PlaceTestResult {
  const by = RANK[a.outcome] - RANK[b.outcome];
  if (by !== 0) return by > 0 ? a : b;
  return spareOf(b) < spareOf(a) ? b : a;
}

/** What is to spare, as a share of the limit; what has no measure has most. */
function spareOf({ measured, limit }: PlaceTestResult): number {
  if (!measured || !limit) return Number.MAX_VALUE;
  const by = limit.bound === 'atMost' ? limit.value - measured.value : measured.value - limit.value;
  return by / Math.max(1e-6, Math.abs(limit.value), Math.abs(measured.value));
}

/** What a finding means for its test; null where it says nothing of the place. Advice stands in nobody's way. */
function resultOf(finding: Finding): PlaceTestResult | null {
  const said = {
    about: [finding.subject, ...finding.related],
    finding,
    enterNext: finding.outcome === 'cannotTell' ? finding.enterNext : null,
  };
  if (finding.outcome === 'notApplicable') return null;
  const reason = finding.outcome === 'pass' ? finding.rule : `${finding.rule}/${finding.reason}`;
  if (finding.outcome === 'cannotTell') return { outcome: 'cannotTell', reason, measured: null, limit: null, ...said };
  const { value, bound } = finding.limit;
  const compared = { reason, measured: finding.measured, limit: { value, bound }, ...said };
  if (finding.outcome === 'fail') return finding.severity === 'advice' ? null : { outcome: 'fail', ...compared };
  return { outcome: finding.closeCall ? 'close' : 'pass', ...compared };
}

/** The group that is judged: its parts and the lines at them. */
interface Judged {
  readonly parts: ReadonlySet<string>;
  readonly lines: ReadonlySet<string>;
}

/**
 * Results by test of a boat with the parts put somewhere, from its findings and those of before. What is found of the parts and their lines
 * counts as it stands; of anything else, and of what hangs on no place, only what is worse than before.
 */
export function resultsFrom(
  after: readonly Finding[],
  before: readonly Finding[],
  { parts, lines }: Judged,
): Readonly<Partial<Record<PlaceTest, PlaceTestResult>>> {
  const isOwn = ({ subject, rule }: Finding): boolean =>
    (parts.has(subject) || lines.has(subject)) && !BY_CIRCUIT.has(rule);
  const worse = new Set(worseFindings(before, after).map(({ key }) => key));
  const results: Partial<Record<PlaceTest, PlaceTestResult>> = {};
  for (const finding of after) {
    if (!isOwn(finding) && !worse.has(finding.key)) continue;
    const result = resultOf(finding);
    if (!result) continue;
    const test = testOfRule(finding.rule);
    const known = results[test];
    results[test] = known ? deciding(known, result) : result;
  }
  return results;
}
