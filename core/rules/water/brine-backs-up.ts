import { dischargesOf, usersOf } from '../../assess/water/hole-users';
import { depthBelow } from '../../assess/water/immersion';
import { forward, pressureOutlets } from '../../assess/water/shut-off';
import { ofKind, walk } from '../../assess/water/walk';
import { pointInBoat, UP } from '../../base/vec';
import type { Circuit } from '../../runs/circuit/circuit';
import { defineRule, type Verdict } from '../define';
import { judge } from '../judge';
import { nameOf } from '../name-of';

/** Brine that is let into a drain saves a hole, and comes up in the basin when the drain lies under water. */
export const brineBacksUp = defineRule({
  id: 'water/brine-backs-up',
  question: 'Does a drain that takes the brine stay above the water wherever the set is run?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'geometry', standing: 'derived' },
  ],
  gravest: 'advice',
  cannotSee: ['How high the basin stands, and how wide its drain is.', 'Waves along the side.'],
  hazards: ['hullHole'],
  subjects: (facts) => sharedDrains(facts.circuit()),
  check(drainId, facts): readonly Verdict[] {
    const thing = facts.thing(drainId);
    const pose = facts.pose(drainId);
    if (!thing?.opensToSea || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
    const circuit = facts.circuit();
    const users = [...usersOf(circuit, drainId).map((id) => nameOf(id, facts)), ...(thing.sharedBy ?? [])];
    const at = pointInBoat(pose, thing.opensToSea.at);
    const [first, ...rest] = facts.runningWaters().map(({ water, name, heelDeg, down, trimDeg }) => ({
      depthM: depthBelow(water, at),
      state: name,
      heelDeg,
      down,
      trimDeg,
    }));
    if (!first) return [{ outcome: 'notApplicable', reason: 'notRun' }];
    const { depthM, ...worst } = rest.reduce((deep, one) => (one.depthM > deep.depthM + 1e-12 ? one : deep), first);
    const { met, ...compared } = judge({
      value: depthM,
      limit: 0,
      bound: 'atMost',
      unit: 'm',
      grade: [...facts.gradesAlong(drainId, UP), facts.gradeOfWater()],
    });
    const said = { ...compared, related: usersOf(circuit, drainId), at, data: { ...worst, users: users.join(', ') } };
    if (met) return [{ outcome: 'pass', ...said }];
    return [{ outcome: 'fail', severity: 'advice', reason: 'backsUp', ...said }];
  },
});

/** Through-hulls that the brine of the set shares with a drain. */
function sharedDrains(circuit: Circuit): readonly string[] {
  const reached = new Set(
    ofKind(circuit, ['pumpModule']).flatMap(
      (pump) => walk(circuit, pressureOutlets(circuit, pump), { valves: null, mayTake: forward(circuit) }).things,
    ),
  );
  return circuit.seaOpenings.filter((id) => {
    const thing = circuit.things[id];
    if (!thing || !reached.has(id)) return false;
    const lets = dischargesOf(thing, usersOf(circuit, id), circuit) ?? [];
    return lets.includes('sink') || lets.includes('deck');
  });
}
