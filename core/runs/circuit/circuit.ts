import { inOrder } from '../../base/order';
import { SET_PUMPS } from '../../boat/kinds';
import type { Boat, Line, Medium, Thing } from '../../boat/schema/boat';
import { isPump, type LineUse, passagesOf } from './passages';

export { isPump };

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
      /** A relief: opens by itself under pressure, and is no way otherwise. */
      readonly isRelief: boolean;
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

export const keyOf = (node: PortNode): string => `${node.thing}:${node.port}`;

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
  const uses = new Map<string, LineUse>();
  for (const [id, line] of inOrder(boat.lines)) {
    const a = { thing: line.from.thing, port: line.from.port };
    const b = { thing: line.to.thing, port: line.to.port };
    if (!things[a.thing]?.ports[a.port] || !things[b.thing]?.ports[b.port]) continue;
    put({ kind: 'line', id, a, b, medium: line.medium });
    for (const node of [a, b])
      if (!uses.has(keyOf(node))) uses.set(keyOf(node), { medium: line.medium, begins: node === a });
  }
  for (const [id, thing] of inOrder(things)) {
    for (const { name, ports, ...how } of passagesOf(thing, (port) => uses.get(keyOf({ thing: id, port })))) {
      const [a, b] = ports.map((port) => ({ thing: id, port })) as [PortNode, PortNode];
      put({ kind: 'passage', id: `${id}/${name}`, thing: id, a, b, ...how });
    }
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

/** Steps that can be taken from a port. `valves` null: every valve stands open. `relieving`: reliefs open too. */
export function stepsFrom(
  circuit: Circuit,
  node: PortNode,
  valves: Readonly<Record<string, string>> | null,
  relieving = false,
): Step[] {
  const steps: Step[] = [];
  for (const edge of circuit.edgesAt(node)) {
    const forward = keyOf(edge.a) === keyOf(node);
    if (edge.kind === 'passage') {
      if (edge.isRelief && !relieving) continue;
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
