import { feedFromPower, PUMP_EFFICIENCY } from '../../base/formulas/pump-power';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** Share of its feed that one membrane makes into drinking water, at most. From memory of the makers' usual limits. */
const LIMITS = inBoth({ recoveryShare: 0.15 });
const MINUTES_H = 60;
/** Of sea water, where nobody says. Common practice, no source. */
const WORKING_BAR = 55;

/** Data sheets are written by those who sell: what they imply can be worked out, and asked for. */
export const dataSheet = defineRule({
  id: 'power/data-sheet',
  question: 'Do product, feed, pressure and current of the set go together?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'practice', standing: 'fromMemory' },
  ],
  limits: LIMITS,
  gravest: 'advice',
  cannotSee: [
    'The temperature and salt for which the sheet holds.',
    'How good pump and motor really are: 0.85 and 0.80 are taken.',
    'Membranes of another make: ask for their greatest recovery.',
  ],
  hazards: [],
  subjects: (facts) => facts.thingIds().filter((id) => (facts.thing(id)?.productLH ?? 0) > 0),
  check(pumpId, facts): readonly Verdict[] {
    const pump = facts.thing(pumpId);
    const productLH = pump?.productLH;
    if (!pump || !productLH) return [{ outcome: 'notApplicable', reason: 'noProduct' }];
    const elements = Math.max(1, membranes(facts));
    // Each takes its share of what the one before it leaves.
    const limit = 1 - (1 - LIMITS[facts.profile()].recoveryShare) ** elements;
    const verdicts: Verdict[] = [];
    const tell = (instance: string, feedLMin: number, reason: string, more: Record<string, number>): void => {
      const { met, ...compared } = judge({
        value: productLH / (feedLMin * MINUTES_H),
        limit,
        bound: 'atMost',
        unit: 'share',
        grade: [],
      });
      const said = { instance, ...compared, data: { productLH, feedLMin, elements, ...more } };
      verdicts.push(met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'advice', reason, ...said });
    };
    if (pump.flowLMin) tell('feed', pump.flowLMin, 'fromFeed', {});
    const amperes = pump.electric?.drawA;
    const volts = voltageOf(pumpId, facts);
    const isOfBank = (pump.electric?.drivenBy ?? 'dc') === 'dc';
    if (amperes && volts && isOfBank && !pump.recoversEnergy) {
      const pressureBar = pump.workingBar ?? WORKING_BAR;
      const watts = amperes * volts;
      const feedLMin = feedFromPower({ watts, pressureBar, efficiency: PUMP_EFFICIENCY });
      tell('power', feedLMin, 'fromPower', { watts, pressureBar, whPerL: watts / productLH });
    }
    if (verdicts.length === 0) return [{ outcome: 'notApplicable', reason: 'tooLittleSaid' }];
    return verdicts;
  },
});

const membranes = (facts: Facts): number =>
  facts.thingIds().filter((id) => facts.thing(id)?.kind === 'membrane').length;

function voltageOf(pumpId: string, facts: Facts): number | null {
  const way = facts.distribution().ways.find(({ end }) => end === pumpId);
  return (way && facts.thing(way.source)?.electric?.sourceV) ?? null;
}
