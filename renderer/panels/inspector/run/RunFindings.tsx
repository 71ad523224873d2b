import type { Boat } from '@core/boat/schema/boat';
import { findingText } from '@core/output/text/finding-text';
import { type JSX, useMemo } from 'react';
import { useApp } from '../../../store/app';
import { findingNumbers, markOfFinding, sortedFindings } from '../../../store/findings';
import { FindingMark } from '../../findings/FindingMark';
import { Link, Panel } from '../parts';

/** What is open about a run, beside its numbers; each leads to the verdict with its why, its source and its limit. */
export function RunFindings({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const report = useApp((state) => state.report);
  const goTo = useApp((state) => state.goTo);
  const open = useMemo(
    () => (report ? sortedFindings(report.findings).open.filter(({ subject }) => subject === id) : []),
    [report, id],
  );
  if (open.length === 0) return null;
  const numbers = findingNumbers(report);
  return (
    <Panel title="Its findings" level={3} aside={String(open.length)}>
      <ul className="run-findings">
        {open.map((finding) => {
          const mark = markOfFinding(finding);
          return (
            <li key={finding.key}>
              {mark ? <FindingMark mark={mark} number={numbers.get(finding.key)} /> : null}
              <Link go={() => goTo({ kind: 'finding', id: finding.key }, finding.at)}>
                {findingText(finding, boat).title}
              </Link>
            </li>
          );
        })}
      </ul>
    </Panel>
  );
}
