import { ARM_REACH_M, nearestOpening } from '../../assess/access/opening-reach';
import { canBeShut, linesOpenToSea } from '../../assess/flooding/sea-path';
import { norm, pointInBoat, subtract, UP, unit, type Vec3 } from '../../base/vec';
import { LIVING_SPACES } from '../../boat/kinds';
import { heightAbove } from '../../shape/hull/attitude';
import { defineRule, type Verdict } from '../define';
import type { Facts, HeeledWater } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';

const DEPTH_SOURCES: readonly SourceRef[] = [
  { key: 'rcd-2013-53', standing: 'quoted' },
  { key: 'abyc-h27', standing: 'quoted' },
];
const REACH_SOURCES: readonly SourceRef[] = [
  { key: 'iso-9093', clause: '3', standing: 'quoted' },
  { key: 'nureg-0700', standing: 'derived' },
];

/** When a joint under the water lets go, somebody must shut the sea out within seconds, by hand. */
export const seacock = defineRule({
  id: 'hull/seacock',
  question: 'Can every joint below the heeled waterline be shut off from the sea by a valve in reach?',
  gravest: 'danger',
  sources: [...DEPTH_SOURCES, ...REACH_SOURCES],
  cannotSee: [
    'Whether the handle still turns.',
    'The strength and metal of the fitting.',
    'What is stowed in front of it.',
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
    const hangsOn = facts
      .lineIds()
      .some((id) => facts.line(id)?.from.thing === subject || facts.line(id)?.to.thing === subject);
    return hangsOn ? [{ outcome: 'notApplicable', reason: 'toldAtItsLine' }] : [judgeThroughHull(subject, facts)];
  },
});

function judgeThroughHull(id: string, facts: Facts): Verdict {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing?.opensToSea || !pose) return { outcome: 'notApplicable', reason: 'notPlaced' };
  const hole = pointInBoat(pose, thing.opensToSea.at);
  const points = [hole, ...Object.values(thing.ports).map((port) => pointInBoat(pose, port.at))];
  const waters = facts.greatestHeelWaters();
  const holeDepthM = Math.max(...waters.map(({ water }) => -heightAbove(water, hole)));
  const grade = [facts.gradeOfWater(), ...facts.gradesAlong(id, UP)];
  const { met: isDry, ...dry } = judge({ value: holeDepthM, limit: 0, bound: 'atMost', unit: 'm', grade });
  // Clear of the water by more than the tape's doubt: nothing to shut off. Nearer than that it is judged as if it were under.
  if (isDry && !dry.closeCall) return { outcome: 'notApplicable', reason: 'aboveWater' };
  const worst = deepest(points, waters);
  const circuit = facts.circuit();
  const data = { depthM: worst.depthM, heelDeg: worst.heelDeg, down: worst.down, joint: thing.name };
  if (canBeShut(circuit, id)) return reachOf(id, facts, { data, at: pose.at });
  if (isDry)
    return { outcome: 'pass', ...dry, sources: DEPTH_SOURCES, related: [id], at: hole, data: { ...data, dry: true } };
  const compared = { ...dry, measured: { value: worst.depthM, unit: 'm' as const } };
  const behind = linesOpenToSea(circuit, id);
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

function reachOf(
  valve: string,
  facts: Facts,
  base: { readonly data: NonNullable<Verdict['data']>; readonly at: Vec3 },
): Verdict {
  const thing = facts.thing(valve);
  const pose = facts.pose(valve);
  const compartment = facts.compartmentOf(valve);
  const data = { ...base.data, valve: thing?.name ?? valve };
  if (!thing || !pose || !compartment) {
    return {
      outcome: 'cannotTell',
      reason: 'valveNowhere',
      enterNext: `Draw the compartment that holds ${thing?.name ?? valve}`,
      related: [valve],
      at: base.at,
      data,
    };
  }
  const handle = pointInBoat(pose, thing.valve?.handle?.at ?? [0, 0, 0]);
  if (LIVING_SPACES.has(facts.compartmentKind(compartment) ?? '')) {
    return {
      outcome: 'pass',
      measured: { value: 0, unit: 'm' },
      limit: { value: ARM_REACH_M, unit: 'm', bound: 'atMost' },
      sources: REACH_SOURCES,
      related: [valve],
      at: handle,
      data,
    };
  }
  const nearest = nearestOpening(facts.openings(), compartment, handle);
  if (!nearest) {
    return {
      outcome: 'cannotTell',
      reason: 'noOpening',
      enterNext: `Draw the opening into ${facts.compartmentName(compartment)}`,
      related: [valve],
      at: handle,
      data,
    };
  }
  const opening = facts.openings()[nearest.id];
  const span = subtract(handle, opening?.at ?? handle);
  const wayOut: Vec3 = norm(span) > 0 ? unit(span) : UP;
  const { met, ...compared } = judge({
    value: nearest.distanceM,
    limit: ARM_REACH_M,
    bound: 'atMost',
    unit: 'm',
    grade: [...facts.gradesAlong(valve, wayOut), facts.gradeOf(nearest.id)],
  });
  const verdict = {
    ...compared,
    sources: REACH_SOURCES,
    related: [valve, nearest.id],
    at: handle,
    data: { ...data, opening: facts.openings()[nearest.id]?.name ?? nearest.id },
  };
  return met
    ? { outcome: 'pass', ...verdict }
    : { outcome: 'fail', severity: 'danger', reason: 'outOfReach', ...verdict };
}

/** Greatest depth of any of the points in any of the waters; negative where all stay dry. */
function deepest(
  points: readonly Vec3[],
  waters: readonly HeeledWater[],
): { readonly at: Vec3; readonly depthM: number; readonly heelDeg: number; readonly down: string } {
  const all = waters.flatMap(({ water, heelDeg, down }) =>
    points.map((at) => ({ at, depthM: -heightAbove(water, at), heelDeg, down })),
  );
  return all.reduce((worst, one) => (one.depthM > worst.depthM + 1e-12 ? one : worst));
}
