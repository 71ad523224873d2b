import { depthBelow } from '../../assess/water/immersion';
import { setIntakes } from '../../assess/water/intakes';
import { pointInBoat, UP } from '../../base/vec';
import { defineRule, inBoth, type Verdict } from '../define';
import { judge } from '../judge';

/** Depth below which an intake draws air in a chop, metres. Common practice, from memory. */
const LIMITS = inBoth({ leastDepthM: 0.05 });

/** An intake that comes out of the water on the wrong tack fills the pump with air, and the set stops. */
export const intakeImmersion = defineRule({
  id: 'water/intake-immersion',
  question: 'Does the intake stay under water wherever the set is run?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: ['Waves, rolling, and the trough of the boat’s own wave.', 'Air from the bow wave or the propeller.'],
  hazards: ['hullHole'],
  subjects: (facts) => setIntakes(facts.circuit()),
  check(intakeId, facts): readonly Verdict[] {
    const { leastDepthM } = LIMITS[facts.profile()];
    const opening = facts.thing(intakeId)?.opensToSea;
    const pose = facts.pose(intakeId);
    if (!opening || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const at = pointInBoat(pose, opening.at);
    const [first, ...rest] = facts.runningWaters().map(({ water, name, heelDeg, down, trimDeg }) => ({
      depthM: depthBelow(water, at),
      state: name,
      heelDeg,
      down,
      trimDeg,
    }));
    if (!first) return [{ outcome: 'notApplicable', reason: 'notRun' }];
    const worst = rest.reduce((least, one) => (one.depthM < least.depthM - 1e-12 ? one : least), first);
    const { met, ...compared } = judge({
      value: worst.depthM,
      limit: leastDepthM,
      bound: 'atLeast',
      unit: 'm',
      grade: [...facts.gradesAlong(intakeId, UP), facts.gradeOfWater()],
    });
    const { depthM, ...data } = worst;
    if (met) return [{ outcome: 'pass', ...compared, at, data }];
    if (depthM <= 0) return [{ outcome: 'fail', severity: 'fault', reason: 'dry', ...compared, at, data }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'shallow', ...compared, at, data }];
  },
});
