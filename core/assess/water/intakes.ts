import { SET_PUMPS } from '../../boat/kinds';
import { type Circuit, type CircuitEdge, portsOf } from '../../runs/circuit/circuit';
import { isPump } from '../../runs/circuit/passages';
import { ofKind, walk } from './walk';

const carriesSea = (edge: CircuitEdge): boolean => edge.kind === 'passage' || edge.medium === 'seaWater';

/** What draws from an intake, in the order in which the lines come to it; the walk ends at each. */
const DRAWS: ReadonlySet<string> = new Set(['engine', 'head', 'fridge', 'waterLock']);
const draws = (circuit: Circuit, id: string): boolean => {
  const kind = circuit.things[id]?.kind ?? '';
  return DRAWS.has(kind) || isPump(kind);
};

/** Everything that draws its sea water through a through-hull, sorted. */
export function drawersOf(circuit: Circuit, intake: string): readonly string[] {
  return walk(circuit, portsOf(circuit, intake), {
    valves: null,
    mayTake: carriesSea,
    stopsAt: (id) => draws(circuit, id),
  })
    .things.filter((id) => draws(circuit, id))
    .sort();
}

/** Through-hulls through which a pump of the set draws, sorted. */
export const setIntakes = (circuit: Circuit): readonly string[] =>
  circuit.seaOpenings.filter(
    (id) =>
      circuit.things[id]?.opensToSea?.use !== 'outlet' &&
      drawersOf(circuit, id).some((drawer) => SET_PUMPS.has(circuit.things[drawer]?.kind ?? '')),
  );

/** Pumps of the set that draw from the sea themselves, with no other pump before them; sorted. */
export const drawingPumps = (circuit: Circuit): readonly string[] => {
  const drawing = new Set(setIntakes(circuit).flatMap((intake) => drawersOf(circuit, intake)));
  return ofKind(circuit, SET_PUMPS).filter((id) => drawing.has(id));
};

/** What a pump or another user draws, litres a minute; a feed pump without a figure of its own what the pressure pump takes. Null: not entered. */
export function drawnLMin(circuit: Circuit, id: string): number | null {
  const thing = circuit.things[id];
  if (thing?.flowLMin !== undefined) return thing.flowLMin;
  const [module] = thing?.kind === 'feedPump' ? ofKind(circuit, ['pumpModule']) : [];
  return (module === undefined ? undefined : circuit.things[module]?.flowLMin) ?? null;
}
