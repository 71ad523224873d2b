import { type Circuit, type CircuitEdge, pathTo, portsOf } from '../../runs/circuit/circuit';

/** The conductors between a consumer and its source: what lies in the loop, out and back. */
export interface SupplyPath {
  readonly source: string;
  readonly sourceV: number;
  /** Lines in the order from the consumer to the source, with how often their length counts (a pair counts twice). */
  readonly lines: readonly { readonly id: string; readonly times: number }[];
  /** Resistance of fuses, contacts and the like on the way, ohms. */
  readonly ownOhm: number;
  readonly things: readonly string[];
}

export type SupplyAnswer = { readonly found: SupplyPath } | { readonly missing: 'noSource' | 'noReturn' };

/**
 * Walks the d.c. lines from a consumer to a source of voltage. `conductorsOf` tells how many conductors a line has: two or more carry both
 * ways; a single one needs its return drawn from another port.
 */
export function supplyPath(circuit: Circuit, consumer: string, conductorsOf: (lineId: string) => number): SupplyAnswer {
  const mayTake = (edge: CircuitEdge) => edge.kind === 'passage' || edge.medium === 'dcPower';
  const isSource = (thing: string) => circuit.things[thing]?.electric?.sourceV !== undefined;
  const ports = portsOf(circuit, consumer).filter((port) =>
    circuit.edgesAt(port).some((edge) => edge.kind === 'line' && edge.medium === 'dcPower'),
  );
  const out = pathTo(
    circuit,
    ports,
    (node) => node.thing !== consumer && isSource(node.thing),
    (edge) => mayTake(edge) && !(edge.kind === 'passage' && edge.thing === consumer),
  );
  if (!out) return { missing: 'noSource' };
  const source = out.steps.at(-1)?.to.thing ?? consumer;
  const outLines = out.steps.flatMap((step) => (step.edge.kind === 'line' ? [step.edge.id] : []));
  const single = outLines.some((id) => conductorsOf(id) < 2);
  let backLines: string[] = [];
  let backThings: string[] = [];
  if (single) {
    const used = new Set(outLines);
    const back = pathTo(
      circuit,
      ports.filter((port) => port.port !== out.start.port),
      (node) => node.thing !== consumer && (isSource(node.thing) || circuit.things[node.thing]?.kind === 'battery'),
      (edge) =>
        mayTake(edge) &&
        !(edge.kind === 'line' && used.has(edge.id)) &&
        !(edge.kind === 'passage' && edge.thing === consumer),
    );
    if (!back) return { missing: 'noReturn' };
    backLines = back.steps.flatMap((step) => (step.edge.kind === 'line' ? [step.edge.id] : []));
    backThings = back.steps.map((step) => step.to.thing);
  }
  const lines = [
    ...outLines.map((id) => ({ id, times: conductorsOf(id) >= 2 ? 2 : 1 })),
    ...backLines.map((id) => ({ id, times: conductorsOf(id) >= 2 ? 2 : 1 })),
  ];
  const things = [...new Set([...out.steps.map((step) => step.to.thing), ...backThings])];
  const ownOhm = things.reduce((sum, id) => sum + (circuit.things[id]?.electric?.leakOhm ?? 0), 0);
  return { found: { source, sourceV: circuit.things[source]?.electric?.sourceV ?? 0, lines, ownOhm, things } };
}
