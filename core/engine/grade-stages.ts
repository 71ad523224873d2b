import { gradeM } from '../boat/accuracy';
import type { Grade } from '../boat/schema/boat';
import { accuracy, grades } from './source';
import { type ComputedStage, identical } from './store';

/**
 * Two standard deviations of one record, metres: of a fixture, part, compartment, opening, or of 'hull'. The boat's own
 * word for a single value (`gradeOf`, by path) counts before that of the record. Zero for what is chosen, not measured.
 */
export const gradeOf: ComputedStage<number> = {
  id: 'gradeOf',
  compute: (id, read) => {
    const found = read(grades, id);
    if (!found) return 0;
    const { accuracy: inMetres, gradeOf: single } = read(accuracy);
    const grade: Grade = single?.[found.path] ?? found.grade;
    return gradeM({ accuracy: inMetres }, grade);
  },
  same: identical,
};
