import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';

/** Share of a run's length by which a tape along the real way may differ: string along the run, common practice. */
const LENGTH_DOUBT = 0.01;

/** A pressure hose comes with its ends on: it reaches, or it is the wrong hose. */
export const suppliedLength = defineRule({
  id: 'runs/supplied-length',
  question: 'Do the hoses that are supplied with their ends on reach?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'geometry', standing: 'derived' },
  ],
  cannotSee: [
    'How far the hose grows or shrinks under pressure (+2 to -4 % is usual).',
    'Where the spare length is put.',
  ],
  subjects: (facts) => facts.lineIds().filter((id) => facts.line(id)?.supplied),
  check(lineId, facts): readonly Verdict[] {
    const line = facts.line(lineId);
    const run = facts.run(lineId);
    if (!line?.supplied || !run)
      return [{ outcome: 'cannotTell', reason: 'notRouted', enterNext: 'Place both ends of the line' }];
    const usable = line.supplied.lengthM - line.supplied.spareM;
    const related = [line.from.thing, line.to.thing];
    const data = { suppliedM: line.supplied.lengthM, spareM: line.supplied.spareM, lowerBoundM: run.lowerBoundM };
    if (run.status === 'blocked' && run.lowerBoundM <= usable) {
      if (run.reason.kind === 'notPlaced') return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
      return [{ outcome: 'cannotTell', reason: 'noRun', enterNext: 'Make room for the run first', related, data }];
    }
    const needed = run.status === 'routed' ? run.lengthM : run.lowerBoundM;
    const grade = [
      { path: `lines.${lineId}`, gradeM: LENGTH_DOUBT * needed },
      ...related.map((id) => facts.gradeOf(id)),
    ];
    const { met, ...compared } = judge({ value: needed, limit: usable, bound: 'atMost', unit: 'm', grade });
    const at = run.status === 'blocked' ? run.reason.at : null;
    if (met) return [{ outcome: 'pass', ...compared, related, at, data }];
    const proved = run.lowerBoundM > usable;
    return [
      {
        outcome: 'fail',
        severity: 'fault',
        reason: proved ? 'cannotReach' : 'tooShort',
        ...compared,
        related,
        at,
        data: { ...data, proved },
      },
    ];
  },
});
