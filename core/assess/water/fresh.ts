import { type Circuit, type CircuitEdge, type PortNode, portsOf } from '../../runs/circuit/circuit';
import { isPump } from '../../runs/circuit/passages';
import { combinationsOf, isShutIn, type Valves } from '../../runs/circuit/valves';
import { bothWaysIn, crossesMembrane, isProductPort, ofKind, valvesAmong, type Walk, walk } from './walk';

/** A way of fresh water to the membrane, or to the pressure pump where no membrane is drawn. */
export interface FlushWay {
  readonly source: string;
  /** Things on it, the source first. */
  readonly way: readonly string[];
  readonly goal: string;
  /** The shortest that passes no carbon filter; null: every way passes one. */
  readonly bare: readonly string[] | null;
  /** Carbon filters on it. */
  readonly carbon: readonly string[];
  readonly isChlorineFree: boolean;
}

/** A carbon filter by its kind, or a filter that is called one. */
const isCarbon = (circuit: Circuit, id: string): boolean => {
  const thing = circuit.things[id];
  return thing?.kind === 'carbonFilter' || (thing?.kind === 'filter' && /carbon|charcoal/i.test(thing.name));
};

/** Made water stays out of the walk: it leaves the membrane, and flushes nothing before it is in a tank. */
const noProduct = (circuit: Circuit) => (edge: CircuitEdge) =>
  edge.kind === 'line' ? edge.medium !== 'product' : !crossesMembrane(circuit, edge);

/** Ports at which fresh water comes out of a source. */
function outletsOf(circuit: Circuit, id: string): readonly PortNode[] {
  return portsOf(circuit, id).filter((node) =>
    circuit
      .edgesAt(node)
      .some((edge) => edge.kind === 'line' && (edge.medium === 'freshWater' || edge.medium === 'seaWater')),
  );
}

const TAKES_FRESH: ReadonlySet<string> = new Set(['other', 'bulkheadUnion', 'skinFitting', 'tap', 'waterHeater']);

/** Where fresh water comes from: tanks, shore connections, and pumps of which nobody has drawn what they draw from; sorted. */
function freshSources(circuit: Circuit): readonly string[] {
  return Object.keys(circuit.things)
    .sort()
    .filter((id) => {
      const thing = circuit.things[id];
      if (!thing || thing.opensToSea) return false;
      const outlets = outletsOf(circuit, id);
      if (thing.kind === 'waterTank') return outlets.length > 0;
      const fresh = outlets.filter((node) =>
        circuit.edgesAt(node).some((edge) => edge.kind === 'line' && edge.medium === 'freshWater'),
      );
      if (thing.kind === 'freshPump') return fresh.length > 0 && !isFed(circuit, id);
      const [only] = fresh;
      if (!TAKES_FRESH.has(thing.kind) || outlets.length !== 1 || !only) return false;
      return thing.chlorineFree !== undefined || thing.ports[only.port]?.role === 'out' || begins(circuit, only);
    });
}

/** Whether a line with fresh water comes into the pump. */
const isFed = (circuit: Circuit, id: string): boolean =>
  portsOf(circuit, id).some((node) => {
    const role = circuit.things[id]?.ports[node.port]?.role ?? 'both';
    const led = circuit.edgesAt(node).some((edge) => edge.kind === 'line' && edge.medium === 'freshWater');
    return led && (role === 'in' || (role === 'both' && !begins(circuit, node)));
  });

const begins = (circuit: Circuit, { thing, port }: PortNode): boolean =>
  circuit
    .edgesAt({ thing, port })
    .some((edge) => edge.kind === 'line' && edge.a.thing === thing && edge.a.port === port);

/** Ways by which fresh water gets to the membrane in whatever states the valves can be put. */
export function flushWays(circuit: Circuit): readonly FlushWay[] {
  const membranes = ofKind(circuit, ['membrane']);
  const goals = membranes.length > 0 ? membranes : ofKind(circuit, ['pumpModule']);
  const mayTake = noProduct(circuit);
  return freshSources(circuit).flatMap((source): FlushWay[] => {
    const starts = outletsOf(circuit, source);
    const whole = walk(circuit, starts, { valves: null, mayTake });
    const goal = goalOf(circuit, whole, goals);
    if (goal === null) return [];
    const way = whole.wayTo(goal);
    const unfiltered = walk(circuit, starts, {
      valves: null,
      mayTake,
      stopsAt: (id) => isCarbon(circuit, id),
    });
    const bareGoal = goalOf(circuit, unfiltered, goals);
    return [
      {
        source,
        way,
        goal,
        bare: bareGoal === null ? null : unfiltered.wayTo(bareGoal),
        carbon: whole.things.filter((id) => isCarbon(circuit, id)),
        isChlorineFree: way.some((id) => circuit.things[id]?.chlorineFree === true),
      },
    ];
  });
}

