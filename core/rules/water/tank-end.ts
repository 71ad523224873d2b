import { positionsIn, productEnds, productWays } from '../../assess/water/product';
import { inOrder } from '../../base/order';
import { pointInBoat, type Vec3 } from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { handStates, shutStates } from '../../runs/circuit/valves';
import { countedFaults } from '../counted';
import { defineRule, inBoth, type Verdict } from '../define';
import type { Facts } from '../facts';
import { judge } from '../judge';
import { thingChanged } from '../mend-recipes';
import { nameOf } from '../name-of';

/** Bore of the vent as a share of that of the tube that fills the tank. Common practice, no source. */
const LIMITS = inBoth({ ventShare: 1 });

/** A tank that cannot breathe bursts, one that runs over into a locker wets what is dry, two at a time share one bad batch. */
export const tankEnd = defineRule({
  id: 'water/tank-end',
  question: 'Does made water fill one tank, that can breathe, run over and not be shut?',
  sources: [
    { key: 'practice', standing: 'commonPractice' },
    { key: 'boat-file', standing: 'boatFile' },
    { key: 'geometry', standing: 'derived' },
  ],
  limits: LIMITS,
  cannotSee: [
    'A vent that is blocked, or a filler cap that is screwed down.',
    'How full the tank is when the set starts.',
  ],
  hazards: ['drinkingWater'],
  // A line with made water that ends at a tank tells enough, wherever it comes from.
  subjects: (facts) => [
    ...new Set([
      ...productWays(facts.circuit()).flatMap(({ tanks }) => tanks),
      ...facts.thingIds().filter((id) => facts.thing(id)?.kind === 'waterTank' && fillsOf(id, facts).length > 0),
    ]),
  ],
  check(tankId, facts): readonly Verdict[] {
    const tank = facts.thing(tankId);
    if (!tank) return [{ outcome: 'notApplicable', reason: 'notDrawn' }];
    return [
      oneAtATime(tankId, facts),
      vented(tankId, tank, facts),
      overflows(tankId, tank, facts),
      entersAbove(tankId, tank, facts),
      ...shutVents(tankId, tank, facts),
    ];
  },
  mends({ subject, reason, limit, measured }) {
    if (reason === 'narrowVent')
      return [
        {
          id: 'vent',
          change: 'value',
          what: { id: subject, field: 'tank.ventBoreM', from: measured.value, to: limit.value },
          recipe: thingChanged(subject, (thing) => {
            thing.tank = { ...thing.tank, ventBoreM: limit.value };
          }),
        },
      ];
    if (reason === 'intoLocker')
      return [
        {
          id: 'overflow',
          change: 'value',
          what: { id: subject, field: 'tank.overflowTo', to: 'overboard' },
          recipe: thingChanged(subject, (thing) => {
            thing.tank = { ...thing.tank, overflowTo: 'overboard' };
          }),
        },
      ];
    return [];
  },
});

/** As the valves usually stand, and in each operating state, water goes to one tank alone. */
function oneAtATime(tankId: string, facts: Facts): Verdict {
  const circuit = facts.circuit();
  const states = Object.values(facts.operatingStates()).map(({ valves }) => valves);
  const settings = states.length > 0 ? states : [{}];
  for (const way of productWays(circuit)) {
    if (!way.tanks.includes(tankId)) continue;
    for (const valves of settings) {
      // A diverter that usually turns water away stands here as it does when the water is good.
      const accepting = way.diverter === null ? [undefined] : handStates(circuit.things[way.diverter]);
      for (const state of accepting) {
        const named = state === undefined || way.diverter === null ? valves : { [way.diverter]: state, ...valves };
        const ends = productEnds(circuit, way.starts, positionsIn(circuit, facts.thingIds(), named));
        const tanks = ends.filter((id) => way.tanks.includes(id));
        if (tanks.length > 1 && tanks.includes(tankId)) {
          const others = tanks.filter((id) => id !== tankId);
          return {
            outcome: 'fail',
            severity: 'fault',
            reason: 'twoTanks',
            instance: 'one',
            measured: { value: tanks.length, unit: 'count' },
            limit: { value: 1, unit: 'count', bound: 'atMost' },
            related: others,
            data: { others: others.map((id) => nameOf(id, facts)).join(', ') },
          };
        }
      }
    }
  }
  return {
    outcome: 'pass',
    instance: 'one',
    measured: { value: 1, unit: 'count' },
    limit: { value: 1, unit: 'count', bound: 'atMost' },
  };
}

type PortOf = readonly [id: string, port: Thing['ports'][string]];

const serving = (tank: Thing, what: 'vent' | 'overflow'): readonly PortOf[] =>
  inOrder(tank.ports).filter(
    ([, { serves, medium }]) => serves === what || (what === 'vent' && serves === undefined && medium === 'air'),
  );

/** Lines with made water that end at the tank. */
const fillsOf = (tankId: string, facts: Facts): readonly { readonly lineId: string; readonly port: string }[] =>
  facts.lineIds().flatMap((lineId) => {
    const line = facts.line(lineId);
    const end = [line?.from, line?.to].find((one) => one?.thing === tankId);
    const fills = line?.medium === 'product' && end !== undefined;
    return fills ? [{ lineId, port: end.port }] : [];
  });

