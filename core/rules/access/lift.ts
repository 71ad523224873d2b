import { defineRule, inBoth, type Verdict } from '../define';
import { judge } from '../judge';
import { leastLifted, standingPlacesFor } from '../lifted-part';

/** The index is that of NIOSH; what is lighter is not asked about: project judgement. */
const LIMITS = inBoth({ index: 3, lightKg: 10 });
/** What is lifted at arm's length, bent over a locker, hurts a back that would lift it well from a bench. */
export const lift = defineRule({
  id: 'access/lift',
  question: 'Can one person lift every heavy part into its place?',
  gravest: 'advice',
  // the equation is NIOSH's; what a poor grip takes off is remembered
  sources: [
    { key: 'niosh-94-110', standing: 'quoted' },
    { key: 'practice', standing: 'fromMemory' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Cramped postures: the equation holds for both hands, standing, with room to move, and says too little of kneeling, lying and leaning in.',
    'A boat that moves.',
    'Grips: it takes them for poor.',
    'How far the trunk is turned: not at all is taken.',
  ],
  hazards: ['lifting'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.isPart(id)),
  check(id, facts): readonly Verdict[] {
    const { index, lightKg } = LIMITS[facts.profile()];
    const thing = facts.thing(id);
    const at = facts.pose(id)?.at;
    if (!thing || !at) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    if (thing.massKg < lightKg) return [{ outcome: 'notApplicable', reason: 'light' }];
    const places = standingPlacesFor(id, facts);
    if (places.length === 0) {
      if (Object.keys(facts.standingPlaces()).length === 0) return [{ outcome: 'notApplicable', reason: 'noneDrawn' }];
      return [
        {
          outcome: 'cannotTell',
          reason: 'standsNowhere',
          enterNext: `Say where one stands at the opening that ${thing.name} goes in through`,
          at,
        },
      ];
    }
    const best = leastLifted(places, at, thing.massKg);
    const { met, ...compared } = judge({
      value: best.index,
      limit: index,
      bound: 'atMost',
      unit: 'count',
      grade: [],
    });
    const { index: _index, ...data } = best;
    const said = { ...compared, at, data: { massKg: thing.massKg, ...data } };
    return met
      ? [{ outcome: 'pass', ...said }]
      : [{ outcome: 'fail', severity: 'advice', reason: 'twoPeople', ...said }];
  },
});
