import type { Boat, Grade } from '@core/boat/schema/boat';
import { nextReadingId, type Reading, readingEntered } from '@core/boat/survey-ends';
import { type JSX, type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import { useApp } from '../../store/app';
import type { DisplayUnits } from '../../store/types';
import { readLength } from '../fields/entries';
import { GradeChoice } from '../fields/GradeChoice';
import { lengthFigure, lengthUnit } from '../format';
import { Choice } from '../inspector/parts';

import { EndField } from './EndField';
import { useEntryWish } from './entry-wish';
import { READING_KINDS, typedBeside } from './words';

/** Longer than any boat that is surveyed with a tape. */
const LONGEST_M = 100;

/** Why a reading cannot be; null where it can. What was read twice, or does not fit the others, is for the adjustment to say. */
function refusalOf(
  { from, to, kind, valueM }: Pick<Reading, 'from' | 'to' | 'kind' | 'valueM'>,
  units: DisplayUnits,
): string | null {
  const told = (valueInM: number): string => `${lengthFigure(valueInM, units)} ${lengthUnit(units)}`;
  if (from.trim() === to.trim()) return `It begins and ends at ${from.trim()}: name two points.`;
  if ((kind === 'distance' || kind === 'diagonal') && valueM <= 0) return `${told(valueM)}: a distance is more than 0.`;
  return Math.abs(valueM) > LONGEST_M ? `${told(valueM)}: at most ${told(LONGEST_M)}.` : null;
}

/**
 * The row in which the next reading is typed: from, to, value, Enter. Where it starts, how and with what it was taken stays for the
 * next one; the cursor goes back to the start of the row.
 */
export function ReadingEntry({ boat, listId }: { readonly boat: Boat; readonly listId: string }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const notify = useApp((state) => state.notify);
  const units = useApp((state) => state.displayUnits);
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [kind, setKind] = useState<Reading['kind']>('distance');
  const [value, setValue] = useState('');
  const [grade, setGrade] = useState<Grade>('measured');
  const [refusal, setRefusal] = useState<string | null>(null);
  const first = useRef<HTMLInputElement>(null);
  const toField = useRef<HTMLInputElement>(null);
  const valueField = useRef<HTMLInputElement>(null);
  const errorId = useId();
  const id = nextReadingId(boat.survey);
  const wishes = useEntryWish((state) => state.count);
  useEffect(() => {
    const { answered, answer } = useEntryWish.getState();
    if (wishes === answered) return;
    answer();
    first.current?.focus();
  }, [wishes]);

  const enter = (): void => {
    const lacking = from.trim() === '' ? first : to.trim() === '' ? toField : value.trim() === '' ? valueField : null;
    if (lacking) {
      setRefusal(
        lacking === valueField
          ? 'What does the tape say?'
          : `Name the point where it ${lacking === first ? 'begins' : 'ends'}.`,
      );
      lacking.current?.focus();
      return;
    }
    const read = readLength(value, units);
    if (!read.ok) {
      setRefusal(read.message);
      valueField.current?.focus();
      return;
    }
    const wrong = refusalOf({ from, to, kind, valueM: read.value }, units);
    if (wrong !== null) {
      setRefusal(wrong);
      valueField.current?.focus();
      return;
    }
    const done = edit(
      `Reading ${id}`,
      readingEntered(id, { from, to, kind, valueM: read.value, grade, ...typedBeside(value) }),
    );
    if (!done) return;
    notify(`Reading ${id} entered, ${from.trim()} to ${to.trim()}`);
    setRefusal(null);
    setTo('');
    setValue('');
    first.current?.focus();
  };
  const onRowKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') enter();
    // With nothing typed yet there is no text to take back: the last reading is meant.
    const isUndo = event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey) && !event.shiftKey;
    if (isUndo && to === '' && value === '') {
      event.preventDefault();
      useApp.getState().undo();
    }
  };

  return (
    <tr className="entry-row">
      <th scope="row">{id}</th>
      <td>
        <EndField label="From" value={from} listId={listId} change={setFrom} onKey={onRowKey} inputRef={first} />
      </td>
      <td>
        <EndField label="To" value={to} listId={listId} change={setTo} onKey={onRowKey} inputRef={toField} />
      </td>
      <td>
        <Choice
          label="Kind of the new reading"
          value={kind}
          options={READING_KINDS}
          choose={(picked) => setKind(picked)}
        />
      </td>
      <td>
        <div className={refusal === null ? 'field' : 'field invalid'}>
          <input
            ref={valueField}
            aria-label="Reading"
            aria-invalid={refusal !== null}
            aria-describedby={refusal === null ? undefined : errorId}
            autoComplete="off"
            spellCheck={false}
            inputMode="decimal"
            value={value}
            onChange={(event) => {
              setValue(event.target.value);
              setRefusal(null);
            }}
            onKeyDown={onRowKey}
          />
          <span className="unit">{lengthUnit(units)}</span>
        </div>
      </td>
      <td>
        <GradeChoice label="How the new reading was taken" value={grade} choose={(picked) => setGrade(picked)} />
      </td>
      <td colSpan={2} className="entry-verdict">
        {refusal === null ? (
          <span className="quiet">Enter takes it and goes on.</span>
        ) : (
          <span className="field-error" id={errorId} role="alert">
            {refusal}
          </span>
        )}
      </td>
      <td>
        <button type="button" className="button" onClick={enter}>
          Enter
        </button>
      </td>
    </tr>
  );
}
