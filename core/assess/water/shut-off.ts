import { type Circuit, type CircuitEdge, keyOf, type PortNode, portsOf } from '../../runs/circuit/circuit';
import { combinationsOf, openState, usualState, type Valves } from '../../runs/circuit/valves';
import { crossesMembrane, isEnd, isProductPort, valvesAmong, type WalkOptions, walk } from './walk';

/** Whether a way out can be shut. */
export type ShutOff =
  /** No line leads on. */
  | { readonly kind: 'notDrawn' }
  /** Lines lead on, and none to where water leaves the circuit; `at`: how far it comes. */
  | { readonly kind: 'noEnd'; readonly at: readonly string[] }
  /** It would, but for a check valve that looks the wrong way. */
  | { readonly kind: 'backwards'; readonly at: readonly string[] }
  | {
      readonly kind: 'stays' | 'guarded';
      /** Hand valves on the way, and how many combinations of their states were tried. */
      readonly valves: readonly string[];
      readonly tried: number;
      readonly isBounded: boolean;
      readonly ends: readonly string[];
      /** What relieves it. */
      readonly reliefs: readonly string[];
    }
  | {
      readonly kind: 'shuts';
      /** What must be put otherwise than it usually stands; of what stands so already all that shut it. */
      readonly by: readonly { readonly thing: string; readonly state: string }[];
      /** Every one of them sits at the hull. */
      readonly atHull: boolean;
      /** It is so as the valves usually stand. */
      readonly asItStands: boolean;
      readonly tried: number;
      readonly isBounded: boolean;
      readonly ends: readonly string[];
    };

const isRelief = (circuit: Circuit, id: string): boolean => {
  const thing = circuit.things[id];
  return thing !== undefined && (thing.relief !== undefined || thing.valve?.kind === 'relief');
};

/** A valve that sits at the hull: a seacock, or the valve of a skin fitting. */
export const isAtHull = (circuit: Circuit, id: string): boolean => {
  const thing = circuit.things[id];
  return thing !== undefined && (thing.kind === 'seacock' || thing.opensToSea !== undefined);
};

/**
 * Whether any combination of hand valves shuts every way out from the ports, with no relief before what is shut. The valve of a hull fitting
 * that is labelled counts as open.
 */
export function shutOffOf(
  circuit: Circuit,
  starts: readonly PortNode[],
  mayTake: NonNullable<WalkOptions['mayTake']>,
  trustsLabels: boolean,
): ShutOff {
  const led = starts.filter((node) => circuit.edgesAt(node).some(({ kind }) => kind === 'line'));
  if (led.length === 0) return { kind: 'notDrawn' };
  const whole = walk(circuit, led, { valves: null, mayTake });
  const starting = new Set(led.map(({ thing }) => thing));
  const atEnds = whole.things.filter((id) => !starting.has(id) && isEnd(circuit, id));
  if (atEnds.length === 0) {
    const loose: Circuit = { ...circuit, edgesAt: (node) => circuit.edgesAt(node).map(bothWays) };
    const back = walk(loose, led, { valves: null, mayTake });
    const reversed = back.things.some((id) => !starting.has(id) && isEnd(circuit, id));
    return { kind: reversed ? 'backwards' : 'noEnd', at: whole.things };
  }
  const relieved = (valves: Valves): boolean => isLetOut(circuit, led, mayTake, valves);
  const reliefs = walk(circuit, led, { valves: null, mayTake, relieving: true }).things.filter((id) =>
    isRelief(circuit, id),
  );
  const valves = valvesAmong(
    circuit,
    whole.things.filter((id) => !starting.has(id) || !isEnd(circuit, id)),
  );
  const free = [...valves]
    .sort()
    .filter((id) => !(trustsLabels && isAtHull(circuit, id) && circuit.things[id]?.valve?.labelled));
  const fixed: Valves = Object.fromEntries(
    valves.flatMap((id) => (free.includes(id) ? [] : [[id, openState(circuit.things[id])]])),
  );
  const midLine = free.filter((id) => !isAtHull(circuit, id));
  const hullOpen: Valves = Object.fromEntries(
    free.flatMap((id) => (isAtHull(circuit, id) ? [[id, openState(circuit.things[id])]] : [])),
  );
  const tries = [
    { ids: midLine, base: { ...fixed, ...hullOpen } },
    { ids: free, base: fixed },
  ];
  let tried = 0;
  let isBounded = false;
  for (const { ids, base } of tries) {
    const combinations = combinationsOf(circuit.things, ids);
    tried = combinations.all.length;
    isBounded = combinations.isBounded;
    const shutting = combinations.all.find((valves) => !relieved({ ...base, ...valves }));
    if (!shutting) continue;
    const by = blamed(circuit, ids, shutting, (valves) => relieved({ ...base, ...valves }));
    return {
      kind: 'shuts',
      by,
      atHull: by.every(({ thing }) => isAtHull(circuit, thing)),
      asItStands: by.every(({ thing, state }) => usualState(circuit.things[thing]) === state),
      tried,
      isBounded,
      ends: atEnds,
    };
  }
  return { kind: reliefs.length > 0 ? 'guarded' : 'stays', valves, tried, isBounded, ends: atEnds, reliefs };
}

