import type { Thing } from '../../boat/schema/boat';
import type { Circuit } from '../../runs/circuit/circuit';
import type { SeaArrival } from './sea-reach';

/** Things whose ports end inside the boat: what comes back through them runs over. */
const OPEN_KINDS: ReadonlySet<string> = new Set([
  'sink',
  'head',
  'waterTank',
  'holdingTank',
  'fuelTank',
  'bilgePump',
  'tap',
]);

/** Whether water that comes back through a port runs into the boat. */
const isOpenEnd = (thing: Pick<Thing, 'kind' | 'ports'> | undefined, port: string): boolean =>
  thing !== undefined && (thing.ports[port]?.openEnd ?? OPEN_KINDS.has(thing.kind));

/** Ways from the sea that end open inside the boat. */
export const openEnds = (circuit: Circuit, reach: readonly SeaArrival[]): readonly SeaArrival[] =>
  reach.filter(({ far }) => isOpenEnd(circuit.things[far.thing], far.port));
