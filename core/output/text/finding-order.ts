import { byKey } from '../../base/order';
import type { Finding } from '../../rules/finding';

/** Six shapes, so that a verdict never rests on colour. */
export type FindingMark = 'danger' | 'fault' | 'closeCall' | 'advice' | 'cannotTell' | 'pass';

/** Null where there is nothing to mark: it does not apply. */
export function markOfFinding(finding: Finding): FindingMark | null {
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

/** What fails and what is not known before what passes as drawn and only hangs on the tape, of which there may be many. */
const RANK: Readonly<Record<FindingMark, number>> = {
  danger: 0,
  fault: 1,
  cannotTell: 2,
  advice: 3,
  closeCall: 4,
  pass: 5,
};

/** Something to look at: not passed clean, not accepted. */
export const isOpen = (finding: Finding): boolean => {
  const mark = markOfFinding(finding);
  return mark !== null && mark !== 'pass' && finding.accepted === undefined;
};

/** Judged after all others and many in number: they stand behind the others of their weight, which stay where they were. */
const LAST = 'access/service-task';

/** What the plan causes before what was there already, each by weight, then by key, so that the order is steady. */
export function before(a: Finding, b: Finding): number {
  const cause = Number(a.cause === 'existing') - Number(b.cause === 'existing');
  if (cause !== 0) return cause;
  const weight = RANK[markOfFinding(a) ?? 'pass'] - RANK[markOfFinding(b) ?? 'pass'];
  return weight || Number(a.rule === LAST) - Number(b.rule === LAST) || byKey(a, b);
}
