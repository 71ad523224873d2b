import type { PlaceReport } from '@core/engine/placement/place-report';
import type { Report } from '@core/engine/report';
import type { ServiceReport, TaskReport } from '@core/engine/service/service-report';
import type { Finding } from '@core/rules/finding';

export const CLEAN = 0;
export const STANDS = 1;
export const UNUSABLE = 2;

/** Whether a finding counts against the arrangement: what was there before, and what the owner accepted, does not. */
const countsAgainst = (finding: Finding, strict: boolean): boolean => {
  if (finding.cause === 'existing' || finding.accepted) return false;
  if (finding.outcome === 'cannotTell') return strict;
  return finding.outcome === 'fail' && finding.severity !== 'advice';
};

export const exitCodeOf = (report: Report, strict: boolean): typeof CLEAN | typeof STANDS =>
  report.findings.some((finding) => countsAgainst(finding, strict)) ? STANDS : CLEAN;

/** Of what is aboard already only what the plan makes worse counts against it. */
const isUndone = ({ isPart, isWorse, verdict, breaksDemand }: TaskReport): boolean =>
  (isPart || isWorse) && (verdict === 'byDismantling' || verdict === 'notAtAll' || breaksDemand !== null);

export const serviceExitCodeOf = ({ tasks }: ServiceReport): typeof CLEAN | typeof STANDS =>
  tasks.some(isUndone) ? STANDS : CLEAN;

/** Where it goes nowhere the answer is no. */
export const placesExitCodeOf = ({ compartments }: PlaceReport): typeof CLEAN | typeof STANDS =>
  compartments.some(({ verdict }) => verdict === 'goes' || verdict === 'goesClose') ? CLEAN : STANDS;
