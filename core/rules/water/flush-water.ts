import { flushWays } from '../../assess/water/fresh';
import { defineRule, inBoth, type Verdict } from '../define';

/** Share of the tank that a flush may take, and what one drinks where nobody said: 15 to 40 L. Common practice, no source. */
const LIMITS = inBoth({ tankShare: 0.5, flushL: 40 });

/** A flush drinks part of what was made: a small tank is empty before the membrane is clean. */
export const flushWater = defineRule({
  id: 'water/flush-water',
  question: 'Does the tank that feeds the flush hold enough for it?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
  ],
  limits: LIMITS,
  gravest: 'advice',
  cannotSee: [
    'How full the tank is.',
    'Water that is run to waste before it is good, and the weekly flush of an idle set.',
  ],
  hazards: ['drinkingWater'],
  subjects: (facts) => [
    ...new Set(
      flushWays(facts.circuit()).flatMap(({ way }) => way.filter((id) => facts.thing(id)?.kind === 'waterTank')),
    ),
  ],
  check(tankId, facts): readonly Verdict[] {
    const limits = LIMITS[facts.profile()];
    const tank = facts.thing(tankId);
    const way = flushWays(facts.circuit()).find((one) => one.way.includes(tankId));
    if (!tank || !way) return [{ outcome: 'notApplicable', reason: 'noFlush' }];
    if (tank.liquidL === undefined) return [{ outcome: 'notApplicable', reason: 'noCapacity' }];
    const pump = facts.thingIds().find((id) => facts.thing(id)?.kind === 'pumpModule');
    const entered = pump === undefined ? undefined : facts.thing(pump)?.flushL;
    const flushL = entered ?? limits.flushL;
    const mostL = limits.tankShare * tank.liquidL;
    const said = {
      measured: { value: flushL, unit: 'L' },
      limit: { value: mostL, unit: 'L', bound: 'atMost' },
      related: [
        ...way.way.filter((id) => id !== tankId),
        ...(pump === undefined || way.way.includes(pump) ? [] : [pump]),
      ],
      data: { flushL, tankL: tank.liquidL, isTypical: entered === undefined },
    } as const;
    if (flushL <= mostL) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'drinksTank', ...said }];
  },
});
