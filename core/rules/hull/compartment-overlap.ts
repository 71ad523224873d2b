import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';

/** Two compartments cannot share space: whatever is routed or placed there would be in both, or in neither. */
export const compartmentOverlap = defineRule({
  id: 'hull/compartment-overlap',
  question: 'Do the compartments keep out of one another?',
  sources: [{ key: 'geometry', standing: 'derived' }],
  cannotSee: ['Space that no compartment covers.', 'Whether the outlines are those of the boat.'],
  hazards: [],
  subjects: (facts) => Object.keys(facts.layout().cellsOf).sort(),
  check(id, facts): readonly Verdict[] {
    // a pair is told once, at the first of the two
    const own = facts.layout().overlaps.filter(({ between }) => [...between].sort()[0] === id);
    if (own.length === 0)
      return [{ outcome: 'pass', measured: { value: 0, unit: 'm' }, limit: { value: 0, unit: 'm', bound: 'atMost' } }];
    return own.map(({ between, depthM, at }): Verdict => {
      const other = between.find((side) => side !== id) ?? id;
      const { met: _met, ...compared } = judge({
        value: depthM,
        limit: 0,
        bound: 'atMost',
        unit: 'm',
        grade: [facts.gradeOf(id), facts.gradeOf(other)],
      });
      return {
        outcome: 'fail',
        severity: 'fault',
        reason: 'shareSpace',
        instance: other,
        ...compared,
        related: [other],
        at,
        data: { other },
      };
    });
  },
});
