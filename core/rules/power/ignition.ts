import type { Thing } from '../../boat/schema/boat';
import { segmentToSolid } from '../../shape/space/kernel';
import { gapBetween } from '../../shape/space/overlap';
import { directionTo, pointsAlong, runOrNone } from '../along-run';
import { defineRule, type Verdict } from '../define';
import { centreOf, envelopeOf } from '../envelope';
import type { Facts } from '../facts';
import type { SourceRef } from '../finding';
import { judge } from '../judge';

const CFR: SourceRef = { key: 'cfr-33-183', clause: '183.410', standing: 'published' };
const PRACTICE: SourceRef = { key: 'practice', standing: 'commonPractice' };

/** What opens or closes a circuit, or has bare terminals under current, whatever else is said of it. */
const SPARKS: ReadonlySet<string> = new Set(['battery', 'breaker', 'fuse', 'busbar', 'dcPanel', 'inverterCharger']);
/** Motors that may or may not have brushes. */
const MOTORS: ReadonlySet<string> = new Set([
  'pumpModule',
  'feedPump',
  'freshPump',
  'deckWashPump',
  'bilgePump',
  'autopilotDrive',
  'fridge',
]);
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
    ...(isAnyGas(facts) ? facts.thingIds().filter((id) => isElectric(id, facts)) : []),
    ...(isAnyLocker(facts) ? facts.lineIds() : []),
  ],
  check(subject, facts): readonly Verdict[] {
    return facts.line(subject) ? [throughBottles(subject, facts)] : ofThing(subject, facts);
  },
});

const sourcesOf = (facts: Facts): readonly SourceRef[] => (facts.isPetrol() ? [CFR, PRACTICE] : [PRACTICE]);

function isAnyGas(facts: Facts): boolean {
  return Object.keys(facts.gasSpaces()).length > 0 || isAnyLocker(facts) || gasThings(facts).length > 0;
}

/** A place for bottles that lines could pass. */
const isAnyLocker = (facts: Facts): boolean =>
  Object.values(facts.gasSpaces()).some(({ why }) => why === 'bottles') ||
  facts.thingIds().some((id) => facts.thing(id)?.kind === 'gasLocker');

/** Things with gas about them. A zone of ignition about what sparks itself says how far off gas must be. */
const gasThings = (facts: Facts): readonly { readonly id: string; readonly radiusM: number }[] =>
  facts.thingIds().flatMap((id) => {
    const thing = facts.thing(id);
    const isSpark = thing !== null && sparks(thing) !== 'no';
    const reaches = Object.values(thing?.zones ?? {})
      .filter(({ kind }) => kind === 'gas' || (kind === 'ignition' && !isSpark))
      .map(({ radiusM }) => radiusM);
    return reaches.length === 0 ? [] : [{ id, radiusM: Math.max(...reaches) }];
  });

const hasCurrent = (thing: Thing): boolean =>
  thing.electric !== undefined || Object.values(thing.ports).some(({ medium }) => medium === 'dcPower');

function isElectric(id: string, facts: Facts): boolean {
  const thing = facts.thing(id);
  return thing !== null && (SPARKS.has(thing.kind) || MOTORS.has(thing.kind) || hasCurrent(thing));
}

/** Whether it can spark in use; null where nobody says. */
function sparks({ kind, electric }: Thing): 'yes' | 'no' | 'unknown' {
  if (electric?.ignitionProtected) return 'no';
  if (electric?.brushed || SPARKS.has(kind)) return 'yes';
  if (electric?.brushed === false) return 'no';
  return MOTORS.has(kind) && electric !== undefined ? 'unknown' : 'no';
}

const hasJoint = (id: string, facts: Facts): boolean =>
  facts.lineIds().some((lineId) => {
    const line = facts.line(lineId);
    return line?.medium === 'dcPower' && (line.from.thing === id || line.to.thing === id);
  });

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
        measured: { value: 1, unit: 'count' },
        limit: { value: 0, unit: 'count', bound: 'atMost' },
        ...said,
        related,
        data,
      },
    ];
  }
  const near = nearGas(id, home, how === 'yes' ? ownReach(thing) : 0, facts);
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

/** How far off gas must be by its own zone. */
const ownReach = (thing: Thing): number =>
  Math.max(
    0,
    ...Object.values(thing.zones ?? {})
      .filter(({ kind }) => kind === 'ignition')
      .map(({ radiusM }) => radiusM),
  );

/** The zone of gas that it lies deepest in, or comes nearest to, in its own compartment; a locker of bottles is one without a zone. */
function nearGas(id: string, home: string, ownReachM: number, facts: Facts) {
  const own = envelopeOf(id, facts);
  if (!own) return null;
  const zones = gasThings(facts);
  const bottles = facts
    .thingIds()
    .filter((other) => facts.thing(other)?.kind === 'gasLocker' && !zones.some((zone) => zone.id === other));
  const all = [...zones, ...bottles.map((other) => ({ id: other, radiusM: 0 }))];
  const found = all.flatMap((zone) => {
    const reachM = Math.max(zone.radiusM, ownReachM);
    const solid = zone.id === id || facts.compartmentOf(zone.id) !== home ? null : envelopeOf(zone.id, facts);
    if (!solid || reachM === 0) return [];
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
  const boxes = facts
    .thingIds()
    .filter((id) => isOwn(id) && !ends.includes(id))
    .flatMap((id) => {
      const solid = envelopeOf(id, facts);
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
