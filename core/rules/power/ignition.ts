import { ignitionReach, isElectric, sparks } from '../../assess/power/sparks';
import { portsOf } from '../../runs/circuit/circuit';
import { segmentToSolid } from '../../shape/space/kernel';
import { gapBetween } from '../../shape/space/overlap';
import { directionTo, pointsAlong, runOrNone } from '../along-run';
import { countedFaults } from '../counted';
import { defineRule, type Verdict } from '../define';
import { centreOf, envelopeOf } from '../envelope';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';
import { valueMend } from '../power-mends';

const CFR: SourceRef = { key: 'cfr-33-183', clause: '183.410', standing: 'published' };
const PRACTICE: SourceRef = { key: 'practice', standing: 'commonPractice' };

/** What a gas locker itself needs. */
const OWN_OF_GAS: ReadonlySet<string> = new Set(['fuel', 'air', 'waste']);

/** Gas and petrol vapour lie low and wait: one spark of a brush, a switch or a loose joint sets them off. */
export const ignition = defineRule({
  id: 'power/ignition',
  question: 'Can anything spark where gas or petrol vapour may be?',
  sources: [PRACTICE, CFR],
  gravest: 'danger',
  cannotSee: [
    'Holes and gaps that gas finds.',
    'Bottles and cans that are stowed elsewhere.',
    'Static, engines and their own wiring, lamps and switches that are not drawn.',
  ],
  hazards: ['ignition'],
  subjects: (facts) => [
    ...(isAnyGas(facts) ? facts.thingIds().filter((id) => isElectricThing(id, facts)) : []),
    ...(isAnyLocker(facts) ? facts.lineIds() : []),
  ],
  check(subject, facts): readonly Verdict[] {
    return facts.line(subject) ? [throughBottles(subject, facts)] : ofThing(subject, facts);
  },
  mends: ({ subject, reason }, { boat }) =>
    reason === 'throughBottles' ? [] : [valueMend(boat, subject, 'electric.ignitionProtected', true)],
});

const sourcesOf = (facts: Facts): readonly SourceRef[] => (facts.isPetrol() ? [CFR, PRACTICE] : [PRACTICE]);

function isElectricThing(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  // An engine has its own wiring, and what is needed to start it.
  return thing !== null && thing.kind !== 'engine' && isElectric(thing);
}

const isAnyGas = (facts: Facts): boolean => Object.keys(facts.gasSpaces()).length > 0 || facts.gasThings().length > 0;

/** A place for bottles that lines could pass. */
const isAnyLocker = (facts: Facts): boolean =>
  facts.gasThings().some(({ isLocker }) => isLocker) ||
  Object.values(facts.gasSpaces()).some(({ why }) => why === 'bottles');

/** A power cable ends at it. */
function hasJoint(id: string, facts: Facts): boolean {
  const circuit = facts.circuit();
  return portsOf(circuit, id).some((port) =>
    circuit.edgesAt(port).some((edge) => edge.kind === 'line' && edge.medium === 'dcPower'),
  );
}

function ofThing(id: string, facts: Facts): readonly Verdict[] {
  const thing = facts.thing(id);
  const home = facts.compartmentOf(id);
  if (!thing || home === null) return [{ outcome: 'notApplicable', reason: 'notPlaced' }];
  const at = facts.pose(id)?.at ?? null;
  const isBare = hasJoint(id, facts) && !thing.electric?.ignitionProtected;
  const how = sparks(thing);
  if (how === 'no' && !isBare) return [{ outcome: 'notApplicable', reason: 'noSpark' }];
  const gas = facts.gasSpaces()[home];
  const sources = sourcesOf(facts);
  const said = { at, sources };
  if (gas) {
    const data = { home, from: gas.from, why: gas.why };
    const related = gas.from === home ? [home] : [home, gas.from];
    if (how === 'unknown' && !isBare)
      return [
        {
          outcome: 'cannotTell',
          reason: 'brushesUnknown',
          enterNext: `Enter whether ${thing.name} has brushes, or is built not to ignite vapour`,
          ...said,
          related,
          data,
        },
      ];
    return [
      {
        outcome: 'fail',
        severity: 'danger',
        reason: how === 'yes' ? 'sparks' : 'joint',
        ...countedFaults(1),
        ...said,
        related,
        data,
      },
    ];
  }
  const near = nearGas(id, home, how === 'yes' ? ignitionReach(thing) : 0, facts);
  if (!near) return [{ outcome: 'notApplicable', reason: 'noGasNear' }];
  const { met, ...compared } = judge({
    value: near.gapM,
    limit: near.reachM,
    bound: 'atLeast',
    unit: 'm',
    grade: [...facts.gradesAlong(id, near.way), ...facts.gradesAlong(near.id, near.way)],
  });
  const zone = { ...said, at: near.at, related: [near.id], data: { gas: near.id } };
  if (met) return [{ outcome: 'pass', ...compared, ...zone }];
  if (how === 'unknown' && !isBare)
    return [
      {
        outcome: 'cannotTell',
        reason: 'brushesUnknown',
        enterNext: `Enter whether ${thing.name} has brushes, or is built not to ignite vapour`,
        ...zone,
      },
    ];
  return [{ outcome: 'fail', severity: 'danger', reason: 'inZone', ...compared, ...zone }];
}

