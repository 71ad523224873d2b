import type { Vec3 } from '../../base/vec';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { judge, times } from '../judge';
import { runDoubt } from '../run-doubt';

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
  hazards: [],
  subjects: (facts) => facts.lineIds(),
  check(lineId, facts): readonly Verdict[] {
    const run = facts.run(lineId);
    if (!run) return [{ outcome: 'cannotTell', reason: 'notRouted', enterNext: 'Place both ends of the line' }];
    if (run.status === 'routed') {
      const doubt = runDoubt(lineId, facts);
      return [
        {
          outcome: 'pass',
          // Of a run that hangs on where its ends are, how far they may slip; else how near it passes.
          measured: doubt?.measured ?? { value: run.minClearanceM, unit: 'm' },
          limit: { value: 0, unit: 'm', bound: 'atLeast' },
          ...(doubt?.closeCall ? { closeCall: doubt.closeCall } : {}),
          ...(doubt?.gradeFrom ? { gradeFrom: doubt.gradeFrom } : {}),
          data: { lengthM: run.lengthM, bends: run.bends, slackM: doubt?.measured.value ?? null },
        },
      ];
    }
    const { reason } = run;
    const line = facts.line(lineId);
    const forbidden = facts.forbidden(lineId).map(facts.compartmentName);
    if (reason.kind === 'notPlaced') return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const related = [reason.blocker, line?.from.thing, line?.to.thing].filter(
      (id): id is string => typeof id === 'string',
    );
    // What is proved for the layout, or is missing by no length, no tape can mend.
    const { met: _met, ...compared } = judge({
      value: reason.shortByM ?? 0,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade:
        run.proved || reason.shortByM === null
          ? []
          : related.map((id) => times(gradeOfBlocker(id, facts), reason.kind === 'bend' ? BEND_GAIN : 1)),
    });
    return [
      {
        outcome: 'fail',
        severity: 'fault',
        reason: reason.kind,
        ...compared,
        related,
        at: reason.at,
        data: {
          blocker: reason.blocker,
          shortByM: reason.shortByM,
          neededM: reason.neededM ?? null,
          place: placeOf(reason.at, facts),
          proved: run.proved,
          proof: run.proof ?? null,
          ...(reason.kind === 'turn' ? { turns: true } : {}),
          ...(reason.kind === 'disconnected' && forbidden.length > 0 ? { forbidden: forbidden.join(', ') } : {}),
          lowerBoundM: run.lowerBoundM,
          tries: reason.tries,
          effort: run.effort ?? null,
        },
      },
    ];
  },
});

/**
 * What a bend lacks is length along the hose, and a slip takes or gives it at both ends of the leg between two bends. Tried on
 * seeded boats; no source.
 */
const BEND_GAIN = 2;

/** What people call the compartment that a place lies in. */
function placeOf(at: Vec3 | null, facts: Facts): string | null {
  const compartment = at && facts.layout().compartmentAt(at);
  return compartment === null ? null : facts.compartmentName(compartment);
}

/** A panel goes by its id, anything else by its record. */
function gradeOfBlocker(id: string, facts: Facts): GradeShare {
  if (id === 'hull') return facts.gradeOf('hull');
  return id.includes('|') || id.includes('/') ? facts.gradeOfWall(id) : facts.gradeOf(id);
}
