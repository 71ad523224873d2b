import { readFileSync } from 'node:fs';
import { readBoat } from '@core/boat/read';
import { surveyed } from '@core/shape/survey/survey';
import { expect, it } from 'vitest';

/** Derived: the sample's corners stand 550 mm apart, and its README says which reading was entered 34 mm too long. */
it('names the one misread tape of the void behind a settee, by its size', () => {
  const file = new URL('../../../../sample-boats/minimal/taped-void/boat.json', import.meta.url);
  const read = readBoat(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const survey = surveyed(read.boat);
  expect(survey?.suspects.map((suspect) => suspect.reading)).toEqual(['r25']);
  expect(Math.abs((survey?.suspects[0]?.offM ?? 0) - 0.034)).toBeLessThan(0.005);
});
