import { type Circuit, keyOf, type PortNode, portsOf, stepsFrom } from '../../runs/circuit/circuit';
import { canBeShut } from '../../runs/circuit/valves';

/** What may stand in a line that the sea reaches. */
export const WET: ReadonlySet<string> = new Set(['seaWater', 'brine', 'waste', 'gauge', 'product', 'freshWater']);

/**
 * Lines that the sea reaches from a through-hull before anything that can be shut, nearest first. Check valves and idle pumps are not trusted
 * to hold water back; a membrane lets none from its feed to its product.
 */
export function linesOpenToSea(circuit: Circuit, throughHull: string): string[] {
  const found: string[] = [];
  if (canBeShut(circuit.things[throughHull])) return found;
  const seen = new Set<string>();
  const queue: PortNode[] = portsOf(circuit, throughHull);
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head] as PortNode;
    if (seen.has(keyOf(node))) continue;
    seen.add(keyOf(node));
    for (const { edge, to } of stepsFrom(floodable(circuit), node, null)) {
      if (edge.kind === 'line') {
        if (!WET.has(edge.medium)) continue;
        if (!found.includes(edge.id)) found.push(edge.id);
        queue.push(to);
      } else if (
        !canBeShut(circuit.things[edge.thing]) &&
        !isThroughMembrane(circuit, edge.thing, edge.a.port, edge.b.port)
      )
        queue.push(to);
    }
  }
  return found;
}

/** Water passes from the feed of a membrane to its brine and not to its product. */
export function isThroughMembrane(circuit: Circuit, thing: string, a: string, b: string): boolean {
  const it = circuit.things[thing];
  return it?.kind === 'membrane' && (it.ports[a]?.medium === 'product') !== (it.ports[b]?.medium === 'product');
}

/** The same circuit with every passage open both ways. */
export function floodable(circuit: Circuit): Circuit {
  return {
    ...circuit,
    edgesAt: (node) =>
      circuit.edgesAt(node).map((edge) => (edge.kind === 'passage' ? { ...edge, oneWay: false } : edge)),
  };
}
