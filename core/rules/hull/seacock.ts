import { nearestOpening } from '../../assess/access/opening-reach';
import { canBeShut, linesOpenToSea } from '../../assess/flooding/sea-path';
import { pointInBoat, type Vec3 } from '../../base/vec';
import { LIVING_SPACES } from '../../boat/kinds';
import { heightAbove } from '../../shape/hull/attitude';
import { defineRule, type Verdict } from '../define';
import type { Facts, HeeledWater } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';

/**
 * One arm to the shoulder through an opening: functional reach of the small person (677 mm, NUREG-0700 Table 11.4) less about 100 mm of
 * shoulder, rounded down. A derived figure, not a published limit.
 */
const ARM_REACH_M = 0.56;

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
  sources: [...DEPTH_SOURCES, ...REACH_SOURCES],
  cannotSee: [
    'Whether the handle still turns.',
    'The strength and metal of the fitting.',
    'What is stowed in front of it.',
  ],
  // a through-hull is judged at the lines that hang on it, or by itself when none does
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
  const worst = deepest(
    [hole, ...Object.values(thing.ports).map((port) => pointInBoat(pose, port.at))],
    hole,
    facts.greatestHeelWaters(),
  );
  if (!worst) return { outcome: 'notApplicable', reason: 'aboveWater' };
  const circuit = facts.circuit();
  const data = { depthM: worst.depthM, heelDeg: worst.heelDeg, down: worst.down, joint: thing.name };
  if (canBeShut(circuit, id)) return reachOf(id, facts, { data, at: pose.at });
  const { met: _met, ...compared } = judge({
    value: worst.depthM,
    limit: 0,
    bound: 'atMost',
    unit: 'm',
    grade: [facts.gradeOf('hull'), facts.gradeOf(id)],
  });
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
  const { met, ...compared } = judge({
    value: nearest.distanceM,
    limit: ARM_REACH_M,
    bound: 'atMost',
    unit: 'm',
    grade: [facts.gradeOf(valve), facts.gradeOf(nearest.id)],
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

/** Greatest depth of any of the points in a water that covers the hole; null when the hole stays dry in all of them. */
function deepest(
  points: readonly Vec3[],
  hole: Vec3,
  waters: readonly HeeledWater[],
): { readonly at: Vec3; readonly depthM: number; readonly heelDeg: number; readonly down: string } | null {
  let worst: { at: Vec3; depthM: number; heelDeg: number; down: string } | null = null;
  for (const { water, heelDeg, down } of waters) {
    const depth = (p: Vec3) => -heightAbove(water, p);
    if (depth(hole) <= 0) continue;
    for (const at of points)
      if (!worst || depth(at) > worst.depthM + 1e-12) worst = { at, depthM: depth(at), heelDeg, down };
  }
  return worst;
}
