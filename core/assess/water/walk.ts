import { type Circuit, type CircuitEdge, keyOf, type PortNode, portsOf, stepsFrom } from '../../runs/circuit/circuit';
import { handStates, isShutIn, type Valves } from '../../runs/circuit/valves';

/** Waters in hoses and tubes; waste among them, since brine goes down drains. */
const WET: ReadonlySet<string> = new Set(['seaWater', 'brine', 'product', 'freshWater', 'waste']);

/** Where water leaves the circuit: into a basin, a tank, a person's cup, or over the side. */
const OPEN_ENDS: ReadonlySet<string> = new Set([
  'sink',
  'tap',
  'waterTank',
  'holdingTank',
  'exhaust',
  'waterLock',
  'head',
]);

/** Whether water that comes to the thing is out of the circuit: there the walk ends. */
export function isEnd(circuit: Circuit, id: string): boolean {
  const thing = circuit.things[id];
  if (!thing) return false;
  if (thing.opensToSea || OPEN_ENDS.has(thing.kind)) return true;
  return thing.kind === 'other' && !thing.relief && linesAt(circuit, id).length === 1 && wetPorts(circuit, id) === 1;
}

/** Ports of a thing on which a line with water lies. */
const linesAt = (circuit: Circuit, id: string): readonly PortNode[] =>
  portsOf(circuit, id).filter((node) =>
    circuit.edgesAt(node).some((edge) => edge.kind === 'line' && WET.has(edge.medium)),
  );

const wetPorts = (circuit: Circuit, id: string): number =>
  Object.entries(circuit.things[id]?.ports ?? {}).filter(
    ([port, { medium }]) =>
      WET.has(medium ?? '') || (medium === undefined && linesAt(circuit, id).some((node) => node.port === port)),
  ).length;

export interface WalkOptions {
  /** Null: every valve stands open, in all of its states at once. */
  readonly valves: Valves | null;
  /** Passages of reliefs may be taken. */
  readonly relieving?: boolean;
  /** Refuses edges, from the port where they are taken. */
  readonly mayTake?: (edge: CircuitEdge, from: PortNode) => boolean;
  /** Things at which the walk stops besides the ends. */
  readonly stopsAt?: (id: string) => boolean;
}

export interface Walk {
  /** Things that the water comes to, in the order in which it does. */
  readonly things: readonly string[];
  readonly nodes: ReadonlySet<string>;
  /** Ends that are not shut. */
  readonly openEnds: readonly string[];
  /** Things on the shortest way from a start to the thing, both included; empty where the water does not come. */
  readonly wayTo: (id: string) => readonly string[];
}

/** Where water gets to from the ports, along lines with water and open passages. It ends at whatever lets it out. */
export function walk(circuit: Circuit, starts: readonly PortNode[], options: WalkOptions): Walk {
  const { valves, relieving = false, mayTake = () => true, stopsAt = () => false } = options;
  const cameBy = new Map<string, PortNode | null>();
  const queue = [...starts].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  const startThings = new Set(starts.map(({ thing }) => thing));
  for (const node of queue) cameBy.set(keyOf(node), null);
  const firstAt = new Map<string, PortNode>();
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head] as PortNode;
    if (!firstAt.has(node.thing)) firstAt.set(node.thing, node);
    const isStart = startThings.has(node.thing);
    for (const { edge, to } of stepsFrom(circuit, node, valves, relieving)) {
      if (cameBy.has(keyOf(to))) continue;
      if (edge.kind === 'line' ? !WET.has(edge.medium) : !isStart && isEnd(circuit, node.thing)) continue;
      if (edge.kind === 'passage' && stopsAt(node.thing)) continue;
      if (!mayTake(edge, node)) continue;
      cameBy.set(keyOf(to), node);
      queue.push(to);
    }
  }
  const things = [...firstAt.keys()];
  return {
    things,
    nodes: new Set(cameBy.keys()),
    openEnds: things.filter((id) => {
      const thing = circuit.things[id];
      return !startThings.has(id) && thing && isEnd(circuit, id) && !isShutIn(thing, valves?.[id]);
    }),
    wayTo(id) {
      const way: string[] = [];
      for (let at: PortNode | null | undefined = firstAt.get(id); at; at = cameBy.get(keyOf(at)))
        if (at.thing !== way[0]) way.unshift(at.thing);
      return way;
    },
  };
}

/** Valves among the things that a hand can put otherwise. */
export const valvesAmong = (circuit: Circuit, things: readonly string[]): readonly string[] =>
  things.filter((id) => handStates(circuit.things[id]).length > 1);

/** Whether a port of a membrane gives made water. */
export function isProductPort(circuit: Circuit, { thing, port }: PortNode): boolean {
  const it = circuit.things[thing]?.ports[port];
  if (!it) return false;
  const medium = it.medium ?? circuit.edgesAt({ thing, port }).find((edge) => edge.kind === 'line')?.medium;
  return medium === 'product' || (medium === undefined && /product|permeate/i.test(port));
}

/** Whether an edge leads through a membrane, from its feed to made water. */
export const crossesMembrane = (circuit: Circuit, edge: CircuitEdge): boolean =>
  edge.kind === 'passage' &&
  circuit.things[edge.thing]?.kind === 'membrane' &&
  isProductPort(circuit, edge.a) !== isProductPort(circuit, edge.b);

/** Things of a kind, sorted by id. */
export const ofKind = (circuit: Circuit, kinds: ReadonlySet<string> | readonly string[]): readonly string[] => {
  const wanted = new Set(kinds);
  return Object.keys(circuit.things)
    .sort()
    .filter((id) => wanted.has(circuit.things[id]?.kind ?? ''));
};

/** The same circuit, in which what lets through one way only lets through both ways in some things. */
export const bothWaysIn = (circuit: Circuit, isLoose: (thing: string) => boolean): Circuit => ({
  ...circuit,
  edgesAt: (node) =>
    circuit
      .edgesAt(node)
      .map((edge) =>
        edge.kind === 'passage' && edge.oneWay && isLoose(edge.thing) ? { ...edge, oneWay: false } : edge,
      ),
});
