import { newBoat } from '@core/boat/new-boat';
import { checkBoat } from '@core/boat/read';
import { surveyNotes } from '@core/output/text/survey-text';
import { surveyed } from '@core/shape/survey/survey';
import { describe, expect, it } from 'vitest';

/** Distances between points of which none has a place. */
function loose(names: readonly string[], distances: readonly (readonly [string, string, number])[]) {
  const checked = checkBoat({
    ...JSON.parse(JSON.stringify(newBoat('Loose'))),
    survey: {
      points: Object.fromEntries(names.map((name) => [name, { name }])),
      readings: Object.fromEntries(
        distances.map(([from, to, valueM], index) => [
          String(index + 1),
          { from, to, kind: 'distance', valueM, grade: 'measured' },
        ]),
      ),
    },
  });
  if (!checked.ok) throw new Error(checked.problems.map(({ message }) => message).join('\n'));
  return checked.boat;
}

describe('what is said of a survey', () => {
  it('tells of points that are loose alike in one sentence, and asks for one place, not for all', () => {
    const boat = loose(
      ['a', 'b', 'c'],
      [
        ['a', 'b', 3],
        ['b', 'c', 4],
        ['a', 'c', 5],
      ],
    );
    const result = surveyed(boat);
    if (!result || !boat.survey) throw new Error('expected a survey');
    const notes = surveyNotes(result, boat.survey);
    // derived: a triangle of three lengths keeps its shape and is free in all six ways
    expect(notes).toContain('Nothing ties the survey to the boat yet.');
    expect(notes.filter((note) => note.startsWith('Give '))).toHaveLength(1);
    expect(notes.filter((note) => /not fixed/.test(note)).length).toBeLessThanOrEqual(1);
  });
});
