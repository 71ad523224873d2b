import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { linesAt } from '../lines-at';
import { takeOut } from '../mend-recipes';

/** The vent of a loop lets air in whenever its hose is under suction: the pump draws air instead of water. */
export const ventedSuction = defineRule({
  id: 'water/vented-suction',
  question: 'Is the suction free of vented loops?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: ['A vent that was plugged, and nobody entered it.'],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => facts.thing(id)?.kind === 'ventedLoop'),
  check(loopId, facts): readonly Verdict[] {
    const lines = linesAt(loopId, facts);
    if (lines.length === 0) return [{ outcome: 'notApplicable', reason: 'noLine' }];
    const drawn = lines.filter((id) => facts.isSuction(id));
    if (drawn.length === 0) return [{ outcome: 'pass', ...countedFaults(0), related: lines }];
    const at = facts.pose(loopId)?.at ?? null;
    return [{ outcome: 'fail', severity: 'fault', reason: 'drawsAir', ...countedFaults(1), related: drawn, at }];
  },
  mends: ({ subject }, { boat }) => takeOut(subject, 'loop', boat),
});
