import { SET_PUMPS } from '../../boat/kinds';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import type { FailedFinding, Mend, MendingAt } from '../mend';
import { mountingOf } from '../mounted';
import { nameOf } from '../name-of';

/**
 * Ranks, not decibels: 0 not next to a berth, 1 behind its panel on rubber, 2 in the same air on rubber, 3 behind its panel and rigid, 4 in
 * the same air and rigid. Project judgement: what shakes a panel is heard more than what is near.
 */
const LIMITS = inBoth({ rank: 1 });

/** Noise travels by what is screwed together: a pump on the panel of a berth is heard by whoever sleeps there, however far off. */
export const noiseNearBerth = defineRule({
  id: 'access/noise-near-berth',
  question: 'Do pumps keep their noise from berths?',
  gravest: 'advice',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: [
    'How loud it is: it ranks the ways that noise takes.',
    'Stiff hose tails and pipes that carry the noise past its feet.',
    'Covers and damping.',
    'The hours in which it is run.',
  ],
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => facts.isPart(id) && SET_PUMPS.has(facts.thing(id)?.kind ?? 'other')),
  check(id, facts): readonly Verdict[] {
    const at = facts.pose(id)?.at;
    const compartment = facts.compartmentOf(id);
    if (!at || compartment === null) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const way = wayToBerth(compartment, facts);
    if (!way) return [{ outcome: 'notApplicable', reason: 'noBerthNear' }];
    const resilient = mountingOf(id, facts)?.resilient;
    const data = { berth: way.berth, panel: way.panel, isOpen: way.isOpen };
    const related = [way.berth];
    if (resilient === undefined)
      return [
        {
          outcome: 'cannotTell',
          reason: 'mountUnknown',
          enterNext: `Enter whether ${nameOf(id, facts)} stands on rubber feet`,
          related,
          at,
          data,
        },
      ];
    const rank = (way.isOpen ? 2 : 1) + (resilient ? 0 : 2);
    const { met, ...compared } = judge({
      value: rank,
      limit: LIMITS[facts.profile()].rank,
      bound: 'atMost',
      unit: 'count',
      grade: [],
    });
    const said = { ...compared, related, at, data: { ...data, resilient } };
    return met
      ? [{ outcome: 'pass', ...said }]
      : [{ outcome: 'fail', severity: 'advice', reason: 'heardInBerth', ...said }];
  },
  mends: rubberFeet,
});

interface WayToBerth {
  readonly berth: string;
  readonly panel: string | null;
  /** Nothing stands between. */
  readonly isOpen: boolean;
}

/** The shortest way of noise from a compartment to a berth: in it, through an opening without a panel, through a panel. */
function wayToBerth(compartment: string, facts: Facts): WayToBerth | null {
  const berths = facts.berths();
  if (Object.hasOwn(berths, compartment)) return { berth: compartment, panel: null, isOpen: true };
  const ways = Object.values(facts.layout().panels).flatMap(({ id, between, rule }): WayToBerth[] => {
    if (!between.includes(compartment)) return [];
    const berth = between.find((side) => side !== compartment);
    if (berth === undefined || !Object.hasOwn(berths, berth)) return [];
    return [{ berth, panel: id, isOpen: rule === 'open' }];
  });
  const order = ({ isOpen, panel }: WayToBerth): string => `${isOpen ? 0 : 1}${panel ?? ''}`;
  return ways.reduce<WayToBerth | null>((best, one) => (!best || order(one) < order(best) ? one : best), null);
}

function rubberFeet({ subject }: FailedFinding, { facts }: MendingAt): readonly Mend[] {
  if (mountingOf(subject, facts)?.resilient !== false) return [];
  return [
    {
      id: `resilient ${subject}`,
      change: 'add',
      what: { item: 'rubberFeet', to: subject },
      recipe: (boat) => {
        const fixed = boat.parts[subject]?.mounting;
        if (fixed) fixed.resilient = true;
      },
    },
  ];
}
