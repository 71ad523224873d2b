import type { Boat } from '@core/boat/schema/boat';
import { type SurveyResult, surveyed } from '@core/shape/survey/survey';

/** The adjusted survey of the boat on the board, made once until its own records change. */
let from: readonly unknown[] = [];
let result: SurveyResult | null = null;

export function surveyOf(boat: Boat): SurveyResult | null {
  const parts = [boat.survey, boat.accuracy, boat.compartments, boat.openings, boat.hull];
  if (parts.some((part, index) => part !== from[index])) {
    from = parts;
    result = surveyed(boat);
  }
  return result;
}
