import { ALIKE } from '../../base/order';
import { UP } from '../../base/vec';
import { unrolledProfile } from '../../runs/profile';
import { runOrUnknown } from '../along-run';
import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';
import { withRunDoubt } from '../run-doubt';

/** A loop that stays below the water siphons the sea aboard when a pump stops. */
export const loopRise = defineRule({
  id: 'water/loop-rise',
  question: 'Does every line that must rise above a height do so?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  cannotSee: ['Whether the loop is vented.', 'Heel, trim and stores: the height is above the floating waterline.'],
  hazards: ['hullHole'],
  subjects: (facts) => facts.lineIds().filter((id) => facts.line(id)?.riseToM !== undefined),
  check(lineId, facts): readonly Verdict[] {
    const run = runOrUnknown(lineId, facts);
    if ('outcome' in run) return [run];
    const line = facts.line(lineId);
    if (line?.riseToM === undefined) return [{ outcome: 'notApplicable', reason: 'noHeight' }];
    const top = unrolledProfile(run.prims, facts.attitude()).reduce((best, one) =>
      one.heightM > best.heightM + ALIKE ? one : best,
    );
    const { met, ...compared } = withRunDoubt(
      judge({
        value: top.heightM,
        limit: line.riseToM,
        bound: 'atLeast',
        unit: 'm',
        grade: [...[line.from.thing, line.to.thing].flatMap((id) => facts.gradesAlong(id, UP)), facts.gradeOfWater()],
      }),
      lineId,
      facts,
    );
    const said = { ...compared, related: [line.from.thing, line.to.thing], at: top.at };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooLow', ...said }];
  },
});
