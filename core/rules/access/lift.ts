import { recommendedWeight } from '../../base/formulas/lifting';
import * as portable from '../../base/portable';
import type { Vec3 } from '../../base/vec';
import type { StandingPlace } from '../../boat/schema/boat';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** The index is that of NIOSH; what is lighter is not asked about: project judgement. */
const LIMITS = inBoth({ index: 3, lightKg: 10 });
/** A part is carried to its place at the height of the knuckles, metres: where the equation recommends most. */
const CARRIED_M = 0.75;

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
    const best = places
      .map((place) => liftedFrom(place, at, thing.massKg))
      .reduce((least, one) => (one.index < least.index ? one : least));
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

/** Where people stand at the openings that a part comes in through; in a space where people stand, the places there. */
function standingPlacesFor(id: string, facts: Facts): readonly StandingPlace[] {
  const compartment = facts.compartmentOf(id);
  const openings = facts.openings();
  const places = facts.standingPlaces();
  const last = facts.wayIn(id)?.at(-1);
  const through =
    last !== undefined ? [openings[last]] : Object.values(openings).filter((one) => one.compartment === compartment);
  const at = through.flatMap((opening) => {
    const place = opening?.standing === undefined ? undefined : places[opening.standing];
    return place ? [place] : [];
  });
  return at.length > 0 ? at : Object.values(places).filter((place) => place.compartment === compartment);
}

interface Lifted {
  readonly index: number;
  readonly weightKg: number;
  readonly isBeyond: boolean;
  readonly outM: number;
  readonly upM: number;
  readonly travelM: number;
  readonly standing: string;
  readonly posture: string;
}

/** From where a person stands to the middle of the part in its place. */
function liftedFrom(place: StandingPlace, at: Vec3, massKg: number): Lifted {
  const outM = portable.hypot(at[0] - place.at[0], at[1] - place.at[1]);
  const upM = at[2] - place.at[2];
  const travelM = Math.abs(upM - CARRIED_M);
  const { weightKg, isBeyond } = recommendedWeight({ outM, upM, travelM, turnDeg: 0, grip: 'poor' });
  const { name: standing, posture } = place;
  return { index: massKg / weightKg, weightKg, isBeyond, outM, upM, travelM, standing, posture };
}
