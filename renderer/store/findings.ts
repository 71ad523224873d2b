import type { Report } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';

/** Six shapes, so that a verdict never rests on colour. */
export type Mark = 'danger' | 'fault' | 'closeCall' | 'advice' | 'cannotTell' | 'pass';

export function markOfFinding(finding: Finding): Mark | null {
  switch (finding.outcome) {
    case 'fail':
      return finding.severity;
    case 'pass':
      return finding.closeCall ? 'closeCall' : 'pass';
    case 'cannotTell':
      return 'cannotTell';
    case 'notApplicable':
      return null;
  }
}

const RANK: Readonly<Record<Mark, number>> = { danger: 0, fault: 1, closeCall: 2, cannotTell: 3, advice: 4, pass: 5 };

/** Something to look at: not passed clean, not accepted. */
export const isOpen = (finding: Finding): boolean => {
  const mark = markOfFinding(finding);
  return mark !== null && mark !== 'pass' && finding.accepted === undefined;
};

/** What the plan causes before what was there already, each by weight, then by key, so that the order is steady. */
function before(a: Finding, b: Finding): number {
  const cause = Number(a.cause === 'existing') - Number(b.cause === 'existing');
  if (cause !== 0) return cause;
  const weight = RANK[markOfFinding(a) ?? 'pass'] - RANK[markOfFinding(b) ?? 'pass'];
  return weight !== 0 ? weight : a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}

export interface SortedFindings {
  readonly open: readonly Finding[];
  readonly accepted: readonly Finding[];
  readonly passed: readonly Finding[];
  readonly notApplicable: readonly Finding[];
}

const sortedOf = new WeakMap<readonly Finding[], SortedFindings>();

export function sortedFindings(findings: readonly Finding[]): SortedFindings {
  const known = sortedOf.get(findings);
  if (known) return known;
  const ordered = [...findings].sort(before);
  const sorted: SortedFindings = {
    open: ordered.filter(isOpen),
    accepted: ordered.filter(
      (f) => f.accepted !== undefined && f.outcome !== 'notApplicable' && markOfFinding(f) !== 'pass',
    ),
    passed: ordered.filter((f) => markOfFinding(f) === 'pass'),
    notApplicable: ordered.filter((f) => f.outcome === 'notApplicable'),
  };
  sortedOf.set(findings, sorted);
  return sorted;
}

const numbersOf = new WeakMap<readonly Finding[], ReadonlyMap<string, number>>();
const NO_NUMBERS: ReadonlyMap<string, number> = new Map();

/** Number of each open finding, by key: the same in list and drawing. */
export function findingNumbers(report: Report | null): ReadonlyMap<string, number> {
  if (!report) return NO_NUMBERS;
  const known = numbersOf.get(report.findings);
  if (known) return known;
  const numbers = new Map(sortedFindings(report.findings).open.map((finding, index) => [finding.key, index + 1]));
  numbersOf.set(report.findings, numbers);
  return numbers;
}
