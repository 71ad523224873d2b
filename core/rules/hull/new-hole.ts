import { pointInBoat, UP, type Vec3 } from '../../base/vec';
import { SKIN } from '../../boat/check-references';
import { HOLE_CHECKS } from '../../boat/schema/sea-opening';
import { heightAbove } from '../../shape/hull/attitude';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** Fittings that stand in the skin. */
const IN_THE_SKIN: ReadonlySet<string> = new Set(['seacock', 'skinFitting', 'logFitting']);

/** A hole below the water cannot be taken back: it is drilled once, ashore, after both sides were looked at. */
export const newHole = defineRule({
  id: 'hull/new-hole',
  question: 'Was every planned hole below the waterline looked at from inside and outside?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: [
    'Core, stringers and tabbing that are not drawn.',
    'Whether the place was really looked at: it takes the word of whoever entered it.',
    'How the fitting is bedded.',
    'Holes that only heel brings under: they are drilled afloat, and a seacock is asked for elsewhere.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => [
    ...Object.entries(facts.newHoles()).flatMap(([id, { between }]) => (between[1] === SKIN ? [id] : [])),
    ...facts.thingIds().filter((id) => {
      const thing = facts.thing(id);
      return facts.isPart(id) && thing !== null && (thing.opensToSea || IN_THE_SKIN.has(thing.kind));
    }),
  ],
  check(id, facts): readonly Verdict[] {
    const hole = holeOf(id, facts);
    if (!hole) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const { at, checked, isPart } = hole;
    const depthM = -heightAbove(facts.attitude(), at);
    const { met: isDry, ...compared } = judge({
      value: depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [facts.gradeOfWater(), ...(isPart ? facts.gradesAlong(id, UP) : [])],
    });
    if (isDry && !compared.closeCall) return [{ outcome: 'notApplicable', reason: 'aboveWater' }];
    const missing = HOLE_CHECKS.filter((check) => !checked.includes(check));
    const data = {
      depthM,
      missing: missing.join(','),
      isUnwanted: facts.isDemanded('noNewHoleBelowWaterline') || facts.isDemanded('noHaulOut'),
    };
    const said = { at, data };
    if (isDry) return [{ outcome: 'pass', ...compared, ...said }];
    if (data.isUnwanted) return [{ outcome: 'fail', severity: 'fault', reason: 'notWanted', ...compared, ...said }];
    if (missing.length > 0) return [{ outcome: 'fail', severity: 'fault', reason: 'unchecked', ...compared, ...said }];
    return [
      {
        outcome: 'pass',
        ...countedFaults(0),
        ...said,
      },
    ];
  },
});

interface PlannedHole {
  readonly at: Vec3;
  readonly checked: readonly string[];
  readonly isPart: boolean;
}

function holeOf(id: string, facts: Facts): PlannedHole | null {
  const thing = facts.thing(id);
  if (!thing) {
    const planned = facts.newHoles()[id];
    return planned ? { at: planned.at, checked: planned.checked ?? [], isPart: false } : null;
  }
  const pose = facts.pose(id);
  if (!pose) return null;
  const { opensToSea } = thing;
  return {
    at: opensToSea ? pointInBoat(pose, opensToSea.at) : pose.at,
    checked: opensToSea?.checked ?? [],
    isPart: true,
  };
}
