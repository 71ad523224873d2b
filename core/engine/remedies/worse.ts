import type { Finding, Severity } from '../../rules/finding';

const RANK = { danger: 3, fault: 2, advice: 1 } as const;
/** A failure that is worse by less than this, in its own unit, is the same failure. */
const SAME = 1e-3;

/** What an edit brings besides what it mends. */
export interface SideEffects {
  /** Findings that forbid it. */
  readonly worse: readonly Finding[];
  /** New advice, which whoever mends a fault or a danger may prefer: it is told with the offer. */
  readonly brings: readonly Finding[];
}

export function sideEffects(
  before: readonly Finding[],
  after: readonly Finding[],
  mended: readonly Severity[],
): SideEffects {
  const isGrave = mended.some((severity) => severity !== 'advice');
  const known = new Map(before.map((finding) => [finding.key, finding]));
  const isNewAdvice = (finding: Finding): boolean =>
    isGrave &&
    finding.outcome === 'fail' &&
    finding.severity === 'advice' &&
    known.get(finding.key)?.outcome !== 'fail';
  const all = worseFindings(before, after);
  return { worse: all.filter((finding) => !isNewAdvice(finding)), brings: all.filter(isNewAdvice) };
}

/** Findings that are worse after an edit: new failures, graver ones, those that miss their limit by more, passes that are lost. */
export function worseFindings(before: readonly Finding[], after: readonly Finding[]): readonly Finding[] {
  const known = new Map(before.map((finding) => [finding.key, finding]));
  return after.filter((finding) => {
    const was = known.get(finding.key);
    if (finding.outcome === 'cannotTell') return was?.outcome === 'pass';
    if (finding.outcome !== 'fail') return false;
    if (was?.outcome !== 'fail') return true;
    return RANK[finding.severity] > RANK[was.severity] || missedBy(finding) > missedBy(was) + SAME;
  });
}

function missedBy({ measured, limit }: Extract<Finding, { outcome: 'fail' }>): number {
  const by = limit.bound === 'atMost' ? measured.value - limit.value : limit.value - measured.value;
  return Number.isFinite(by) ? Math.max(0, by) : 0;
}
