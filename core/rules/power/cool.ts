import { lockerAir } from '../../assess/power/locker-air';
import { leastBy } from '../../base/order';
import { SET_PUMPS } from '../../boat/kinds';
import { gapBetween } from '../../shape/space/overlap';
import { directionTo } from '../along-run';
import { defineRule, inBoth, type Verdict } from '../define';
import { centreOf, envelopeOf } from '../envelope';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { valueMend } from '../power-mends';

/** How far a motor stands from the engine and its exhaust. Common practice, no source. */
const LIMITS = inBoth({ hotM: 0.5 });
const HOT: ReadonlySet<string> = new Set(['engine', 'exhaust', 'waterLock']);

/** No locker is hotter than that before something runs in it: what passes then passes on any day. Common practice, no source. */
const HOTTEST_C = 40;
/** What warms its air by less is no matter where nobody asks. Common practice, no source. */
const MILD_K = 10;

/** Vents that are easily cut, m2: a row of holes to a large grille. */
const VENTS_M2 = [0.002, 0.005, 0.01, 0.02, 0.04];

/** A motor in a locker that nothing airs heats its own air until it trips, or its windings age. */
export const cool = defineRule({
  id: 'power/cool',
  question: 'Does the air about each thing stay as cool as it needs while the set runs?',
  sources: [
    { key: 'geometry', standing: 'derived' },
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'practice', standing: 'commonPractice' },
  ],
  limits: LIMITS,
  cannotSee: [
    'Sun on the deck, wind in the vents, fans.',
    'The engine and its heat.',
    'Gear stowed around it, and vents that are covered.',
    'How long it runs: the steady state is taken.',
  ],
  hazards: [],
  subjects: (facts) =>
    facts.thingIds().filter((id) => {
      const thing = facts.thing(id);
      return thing?.greatestC !== undefined || (thing?.heatW !== undefined && SET_PUMPS.has(thing.kind));
    }),
  check(id, facts): readonly Verdict[] {
    return [inAir(id, facts), ...byHotThings(id, facts)];
  },
  mends: ({ limit, data }, { boat }) => {
    const home = typeof data.home === 'string' ? boat.compartments[data.home] : undefined;
    if (!home || typeof data.home !== 'string' || data.by !== 'balance' || typeof data.heatW !== 'number') return [];
    const heatW = data.heatW;
    const enough = VENTS_M2.find((ventAreaM2) => {
      const { airC } = lockerAir({ ...home, ventAreaM2 }, heatW);
      return ventAreaM2 > (home.ventAreaM2 ?? 0) && airC !== null && airC <= limit.value;
    });
    return enough === undefined ? [] : [valueMend(boat, data.home, 'ventAreaM2', enough)];
  },
});

function inAir(id: string, facts: Facts): Verdict {
  const thing = facts.thing(id);
  const home = facts.compartmentOf(id);
  const air = home === null ? null : facts.lockerAir(home);
  if (!thing || home === null || !air) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const { riseK, airC, by, wallWK, ventAreaM2, heatW } = air;
  const said = {
    related: [home],
    at: facts.pose(id)?.at ?? null,
    data: { home, riseK, by, wallWK, ventAreaM2, heatW },
  };
  if (thing.greatestC === undefined) {
    if (airC === null && (riseK ?? 0) < MILD_K) return { outcome: 'notApplicable', reason: 'mild' };
    return {
      outcome: 'cannotTell',
      reason: 'noGreatest',
      enterNext: `Enter the hottest surroundings that ${thing.name} may run in`,
      ...said,
    };
  }
  if (by === 'balance' && thing.heatW === undefined && SET_PUMPS.has(thing.kind))
    return {
      outcome: 'cannotTell',
      reason: 'noHeat',
      enterNext: `Enter the heat that ${thing.name} gives off`,
      ...said,
    };
  const hottestC = HOTTEST_C + (riseK ?? 0);
  const isAnyDay = airC === null && hottestC <= thing.greatestC;
  if (airC === null && !isAnyDay)
    return {
      outcome: 'cannotTell',
      reason: 'noSummer',
      enterNext: `Enter how warm ${facts.compartmentName(home)} gets on a hot day`,
      ...said,
    };
  const { met, ...compared } = judge({
    value: airC ?? hottestC,
    limit: thing.greatestC,
    bound: 'atMost',
    unit: 'C',
    grade: [],
  });
  if (met) return { outcome: 'pass', ...compared, ...said, data: { ...said.data, isAnyDay } };
  return { outcome: 'fail', severity: 'fault', reason: 'tooWarm', ...compared, ...said };
}

/** Motors of the set age beside what gets hot, whatever the air is like. */
function byHotThings(id: string, facts: Facts): readonly Verdict[] {
  const own = SET_PUMPS.has(facts.thing(id)?.kind ?? '') ? envelopeOf(id, facts) : null;
  const home = facts.compartmentOf(id);
  if (!own || home === null) return [];
  const near = facts.thingIds().flatMap((other) => {
    const isHot = HOT.has(facts.thing(other)?.kind ?? '') && facts.compartmentOf(other) === home;
    const solid = isHot ? envelopeOf(other, facts) : null;
    return solid ? [{ other, solid, ...gapBetween(own, solid) }] : [];
  });
  const [first, ...rest] = near;
  if (!first) return [];
  const { other, solid, gapM, at } = leastBy(first, rest, (one) => one.gapM);
  const way = directionTo(centreOf(own), centreOf(solid));
  const { met, ...compared } = judge({
    value: Math.max(0, gapM),
    limit: LIMITS[facts.profile()].hotM,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, way), ...facts.gradesAlong(other, way)],
  });
  const said = { instance: 'hot', ...compared, related: [other], at, data: { hot: other } };
  return [met ? { outcome: 'pass', ...said } : { outcome: 'fail', severity: 'advice', reason: 'byHot', ...said }];
}
