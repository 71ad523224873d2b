import type { Boat } from '@core/boat/schema/boat';
import type { Cause, Finding } from '@core/rules/finding';
import { create } from 'zustand';
import { type Mark, markOfFinding } from './findings';

/** The subjects of the checks: the folders of the rules, in the order in which water comes aboard. */
export const SUBJECTS = ['hull', 'access', 'runs', 'water', 'power', 'flooding'] as const;
export type Subject = (typeof SUBJECTS)[number];

/** What the list of findings shows; null: all of them. */
export interface FindingFilter {
  readonly cause: Cause | null;
  readonly subject: Subject | null;
  readonly mark: Mark | null;
  /** Id of a thing, line, compartment or other record that the finding must be about, or name. */
  readonly about: string | null;
}

export const NO_FILTER: FindingFilter = { cause: null, subject: null, mark: null, about: null };

interface FindingFilterState extends FindingFilter {
  set(part: Partial<FindingFilter>): void;
}

export const useFindingFilter = create<FindingFilterState>()((set) => ({ ...NO_FILTER, set }));

export const isFiltered = ({ cause, subject, mark, about }: FindingFilter): boolean =>
  [cause, subject, mark, about].some((one) => one !== null);

export const passesFilter = (finding: Finding, { cause, subject, mark, about }: FindingFilter): boolean =>
  (cause === null || finding.cause === cause) &&
  (subject === null || finding.rule.startsWith(`${subject}/`)) &&
  (mark === null || markOfFinding(finding) === mark) &&
  (about === null || finding.subject === about || finding.related.includes(about));

/** Records of the boat that findings are about, each once. */
export function aboutWhat(findings: readonly Finding[], boat: Boat): readonly string[] {
  const known = (id: string): boolean =>
    [boat.parts, boat.fixtures, boat.lines, boat.compartments, boat.openings].some((records) =>
      Object.hasOwn(records, id),
    );
  return [...new Set(findings.flatMap(({ subject, related }) => [subject, ...related]))].filter(known);
}
