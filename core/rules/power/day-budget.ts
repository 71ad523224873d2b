import { dayBudget } from '../../assess/power/day-budget';
import type { Thing } from '../../boat/schema/boat';
import type { Needs } from '../../boat/schema/needs';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';

/** Shares of a bank that are drawn before it is charged, and of the sun that gets into it, where nobody says. From memory. */
const LIMITS = inBoth({ leadShare: 0.5, lithiumShare: 0.8, solarShare: 0.75 });
const DAY_H = 24;

/** A set that the bank can't drive makes no water: better to know before it is bought. */
export const dayPowerBudget = defineRule({
  id: 'power/day-budget',
  question: 'Is there enough power for the water that is wanted a day?',
  sources: [
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Clouds, shade and the season.',
    'The age of the bank, and how much less lead gives at a high current.',
    'Cold or very salt water: the set makes less of it.',
    'Losses of charging.',
  ],
  hazards: ['dcFault'],
  subjects: (facts) =>
    facts.needs()?.waterLDay === undefined
      ? []
      : facts.thingIds().filter((id) => {
          const thing = facts.thing(id);
          return facts.isPart(id) && (thing?.kind === 'pumpModule' || thing?.productLH !== undefined);
        }),
  check(pumpId, facts): readonly Verdict[] {
    const pump = facts.thing(pumpId);
    const needs = facts.needs();
    if (!pump || needs?.waterLDay === undefined) return [{ outcome: 'notApplicable', reason: 'noNeeds' }];
    if (pump.electric?.drivenBy === 'engine' || pump.electric?.drivenBy === 'ac')
      return [{ outcome: 'notApplicable', reason: 'notFromBank' }];
    const missing = (reason: string, enterNext: string): readonly Verdict[] => [
      { outcome: 'cannotTell', reason, enterNext },
    ];
    if (!pump.productLH) return missing('noProduct', `Enter how many litres an hour ${pump.name} makes`);
    const drawA = pump.electric?.drawA;
    if (!drawA) return missing('noCurrent', `Enter the current that ${pump.name} draws`);
    const limits = LIMITS[facts.profile()];
    const bank = bankOf(pumpId, facts);
    const usableShare = bank?.electric?.usableShare ?? usualShare(bank, limits);
    const countsBank = needs.chargeEveryDays !== undefined;
    if (countsBank && bank?.electric?.capacityAh === undefined)
      return missing(
        'noCapacity',
        bank ? `Enter the capacity of ${bank.name}` : `Draw the bank that feeds ${pump.name}`,
      );
    if (countsBank && usableShare === null)
      return missing('noChemistry', `Enter whether ${bank?.name ?? 'the bank'} is of lead or lithium`);
    const solarW = needs.solarW ?? solarOf(facts);
    const bankV = bank?.electric?.sourceV ?? null;
    if (bankV === null && solarW > 0 && (needs.sunHoursDay ?? 0) > 0)
      return missing('noVoltage', bank ? `Enter the voltage of ${bank.name}` : `Draw the bank that feeds ${pump.name}`);
    const set = {
      productLH: pump.productLH,
      drawA: drawA + feedPumpsA(facts),
      bankV,
      usableAh: (bank?.electric?.capacityAh ?? 0) * (usableShare ?? 0),
      solarW,
      solarShare: needs.solarShare ?? limits.solarShare,
      flushL: needs.flushL ?? pump.flushL ?? 0,
    };
    const budget = dayBudget({ ...needs, waterLDay: needs.waterLDay }, set);
    const data = { ...budget, ...set, waterLDay: needs.waterLDay, chargeEveryDays: needs.chargeEveryDays ?? null };
    const power = judge({ value: budget.setAh, limit: budget.availableAh, bound: 'atMost', unit: 'Ah', grade: [] });
    const { met, ...compared } = power;
    const at = facts.pose(pumpId)?.at ?? null;
    const first: Verdict = met
      ? { outcome: 'pass', ...compared, at, data }
      : {
          outcome: 'fail',
          severity: 'fault',
          reason: budget.fittingL > 0 ? 'lessWater' : 'none',
          ...compared,
          at,
          data,
        };
    return [first, inTime(needs, set, at, data)];
  },
  mends: ({ key, reason, data }) => {
    const fits = Math.floor(Number(data.fittingL));
    if (reason !== 'lessWater' || !key.endsWith('|') || !(fits > 0)) return [];
    return [
      {
        id: `value needs waterLDay ${fits}`,
        change: 'value',
        what: { id: 'needs', field: 'waterLDay', from: Number(data.waterLDay), to: fits },
        recipe: (boat) => {
          if (boat.needs) boat.needs.waterLDay = fits;
        },
      },
    ];
  },
});

/** Whether the hours that it may run are enough. */
function inTime(
  needs: Needs,
  set: { readonly productLH: number; readonly flushL: number },
  at: Verdict['at'],
  data: Verdict['data'],
): Verdict {
  const hours = needs.runHoursDay ?? DAY_H;
  const { met, ...compared } = judge({
    value: hours * set.productLH - set.flushL,
    limit: needs.waterLDay ?? 0,
    bound: 'atLeast',
    unit: 'LDay',
    grade: [],
  });
  const said = { instance: 'hours', ...compared, at: at ?? null, data: { ...data, runHoursDay: hours } };
  return met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'fault', reason: 'tooSlow', ...said };
}

/** The bank that feeds the set; without a cable to one the only battery whose capacity is known. */
function bankOf(pumpId: string, facts: Facts): Thing | null {
  const way = facts.distribution().ways.find(({ end }) => end === pumpId);
  if (way) {
    const source = facts.thing(way.source);
    if (source?.electric?.capacityAh !== undefined || source?.kind === 'battery') return source;
  }
  const known = facts.thingIds().filter((id) => facts.thing(id)?.electric?.capacityAh !== undefined);
  return known.length === 1 && known[0] !== undefined ? facts.thing(known[0]) : null;
}

function usualShare(
  bank: Thing | null,
  limits: { readonly leadShare: number; readonly lithiumShare: number },
): number | null {
  const chemistry = bank?.electric?.chemistry;
  if (chemistry === undefined) return null;
  return chemistry === 'lithium' ? limits.lithiumShare : limits.leadShare;
}

const solarOf = (facts: Facts): number =>
  facts.thingIds().reduce((sum, id) => sum + (facts.thing(id)?.electric?.solarW ?? 0), 0);

/** Feed pumps of the set run with it. */
const feedPumpsA = (facts: Facts): number =>
  facts
    .thingIds()
    .filter((id) => facts.isPart(id) && facts.thing(id)?.kind === 'feedPump')
    .reduce((sum, id) => sum + (facts.thing(id)?.electric?.drawA ?? 0), 0);
