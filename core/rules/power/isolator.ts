import { leastBy } from '../../base/order';
import { distance } from '../../base/vec';
import { SET_PUMPS } from '../../boat/kinds';
import { directionTo } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** From the middle of the unit to the middle of what shuts it off. Common practice, no source. */
const LIMITS = inBoth({ awayM: 3 });

/** Whoever has a hand in the pump must be sure that nobody starts it. */
export const isolator = defineRule({
  id: 'power/isolator',
  question: 'Is there a breaker or switch close to each pump of the set that shuts it off?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: [
    'Whether it can be locked, and is labelled.',
    'Switches that are not drawn.',
    'Plugs that can be pulled.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.thingIds().filter((id) => facts.isPart(id) && SET_PUMPS.has(facts.thing(id)?.kind ?? '')),
  check(pumpId, facts): readonly Verdict[] {
    const way = facts.distribution().ways.find(({ end }) => end === pumpId);
    const pose = facts.pose(pumpId);
    if (!way || !pose) return [{ outcome: 'notApplicable', reason: 'notFed' }];
    const isolators = [...thingsOn(way.path, facts)].filter((id) => id !== pumpId && isolates(id, facts));
    if (isolators.length === 0)
      return [
        {
          outcome: 'fail',
          severity: 'fault',
          reason: 'none',
          measured: { value: 0, unit: 'count' },
          limit: { value: 1, unit: 'count', bound: 'atLeast' },
          related: [way.source],
          at: pose.at,
        },
      ];
    const placed = isolators.flatMap((id) => {
      const at = facts.pose(id)?.at;
      return at ? [{ id, at, awayM: distance(at, pose.at) }] : [];
    });
    const [first, ...rest] = placed;
    if (!first) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const nearest = leastBy(first, rest, ({ awayM }) => awayM);
    const direction = directionTo(pose.at, nearest.at);
    const { met, ...compared } = judge({
      value: nearest.awayM,
      limit: LIMITS[facts.profile()].awayM,
      bound: 'atMost',
      unit: 'm',
      grade: [...facts.gradesAlong(pumpId, direction), ...facts.gradesAlong(nearest.id, direction)],
    });
    const said = { ...compared, related: [nearest.id], at: nearest.at, data: { isolator: nearest.id } };
    if (met) return [{ outcome: 'pass', ...said }];
    // In one space it is seen from the pump.
    if (facts.compartmentOf(nearest.id) === facts.compartmentOf(pumpId))
      return [{ outcome: 'notApplicable', reason: 'inSight' }];
    return [{ outcome: 'fail', severity: 'fault', reason: 'tooFar', ...said }];
  },
});

function thingsOn(path: readonly string[], facts: Facts): ReadonlySet<string> {
  return new Set(
    path.flatMap((id) => {
      const line = facts.line(id);
      return line ? [line.from.thing, line.to.thing] : [];
    }),
  );
}

/** A fuse can be pulled. */
const ISOLATES: ReadonlySet<string> = new Set(['breaker', 'dcPanel', 'fuse']);

function isolates(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  return thing !== null && (thing.electric?.isolates ?? ISOLATES.has(thing.kind));
}
