import type { Finding } from '@core/rules/finding';
import { type JSX, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { useDrag } from '../../store/drag';
import { isFiltered, passesFilter, useFindingFilter } from '../../store/finding-filter';
import { findingNumbers, isOpen, sortedFindings } from '../../store/findings';
import { practiceWords } from '../words';
import { FindingFilter } from './FindingFilter';
import { FindingRow } from './FindingRow';

/** Open findings first; those accepted, passed and not applicable fold out. In the Checks stage all are there. */
export function Findings({ whole = false }: { readonly whole?: boolean }): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const report = useApp((state) => state.report);
  const stale = useApp((state) => state.stale);
  const live = useDrag((state) => state.findings);
  const units = useApp((state) => state.displayUnits);
  const filter = useFindingFilter();
  const [unfolded, setUnfolded] = useState(false);
  const sorted = useMemo(() => (report ? sortedFindings(report.findings) : null), [report]);
  if (!boat) return null;
  if (!sorted || !report) {
    return (
      <section className="panel" aria-label="Findings">
        <h2>Findings</h2>
        <p className="quiet">Being worked out.</p>
      </section>
    );
  }
  const numbers = findingNumbers(report);
  const passes = (finding: Finding): boolean => passesFilter(finding, filter);
  const shown = withLive(sorted.open.filter(passes), live);
  const fresh = Object.values(live).filter(
    (finding) => finding !== null && isOpen(finding) && !numbers.has(finding.key) && passes(finding),
  ) as Finding[];
  const rows = (findings: readonly Finding[]): JSX.Element[] =>
    findings.map((finding) => (
      <FindingRow key={finding.key} boat={boat} finding={finding} number={numbers.get(finding.key)} />
    ));
  const rest = [
    ['Accepted', sorted.accepted.filter(passes)],
    ['Passed', sorted.passed.filter(passes)],
    ['Do not apply', sorted.notApplicable.filter(passes)],
  ] as const;
  const planned = shown.filter(({ cause }) => cause === 'arrangement');
  const old = shown.filter(({ cause }) => cause === 'existing');

  return (
    <section className="findings" aria-labelledby="findings-title">
      <header>
        <h2 id="findings-title">Findings</h2>
        <span className={stale ? 'findings-tally stale' : 'findings-tally'}>
          {sorted.open.length} open, {sorted.passed.length} passed, in {units === 'mm' ? 'mm' : 'inches'}
        </span>
      </header>
      <FindingFilter boat={boat} findings={report.findings} shown={shown.length + fresh.length} />
      {shown.length + fresh.length === 0 ? (
        <p className="empty">{isFiltered(filter) ? 'Nothing open of this kind.' : 'Nothing open.'}</p>
      ) : null}
      <ol>
        {rows(planned)}
        {rows(fresh)}
      </ol>
      {old.length === 0 ? null : (
        <>
          <h3 className="findings-group">
            There before the plan <span className="quiet">{old.length}</span>
          </h3>
          <ol>{rows(old)}</ol>
        </>
      )}
      <div className="tally-line">
        <button type="button" className="link" aria-expanded={unfolded || whole} onClick={() => setUnfolded(!unfolded)}>
          {sorted.passed.length} passed, {sorted.notApplicable.length} do not apply
          {sorted.accepted.length > 0 ? `, ${sorted.accepted.length} accepted` : ''}
        </button>
        <span className="quiet">{practiceWords(boat.practice)}</span>
      </div>
      {unfolded || whole
        ? rest.map(([title, findings]) =>
            findings.length === 0 ? null : (
              <div key={title}>
                <h3 className="findings-group">
                  {title} <span className="quiet">{findings.length}</span>
                </h3>
                <ol>{rows(findings)}</ol>
              </div>
            ),
          )
        : null}
    </section>
  );
}

/** While something is dragged a finding changes in its place; the order stays until release. */
function withLive(findings: readonly Finding[], live: Readonly<Record<string, Finding | null>>): readonly Finding[] {
  if (Object.keys(live).length === 0) return findings;
  return findings.flatMap((finding) => {
    const now = live[finding.key];
    return now === null ? [] : [now ?? finding];
  });
}
