import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import { reportJsonSchema, reportSchema } from '@core/engine/report-schema';
import { describe, expect, it } from 'vitest';
import { emptyBoat, threeLockers } from '../../support/boats';

describe('the schema of the report', () => {
  it('takes the reports of the program, whole', () => {
    const unplaced = threeLockers();
    delete unplaced.arrangements?.first?.places?.pump;
    for (const draft of [emptyBoat(), threeLockers(), unplaced]) {
      const result = readBoat(JSON.stringify(draft));
      if (!result.ok) throw new Error(result.problems[0]?.message ?? '');
      const report = JSON.parse(JSON.stringify(analyze(result.boat)));
      expect(reportSchema.parse(report)).toEqual(report);
    }
  });

  it('refuses a report with a key too many or too few', () => {
    const result = readBoat(JSON.stringify(threeLockers()));
    if (!result.ok) throw new Error('unreadable');
    const report = analyze(result.boat);
    expect(reportSchema.safeParse({ ...report, colour: 'blue' }).success).toBe(false);
    expect(reportSchema.safeParse({ ...report, runs: undefined }).success).toBe(false);
    expect(reportJsonSchema().required).toContain('findings');
  });
});