/** Whether water gets out, or is relieved, with the valves so. */
export function isLetOut(
  circuit: Circuit,
  starts: readonly PortNode[],
  mayTake: NonNullable<WalkOptions['mayTake']>,
  valves: Valves,
): boolean {
  const found = walk(circuit, starts, { valves, mayTake, relieving: true });
  return found.openEnds.length > 0 || found.things.some((id) => isRelief(circuit, id) && letsOut(circuit, id));
}

/** A relief of its own lets water out where nothing is joined to its outlet; else its outlet has to lead on, which the walk follows. */
function letsOut(circuit: Circuit, id: string): boolean {
  const thing = circuit.things[id];
  if (!thing || thing.relief) return true;
  return Object.keys(thing.ports).every((port) => {
    const isOutlet = thing.ports[port]?.role === 'out';
    return !isOutlet || !circuit.edgesAt({ thing: id, port }).some(({ kind }) => kind === 'line');
  });
}

/** Of a shutting combination the valves without which it would not shut; where all are needed as they stand, those that are shut. */
function blamed(
  circuit: Circuit,
  ids: readonly string[],
  shutting: Valves,
  isOpen: (valves: Valves) => boolean,
): readonly { readonly thing: string; readonly state: string }[] {
  const found = ids.filter((id) => {
    const states = circuit.things[id]?.valve?.states ?? ['open', 'shut'];
    return states.some((state) => state !== shutting[id] && isOpen({ ...shutting, [id]: state }));
  });
  const chosen = found.length > 0 ? found : ids.filter((id) => shutting[id] !== usualState(circuit.things[id]));
  return chosen.map((thing) => ({ thing, state: shutting[thing] ?? '' }));
}

const bothWays = (edge: CircuitEdge): CircuitEdge => (edge.kind === 'passage' ? { ...edge, oneWay: false } : edge);

/** Whether the pump's own inlet is not entered again: in a pump of the set only the brine that it takes back passes. */
export function forward(circuit: Circuit): NonNullable<WalkOptions['mayTake']> {
  return (edge) => {
    if (crossesMembrane(circuit, edge)) return false;
    if (edge.kind === 'line') return true;
    const kind = circuit.things[edge.thing]?.kind;
    if (kind !== 'pumpModule' && kind !== 'feedPump') return true;
    return [edge.a, edge.b].every((node) => circuit.things[node.thing]?.ports[node.port]?.medium === 'brine');
  };
}

/** Ports from which a pressure pump presses: outlets that a membrane lies behind, else all outlets of feed. */
export function pressureOutlets(circuit: Circuit, pump: string): readonly PortNode[] {
  const thing = circuit.things[pump];
  if (!thing) return [];
  const led = portsOf(circuit, pump).filter((node) =>
    circuit
      .edgesAt(node)
      .some((edge) => edge.kind === 'line' && (edge.medium === 'seaWater' || edge.medium === 'brine')),
  );
  const roles = led.map((node) => ({ node, role: thing.ports[node.port]?.role ?? 'both' }));
  const outlets = roles.filter(({ role }) => role === 'out').map(({ node }) => node);
  const candidates = outlets.length > 0 ? outlets : roles.filter(({ role }) => role !== 'in').map(({ node }) => node);
  const begins = (node: PortNode) =>
    circuit.edgesAt(node).some((edge) => edge.kind === 'line' && keyOf(edge.a) === keyOf(node));
  const toMembrane = candidates.filter((node) =>
    walk(circuit, [node], { valves: null, mayTake: forward(circuit) }).things.some(
      (id) => circuit.things[id]?.kind === 'membrane',
    ),
  );
  if (toMembrane.length > 0) return toMembrane;
  return outlets.length > 0 ? outlets : candidates.filter(begins);
}

/** Ports at which made water leaves a membrane. */
export const productOutlets = (circuit: Circuit, membrane: string): readonly PortNode[] =>
  portsOf(circuit, membrane).filter((node) => isProductPort(circuit, node));
