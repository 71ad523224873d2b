import { type Circuit, type CircuitEdge, pathTo, portsOf, type Step } from '../../runs/circuit/circuit';
import { isPump } from '../../runs/circuit/passages';
import { combinationsOf, type Valves } from '../../runs/circuit/valves';
import { bothWaysIn, valvesAmong } from './walk';

/** The way of the sea water from an intake to a pump. */
export interface SeaWay {
  readonly intake: string;
  readonly steps: readonly Step[];
  /** Things on the way, intake first, pump last. */
  readonly things: readonly string[];
}

const WAYS = new WeakMap<Circuit, Map<string, SeaWay | null>>();

/**
 * The shortest way by sea-water lines from any intake to the pump that some setting of the valves opens: none of them stands in two states at
 * once. Null without one.
 */
export function seaWay(circuit: Circuit, pump: string): SeaWay | null {
  const known = WAYS.get(circuit) ?? new Map<string, SeaWay | null>();
  WAYS.set(circuit, known);
  const found = known.get(pump);
  if (found !== undefined) return found;
  const way = openWay(circuit, pump);
  known.set(pump, way);
  return way;
}

function openWay(circuit: Circuit, pump: string): SeaWay | null {
  const way = wayWith(circuit, pump, null);
  if (!way || standsAtOnce(way)) return way;
  for (const valves of combinationsOf(circuit.things, valvesAmong(circuit, Object.keys(circuit.things))).all) {
    const other = wayWith(circuit, pump, valves);
    if (other) return other;
  }
  return null;
}

/** The same as the lines lie, whatever the valves on them let through and whichever way round they are fitted. */
export const drawnSeaWay = (circuit: Circuit, pump: string): SeaWay | null =>
  wayWith(
    bothWaysIn(circuit, (id) => !isPump(circuit.things[id]?.kind ?? '')),
    pump,
    null,
  );

function wayWith(circuit: Circuit, pump: string, valves: Valves | null): SeaWay | null {
  const intakes = circuit.seaOpenings.filter((id) => circuit.things[id]?.opensToSea?.use !== 'outlet');
  const mayTake = (edge: CircuitEdge) => edge.kind === 'passage' || edge.medium === 'seaWater';
  const path = pathTo(
    circuit,
    intakes.flatMap((id) => portsOf(circuit, id)),
    (node) => node.thing === pump,
    mayTake,
    valves,
  );
  if (!path) return null;
  const things = [path.start.thing];
  for (const step of path.steps) if (step.to.thing !== things.at(-1)) things.push(step.to.thing);
  return { intake: path.start.thing, steps: path.steps, things };
}

/** Whether each valve on the way has a state in which all of its passages there are open. */
function standsAtOnce({ steps }: SeaWay): boolean {
  const open = new Map<string, readonly string[]>();
  for (const { edge } of steps) {
    if (edge.kind !== 'passage' || !edge.when) continue;
    const { when } = edge;
    const left = open.get(edge.thing)?.filter((state) => when.includes(state)) ?? when;
    if (left.length === 0) return false;
    open.set(edge.thing, left);
  }
  return true;
}
