import { nearestOpening } from '../../assess/access/opening-reach';
import { canBeShut, seaPath } from '../../assess/flooding/sea-path';
import { dot, pointInBoat, type Vec3 } from '../../base/vec';
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
const LIVING: ReadonlySet<string> = new Set(['cabin', 'heads', 'cockpitWell']);

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
  subjects: (facts) => [...facts.lineIds(), ...facts.thingIds().filter((id) => facts.thing(id)?.opensToSea)],
  check(subject, facts): readonly Verdict[] {
    const line = facts.line(subject);
    if (!line) return throughHull(subject, facts);
    const circuit = facts.circuit();
    const joints = [line.from, line.to].flatMap((end) => {
      const at = portInBoat(end.thing, end.port, facts);
      return at ? [{ node: { thing: end.thing, port: end.port }, ...deepest(at, facts.greatestHeelWaters()) }] : [];
    });
    const wet = joints
      .filter((joint) => joint.depthM > 0)
      .map((joint) => ({ ...joint, path: seaPath(circuit, joint.node) }));
    const atRisk = wet
      .filter((joint) => joint.path.kind !== 'none')
      .sort((a, b) => Number(b.path.kind === 'open') - Number(a.path.kind === 'open') || b.depthM - a.depthM);
    const worst = atRisk[0];
    if (!worst) return [{ outcome: 'notApplicable', reason: wet.length > 0 ? 'notFromTheSea' : 'aboveWater' }];
    const data = {
      depthM: worst.depthM,
      heelDeg: worst.heelDeg,
      tack: worst.tack,
      joint: circuit.things[worst.node.thing]?.name ?? worst.node.thing,
    };
    if (worst.path.kind === 'open') {
      const grade = facts.gradeM('hull', worst.node.thing);
      const { met, ...compared } = judge({ value: worst.depthM, limit: 0, bound: 'atMost', unit: 'm', grade });
      const from = circuit.things[worst.path.from]?.name ?? worst.path.from;
      return [
        {
          outcome: 'fail',
          severity: 'danger',
          reason: 'noSeacock',
          ...compared,
          sources: DEPTH_SOURCES,
          related: worst.path.things,
          at: worst.at,
          data: { ...data, from, met },
        },
      ];
    }
    if (worst.path.kind === 'none') return [{ outcome: 'notApplicable', reason: 'notFromTheSea' }];
    return [reachOf(worst.path.valve, facts, { data, at: worst.at })];
  },
});

/** A through-hull that goes under at the greatest heel and cannot be shut. */
function throughHull(id: string, facts: Facts): readonly Verdict[] {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing?.opensToSea || !pose) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
  const hole = deepest(pointInBoat(pose, thing.opensToSea.at), facts.greatestHeelWaters());
  const data = { depthM: hole.depthM, heelDeg: hole.heelDeg, tack: hole.tack, joint: thing.name };
  if (hole.depthM <= 0) return [{ outcome: 'notApplicable', reason: 'aboveWater' }];
  if (canBeShut(facts.circuit(), id)) return [reachOf(id, facts, { data, at: pose.at })];
  const { met, ...compared } = judge({
    value: hole.depthM,
    limit: 0,
    bound: 'atMost',
    unit: 'm',
    grade: facts.gradeM('hull', id),
  });
  return [
    {
      outcome: 'fail',
      severity: 'danger',
      reason: 'noSeacock',
      ...compared,
      sources: DEPTH_SOURCES,
      related: [id],
      at: hole.at,
      data: { ...data, from: thing.name, met },
    },
  ];
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
  if (LIVING.has(facts.compartmentKind(compartment) ?? '')) {
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
    grade: facts.gradeM(valve, nearest.id),
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

function portInBoat(thingId: string, portId: string, facts: Facts): Vec3 | null {
  const pose = facts.pose(thingId);
  const port = facts.thing(thingId)?.ports[portId];
  return pose && port ? pointInBoat(pose, port.at) : null;
}

/** Greatest depth of a point under the waters, and in which; negative when it stays dry. */
function deepest(
  at: Vec3,
  waters: readonly HeeledWater[],
): { readonly at: Vec3; readonly depthM: number; readonly heelDeg: number; readonly tack: string } {
  let worst = { at, depthM: Number.NEGATIVE_INFINITY, heelDeg: 0, tack: 'upright' };
  for (const { water, heelDeg, tack } of waters) {
    const depthM = (water.levelM - dot(at, water.up)) / Math.hypot(...water.up);
    if (depthM > worst.depthM + 1e-12) worst = { at, depthM, heelDeg, tack };
  }
  return worst;
}
