import { SET_PUMPS } from '../../boat/kinds';
import type { Medium, Thing } from '../../boat/schema/boat';
import { type Circuit, keyOf, type PortNode, portsOf, stepsFrom } from '../../runs/circuit/circuit';
import { reachedBy, type Waterway } from './waterways';

/** Media whose joints pump water aboard, by what pumps: nearly all that the set draws goes through its brine, and little through its product. */
const OF_SET: ReadonlySet<Medium> = new Set(['seaWater', 'brine']);
const OF_FRESH: ReadonlySet<Medium> = new Set(['freshWater', 'product']);

/** Media that a pump presses into its lines; null for what is no pump that matters here. */
export const pressedMedia = (kind: string): ReadonlySet<Medium> | null =>
  SET_PUMPS.has(kind) ? OF_SET : kind === 'freshPump' ? OF_FRESH : null;

/** Lines that a pump presses water into, the way that they flow, by id: from its own up to the sea, a tank or another pump of its kind. */
export function pressedLines(circuit: Circuit, pump: string, media: ReadonlySet<Medium>): readonly string[] {
  const found = new Set<string>();
  const seen = new Set<string>();
  const queue: PortNode[] = portsOf(circuit, pump);
  for (const node of queue) seen.add(keyOf(node));
  for (let head = 0; head < queue.length; head += 1) {
    const node = queue[head] as PortNode;
    for (const edge of circuit.edgesAt(node)) {
      // a line flows from its beginning
      if (edge.kind !== 'line' || !media.has(edge.medium) || keyOf(edge.a) !== keyOf(node)) continue;
      found.add(edge.id);
      if (seen.has(keyOf(edge.b))) continue;
      seen.add(keyOf(edge.b));
      queue.push(edge.b, ...insideFrom(circuit, edge.b, seen));
    }
  }
  return [...found].sort();
}

/** Ports of a thing that water from one of them gets to, in any position of its valve. */
function insideFrom(circuit: Circuit, from: PortNode, seen: Set<string>): readonly PortNode[] {
  const found: PortNode[] = [];
  const queue = [from];
  for (let head = 0; head < queue.length; head += 1)
    for (const { edge, to } of stepsFrom(circuit, queue[head] as PortNode, null)) {
      if (edge.kind === 'line' || seen.has(keyOf(to))) continue;
      seen.add(keyOf(to));
      found.push(to);
      queue.push(to);
    }
  return found;
}

/** Litres of the tanks that a fresh-water pump draws from; null where none is drawn, or one does not say. */
export function tanksBehind(circuit: Circuit, pump: string): number | null {
  const seen = new Set<string>();
  const queue = portsOf(circuit, pump);
  const tanks = new Set<string>();
  for (let head = 0; head < queue.length; head += 1) {
    const node = queue[head] as PortNode;
    for (const edge of circuit.edgesAt(node)) {
      // against the flow
      if (edge.kind !== 'line' || !OF_FRESH.has(edge.medium) || keyOf(edge.b) !== keyOf(node)) continue;
      if (seen.has(keyOf(edge.a))) continue;
      seen.add(keyOf(edge.a));
      if (circuit.things[edge.a.thing]?.kind === 'waterTank') tanks.add(edge.a.thing);
      else queue.push(edge.a, ...portsOf(circuit, edge.a.thing).filter((port) => keyOf(port) !== keyOf(edge.a)));
    }
  }
  const litres = [...tanks].map((id) => circuit.things[id]?.liquidL);
  return litres.length === 0 || litres.includes(undefined)
    ? null
    : litres.reduce<number>((sum, one) => sum + (one ?? 0), 0);
}

export interface BilgeRoom {
  readonly ways: readonly Waterway[];
  readonly bilgePumps: readonly { readonly id: string; readonly thing: Thing; readonly compartment: string | null }[];
  /** Says that a pump empties it. */
  readonly isPumped: (compartment: string) => boolean;
  readonly crew: 'aboard' | 'asleep' | 'away';
  readonly isDead: boolean;
  /** Share of a label that counts, and the least of a pump whose label nobody says. */
  readonly pumpShare: number;
  readonly leastLMin: number;
}

/** What empties water that runs into a compartment: it rises there until it gets over the nearest edges. */
export interface BilgeCapacity {
  readonly LMin: number;
  readonly pumps: readonly string[];
  /** First compartment on the way that a pump empties; null: none does. */
  readonly pumpedIn: string | null;
}

/** What the bilge pumps can do about water that comes into a compartment, litres a minute: those that it runs to, and that start as the case has it. */
export function bilgeCapacity(start: string, room: BilgeRoom): BilgeCapacity {
  if (room.isDead) return { LMin: 0, pumps: [], pumpedIn: null };
  const reached = reachedBy(start, room.ways).map(({ compartment }) => compartment);
  const works = room.bilgePumps.filter(
    ({ thing, compartment }) =>
      compartment !== null &&
      reached.includes(compartment) &&
      (room.crew === 'aboard' || (thing.automatic ?? thing.electric !== undefined)),
  );
  const ofPump = ({ flowLMin }: Thing): number => (flowLMin === undefined ? room.leastLMin : flowLMin * room.pumpShare);
  const taken = new Set(room.bilgePumps.map(({ compartment }) => compartment));
  const said = reached.filter((id) => room.isPumped(id) && !taken.has(id));
  const pumpedIn = reached.find((id) => said.includes(id) || works.some(({ compartment }) => compartment === id));
  return {
    LMin:
      works.reduce((sum, { thing }) => sum + ofPump(thing), 0) +
      (works.length === 0 && said.length > 0 ? room.leastLMin : 0),
    pumps: works.map(({ id }) => id).sort(),
    pumpedIn: pumpedIn ?? null,
  };
}
