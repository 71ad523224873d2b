import { defineRule, type Verdict } from '../define';

/** A hose that finds no legal way is a part in the wrong place, a hole too few or a bend too tight: say which, and by how much. */
export const blocked = defineRule({
  id: 'runs/blocked',
  question: 'Does every hose, tube and cable find a way that it can bend through?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  cannotSee: [
    'How stiff a hose is when it is cold.',
    'Clips and ties that are not drawn.',
    'Passages behind linings that are not drawn as compartments.',
  ],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = facts.run(lineId);
    if (!run) return [{ outcome: 'cannotTell', reason: 'notRouted', enterNext: 'Place both ends of the line' }];
    if (run.status === 'routed') {
      return [
        {
          outcome: 'pass',
          measured: { value: run.minClearanceM, unit: 'm' },
          limit: { value: 0, unit: 'm', bound: 'atLeast' },
          data: { lengthM: run.lengthM, bends: run.bends },
        },
      ];
    }
    const { reason } = run;
    const line = facts.line(lineId);
    if (reason.kind === 'notPlaced') return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const related = [reason.blocker, line?.from.thing, line?.to.thing].filter(
      (id): id is string => typeof id === 'string',
    );
    const missing = reason.shortByM ?? 0;
    return [
      {
        outcome: 'fail',
        severity: 'fault',
        reason: reason.kind,
        measured: { value: missing, unit: 'm' },
        limit: { value: 0, unit: 'm', bound: 'atMost' },
        related,
        at: reason.at,
        data: { blocker: reason.blocker, shortByM: reason.shortByM, proved: run.proved, tries: reason.tries },
      },
    ];
  },
});
