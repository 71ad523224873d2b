import type { Grade } from '@core/boat/schema/boat';
import { GRADES } from '@core/boat/schema/quantities';
import type { JSX } from 'react';
import { Choice } from '../inspector/parts';
import { GRADE_WORDS } from '../words';

const OPTIONS = GRADES.map((grade) => [grade, GRADE_WORDS[grade]] as const);

/** How something was measured. */
export function GradeChoice({
  label,
  value,
  choose,
}: {
  readonly label: string;
  readonly value: Grade;
  choose(grade: Grade): void;
}): JSX.Element {
  return <Choice label={label} value={value} options={OPTIONS} choose={choose} />;
}
