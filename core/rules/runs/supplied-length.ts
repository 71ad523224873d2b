import { ORIGIN, subtract, unit, type Vec3 } from '../../base/vec';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { LENGTH_DOUBT } from '../length-doubt';
import { withRunDoubt } from '../run-doubt';

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
  hazards: [],
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
      ...related.flatMap((id) => facts.gradesAlong(id, betweenEnds(related, facts))),
    ];
    const own = judge({ value: needed, limit: usable, bound: 'atMost', unit: 'm', grade });
    const { met, ...compared } = withRunDoubt(own, lineId, facts);
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

/** From one end of the line towards the other: a slip across it changes the length little. */
function betweenEnds([from = '', to = '']: readonly string[], facts: Facts): Vec3 {
  const span = subtract(facts.pose(to)?.at ?? ORIGIN, facts.pose(from)?.at ?? ORIGIN);
  return span.every((step) => step === 0) ? [1, 0, 0] : unit(span);
}
