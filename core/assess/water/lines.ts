import { type Circuit, keyOf, type PortNode } from '../../runs/circuit/circuit';
import { forward, pressureOutlets, productOutlets } from './shut-off';
import { crossesMembrane, ofKind, type Walk, walk } from './walk';

const PRESSED = new WeakMap<Circuit, ReadonlyMap<string, string>>();

/**
 * Lines that bear the pressure of the set, each with its pump: from the pressure pump by the membranes up to what lets the pressure off, which
 * is the control station, a needle valve, or the pump that takes the brine back; without a membrane behind the pump none.
 */
export function pressedLines(circuit: Circuit): ReadonlyMap<string, string> {
  const known = PRESSED.get(circuit);
  if (known) return known;
  const found = new Map<string, string>();
  for (const pump of ofKind(circuit, ['pumpModule'])) {
    const starts = pressureOutlets(circuit, pump);
    const regulates = (id: string): boolean => {
      const thing = circuit.things[id];
      return (
        id !== pump &&
        (thing?.kind === 'controlStation' || thing?.valve?.kind === 'needle' || thing?.kind === 'pumpModule')
      );
    };
    const pressed = walk(circuit, starts, {
      valves: null,
      mayTake: (edge, from) => forward(circuit)(edge, from) && !(edge.kind === 'passage' && edge.thing === pump),
      stopsAt: regulates,
    });
    const membranes = pressed.things.filter((id) => circuit.things[id]?.kind === 'membrane');
    if (membranes.length === 0) continue;
    // Where nothing is drawn that lets the pressure off, the pressure counts as far as the last membrane.
    const isLetOff = pressed.things.some(regulates);
    const before = new Set(membranes.flatMap((id) => pressed.wayTo(id)));
    for (const id of linesOf(circuit, pressed)) {
      const line = circuit.lines[id];
      const counts = isLetOff || (line && before.has(line.from.thing) && before.has(line.to.thing));
      if (counts && !found.has(id)) found.set(id, pump);
    }
  }
  PRESSED.set(circuit, found);
  return found;
}

const PRODUCT = new WeakMap<Circuit, ReadonlySet<string>>();

/** Lines that carry made water from a membrane. */
export function productLines(circuit: Circuit): ReadonlySet<string> {
  const known = PRODUCT.get(circuit);
  if (known) return known;
  const found = new Set<string>();
  for (const membrane of ofKind(circuit, ['membrane'])) {
    const starts = productOutlets(circuit, membrane);
    const made = walk(circuit, starts, { valves: null, mayTake: (edge) => !crossesMembrane(circuit, edge) });
    for (const id of linesOf(circuit, made)) found.add(id);
  }
  PRODUCT.set(circuit, found);
  return found;
}

/** Lines of which the walk came to both ends. */
function linesOf(circuit: Circuit, { nodes }: Walk): readonly string[] {
  const found = new Set<string>();
  for (const key of nodes) {
    const cut = key.indexOf(':');
    const node: PortNode = { thing: key.slice(0, cut), port: key.slice(cut + 1) };
    for (const edge of circuit.edgesAt(node))
      if (edge.kind === 'line' && nodes.has(keyOf(edge.a)) && nodes.has(keyOf(edge.b))) found.add(edge.id);
  }
  return [...found].sort();
}
