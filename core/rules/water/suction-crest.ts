import { trappedCrest, unrolledProfile } from '../../runs/profile';
import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';

/** Trapped height that a hose between clips has anyway. Common practice, no source. */
const LIMIT_M = 0.02;

/** Air gathers in a high point of a suction hose, and the pump loses its water. */
export const suctionCrest = defineRule({
  id: 'water/suction-crest',
  question: 'Does any suction hose trap air in a high point that cannot be bled?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: [
    'Air from a leaking strainer lid or shaft seal.',
    'How well the pump draws air along.',
    'Sag between clips.',
  ],
  subjects: (facts) => facts.lineIds().filter((id) => facts.isSuction(id)),
  check(lineId, facts): readonly Verdict[] {
    const line = facts.line(lineId);
    const run = facts.run(lineId);
    if (!line || !run || run.status === 'blocked') {
      const placed = run?.status === 'blocked' && run.reason.kind !== 'notPlaced';
      return placed
        ? [{ outcome: 'cannotTell', reason: 'noRun', enterNext: 'Clear the way of the run first' }]
        : [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    }
    // the worst of the waters in which the set runs: the crest that stands highest above its own water, dry ones before wet ones
    const crests = facts.runningWaters().flatMap((state) => {
      const crest = trappedCrest(unrolledProfile(run.prims, state.water));
      return crest ? [{ state, crest }] : [];
    });
    const worst = crests.reduce<(typeof crests)[number] | null>((best, next) => {
      if (!best) return next;
      const dry = Number(next.crest.heightM > 0) - Number(best.crest.heightM > 0);
      return dry > 0 || (dry === 0 && next.crest.trappedM > best.crest.trappedM + 1e-9) ? next : best;
    }, null);
    const related = [line.from.thing, line.to.thing];
    if (!worst)
      return [
        {
          outcome: 'pass',
          measured: { value: 0, unit: 'm' },
          limit: { value: LIMIT_M, unit: 'm', bound: 'atMost' },
          related,
        },
      ];
    const { crest, state } = worst;
    const { met, ...compared } = judge({ value: crest.trappedM, limit: LIMIT_M, bound: 'atMost', unit: 'm', grade: 0 });
    const data = {
      heightM: crest.heightM,
      alongM: crest.alongM,
      state: state.name,
      heelDeg: state.heelDeg,
      down: state.down,
    };
    if (met) return [{ outcome: 'pass', ...compared, related, at: crest.at, data }];
    const wet = crest.heightM <= 0;
    return [
      {
        outcome: 'fail',
        severity: wet ? 'advice' : 'fault',
        reason: wet ? 'bleedHere' : 'trapsAir',
        ...compared,
        related,
        at: crest.at,
        data,
      },
    ];
  },
});
