import type { Report } from '@core/engine/report';
import { before, type FindingMark, isOpen, markOfFinding } from '@core/output/text/finding-order';
import type { Finding } from '@core/rules/finding';

export { isOpen, markOfFinding };
export type Mark = FindingMark;

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
