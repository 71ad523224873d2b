import type { Boat } from '@core/boat/schema/boat';
import { type SurveyResult, surveyed } from '@core/shape/survey/survey';
import { type Grade, type Lie, type MadeSurvey, madeSurvey } from '../../../support/surveys';

/** A boat that is nothing but a survey. */
export const boatOf = (survey: unknown, accuracy: Boat['accuracy'] = {}): Boat => ({ survey, accuracy }) as Boat;

export function judged(survey: unknown, accuracy: Boat['accuracy'] = {}): SurveyResult {
  const result = surveyed(boatOf(survey, accuracy));
  if (!result) throw new Error('judged: expected a survey with points or readings, got none');
  return result;
}

export interface Tally {
  readonly surveys: number;
  /** Surveys in which some reading is suspected. */
  readonly accused: number;
  /** Planted readings among the suspects named first, or named as one that cannot be told from another. */
  readonly named: number;
  readonly notToldApart: number;
  readonly leastRedundancy: number;
  /** Greatest error of a place, or of its mirror image where that is told, metres. */
  readonly worstM: number;
}

const SLIP_M = 0.05;

/** Seeds `first` on: clean surveys, or with a slip of 50 mm, either way, planted on any reading. */
export function tally(
  first: number,
  count: number,
  lie: Lie,
  how: { readonly noiseM: number; readonly grade: Grade; readonly neighbours: number },
  planted: boolean,
): Tally {
  let [accused, named, notToldApart, leastRedundancy, worstM] = [0, 0, 0, 1, 0];
  for (let seed = first; seed < first + count; seed++) {
    const made = madeSurvey(seed, lie, how);
    const slip = planted ? plant(made) : null;
    const { suspects, residuals, points } = judged(made.survey);
    if (suspects.length > 0) accused += 1;
    if (suspects.some(({ reading, orElse }) => reading === slip && orElse.length === 0)) named += 1;
    else if (suspects.some(({ reading, orElse }) => reading === slip || (slip !== null && orElse.includes(slip)))) {
      notToldApart += 1;
    }
    leastRedundancy = Math.min(leastRedundancy, ...residuals.map(({ redundancy }) => redundancy));
    for (const [id, at] of Object.entries(made.places)) {
      // A whole survey that hangs on one known point may lie mirrored: then that must have been told.
      const offered = [points[id]?.at ?? [Number.NaN, 0, 0], points[id]?.mirror].filter((one) => one !== undefined);
      const off = offered.map((one) => Math.hypot(...at.map((part, axis) => part - (one[axis] ?? 0))));
      worstM = Math.max(worstM, Math.min(...off));
    }
  }
  return { surveys: count, accused, named, notToldApart, leastRedundancy, worstM };
}

function plant({ survey, whole }: MadeSurvey): string {
  const id = String(1 + whole(Object.keys(survey.readings).length));
  const reading = survey.readings[id];
  if (!reading) throw new Error(`plant: expected a reading ${id}, got none`);
  reading.valueM += whole(2) === 0 ? SLIP_M : -SLIP_M;
  return id;
}