function vented(tankId: string, tank: Thing, facts: Facts): Verdict {
  const instance = 'vent';
  const bores = serving(tank, 'vent').flatMap(([, { boreM }]) => boreM ?? []);
  const ventM = tank.tank?.ventBoreM ?? (bores.length > 0 ? Math.max(...bores) : undefined);
  const fills = fillsOf(tankId, facts);
  const filledM = Math.max(
    0,
    ...fills.map(
      ({ lineId, port }) => facts.lineKind(facts.line(lineId)?.kind ?? '')?.boreM ?? tank.ports[port]?.boreM ?? 0,
    ),
  );
  if (ventM === undefined || filledM === 0) return { outcome: 'notApplicable', reason: 'nothingEntered', instance };
  const limitM = filledM * LIMITS[facts.profile()].ventShare;
  const { met, ...compared } = judge({ value: ventM, limit: limitM, bound: 'atLeast', unit: 'm', grade: [] });
  const said = { ...compared, instance, related: fills.map(({ lineId }) => lineId) };
  if (met) return { outcome: 'pass', ...said };
  if (ventM === 0) return { outcome: 'fail', severity: 'fault', reason: 'noVent', ...said };
  return { outcome: 'fail', severity: 'fault', reason: 'narrowVent', ...said };
}

/** Where the line from a port ends; null where none is drawn. */
function endOf(tankId: string, port: string, facts: Facts): { readonly thing: string; readonly lineId: string } | null {
  for (const lineId of facts.lineIds()) {
    const line = facts.line(lineId);
    if (!line) continue;
    const ends = [line.from, line.to];
    const other = ends.find((end) => !(end.thing === tankId && end.port === port));
    if (ends.some((end) => end.thing === tankId && end.port === port) && other) return { thing: other.thing, lineId };
  }
  return null;
}

const INSIDE: ReadonlySet<string> = new Set(['locker', 'cabin']);
/** Things that take what runs over where it may go. */
const TAKES: ReadonlySet<string> = new Set(['sink', 'head', 'skinFitting', 'seacock', 'bilgePump', 'waterTank']);

function overflows(tankId: string, tank: Thing, facts: Facts): Verdict {
  const instance = 'overflow';
  const entered = tank.tank?.overflowTo;
  if (entered !== undefined) {
    const data = { place: entered };
    if (INSIDE.has(entered))
      return { outcome: 'fail', severity: 'fault', reason: 'intoLocker', instance, ...countedFaults(1), data };
    return { outcome: 'pass', instance, ...countedFaults(0), data };
  }
  const port = serving(tank, 'overflow')[0] ?? serving(tank, 'vent')[0];
  const end = port ? endOf(tankId, port[0], facts) : null;
  const thing = end && facts.thing(end.thing);
  if (!end || !thing) return { outcome: 'notApplicable', reason: 'nothingEntered', instance };
  const compartment = facts.compartmentOf(end.thing);
  const kind = compartment === null ? null : facts.compartmentKind(compartment);
  const place = compartment === null ? '' : facts.compartmentName(compartment);
  const said = { instance, related: [end.thing, end.lineId], data: { place } };
  const isOut = thing.opensToSea !== undefined || TAKES.has(thing.kind);
  if (!isOut && kind === 'locker')
    return { outcome: 'fail', severity: 'fault', reason: 'intoLocker', ...countedFaults(1), ...said };
  return { outcome: 'pass', ...countedFaults(0), ...said };
}

function entersAbove(tankId: string, tank: Thing, facts: Facts): Verdict {
  const instance = 'entry';
  const pose = facts.pose(tankId);
  const ports = (list: readonly PortOf[]): readonly Vec3[] => list.map(([, { at }]) => at);
  const fills = fillsOf(tankId, facts);
  const over: readonly Vec3[] = tank.tank?.overflowAt
    ? [tank.tank.overflowAt]
    : serving(tank, 'overflow').length > 0
      ? ports(serving(tank, 'overflow'))
      : ports(serving(tank, 'vent'));
  const entries: readonly Vec3[] = tank.tank?.entryAt
    ? [tank.tank.entryAt]
    : fills.flatMap(({ port }) => (tank.ports[port] ? [tank.ports[port].at] : []));
  if (!pose || over.length === 0 || entries.length === 0)
    return { outcome: 'notApplicable', reason: 'nothingEntered', instance };
  // As drawn: a degree of trim must not make a fault of two ports of one height.
  const heights = (points: readonly Vec3[]) => points.map((at) => pointInBoat(pose, at)[2]);
  const { met, ...compared } = judge({
    value: Math.min(...heights(entries)) - Math.min(...heights(over)),
    limit: 0,
    bound: 'atLeast',
    unit: 'm',
    grade: [],
  });
  const said = { ...compared, instance, related: fills.map(({ lineId }) => lineId) };
  if (met) return { outcome: 'pass', ...said };
  return { outcome: 'fail', severity: 'advice', reason: 'entersBelow', ...said };
}

/** A valve in the vent or the overflow. */
function shutVents(tankId: string, tank: Thing, facts: Facts): Verdict[] {
  return [...serving(tank, 'vent'), ...serving(tank, 'overflow')].flatMap(([port]): Verdict[] => {
    const end = endOf(tankId, port, facts);
    const thing = end && facts.thing(end.thing);
    if (!end || !thing || shutStates(thing).length === 0) return [];
    return [
      {
        outcome: 'fail',
        severity: 'fault',
        reason: 'ventShuts',
        instance: `shut ${port}`,
        ...countedFaults(1),
        related: [end.thing, end.lineId],
        at: facts.pose(end.thing)?.at ?? null,
        data: { valve: thing.name },
      },
    ];
  });
}
