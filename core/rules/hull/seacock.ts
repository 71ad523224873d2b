import { linesOpenToSea } from '../../assess/flooding/sea-path';
import { pointInBoat, UP } from '../../base/vec';
import { canBeShut } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { greatestDepth } from '../depth-at-heel';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { fitSeacock } from '../fit-seacock';
import { judge } from '../judge';
import { linesAt } from '../lines-at';

const DEPTH_SOURCES: readonly SourceRef[] = [
  { key: 'rcd-2013-53', standing: 'quoted' },
  { key: 'abyc-h27', standing: 'quoted' },
];

/** When a joint under the water lets go, somebody must shut the sea out within seconds, by hand. */
export const seacock = defineRule({
  id: 'hull/seacock',
  question: 'Can every joint below the heeled waterline be shut off from the sea?',
  gravest: 'danger',
  sources: DEPTH_SOURCES,
  cannotSee: [
    'Whether the handle still turns.',
    'The strength and metal of the fitting.',
    'How the valve is reached: that is told apart.',
  ],
  // a through-hull is judged at the lines that hang on it, or by itself when none does
  hazards: ['hullHole'],
  subjects: (facts) => [...facts.lineIds(), ...facts.thingIds().filter((id) => facts.thing(id)?.opensToSea)],
  check(subject, facts): readonly Verdict[] {
    const line = facts.line(subject);
    if (line) {
      const throughHull = [line.from.thing, line.to.thing].find((id) => facts.thing(id)?.opensToSea);
      return throughHull
        ? [judgeThroughHull(throughHull, facts)]
        : [{ outcome: 'notApplicable', reason: 'notAtThroughHull' }];
    }
    return linesAt(subject, facts).length > 0
      ? [{ outcome: 'notApplicable', reason: 'toldAtItsLine' }]
      : [judgeThroughHull(subject, facts)];
  },
  // of a line it is its through-hull that lacks one
  mends: (failed) => fitSeacock({ ...failed, subject: failed.related[0] ?? failed.subject }),
});

function judgeThroughHull(id: string, facts: Facts): Verdict {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing?.opensToSea || !pose) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const hole = pointInBoat(pose, thing.opensToSea.at);
  const points = [hole, ...Object.values(thing.ports).map((port) => pointInBoat(pose, port.at))];
  const holeDepthM = greatestDepth([hole], facts).depthM;
  const grade = [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)];
  const { met: isDry, ...dry } = judge({ value: holeDepthM, limit: 0, bound: 'atMost', unit: 'm', grade });
  // Clear of the water by more than the tape's doubt: nothing to shut off. Nearer than that it is judged as if it were under.
  if (isDry && !dry.closeCall) return { outcome: 'notApplicable', reason: 'aboveWater' };
  const worst = greatestDepth(points, facts);
  const data = { depthM: worst.depthM, heelDeg: worst.heelDeg, down: worst.down, joint: thing.name };
  if (canBeShut(thing))
    return {
      outcome: 'pass',
      ...countedFaults(0),
      related: [id],
      at: pose.at,
      data: { ...data, lines: 0 },
    };
  if (isDry)
    return { outcome: 'pass', ...dry, sources: DEPTH_SOURCES, related: [id], at: hole, data: { ...data, dry: true } };
  const compared = { ...dry, measured: { value: worst.depthM, unit: 'm' as const } };
  const behind = linesOpenToSea(facts.circuit(), id);
  return {
    outcome: 'fail',
    severity: 'danger',
    reason: 'noSeacock',
    ...compared,
    sources: DEPTH_SOURCES,
    related: [id, ...behind],
    at: worst.at,
    data: { ...data, lines: behind.length },
  };
}
