import { type Circuit, keyOf, type PortNode, portsOf, stepsFrom } from '../../runs/circuit/circuit';
import { canBeShut, isShutIn } from '../../runs/circuit/valves';
import { floodable, isThroughMembrane, WET } from './sea-path';

/** How the sea gets from a through-hull to a line: the first way of fewest lines. */
export interface SeaArrival {
  readonly line: string;
  /** Port of the line on the side of the sea, and its other one. */
  readonly near: PortNode;
  readonly far: PortNode;
  /** Lines from the through-hull to here, this one last. */
  readonly lines: readonly string[];
  /** Vented loops on the way, before this line. */
  readonly loops: readonly string[];
  /** Nearest to the sea of what a hand can shut before the line; null: nothing on some way. */
  readonly stoppedBy: string | null;
  /** Whether the sea stands in it as valves normally stand; a valve of which nobody says how it stands is open. */
  readonly isOpen: boolean;
}

/** Which valves the sea passes: all; those that normally stand open; none that a hand can shut. */
type Passes = 'all' | 'open' | 'unshut';

/**
 * Lines that the sea reaches from a through-hull, by id, with what stops it. Check valves and idle pumps are not trusted to hold water back,
 * but a high-pressure pump lets none back through it; a membrane lets none from its feed to its product.
 */
export function seaReach(circuit: Circuit, throughHull: string): readonly SeaArrival[] {
  const all = walk(circuit, throughHull, 'all');
  const open = walk(circuit, throughHull, 'open');
  const unshut = walk(circuit, throughHull, 'unshut');
  return [...all.keys()].sort().map((id): SeaArrival => {
    const way = unshut.get(id) ?? open.get(id) ?? (all.get(id) as Way);
    return { ...way, stoppedBy: unshut.has(id) ? null : way.stoppedBy, isOpen: open.has(id) };
  });
}

type Way = Omit<SeaArrival, 'isOpen'>;
interface Place {
  readonly at: PortNode;
  readonly lines: readonly string[];
  readonly loops: readonly string[];
  readonly stoppedBy: string | null;
}

function walk(circuit: Circuit, throughHull: string, passes: Passes): ReadonlyMap<string, Way> {
  const found = new Map<string, Way>();
  const own = circuit.things[throughHull];
  const stop = canBeShut(own) ? throughHull : null;
  if (stop !== null && passes === 'unshut') return found;
  if (passes === 'open' && own && isShutIn(own, own.valve?.normally)) return found;
  const seen = new Set<string>();
  const queue: Place[] = portsOf(circuit, throughHull).map((at) => ({ at, lines: [], loops: [], stoppedBy: stop }));
  for (const { at } of queue) seen.add(keyOf(at));
  for (let head = 0; head < queue.length; head += 1) {
    const { at, lines, loops, stoppedBy } = queue[head] as Place;
    for (const edge of circuit.edgesAt(at)) {
      if (edge.kind !== 'line' || !WET.has(edge.medium) || found.has(edge.id)) continue;
      const far = keyOf(edge.a) === keyOf(at) ? edge.b : edge.a;
      const way: Way = { line: edge.id, near: at, far, lines: [...lines, edge.id], loops, stoppedBy };
      found.set(edge.id, way);
      if (seen.has(keyOf(far)) || far.thing === throughHull) continue;
      seen.add(keyOf(far));
      const passed = circuit.things[far.thing]?.kind === 'ventedLoop' ? [...loops, far.thing] : loops;
      const shut = canBeShut(circuit.things[far.thing]);
      for (const exit of exitsOf(circuit, far, passes)) {
        if (seen.has(keyOf(exit))) continue;
        seen.add(keyOf(exit));
        queue.push({
          at: exit,
          lines: way.lines,
          loops: passed,
          stoppedBy: stoppedBy ?? (shut ? far.thing : null),
        });
      }
    }
  }
  return found;
}

/** Ports of a thing that water from one of them gets to, in one position of its valve at a time. */
function exitsOf(circuit: Circuit, from: PortNode, passes: Passes): readonly PortNode[] {
  const valve = circuit.things[from.thing]?.valve;
  if (passes === 'unshut' && canBeShut(circuit.things[from.thing])) return [];
  const states = !valve ? [null] : passes === 'open' && valve.normally !== undefined ? [valve.normally] : valve.states;
  // the valves of a high-pressure pump are its work: they hold the sea back, those of other pumps are not trusted to
  const valvesHold = circuit.things[from.thing]?.kind === 'pumpModule';
  const either = floodable(circuit);
  const found = new Map<string, PortNode>();
  for (const state of states) {
    const queue: PortNode[] = [from];
    const seen = new Set([keyOf(from)]);
    for (let head = 0; head < queue.length; head += 1)
      for (const { edge, to } of stepsFrom(
        valvesHold ? circuit : either,
        queue[head] as PortNode,
        state === null ? null : { [from.thing]: state },
      )) {
        if (edge.kind === 'line' || seen.has(keyOf(to))) continue;
        if (isThroughMembrane(circuit, edge.thing, edge.a.port, edge.b.port)) continue;
        seen.add(keyOf(to));
        found.set(keyOf(to), to);
        queue.push(to);
      }
  }
  return [...found.values()];
}
