import { degreesPerMetre } from '../../assess/flooding/falling';
import { greenWater as meets } from '../../assess/flooding/green-water';
import { leastBy } from '../../base/order';
import type { Vec3 } from '../../base/vec';
import { isOpenToWater } from '../../runs/routing/wishes/zones';
import { defineRule, inBoth, type Verdict } from '../define';
import { fitCover } from '../fit-cover';
import { judge, times } from '../judge';
import { nameOf } from '../name-of';
import { isSheltered } from '../sheltered';

/** Half the angle of the cone into which it spreads. Common practice, no source. */
const LIMITS = inBoth({ coneDeg: 45 });

/** Farther off the plumb line than this nothing is told of. */
const NEAR_DEG = 70;

/** A sea that breaks over an open hatch comes down as a heap and spreads: what stands under it must not mind. */
export const greenWater = defineRule({
  id: 'flooding/green-water',
  question: 'Do electrics that are open to water stand clear of openings in the weather, or sheltered?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: ['Spray hoods, washboards and doors that are shut.', 'Water that runs on along the sole.'],
  hazards: ['dcFault'],
  subjects: (facts) => Object.keys(facts.openings()).filter((id) => facts.openings()[id]?.weatherDeck),
  check(id, facts): readonly Verdict[] {
    const opening = facts.openings()[id];
    if (!opening) return [{ outcome: 'notApplicable', reason: 'noOpening' }];
    const limit = LIMITS[facts.profile()].coneDeg;
    const met = facts.thingIds().flatMap((electric) => {
      const thing = facts.thing(electric);
      const isOpen = thing ? isOpenToWater(thing) : false;
      const solid = isOpen === false ? null : facts.envelope(electric);
      const water = solid && meets(opening, solid);
      return water && water.offDeg < NEAR_DEG && !isSheltered(water.from, water.to, [electric], facts)
        ? [{ electric, isOpen, water }]
        : [];
    });
    const unsure = met
      .filter(({ isOpen, water }) => isOpen === null && water.offDeg < limit)
      .map(
        ({ electric, water }): Verdict => ({
          outcome: 'cannotTell',
          reason: 'drips',
          instance: electric,
          enterNext: `Enter how well ${nameOf(electric, facts)} stands water from above`,
          related: [electric],
          at: water.to,
        }),
      );
    const [first, ...rest] = met.filter(({ isOpen }) => isOpen === true);
    if (!first) return unsure.length > 0 ? unsure : [{ outcome: 'notApplicable', reason: 'nothingBelow' }];
    const { electric, water } = leastBy(first, rest, ({ water: one }) => one.offDeg);
    const { asideM, dropM, offDeg } = water;
    const aside: Vec3 = [1, 0, 0];
    const { met: isClear, ...compared } = judge({
      value: offDeg,
      limit,
      bound: 'atLeast',
      unit: 'deg',
      grade: [facts.gradeOf(id), ...facts.gradesAlong(electric, aside)].map((share) =>
        times(share, degreesPerMetre(water)),
      ),
    });
    const said = { ...compared, related: [electric], at: water.to, data: { electrics: electric, asideM, dropM } };
    return isClear
      ? [{ outcome: 'pass', ...said }, ...unsure]
      : [{ outcome: 'fail', severity: 'fault', reason: 'inTheCone', ...said }, ...unsure];
  },
  mends: fitCover,
});
