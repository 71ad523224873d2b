import type { Boat } from '@core/boat/schema/boat';
import { type SurveyResult, surveyed } from '@core/shape/survey/survey';

/** The adjusted survey of the boat on the board, made once until its own records change. */
let from: readonly unknown[] = [];
let result: SurveyResult | null = null;

export function surveyOf(boat: Boat): SurveyResult | null {
  // The drawn boat has a say only where points stand at something of it.
  const isLinked = Object.values(boat.survey?.points ?? {}).some(({ of }) => of && of.length > 0);
  const drawn = isLinked ? [boat.compartments, boat.openings, boat.hull] : [null, null, null];
  const parts = [boat.survey, boat.accuracy, ...drawn];
  if (parts.some((part, index) => part !== from[index])) {
    from = parts;
    result = surveyed(boat);
  }
  return result;
}
