import type { Facts } from './facts';
import { type Judged, judge, lessSure } from './judge';

/** Whether a line finds a way wherever its ends may really be: its slack against the tape; null for a run that is loose enough. */
export function runDoubt(lineId: string, facts: Facts): Judged | null {
  const slack = facts.runSlack(lineId);
  if (!slack) return null;
  const judged = judge({ value: slack.slackM, limit: 0, bound: 'atLeast', unit: 'm', grade: slack.grade });
  return judged.closeCall ? { ...judged, closeCall: { ...judged.closeCall, hangsOn: 'run' } } : judged;
}

/** A verdict on a run is no surer than the run itself. */
export function withRunDoubt(judged: Judged, lineId: string, facts: Facts): Judged {
  const doubt = runDoubt(lineId, facts);
  if (!doubt || lessSure(judged, doubt) !== doubt) return judged;
  const { closeCall, gradeFrom } = doubt;
  const unit = judged.limit.unit === 'm' ? {} : { unit: 'm' as const };
  return {
    ...judged,
    ...(closeCall ? { closeCall: { ...closeCall, ...unit } } : {}),
    ...(gradeFrom ? { gradeFrom } : {}),
  };
}
