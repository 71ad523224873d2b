import { type Circuit, type CircuitEdge, keyOf, type PortNode, pathTo, portsOf } from '../../runs/circuit/circuit';

const WET: ReadonlySet<string> = new Set(['seaWater', 'brine', 'waste', 'gauge', 'product', 'freshWater']);
const SHUT_WORDS: ReadonlySet<string> = new Set(['shut', 'closed', 'off']);

/** Whether somebody can shut the thing by hand. */
export function canBeShut(circuit: Circuit, thing: string): boolean {
  const valve = circuit.things[thing]?.valve;
  return !!valve && valve.kind !== 'check' && valve.states.some((state) => SHUT_WORDS.has(state));
}

/** What stands between a joint and the sea when it lets go. Check valves and idle pumps are not trusted to hold water back. */
export type SeaPath =
  | { readonly kind: 'none' }
  /** The sea reaches the joint, and nothing on the way can be shut. */
  | { readonly kind: 'open'; readonly from: string; readonly things: readonly string[] }
  /** Every way can be shut; the valve nearest the sea on the shortest way. */
  | { readonly kind: 'shuttable'; readonly valve: string; readonly from: string; readonly things: readonly string[] };

export function seaPath(circuit: Circuit, joint: PortNode): SeaPath {
  const mayFlow = (edge: CircuitEdge) => edge.kind === 'passage' || WET.has(edge.medium);
  const bothWays = floodGraph(circuit);
  const search = (mayTake: (edge: CircuitEdge) => boolean, openings: readonly string[]) =>
    pathTo(
      bothWays,
      openings.flatMap((id) => portsOf(circuit, id)),
      (node) => keyOf(node) === keyOf(joint),
      mayTake,
    );
  const unvalved = circuit.seaOpenings.filter((id) => !canBeShut(circuit, id));
  const open = search(
    (edge) => mayFlow(edge) && !(edge.kind === 'passage' && canBeShut(circuit, edge.thing)),
    unvalved,
  );
  if (open) return { kind: 'open', from: open.start.thing, things: thingsOn(open) };
  const any = search(mayFlow, circuit.seaOpenings);
  if (!any) return { kind: 'none' };
  const things = thingsOn(any);
  return {
    kind: 'shuttable',
    valve: things.find((id) => canBeShut(circuit, id)) ?? any.start.thing,
    from: any.start.thing,
    things,
  };
}

function thingsOn(path: NonNullable<ReturnType<typeof pathTo>>): string[] {
  const things = [path.start.thing];
  for (const { to } of path.steps) if (to.thing !== things.at(-1)) things.push(to.thing);
  return things;
}

/** The same circuit with every passage open both ways. */
function floodGraph(circuit: Circuit): Circuit {
  return {
    ...circuit,
    edgesAt: (node) =>
      circuit.edgesAt(node).map((edge) => (edge.kind === 'passage' ? { ...edge, oneWay: false } : edge)),
  };
}
