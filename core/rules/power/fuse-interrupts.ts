import { defineRule, inBoth, type Verdict } from '../define';
import type { SourceRef } from '../finding';
import { judge } from '../judge';
import { pathOf } from '../name-of';
import { valueMend } from '../power-mends';

/** Short-circuit current of a lithium bank of which nobody says more. */
const LIMITS = inBoth({ lithiumA: 20_000 });
/** Fuses of the high-rupture kind come in steps. Typical of the trade, no source. */
const SOLD_A = [1_000, 2_000, 3_000, 5_000, 10_000, 20_000, 50_000];

const PRACTICE: SourceRef = { key: 'practice', standing: 'commonPractice' };
const BOAT: SourceRef = { key: 'boat-file', standing: 'boatFile' };

/** A fuse that cannot break what a bank drives through a short circuit arcs on, and burns. */
export const fuseInterrupts = defineRule({
  id: 'power/fuse-interrupts',
  question: 'Can the first fuse behind each bank break its short-circuit current?',
  sources: [PRACTICE, BOAT],
  limits: LIMITS,
  gravest: 'danger',
  cannotSee: [
    'What cables and joints take of the short-circuit current.',
    'Several banks that are switched together.',
    'Fuses behind the first: that one breaks what they cannot.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) =>
    Object.values(facts.distribution().devices).flatMap(({ id, before }) =>
      before === null && facts.thing(id)?.kind !== 'dcPanel' ? [id] : [],
    ),
  check(deviceId, facts): readonly Verdict[] {
    const thing = facts.thing(deviceId);
    const source = facts.distribution().devices[deviceId]?.source;
    const bank = source === undefined ? null : facts.thing(source);
    if (!thing || !bank || source === undefined) return [{ outcome: 'notApplicable', reason: 'noSource' }];
    const said = bank.electric?.shortCircuitA;
    const isAssumed = said === undefined && bank.electric?.chemistry === 'lithium';
    const limit = said ?? (isAssumed ? LIMITS[facts.profile()].lithiumA : null);
    if (limit === null) return [{ outcome: 'notApplicable', reason: 'bankUnknown' }];
    const at = facts.pose(deviceId)?.at ?? null;
    const related = [source];
    const sources = [isAssumed ? PRACTICE : BOAT];
    const data = { source, isAssumed, shortCircuitA: limit };
    const interruptsA = thing.electric?.interruptsA;
    if (interruptsA === undefined)
      return [
        {
          outcome: 'cannotTell',
          reason: 'noInterrupting',
          enterNext: `Enter the current that ${thing.name} can interrupt`,
          missing: {
            path: pathOf(deviceId, 'electric.interruptsA', facts),
            unit: 'A',
          },
          related,
          at,
          sources,
          data,
        },
      ];
    const { met, ...compared } = judge({ value: interruptsA, limit, bound: 'atLeast', unit: 'A', grade: [] });
    if (met) return [{ outcome: 'pass', ...compared, related, at, sources, data }];
    return [{ outcome: 'fail', severity: 'danger', reason: 'cannotBreak', ...compared, related, at, sources, data }];
  },
  mends: ({ subject, limit }, { boat }) => {
    const enough = SOLD_A.find((amperes) => amperes >= limit.value);
    return enough === undefined ? [] : [valueMend(boat, subject, 'electric.interruptsA', enough)];
  },
});
