import type { Boat } from '@core/boat/schema/boat';
import type { Finding } from '@core/rules/finding';
import { type JSX, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { useDrag } from '../../store/drag';
import { isFiltered, passesFilter, SUBJECTS, type Subject, useFindingFilter } from '../../store/finding-filter';
import { findingNumbers, isOpen, markOfFinding, sortedFindings } from '../../store/findings';
import { practiceWords } from '../words';
import { FindingFilter, SUBJECT_WORDS } from './FindingFilter';
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
    alike(findings).map((group) => <AlikeRows key={group[0]?.key} boat={boat} findings={group} numbers={numbers} />);
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
      {report.findings.length === 0 ? null : (
        <FindingFilter boat={boat} findings={report.findings} shown={shown.length + fresh.length} />
      )}
      {shown.length + fresh.length === 0 ? (
        <p className="empty">{emptyWords(report.findings.length, isFiltered(filter), sorted.passed.length)}</p>
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
                {findings.length > MANY ? (
                  SUBJECTS.map((subject) => (
                    <OfSubject
                      key={subject}
                      subject={subject}
                      findings={findings.filter(({ rule }) => rule.startsWith(`${subject}/`))}
                      rows={rows}
                    />
                  ))
                ) : (
                  <ol>{rows(findings)}</ol>
                )}
              </div>
            ),
          )
        : null}
    </section>
  );
}

/** What an empty list means, and what to do next. */
function emptyWords(all: number, filtered: boolean, passed: number): string {
  if (all === 0) return 'Nothing to check yet. Draw a compartment in stage 2, place a part in stage 3.';
  if (filtered) return 'Nothing open of this kind. Show all, or choose another.';
  return `Nothing open: ${passed} passed. Print the list in stage 6.`;
}

/** More than so many are folded by subject matter. */
const MANY = 12;
/** From so many of one rule on the first stands for the others. */
const ALIKE = 3;

/** Its subjects stand in a table of their own with all that is said of each. */
const TABLED = 'access/service-task';

/** Neighbours of one rule and weight together; dangers and faults each for itself, unless they are told in a table, too. */
function alike(findings: readonly Finding[]): readonly (readonly Finding[])[] {
  const groups: Finding[][] = [];
  for (const finding of findings) {
    const last = groups.at(-1);
    const before = last?.[0];
    const mark = markOfFinding(finding);
    const joins =
      before !== undefined &&
      mark !== 'danger' &&
      (mark !== 'fault' || finding.rule === TABLED) &&
      before.rule === finding.rule &&
      markOfFinding(before) === mark;
    if (last && joins) last.push(finding);
    else groups.push([finding]);
  }
  return groups;
}

/** The first of several of one rule, and how many more there are, until they are asked for or one of them is picked. */
function AlikeRows({
  boat,
  findings,
  numbers,
}: {
  readonly boat: Boat;
  readonly findings: readonly Finding[];
  readonly numbers: ReadonlyMap<string, number>;
}): JSX.Element {
  const [isOpen, setOpen] = useState(false);
  const holdsPicked = useApp(
    ({ selection }) =>
      selection?.kind === 'finding' && findings.some(({ key }, index) => index > 0 && key === selection.id),
  );
  const isUnfolded = isOpen || holdsPicked || findings.length < ALIKE;
  return (
    <>
      {(isUnfolded ? findings : findings.slice(0, 1)).map((finding) => (
        <FindingRow key={finding.key} boat={boat} finding={finding} number={numbers.get(finding.key)} />
      ))}
      {findings.length < ALIKE || holdsPicked ? null : (
        <li className="alike">
          <button type="button" className="link" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            {isOpen ? 'Show the first of these only' : `${findings.length - 1} more like this`}
          </button>
        </li>
      )}
    </>
  );
}

/** The verdicts of one subject matter, folded. */
function OfSubject({
  subject,
  findings,
  rows,
}: {
  readonly subject: Subject;
  readonly findings: readonly Finding[];
  rows(findings: readonly Finding[]): JSX.Element[];
}): JSX.Element | null {
  const [isOpen, setOpen] = useState(false);
  const holdsPicked = useApp(
    ({ selection }) => selection?.kind === 'finding' && findings.some(({ key }) => key === selection.id),
  );
  if (findings.length === 0) return null;
  return (
    <>
      <h4 className="findings-subject">
        <button type="button" aria-expanded={isOpen || holdsPicked} onClick={() => setOpen(!isOpen)}>
          {SUBJECT_WORDS[subject]} <span className="quiet">{findings.length}</span>
        </button>
      </h4>
      {isOpen || holdsPicked ? <ol>{rows(findings)}</ol> : null}
    </>
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
