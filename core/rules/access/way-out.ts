import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';
import { nameOf } from '../name-of';

/** What was fitted first and fails first comes out only once half the set is off again. */
export const wayOut = defineRule({
  id: 'access/way-out',
  question: 'Does every part come out again past what was fitted after it?',
  gravest: 'advice',
  late: true,
  sources: [{ key: 'geometry', standing: 'derived' }],
  cannotSee: [
    'In which order the set is fitted: every other part is taken to stand there already.',
    'Screws, clips and brackets that hold it, and what they are hidden by.',
    'Handles and fittings that stick out of the envelope; hands that hold it.',
  ],
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => facts.isPart(id) && facts.pose(id) && facts.thing(id)?.kind !== 'bulkheadUnion'),
  check(id, facts): readonly Verdict[] {
    const compartment = facts.compartmentOf(id);
    const chosen = facts.wayIn(id);
    const ways = chosen ? [chosen] : compartment ? facts.waysTo(compartment) : [];
    if (ways.some((way) => way.length === 0)) return [{ outcome: 'notApplicable', reason: 'standsThere' }];
    const outs = ways.flatMap((way) => {
      const out = facts.wayOut(id, way);
      return out ? [{ way, out }] : [];
    });
    // No way in is said by access/way-in.
    if (outs.length === 0) return [{ outcome: 'notApplicable', reason: 'noWayIn' }];
    const best = outs.reduce((a, b) => (rank(b.out) < rank(a.out) ? b : a));
    const { comesOut, isProved, behind, hoses } = best.out;
    const at = facts.pose(id)?.at ?? null;
    const compared = {
      measured: { value: behind.length, unit: 'count' },
      limit: { value: 0, unit: 'count', bound: 'atMost' },
    } as const;
    const data = {
      blocker: behind[0] ?? null,
      isProved,
      behind: named(behind, facts),
      hoses: named(
        hoses.filter((line) => !isItsOwn(line, id, facts)),
        facts,
      ),
    };
    const said = { ...compared, related: behind, at, data };
    if (comesOut) return [{ outcome: 'pass', ...said }];
    if (behind.length > 0) return [{ outcome: 'fail', severity: 'advice', reason: 'behind', ...said }];
    return [
      {
        outcome: 'cannotTell',
        reason: 'notFound',
        enterNext: `Try it with a cardboard mock-up of ${nameOf(id, facts)}`,
        at,
      },
    ];
  },
});

/** Nothing in the way before few in it, and last where nothing can be named. */
const rank = ({ comesOut, behind }: { readonly comesOut: boolean; readonly behind: readonly string[] }): number =>
  comesOut ? 0 : behind.length > 0 ? behind.length : Number.POSITIVE_INFINITY;

const named = (ids: readonly string[], facts: Facts): string =>
  ids.map((id) => facts.thing(id)?.name ?? facts.line(id)?.name ?? id).join(', ');

/** Its own lines come off in any case. */
const isItsOwn = (line: string, id: string, facts: Facts): boolean => {
  const record = facts.line(line);
  return record?.from.thing === id || record?.to.thing === id;
};
