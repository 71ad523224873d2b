import type { Boat } from '@core/boat/schema/boat';
import { endNames, type Reading, readingEntered, readingRemoved } from '@core/boat/survey-ends';
import { residualText, surveyName } from '@core/output/text/survey-text';
import type { ReadingResult } from '@core/shape/survey/survey';
import { type JSX, useContext, useEffect, useId, useMemo, useRef } from 'react';
import { useApp } from '../../store/app';
import { surveyOf } from '../../store/survey';
import { GradeChoice } from '../fields/GradeChoice';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { FindingMark } from '../findings/FindingMark';
import { figure, lengthUnit } from '../format';
import { Choice } from '../inspector/parts';

import { holdsWords, RowFilter } from '../row-filter';
import { EndField } from './EndField';
import { ReadingEntry } from './ReadingEntry';
import { READING_KINDS, typedBeside } from './words';

/** Readings of the survey, in any order, each with what the others say of it; the last row takes the next one. */
export function SurveyTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const selection = useApp((state) => state.selection);
  const listId = useId();
  const survey = boat.survey ?? {};
  const result = surveyOf(boat);
  const results = useMemo(() => new Map(result?.residuals.map((one) => [one.reading, one])), [result]);
  const rows = useMemo(
    () => Object.entries(boat.survey?.readings ?? {}).sort(([a], [b]) => a.localeCompare(b, 'en', { numeric: true })),
    [boat.survey?.readings],
  );
  // What was entered last stands above the entry row.
  const bodyEnd = useRef<HTMLTableSectionElement>(null);
  const before = useRef(rows.length);
  useEffect(() => {
    if (rows.length > before.current) bodyEnd.current?.lastElementChild?.scrollIntoView?.({ block: 'nearest' });
    before.current = rows.length;
  }, [rows.length]);
  const selected = selection?.kind === 'reading' ? selection.id : null;
  const { words, counted } = useContext(RowFilter);
  const kindWords = new Map<string, string>(READING_KINDS.map(([kind, name]) => [kind, name]));
  const shown = rows.filter(([id, { from, to, kind }]) => {
    const ends = [from, to].map((end) => (end === undefined ? '' : surveyName(survey, end)));
    return words.trim() === '' || holdsWords(words, [id, ...ends, kindWords.get(kind) ?? kind]);
  });
  useEffect(() => {
    counted(shown.length, rows.length);
  }, [counted, shown.length, rows.length]);
  return (
    <div className="survey-table">
      <datalist id={listId}>
        {[...new Set([...endNames(survey).values()].map(({ id }) => surveyName(survey, id)))].map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <table className="grid" aria-label="Readings">
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">From</th>
            <th scope="col">To</th>
            <th scope="col">Kind</th>
            <th scope="col" className="number">
              Reading {lengthUnit(units)}
            </th>
            <th scope="col">Taken</th>
            <th scope="col" className="number">
              Residual mm
            </th>
            <th scope="col">Verdict</th>
            <th scope="col">
              <span className="spoken">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody ref={bodyEnd}>
          {shown.map(([id, reading]) => (
            <ReadingRow
              key={id}
              id={id}
              reading={reading}
              boat={boat}
              found={results.get(id) ?? null}
              listId={listId}
              isSelected={selected === id}
            />
          ))}
        </tbody>
        <tfoot>
          <ReadingEntry boat={boat} listId={listId} />
        </tfoot>
      </table>
    </div>
  );
}

function ReadingRow({
  id,
  reading,
  boat,
  found,
  listId,
  isSelected,
}: {
  readonly id: string;
  readonly reading: Reading;
  readonly boat: Boat;
  readonly found: ReadingResult | null;
  readonly listId: string;
  readonly isSelected: boolean;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const isHovered = useApp((state) => state.hover?.kind === 'reading' && state.hover.id === id);
  const { select, setHover } = useApp.getState();
  const row = useRef<HTMLTableRowElement>(null);
  useEffect(() => {
    if (isSelected) row.current?.scrollIntoView?.({ block: 'nearest' });
  }, [isSelected]);
  const survey = boat.survey ?? {};
  const change = (part: Partial<Reading>): boolean =>
    edit(`Reading ${id}`, readingEntered(id, { ...reading, ...part }));
  const pick = (): void => select({ kind: 'reading', id });
  return (
    <tr
      ref={row}
      className={['row', isHovered ? 'hovered' : '', found?.isSuspect ? 'suspect' : ''].join(' ').trim()}
      aria-current={isSelected}
      onMouseEnter={() => setHover({ kind: 'reading', id })}
      onMouseLeave={() => setHover(null)}
      onFocus={() => {
        if (!isSelected) pick();
      }}
    >
      <th scope="row">
        <button type="button" className="row-name" aria-pressed={isSelected} onClick={pick}>
          {id}
        </button>
      </th>
      <td>
        <EndField
          label={`Reading ${id}: from`}
          value={surveyName(survey, reading.from)}
          listId={listId}
          commit={(from) => change({ from })}
        />
      </td>
      <td>
        <EndField
          label={`Reading ${id}: to`}
          value={surveyName(survey, reading.to)}
          listId={listId}
          commit={(to) => change({ to })}
        />
      </td>
      <td>
        <Choice
          label={`Reading ${id}: kind`}
          value={reading.kind}
          options={READING_KINDS}
          choose={(kind) => change({ kind })}
        />
      </td>
      <td>
        <LengthField
          label={`Reading ${id}`}
          value={reading.valueM}
          commit={(valueM, typed) => {
            const { typed: _, ...rest } = reading;
            edit(`Reading ${id}`, readingEntered(id, { ...rest, valueM, ...typedBeside(typed) }));
          }}
        />
      </td>
      <td>
        <GradeChoice
          label={`Reading ${id}: taken`}
          value={reading.grade ?? 'measured'}
          choose={(grade) => change({ grade })}
        />
      </td>
      <td className="number">{found && found.redundancy > 0 ? figure(found.residualM * 1000, 1) : '\u2013'}</td>
      <td>
        <span className="verdict">
          <FindingMark
            mark={found === null || found.redundancy === 0 ? 'cannotTell' : found.isSuspect ? 'fault' : 'pass'}
          />
          {found === null ? 'left out' : residualText(found)}
        </span>
      </td>
      <td>
        <RemoveButton label={`Remove reading ${id}`} remove={() => edit(`Remove reading ${id}`, readingRemoved(id))} />
      </td>
    </tr>
  );
}
