import { valueGraded } from '@core/boat/record/edits';
import { gradableValues } from '@core/boat/record/gradable';
import type { Boat, Grade } from '@core/boat/schema/boat';
import { GRADES } from '@core/boat/schema/quantities';
import { isPlain } from '@core/boat/schema-walk';
import type { JSX } from 'react';
import type { z } from 'zod';
import { GradeChoice } from '../fields/GradeChoice';
import { RemoveButton } from '../fields/RemoveButton';
import { Labelled } from '../inspector/parts';
import { Disclosure } from './Disclosure';
import { type Path, useRecordEdits, useSubject } from './edit';
import { labelOfKey } from './words';

/** Values that were taken better or worse than their record as a whole: each with a grade of its own. */
export function GradeOfValues({
  boat,
  path,
  schema,
  value,
}: {
  readonly boat: Boat;
  readonly path: Path;
  readonly schema: z.core.$ZodType;
  readonly value: unknown;
}): JSX.Element | null {
  const edits = useRecordEdits();
  const subject = useSubject();
  const head = `${path.join('.')}.`;
  const values = gradableValues(schema, value);
  const graded = Object.entries(boat.gradeOf ?? {}).filter(([own]) => own.startsWith(head));
  const free = values.filter((own) => !graded.some(([one]) => one === `${head}${own}`));
  if (values.length === 0 && graded.length === 0) return null;
  const usual: Grade = isPlain(value) && isGrade(value.grade) ? value.grade : 'taped';
  const set = (own: string, grade: Grade | null): void =>
    void edits.make(`Grade of ${valueWords(own)}`, valueGraded(`${head}${own}`, grade));
  return (
    <Disclosure title="Grades of single values" aside={graded.length === 0 ? 'none' : String(graded.length)}>
      <p className="quiet">Where one value was taken better or worse than the rest of its record.</p>
      {graded.map(([own, grade]) => {
        const behind = own.slice(head.length);
        return (
          <Labelled key={own} label={valueWords(behind)}>
            <div className="field-and-act">
              <GradeChoice
                label={`Grade of ${valueWords(behind)} of ${subject}`}
                value={grade}
                choose={(next) => set(behind, next)}
              />
              <RemoveButton
                label={`${valueWords(behind)} as its record again, ${subject}`}
                remove={() => set(behind, null)}
              />
            </div>
          </Labelled>
        );
      })}
      {free.length === 0 ? null : (
        <div className="field add-value">
          <select
            aria-label={`Grade one value of ${subject}`}
            value=""
            onChange={(event) => event.target.value !== '' && set(event.target.value, usual)}
          >
            <option value="">Grade one value ...</option>
            {free.map((own) => (
              <option key={own} value={own}>
                {valueWords(own)}
              </option>
            ))}
          </select>
        </div>
      )}
    </Disclosure>
  );
}

const isGrade = (value: unknown): value is Grade => GRADES.some((grade) => grade === value);

/** `pose.at` to `Pose, place`; the members of a row count from 1. */
const valueWords = (path: string): string =>
  path
    .split('.')
    .map((part, index) => {
      const words = /^\d+$/.test(part) ? String(Number(part) + 1) : labelOfKey(part);
      return index === 0 ? words : words.toLowerCase();
    })
    .join(', ');
