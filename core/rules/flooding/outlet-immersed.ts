import { loopHeight } from '../../assess/flooding/loops';
import { pointInBoat, UP } from '../../base/vec';
import { canBeShut } from '../../runs/circuit/valves';
import { unrolledProfile } from '../../runs/profile';
import { heightAbove } from '../../shape/hull/attitude';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts, HeeledWater } from '../facts';
import { fitSeacock } from '../fit-seacock';
import { judge } from '../judge';
import { linesAt } from '../lines-at';

/** A hose that is led so far above the water is a loop of its own, metres. Common practice, no source. */
const LIMITS = inBoth({ loopM: 0.2 });

/** Waters of outlets that lie under water by design, with valves or rises of their own. */
const BY_DESIGN: ReadonlySet<string> = new Set(['exhaust', 'cooling', 'deck']);

/** An outlet that goes under when she heels lets the sea stand in its hose, at joints that were thought to be dry. */
export const outletImmersed = defineRule({
  id: 'flooding/outlet-immersed',
  question: 'Does every outlet without a seacock or loop stay above the water in which the set runs?',
  sources: [{ key: 'practice', standing: 'commonPractice' }],
  limits: LIMITS,
  cannotSee: [
    'Whether the valve of an outlet is opened and shut when it should be.',
    'Waves along the side.',
    'Stores that make her deeper than drawn.',
  ],
  hazards: ['hullHole'],
  subjects: (facts) => facts.thingIds().filter((id) => isJudged(id, facts)),
  check(id, facts): readonly Verdict[] {
    const thing = facts.thing(id);
    const pose = facts.pose(id);
    if (!thing?.opensToSea || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const hole = pointInBoat(pose, thing.opensToSea.at);
    const waters = [...facts.greatestHeelWaters().filter(({ down }) => down === 'upright'), ...facts.runningWaters()];
    const worst = waters
      .map((one) => ({ one, depthM: -heightAbove(one.water, hole) }))
      .reduce((deep, next) => (next.depthM > deep.depthM ? next : deep));
    const { met, ...compared } = judge({
      value: worst.depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)],
    });
    const { heelDeg, down, name } = worst.one;
    const said = {
      ...compared,
      related: linesAt(id, facts),
      at: hole,
      data: { heelDeg, down, state: name, depthM: worst.depthM, valve: '' },
    };
    if (met) return [{ outcome: 'pass', ...said }];
    const kept = keptOut(id, waters, facts);
    if (kept === null) return [{ outcome: 'fail', severity: 'fault', reason: 'under', ...said }];
    const data = { ...said.data, valve: kept.valve ?? '' };
    if (kept.valve !== null && takesBrine(id, facts) && !isOpenedKnowingly(kept.valve, facts))
      return [{ outcome: 'fail', severity: 'advice', reason: 'openUnder', ...said, data }];
    return [{ outcome: 'pass', ...said, ...countedFaults(0), data }];
  },
  mends: fitSeacock,
});

/** Outlets that the set or the boat lets water out through; what lies under water by design is left to its own practice. */
function isJudged(id: string, facts: Facts): boolean {
  const opens = facts.thing(id)?.opensToSea;
  if (!opens) return false;
  if (takesBrine(id, facts)) return true;
  return opens.use === 'outlet' && !(opens.discharges ?? []).some((one) => BY_DESIGN.has(one));
}

function takesBrine(id: string, facts: Facts): boolean {
  const brine = linesAt(id, facts).some((line) => facts.line(line)?.medium === 'brine');
  return brine || facts.thing(id)?.opensToSea?.discharges?.includes('brine') === true;
}

/** The valve of a brine outlet is open while the set runs: a label, the checklist of an operating state or a relief tells that this was thought of. */
function isOpenedKnowingly(valve: string, facts: Facts): boolean {
  if (facts.thing(valve)?.valve?.labelled) return true;
  if (Object.values(facts.operatingStates()).some(({ valves }) => valves[valve] !== undefined)) return true;
  return facts.thingIds().some((id) => facts.thing(id)?.relief || facts.thing(id)?.valve?.kind === 'relief');
}

/** What keeps the sea out of an outlet that goes under: a valve on it or right behind it, or a loop that stays above the water. */
function keptOut(id: string, waters: readonly HeeledWater[], facts: Facts): { readonly valve: string | null } | null {
  if (canBeShut(facts.thing(id))) return { valve: id };
  const limitM = LIMITS[facts.profile()].loopM;
  for (const lineId of linesAt(id, facts)) {
    const line = facts.line(lineId);
    const other = line?.from.thing === id ? line.to.thing : (line?.from.thing ?? '');
    const thing = facts.thing(other);
    const pose = facts.pose(other);
    if (canBeShut(thing)) return { valve: other };
    const run = facts.run(lineId);
    const isHigh = waters.every(({ water }) => {
      const loopM =
        thing?.kind === 'ventedLoop' && pose ? loopHeight({ thing, pose, solid: facts.envelope(other) }, water) : null;
      const runM = run?.status === 'routed' ? unrolledProfile(run.prims, water).map(({ heightM }) => heightM) : [];
      return Math.max(loopM ?? Number.NEGATIVE_INFINITY, ...runM) >= limitM;
    });
    if (isHigh) return { valve: null };
  }
  return null;
}
