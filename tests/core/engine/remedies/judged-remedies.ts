import { analyze } from '@core/analyze';
import { applied } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import type { Remedy } from '@core/rules/remedy';

const HEALED: ReadonlySet<string> = new Set(['runs/blocked', 'runs/supplied-length', 'water/suction-crest']);
const fails = ({ findings }: Report) => findings.filter(({ outcome }) => outcome === 'fail');

/** Failures on a line that a remedy is for. */
export const toHeal = (report: Report, lineId: string) =>
  fails(report).filter(({ subject, rule }) => subject === lineId && HEALED.has(rule));

/**
 * What is wrong with a remedy, by a cold analysis of the boat after its edit: independent of how it was found. Empty when it keeps
 * its word.
 */
export function broken(boat: Boat, before: Report, lineId: string, remedy: Remedy): readonly string[] {
  const edited = checkBoat(applied(boat, remedy.patches));
  if (!edited.ok) return [`${remedy.id}: ${edited.problems[0]?.message}`];
  const after = analyze(edited.boat);
  const known = new Set(fails(before).map(({ key }) => key));
  const run = after.runs.find((one) => one.lineId === lineId);
  const wrong: string[] = [];
  if (toHeal(after, lineId).length > 0) wrong.push(`${remedy.id}: ${toHeal(after, lineId)[0]?.key} still fails`);
  const brought = remedy.brings.map(({ key }) => key);
  for (const finding of fails(after)) {
    if (known.has(finding.key)) continue;
    const isTold = finding.outcome === 'fail' && finding.severity === 'advice' && brought.includes(finding.key);
    if (!isTold) wrong.push(`${remedy.id}: ${finding.key} is new`);
  }
  if (run?.status !== 'routed') wrong.push(`${remedy.id}: no run`);
  // Of a line that is cut in two the halves count together.
  else if (remedy.change !== 'union' && Math.abs((run.lengthM ?? 0) - (remedy.lengthM ?? Number.NaN)) > 1e-9)
    wrong.push(`${remedy.id}: ${run.lengthM} m, told ${remedy.lengthM} m`);
  const routed = (report: Report) => report.runs.filter(({ status }) => status === 'routed').map((one) => one.lineId);
  const lost = routed(before).filter((id) => !routed(after).includes(id));
  return lost.length > 0 ? [...wrong, `${remedy.id}: ${lost.join(', ')} lost`] : wrong;
}
