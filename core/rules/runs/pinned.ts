import type { PinFault } from '../../runs/routing/types';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import type { GradeShare } from '../finding';
import { judge } from '../judge';

/** A run that is kept as built stays when the boat round it is changed: say where it no longer fits. */
export const pinned = defineRule({
  id: 'runs/pinned',
  question: 'Does every run that is kept as built still fit what is drawn?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  cannotSee: ['Whether the run really lies as it was pinned.', 'Clips and ties that are not drawn.'],
  hazards: [],
  subjects: (facts) => facts.lineIds().filter((id) => pinOf(id, facts) !== null),
  check(lineId, facts): readonly Verdict[] {
    const run = facts.run(lineId);
    const faults = pinOf(lineId, facts);
    const line = facts.line(lineId);
    if (!faults || !line || run?.status !== 'routed') return [{ outcome: 'notApplicable', reason: 'notPinned' }];
    const ends = [line.from.thing, line.to.thing];
    if (faults.length === 0)
      return [
        {
          outcome: 'pass',
          measured: { value: run.minClearanceM, unit: 'm' },
          limit: { value: 0, unit: 'm', bound: 'atLeast' },
          related: ends,
          data: { lengthM: run.lengthM },
          isPlanned: true,
        },
      ];
    return faults.map((fault, k) => {
      const { byM, builtM } = fault;
      const grade = byM === null ? [] : gradeOf(fault, facts);
      // What has a size of its own is told by it, the rest by how much is missing.
      const { met: _, ...compared } =
        builtM === undefined
          ? judge({ value: byM ?? 0, limit: 0, bound: 'atMost', unit: 'm', grade })
          : judge({ value: builtM, limit: builtM + (byM ?? 0), bound: 'atLeast', unit: 'm', grade });
      return {
        outcome: 'fail',
        severity: 'fault',
        reason: fault.kind,
        instance: `${fault.kind}${fault.end ? ` ${fault.end}` : ''}${sameBefore(faults, k)}`,
        ...compared,
        related: fault.blocker === null || ends.includes(fault.blocker) ? ends : [fault.blocker, ...ends],
        at: fault.at,
        data: { blocker: fault.blocker, byM, end: fault.end ?? null },
        isPlanned: true,
      };
    });
  },
});

function pinOf(lineId: string, facts: Facts): readonly PinFault[] | null {
  const run = facts.run(lineId);
  return run?.status === 'routed' ? (run.pinned ?? null) : null;
}

/** Two faults of one kind have names of their own. */
function sameBefore(faults: readonly PinFault[], k: number): string {
  const own = faults[k] as PinFault;
  const before = faults.slice(0, k).filter(({ kind, end }) => kind === own.kind && end === own.end).length;
  return before === 0 ? '' : ` ${before + 1}`;
}

/** A bend is as tight as the pin says: no tape is in that. */
function gradeOf({ kind, blocker }: PinFault, facts: Facts): readonly GradeShare[] {
  if (blocker === null || kind === 'bend' || kind === 'lead') return [];
  if (blocker === 'hull') return [facts.gradeOf('hull')];
  return [blocker.includes('|') || blocker.includes('/') ? facts.gradeOfWall(blocker) : facts.gradeOf(blocker)];
}
