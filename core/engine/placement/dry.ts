import { isHarmedByWater } from '../../assess/flooding/electrics';
import { greenWater } from '../../assess/flooding/green-water';
import { UP, type Vec3 } from '../../base/vec';
import type { Facts } from '../../rules/facts';
import { judge } from '../../rules/judge';
import { isSheltered } from '../../rules/sheltered';
import { isOpenToWater } from '../../runs/routing/wishes/zones';
import type { PlaceTestResult } from './place-report';
import { deciding, notJudged, passed } from './place-tests';

/** Half the angle in which water spreads under an opening in the weather; the rule for green water asks the same. */
const CONE_DEG = 45;

/**
 * Whether parts that water harms stand dry: above the level at which the water comes to rest when any joint below the waterline lets go and no
 * pump runs, and out of the cone of green water under every opening in the weather. Each by itself, whatever else drowns.
 */
export function dryness(parts: readonly string[], facts: Facts): PlaceTestResult {
  const results = parts.flatMap((id) => {
    const thing = facts.thing(id);
    return [
      ...(thing && isHarmedByWater(thing) ? [overTheFlood(id, facts)] : []),
      ...(thing && isOpenToWater(thing) !== false ? [outOfTheCone(id, facts)] : []),
    ];
  });
  return results.length === 0 ? passed('waterHarmless') : results.reduce(deciding);
}

/** Heights over the final levels of all joints that are open to the sea as valves normally stand. */
function overTheFlood(id: string, facts: Facts): PlaceTestResult {
  let lowest: { readonly heightM: number; readonly throughHull: string } | null = null;
  for (const throughHull of facts.thingIds()) {
    if (!facts.thing(throughHull)?.opensToSea) continue;
    const open = facts
      .floods(throughHull, 'clear')
      .filter(({ compartment, joints }) => compartment !== '' && joints.some(({ isOpen }) => isOpen));
    for (const { electrics } of open)
      for (const { thing, heightM } of electrics)
        if (thing === id && (!lowest || heightM < lowest.heightM)) lowest = { heightM, throughHull };
  }
  if (!lowest) return passed('noFloodThere');
  const { met, measured, limit, closeCall } = judge({
    value: lowest.heightM,
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)],
  });
  return {
    ...notJudged,
    outcome: met ? (closeCall ? 'close' : 'pass') : 'fail',
    reason: met ? 'overTheFlood' : 'drowns',
    measured,
    limit,
    about: [id, lowest.throughHull],
  };
}

function outOfTheCone(id: string, facts: Facts): PlaceTestResult {
  const thing = facts.thing(id);
  const solid = facts.envelope(id);
  if (!thing || !solid) return passed(null);
  let result = passed('noHatchAbove');
  for (const [openingId, opening] of Object.entries(facts.openings()).sort(([a], [b]) => (a < b ? -1 : 1))) {
    const water = opening.weatherDeck ? greenWater(opening, solid) : null;
    if (!water || water.offDeg >= CONE_DEG || isSheltered(water.from, water.to, [id], facts)) continue;
    const isSure = isOpenToWater(thing) === true;
    result = deciding(result, {
      ...notJudged,
      outcome: isSure ? 'fail' : 'cannotTell',
      reason: isSure ? 'underHatch' : 'drips',
      measured: isSure ? { value: water.offDeg, unit: 'deg' } : null,
      limit: isSure ? { value: CONE_DEG, bound: 'atLeast' } : null,
      about: [id, openingId],
      enterNext: isSure ? null : `Enter how well ${thing.name} stands water from above`,
    });
  }
  return result;
}

/** How far parts with these bounds would stand under the levels that are known of a compartment as the boat is now, metres; 0: dry. */
export function knownLevels(compartment: string, facts: Facts): ((low: Vec3, high: Vec3) => number) | null {
  const waters = facts.thingIds().flatMap((throughHull) =>
    facts.thing(throughHull)?.opensToSea
      ? facts
          .floods(throughHull, 'clear')
          .filter(
            ({ compartment: where, joints, reached }) =>
              where !== '' &&
              joints.some(({ isOpen }) => isOpen) &&
              reached.some(({ compartment: id }) => id === compartment),
          )
          .map(({ water }) => water)
      : [],
  );
  if (waters.length === 0) return null;
  return (low, high) =>
    Math.max(
      ...waters.map(({ up, levelM }) => {
        const least = [0, 1, 2].reduce(
          (sum, k) => sum + Math.min((up[k] ?? 0) * (low[k] ?? 0), (up[k] ?? 0) * (high[k] ?? 0)),
          0,
        );
        return levelM - least;
      }),
    );
}
