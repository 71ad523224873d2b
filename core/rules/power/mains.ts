import { SET_PUMPS } from '../../boat/kinds';
import { defineRule, type Verdict } from '../define';
import type { Facts } from '../facts';

/** Voltages from here on kill at a touch: ISO 10133 and 33 CFR 183 part the systems there. */
const MAINS_V = 50;

/** Alternating current and belts on an engine are another trade: no drawing says that they are safe. */
export const mains = defineRule({
  id: 'power/mains',
  question: 'Is the set driven by direct current of low voltage?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  cannotSee: [
    'Earthing, residual-current devices and the galvanic isolator of alternating current.',
    'Guards, brackets and the side load of a belt on an engine.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) => facts.thingIds().filter((id) => SET_PUMPS.has(facts.thing(id)?.kind ?? '')),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const at = facts.pose(id)?.at ?? null;
    const drivenBy = thing?.electric?.drivenBy;
    if (!thing || drivenBy === undefined) {
      if (voltsAt(id, facts) < MAINS_V) return [{ outcome: 'notApplicable', reason: 'notSaid' }];
    } else if (drivenBy === 'engine') {
      return [
        {
          outcome: 'cannotTell',
          reason: 'engine',
          enterNext: `Have a mechanic judge how ${thing.name} is driven`,
          hazards: [],
          at,
        },
      ];
    } else if (drivenBy === 'dc' && voltsAt(id, facts) < MAINS_V) {
      return [{ outcome: 'notApplicable', reason: 'lowVoltage' }];
    }
    return [
      {
        outcome: 'cannotTell',
        reason: 'mains',
        enterNext: `Have an electrician judge the supply of ${thing?.name ?? id}`,
        at,
      },
    ];
  },
});

function voltsAt(id: string, facts: Facts): number {
  const way = facts.distribution().ways.find(({ end }) => end === id);
  return (way && facts.thing(way.source)?.electric?.sourceV) ?? 0;
}
