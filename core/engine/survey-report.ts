import { z } from 'zod';
import type { Boat } from '../boat/schema/boat';
import { readingText } from '../output/text/reading-text';
import { fixingText, residualText, surveyName, surveyNotes, suspectText } from '../output/text/survey-text';
import { surveyed } from '../shape/survey/survey';
import { nextReadings } from './measure-next/next-readings';

/** What `survey --json` prints, as a schema; it stands under $defs.survey of the report's. */
const metres = z.number();
const reading = z.string().describe('id of the reading in survey.readings');

const residual = z.strictObject({
  reading,
  from: z.string().describe('point or datum, as the reading names it'),
  to: z.string(),
  kind: z.enum(['distance', 'height', 'offset', 'diagonal']),
  readingM: metres.describe('as read, metres'),
  residualM: metres.describe(
    'reading less what the adjusted places give, metres: positive where the reading is too long. Readings that are suspected alone have no part in the adjustment, so theirs is the whole of their slip',
  ),
  standardised: z
    .number()
    .describe(
      'residual over its own standard deviation (w of data snooping), by the grades as given; 0 where nothing checks the reading',
    ),
  redundancy: z
    .number()
    .describe('share of an error of this reading that shows in its residual, from 0 (nothing checks it) to 1'),
  leastFoundM: metres
    .nullable()
    .describe('least slip of this reading that would be found in four of five cases, metres; null: none would'),
  suspect: z.boolean().describe('whether it is named in suspects'),
  words: z.string(),
});

const suspect = z.strictObject({
  reading,
  offM: metres.describe('by how much the reading is too long, metres; negative: too short'),
  standardised: z.number().describe('as of the residuals, when it was found'),
  orElse: z
    .array(z.string())
    .describe('readings whose slip would explain the misfit as well: which of them is off cannot be told'),
  words: z.string(),
});

const next = z.strictObject({
  words: z.string().describe('what to measure'),
  from: z.string().describe('where the tape begins; empty where something is to be entered'),
  to: z.string().describe('where it ends'),
  presentM: z.number().nullable().describe('what the boat file gives now, in `unit`; null: nothing yet'),
  unit: z.enum(['m', 'A', 'mm2', 'micron', 'LMin']).nullable(),
  for: z.enum(['survey', 'verdicts']).describe('whether it fixes a surveyed point or settles verdicts of the check'),
  settles: z
    .array(z.strictObject({ key: z.string(), chance: z.number() }))
    .describe('findings, by their key, that stand open and that it may settle, with the chance that it does'),
});

export const surveyReportSchema = z
  .strictObject({
    residuals: z.array(residual).describe('one for each reading that says something of a place sought, by id'),
    suspects: z.array(suspect).describe('readings that do not belong, the clearest first'),
    nextReadings: z
      .array(next)
      .describe(
        'readings worth taking next: first those that fix what the survey leaves loose, then those that settle most verdicts',
      ),
  })
  .describe(
    'The survey adjusted by least squares, as `survey --json` prints it: each reading weighs by its grade, which counts as two standard deviations. A reading is suspected where its residual stands out from the scatter of the others beyond a chance of 1 in 100 for the whole survey. Metres, boat frame.',
  );

export type SurveyReport = z.infer<typeof surveyReportSchema>;

/** The survey of a boat as it is printed, and what is to be said besides: what is loose, left out or doubtful. */
export function surveyReport(boat: Boat): { readonly report: SurveyReport; readonly notes: readonly string[] } {
  const survey = boat.survey ?? {};
  const result = surveyed(boat);
  const residuals = (result?.residuals ?? []).map((one): SurveyReport['residuals'][number] => {
    const { from = '', to = '', kind = 'distance', valueM = 0 } = survey.readings?.[one.reading] ?? {};
    return {
      reading: one.reading,
      from,
      to,
      kind,
      readingM: valueM,
      residualM: one.residualM,
      standardised: one.standardised,
      redundancy: one.redundancy,
      leastFoundM: one.leastFoundM,
      suspect: one.isSuspect,
      words: residualText(one),
    };
  });
  const suspects = (result?.suspects ?? []).map((one) => ({
    reading: one.reading,
    offM: one.offM,
    standardised: one.standardised,
    orElse: [...one.orElse],
    words: suspectText(one, survey),
  }));
  const fixing = (result?.loose.wouldFix ?? []).map((one): SurveyReport['nextReadings'][number] => ({
    words: fixingText(one, survey),
    from: one.from === null ? '' : surveyName(survey, one.from),
    to: surveyName(survey, one.to),
    presentM: null,
    unit: 'm',
    for: 'survey',
    settles: [],
  }));
  const settling = nextReadings(boat).map((one): SurveyReport['nextReadings'][number] => {
    const { title, from, to } = readingText(one, boat);
    return {
      words: title,
      from,
      to,
      presentM: one.present,
      unit: one.unit,
      for: 'verdicts',
      settles: one.settles.map(({ key, chance }) => ({ key, chance })),
    };
  });
  return {
    report: { residuals, suspects, nextReadings: [...fixing, ...settling] },
    notes: result ? surveyNotes(result, survey) : [],
  };
}
