import { type Circuit, type CircuitEdge, pathTo, portsOf, type Step } from '../../runs/circuit/circuit';

/** The way of the sea water from an intake to a pump. */
export interface SeaWay {
  readonly intake: string;
  readonly steps: readonly Step[];
  /** Things on the way, intake first, pump last. */
  readonly things: readonly string[];
}

/** The shortest way by sea-water lines from any intake to the pump; null without one. Every valve counts as open. */
export function seaWay(circuit: Circuit, pump: string): SeaWay | null {
  const intakes = circuit.seaOpenings.filter((id) => circuit.things[id]?.opensToSea?.use !== 'outlet');
  const mayTake = (edge: CircuitEdge) => edge.kind === 'passage' || edge.medium === 'seaWater';
  const path = pathTo(
    circuit,
    intakes.flatMap((id) => portsOf(circuit, id)),
    (node) => node.thing === pump,
    mayTake,
  );
  if (!path) return null;
  const things = [path.start.thing];
  for (const step of path.steps) if (step.to.thing !== things.at(-1)) things.push(step.to.thing);
  return { intake: path.start.thing, steps: path.steps, things };
}
