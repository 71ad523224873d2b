import { SET_PUMPS } from '../../boat/kinds';
import type { Boat, Line, Medium, Thing } from '../../boat/schema/boat';

/**
 * Ports, parts and lines as a graph. Nodes are ports; edges are lines between things and passages inside them.
 * Valve positions open and shut passages; a one-way passage is walked in its direction only.
 */
export interface PortNode {
  readonly thing: string;
  readonly port: string;
}

export type CircuitEdge =
  | { readonly kind: 'line'; readonly id: string; readonly a: PortNode; readonly b: PortNode; readonly medium: Medium }
  | {
      readonly kind: 'passage';
      readonly id: string;
      readonly thing: string;
      readonly a: PortNode;
      readonly b: PortNode;
      readonly oneWay: boolean;
      /** Valve states in which it is open; null: always. */
      readonly when: readonly string[] | null;
    };

export interface Circuit {
  readonly things: Readonly<Record<string, Thing>>;
  readonly lines: Readonly<Record<string, Line>>;
  readonly edgesAt: (node: PortNode) => readonly CircuitEdge[];
  /** Through-hulls: things that open to the sea, sorted. */
  readonly seaOpenings: readonly string[];
}

export interface Step {
  readonly edge: CircuitEdge;
  readonly to: PortNode;
}

const WATER: ReadonlySet<string> = new Set(['seaWater', 'brine', 'product', 'freshWater']);
export const keyOf = (node: PortNode): string => `${node.thing}:${node.port}`;

/** Positions of a valve that let nothing through. */
const SHUT: ReadonlySet<string> = new Set(['shut', 'closed', 'off']);

/** Lines whose two ends exist; the rest is the reader's business to refuse. */
export function circuitOf(boat: Pick<Boat, 'fixtures' | 'parts' | 'lines'>): Circuit {
  const things: Record<string, Thing> = { ...boat.fixtures, ...boat.parts };
  const edges = new Map<string, CircuitEdge[]>();
  const put = (edge: CircuitEdge) => {
    for (const node of [edge.a, edge.b]) {
      const list = edges.get(keyOf(node));
      if (list) list.push(edge);
      else edges.set(keyOf(node), [edge]);
    }
  };
  const mediumAt = new Map<string, Medium>();
  for (const id of Object.keys(boat.lines).sort()) {
    const line = boat.lines[id];
    if (!line) continue;
    const a = { thing: line.from.thing, port: line.from.port };
    const b = { thing: line.to.thing, port: line.to.port };
    if (!things[a.thing]?.ports[a.port] || !things[b.thing]?.ports[b.port]) continue;
    put({ kind: 'line', id, a, b, medium: line.medium });
    for (const node of [a, b]) if (!mediumAt.has(keyOf(node))) mediumAt.set(keyOf(node), line.medium);
  }
  for (const id of Object.keys(things).sort()) {
    const thing = things[id];
    if (thing) for (const edge of passagesOf(id, thing, mediumAt)) put(edge);
  }
  return {
    things,
    lines: boat.lines,
    edgesAt: (node) => edges.get(keyOf(node)) ?? [],
    seaOpenings: Object.keys(things)
      .filter((id) => things[id]?.opensToSea)
      .sort(),
  };
}

/**
 * Passages as drawn, else by kind: a source joins nothing (the walk ends at it), a membrane splits its feed, anything else joins its ports of
 * one medium. A plain valve without drawn passages shuts them all in its shut position.
 */
function passagesOf(id: string, thing: Thing, mediumAt: ReadonlyMap<string, Medium>): CircuitEdge[] {
  if (thing.passages) {
    return Object.entries(thing.passages)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, passage]) => ({
        kind: 'passage' as const,
        id: `${id}/${name}`,
        thing: id,
        a: { thing: id, port: passage.ports[0] },
        b: { thing: id, port: passage.ports[1] },
        oneWay: passage.oneWay,
        when: passage.when ?? null,
      }));
  }
  if (thing.electric?.sourceV !== undefined) return [];
  const ports = Object.keys(thing.ports).sort();
  const openStates = thing.valve?.states.filter((state) => !SHUT.has(state)) ?? null;
  const found: CircuitEdge[] = [];
  ports.forEach((a, i) => {
    for (const b of ports.slice(i + 1)) {
      const portA = thing.ports[a];
      const portB = thing.ports[b];
      const mediumA = portA?.medium ?? mediumAt.get(`${id}:${a}`);
      const mediumB = portB?.medium ?? mediumAt.get(`${id}:${b}`);
      if (!mediumA || !mediumB) continue;
      const split = thing.kind === 'membrane' && WATER.has(mediumA) && WATER.has(mediumB) && mediumA !== mediumB;
      if (mediumA !== mediumB && !split) continue;
      const reverse = portA?.role === 'out' && portB?.role === 'in';
      const from = reverse ? b : a;
      const to = reverse ? a : b;
      const oneWay = thing.ports[from]?.role === 'in' && thing.ports[to]?.role === 'out' && isPump(thing.kind);
      found.push({
        kind: 'passage',
        id: `${id}/${a}-${b}`,
        thing: id,
        a: { thing: id, port: from },
        b: { thing: id, port: to },
        oneWay,
        when: openStates,
      });
    }
  });
  return found;
}

