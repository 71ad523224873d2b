import { type JSX, type ReactNode, type SyntheticEvent, useState } from 'react';
import { Subject } from './edit';
import { GradeOfValues } from './GradeOfValues';
import { RecordFields, type RecordProps } from './RecordFields';
import { hintWords } from './words';

/** All data of one record, with what the field in hand means below. `of` names the record: `PM-1`. */
export function RecordEditor({ of, ...record }: RecordProps & { readonly of: string }): JSX.Element {
  return (
    <Subject.Provider value={of}>
      <Hinted label={`All data of ${of}`}>
        <RecordFields {...record} />
        <GradeOfValues {...record} />
      </Hinted>
    </Subject.Provider>
  );
}

/** One line at the foot says what the field means that has the focus or lies under the pointer: rows do not jump for it. */
export function Hinted({ label, children }: { readonly label: string; readonly children: ReactNode }): JSX.Element {
  const [hint, setHint] = useState<string | null>(null);
  const look = ({ target }: SyntheticEvent): void => {
    if (!(target instanceof Element)) return;
    setHint(target.closest('[data-hint]')?.getAttribute('data-hint') ?? null);
  };
  return (
    <fieldset className="record" aria-label={label} onFocus={look} onPointerOver={look}>
      {children}
      <p className="record-hint" aria-live="polite">
        {hint === null ? 'Pick a field to read what it means.' : hintWords(hint)}
      </p>
    </fieldset>
  );
}
