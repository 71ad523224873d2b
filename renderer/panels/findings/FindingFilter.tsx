import type { Boat } from '@core/boat/schema/boat';
import { nameOf } from '@core/output/text/names';
import type { Finding } from '@core/rules/finding';
import { type JSX, useId, useMemo, useState } from 'react';
import { aboutWhat, isFiltered, NO_FILTER, SUBJECTS, type Subject, useFindingFilter } from '../../store/finding-filter';
import { isOpen, type Mark, markOfFinding } from '../../store/findings';
import { markWords } from './FindingMark';

export const SUBJECT_WORDS: Readonly<Record<Subject, string>> = {
  hull: 'Hull',
  access: 'Access',
  runs: 'Runs',
  water: 'Water',
  power: 'Power',
  flooding: 'Flooding',
};
const CAUSE_WORDS = { arrangement: 'This plan', existing: 'There before' } as const;
const MARKS: readonly Mark[] = ['danger', 'fault', 'closeCall', 'cannotTell', 'advice', 'pass'];

/** Narrows the list down: by cause, subject, weight, and by what it is about. What is chosen stands there when it is folded. */
export function FindingFilter({
  boat,
  findings,
  shown,
}: {
  readonly boat: Boat;
  readonly findings: readonly Finding[];
  /** How many of the open ones the list shows. */
  readonly shown: number;
}): JSX.Element {
  const filter = useFindingFilter();
  const [open, setOpen] = useState(false);
  const id = useId();
  const things = useMemo(
    () =>
      aboutWhat(findings, boat)
        .map((one) => ({ id: one, name: nameOf(boat, one) }))
        .sort((a, b) => a.name.localeCompare(b.name)),
    [findings, boat],
  );
  // Of what is open, as the list counts; what passed is asked for by its own weight.
  const count = (holds: (finding: Finding) => boolean): number =>
    findings.filter((finding) => isOpen(finding) && holds(finding)).length;
  const chosen = [
    filter.cause === null ? '' : CAUSE_WORDS[filter.cause],
    filter.subject === null ? '' : SUBJECT_WORDS[filter.subject],
    filter.mark === null ? '' : markWords(filter.mark),
    filter.about === null ? '' : nameOf(boat, filter.about),
  ].filter((one) => one !== '');
  return (
    <div className="finding-filter">
      <div className="filter-head">
        <button type="button" className="link" aria-expanded={open} aria-controls={id} onClick={() => setOpen(!open)}>
          {chosen.length === 0 ? 'Narrow down' : `Only: ${chosen.join(', ')}`}
        </button>
        {isFiltered(filter) ? (
          <>
            <span className="figures" role="status">
              {shown} shown
            </span>
            <button type="button" className="link" onClick={() => filter.set(NO_FILTER)}>
              Show all
            </button>
          </>
        ) : null}
      </div>
      {open ? (
        <div className="filter-fields" id={id}>
          <Choice
            label="Cause"
            value={filter.cause}
            onChange={(cause) => filter.set({ cause })}
            options={(['arrangement', 'existing'] as const).map((cause) => ({
              value: cause,
              words: `${CAUSE_WORDS[cause]} (${count((finding) => finding.cause === cause)})`,
            }))}
          />
          <Choice
            label="Subject"
            value={filter.subject}
            onChange={(subject) => filter.set({ subject })}
            options={SUBJECTS.map((subject) => ({
              value: subject,
              words: `${SUBJECT_WORDS[subject]} (${count(({ rule }) => rule.startsWith(`${subject}/`))})`,
            }))}
          />
          <Choice
            label="Weight"
            value={filter.mark}
            onChange={(mark) => filter.set({ mark })}
            options={MARKS.map((mark) => ({
              value: mark,
              words: `${markWords(mark)} (${findings.filter((finding) => markOfFinding(finding) === mark).length})`,
            }))}
          />
          <Choice
            label="About"
            value={filter.about}
            onChange={(about) => filter.set({ about })}
            options={things.map((thing) => ({ value: thing.id, words: thing.name }))}
          />
        </div>
      ) : null}
    </div>
  );
}

function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
}: {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly words: string }[];
  readonly onChange: (value: T | null) => void;
}): JSX.Element {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value ?? ''}
        onChange={(event) => onChange(options.find((option) => option.value === event.target.value)?.value ?? null)}
      >
        <option value="">All</option>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.words}
          </option>
        ))}
      </select>
    </div>
  );
}