const PUMPS: ReadonlySet<string> = new Set(['pumpModule', 'feedPump', 'freshPump', 'deckWashPump', 'bilgePump']);
export const isPump = (kind: string): boolean => PUMPS.has(kind);

/** Steps that can be taken from a port. `valves` null: every valve stands open. */
export function stepsFrom(circuit: Circuit, node: PortNode, valves: Readonly<Record<string, string>> | null): Step[] {
  const steps: Step[] = [];
  for (const edge of circuit.edgesAt(node)) {
    const forward = keyOf(edge.a) === keyOf(node);
    if (edge.kind === 'passage') {
      if (edge.oneWay && !forward) continue;
      const state = valves?.[edge.thing];
      if (valves && state !== undefined && edge.when && !edge.when.includes(state)) continue;
    }
    steps.push({ edge, to: forward ? edge.b : edge.a });
  }
  return steps;
}

/**
 * Shortest path in steps from one of the starts to the first port that `isGoal` accepts; null without one.
 * `mayTake` can refuse edges. Ties are broken by the order of ids, so the answer does not depend on the order of records.
 */
export function pathTo(
  circuit: Circuit,
  starts: readonly PortNode[],
  isGoal: (node: PortNode) => boolean,
  mayTake: (edge: CircuitEdge) => boolean,
  valves: Readonly<Record<string, string>> | null = null,
): { readonly start: PortNode; readonly steps: readonly Step[] } | null {
  const cameBy = new Map<string, { from: PortNode; step: Step } | null>();
  const queue: PortNode[] = [...starts].sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  for (const start of queue) cameBy.set(keyOf(start), null);
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head] as PortNode;
    if (isGoal(node)) {
      const steps: Step[] = [];
      let at = node;
      for (let back = cameBy.get(keyOf(at)); back; back = cameBy.get(keyOf(at))) {
        steps.unshift(back.step);
        at = back.from;
      }
      return { start: at, steps };
    }
    for (const step of stepsFrom(circuit, node, valves)) {
      if (cameBy.has(keyOf(step.to)) || !mayTake(step.edge)) continue;
      cameBy.set(keyOf(step.to), { from: node, step });
      queue.push(step.to);
    }
  }
  return null;
}

export const portsOf = (circuit: Circuit, thing: string): PortNode[] =>
  Object.keys(circuit.things[thing]?.ports ?? {})
    .sort()
    .map((port) => ({ thing, port }));

/**
 * Lines in which the set draws its sea water: what the sea fills before the first pump, and what is joined to a pump of the set. The engine's
 * and the toilet's own suction is theirs to worry about, unless they share the intake.
 */
export function suctionLines(circuit: Circuit): ReadonlySet<string> {
  const intakes = circuit.seaOpenings.filter((id) => circuit.things[id]?.opensToSea?.use !== 'outlet');
  const pumps = Object.keys(circuit.things)
    .sort()
    .filter((id) => SET_PUMPS.has(circuit.things[id]?.kind ?? ''));
  const fromSea = seaLinesFrom(circuit, intakes);
  const toPump = seaLinesFrom(circuit, pumps);
  return new Set([...fromSea].filter((id) => toPump.has(id)));
}

/** Sea-water lines that are joined to the things without passing a pump or an engine. */
function seaLinesFrom(circuit: Circuit, things: readonly string[]): Set<string> {
  const found = new Set<string>();
  const seen = new Set<string>();
  const queue = things.flatMap((id) => portsOf(circuit, id));
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head] as PortNode;
    if (seen.has(keyOf(node))) continue;
    seen.add(keyOf(node));
    for (const edge of circuit.edgesAt(node)) {
      const to = keyOf(edge.a) === keyOf(node) ? edge.b : edge.a;
      if (edge.kind === 'line') {
        if (edge.medium !== 'seaWater') continue;
        found.add(edge.id);
        queue.push(to);
      } else {
        const kind = circuit.things[edge.thing]?.kind ?? '';
        if (!isPump(kind) && kind !== 'engine') queue.push(to);
      }
    }
  }
  return found;
}