/** Sources of fresh water whose lines come to the membrane, and whose water a check valve or a pump that looks the wrong way keeps from it. */
export function blockedFlushes(
  circuit: Circuit,
): readonly { readonly source: string; readonly way: readonly string[] }[] {
  const membranes = ofKind(circuit, ['membrane']);
  const goals = membranes.length > 0 ? membranes : ofKind(circuit, ['pumpModule']);
  const open = new Set(flushWays(circuit).map(({ source }) => source));
  const loose = bothWaysIn(circuit, (id) => circuit.things[id]?.kind !== 'pumpModule');
  return freshSources(circuit).flatMap((source) => {
    if (open.has(source)) return [];
    const found = walk(loose, outletsOf(circuit, source), { valves: null, mayTake: noProduct(circuit) });
    const goal = goalOf(circuit, found, goals);
    return goal === null ? [] : [{ source, way: found.wayTo(goal) }];
  });
}

/** The first of the goals that the walk reaches by another port than that of made water. */
const goalOf = (circuit: Circuit, found: Walk, goals: readonly string[]): string | null =>
  goals.find((id) =>
    portsOf(circuit, id).some((node) => !isProductPort(circuit, node) && found.nodes.has(`${node.thing}:${node.port}`)),
  ) ?? null;

/** Whether a pump gets water, from the sea or from a source of fresh water, with these valves so and all others in any of their states. */
export const feeds = (circuit: Circuit, pump: string, named: Valves): boolean =>
  comesFrom(
    circuit,
    pump,
    [...openIntakes(circuit, named), ...freshSources(circuit).flatMap((id) => outletsOf(circuit, id))],
    named,
  );

/** The same from the sea alone. */
export const seaFeeds = (circuit: Circuit, pump: string, named: Valves): boolean =>
  comesFrom(circuit, pump, openIntakes(circuit, named), named);

const comesFrom = (circuit: Circuit, pump: string, starts: readonly PortNode[], named: Valves): boolean =>
  walk(circuit, starts, { valves: named, mayTake: noProduct(circuit) }).things.includes(pump);

function openIntakes(circuit: Circuit, named: Valves): readonly PortNode[] {
  const intakes = circuit.seaOpenings.filter((id) => {
    const thing = circuit.things[id];
    return thing?.opensToSea?.use !== 'outlet' && thing !== undefined && !isShutIn(thing, named[id]);
  });
  return intakes.flatMap((id) => portsOf(circuit, id));
}

/** Whether sea water can get back into what fresh water comes from. */
export interface Backflow {
  readonly source: string;
  /** Intake from which it comes. */
  readonly intake: string;
  readonly way: readonly string[];
  /** `reaches`: in some states of the valves; `valveOnly`: only the state of a valve keeps it out; `held`: something lets through one way. */
  readonly kind: 'reaches' | 'valveOnly' | 'held';
  /** Check valves of which only the lines on them tell the way, and which would hold the other way round. */
  readonly unsure: readonly string[];
}

/** Whether a check valve has nothing but its lines to tell its way: neither roles of its ports nor passages. */
export const isWayGuessed = (circuit: Circuit, id: string): boolean => {
  const thing = circuit.things[id];
  if (thing?.valve?.kind !== 'check' || thing.passages) return false;
  return Object.values(thing.ports).every(({ role }) => role === 'both');
};

/** Of each source of fresh water that is joined to the sea. An idle pump holds nothing back for certain. */
export function backflows(circuit: Circuit): readonly Backflow[] {
  const intakes = circuit.seaOpenings.filter((id) => circuit.things[id]?.opensToSea?.use !== 'outlet');
  const mayTake = (edge: CircuitEdge) =>
    edge.kind === 'line' ? edge.medium !== 'product' : !crossesMembrane(circuit, edge);
  const trusting = bothWaysIn(circuit, (id) => isPump(circuit.things[id]?.kind ?? ''));
  const loose = bothWaysIn(circuit, () => true);
  const sources = freshSources(circuit);
  const found: Backflow[] = [];
  for (const source of sources) {
    for (const intake of intakes) {
      const starts = portsOf(circuit, intake);
      const anyhow = walk(loose, starts, { valves: null, mayTake });
      if (!anyhow.things.includes(source)) continue;
      const open = walk(trusting, starts, { valves: null, mayTake });
      if (!open.things.includes(source)) {
        found.push({ source, intake, way: anyhow.wayTo(source), kind: 'held', unsure: [] });
        continue;
      }
      const { all } = combinationsOf(circuit.things, valvesAmong(circuit, open.things));
      const reaching = all
        .map((valves) => walk(trusting, starts, { valves, mayTake }))
        .find((one) => one.things.includes(source));
      const way = (reaching ?? open).wayTo(source);
      const past = walk(trusting, starts, { valves: null, mayTake, stopsAt: (id) => isWayGuessed(circuit, id) });
      found.push({
        source,
        intake,
        way,
        kind: reaching ? 'reaches' : 'valveOnly',
        unsure: past.things.includes(source) ? [] : way.filter((id) => isWayGuessed(circuit, id)),
      });
    }
  }
  return found;
}