/** The zone of gas that it lies deepest in, or comes nearest to, in its own compartment; a locker of bottles is one without a zone. */
function nearGas(id: string, home: string, ownReachM: number, facts: Facts) {
  const own = facts.gasThings().length > 0 ? envelopeOf(id, facts) : null;
  if (!own) return null;
  const found = facts.gasThings().flatMap((zone) => {
    const reachM = Math.max(zone.radiusM, ownReachM);
    const isApart = zone.id === id || reachM === 0 || facts.compartmentOf(zone.id) !== home;
    const solid = isApart ? null : envelopeOf(zone.id, facts);
    if (!solid) return [];
    const { gapM, at } = gapBetween(own, solid);
    return [{ id: zone.id, reachM, gapM: Math.max(0, gapM), at, way: directionTo(centreOf(own), centreOf(solid)) }];
  });
  return found.reduce<(typeof found)[number] | null>(
    (worst, one) => (!worst || one.gapM - one.reachM < worst.gapM - worst.reachM ? one : worst),
    null,
  );
}

/** No hose, tube or cable passes where the bottles stand but those that belong to the gas: the locker as a compartment, or as a thing. */
function throughBottles(lineId: string, facts: Facts): Verdict {
  const run = runOrNone(lineId, facts);
  const line = facts.line(lineId);
  if ('outcome' in run) return run;
  const ends = [line?.from.thing, line?.to.thing];
  const isOwn = (id: string | undefined): boolean => id !== undefined && facts.thing(id)?.kind === 'gasLocker';
  if (line && OWN_OF_GAS.has(line.medium) && ends.some(isOwn)) return { outcome: 'notApplicable', reason: 'ownLine' };
  const rooms = facts.compartmentsAlong(lineId).filter((id) => facts.compartment(id)?.gasBottles === true);
  const boxes = facts.gasThings().flatMap(({ id, isLocker }) => {
    const thing = facts.thing(id);
    // The router passes none that is solid; a run as built may.
    const mayEnter = run.pinned !== undefined || (thing !== null && 'soft' in thing && thing.soft === true);
    const solid = isLocker && mayEnter && !ends.includes(id) ? envelopeOf(id, facts) : null;
    return solid ? [{ id, solid }] : [];
  });
  if (rooms.length === 0 && boxes.length === 0) return { outcome: 'notApplicable', reason: 'noneNear' };
  const layout = facts.layout();
  const inside = pointsAlong(run.prims).flatMap(({ at, stepM }) => {
    const room = rooms.find((id) => layout.compartmentAt(at) === id);
    const locker = room ?? boxes.find(({ solid }) => segmentToSolid(at, at, solid) <= 0)?.id;
    return locker === undefined ? [] : [{ at, stepM, locker }];
  });
  const middle = inside[inside.length >> 1];
  if (!middle) return { outcome: 'notApplicable', reason: 'noneNear' };
  const { met: _, ...compared } = judge({
    value: inside.reduce((sum, { stepM }) => sum + stepM, 0),
    limit: 0,
    bound: 'atMost',
    unit: 'm',
    grade: [],
  });
  return {
    outcome: 'fail',
    severity: 'danger',
    reason: 'throughBottles',
    ...compared,
    related: [middle.locker],
    at: middle.at,
    sources: sourcesOf(facts),
    data: { locker: middle.locker },
  };
}
