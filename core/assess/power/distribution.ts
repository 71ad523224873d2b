import type { Thing } from '../../boat/schema/boat';
import { type Circuit, keyOf, type PortNode, portsOf, stepsFrom } from '../../runs/circuit/circuit';

/** A conductor as it is fed: which source drives it, and what stands between. */
export interface Feed {
  readonly line: string;
  readonly source: string;
  /** Fuse, breaker or panel that is next before it on the way from the source; null: none. */
  readonly device: string | null;
  /** Lines from the source to this one, itself the last. */
  readonly path: readonly string[];
  /** Thing at its far end. */
  readonly end: string;
  /** What draws current behind it, sorted. */
  readonly consumers: readonly string[];
}

/** A fuse, breaker or panel on the way from a source. */
export interface Device {
  readonly id: string;
  readonly source: string;
  /** The next one before it; null: it is the first from the source. */
  readonly before: string | null;
  /** Lines between the source and it. */
  readonly path: readonly string[];
  /** Lines that are next behind it: no other fuse, breaker or panel stands before them. */
  readonly protects: readonly string[];
}

/** Where the current of each source goes. */
export interface Distribution {
  /** By source, the nearest first: a line that several sources feed is there for each of them. Returns are not among them. */
  readonly ways: readonly Feed[];
  /** By line, with the first source by id. */
  readonly feeds: Readonly<Record<string, Feed>>;
  readonly devices: Readonly<Record<string, Device>>;
}

/** What can break a current that is too great. The breakers of a panel stand before the lines that leave it. */
const DEVICES: ReadonlySet<string> = new Set(['fuse', 'breaker', 'dcPanel']);
/** Current passes through these to others. */
const CONDUITS: ReadonlySet<string> = new Set([
  'busbar',
  'fuse',
  'breaker',
  'dcPanel',
  'bulkheadUnion',
  'tee',
  'other',
]);
const RETURN_PORT = /minus|neg|return|ground|earth|^(gnd|black|n|b-)$/i;
const RETURN_NAME = /\b(minus|negative|return|ground|earth|bonding)\b/i;

/** Whether it protects the cable behind it: a fuse, a breaker, a panel. */
export const isDevice = (thing: Pick<Thing, 'kind'> | null | undefined): boolean =>
  thing !== null && thing !== undefined && DEVICES.has(thing.kind);

/** A bank, or what is said to be a source; a panel or fuse that has a voltage stands for all before it, and protects itself. */
export const isSource = ({ kind, electric }: Pick<Thing, 'kind' | 'electric'>): boolean =>
  kind === 'battery' || electric?.sourceV !== undefined;

const passesOn = (thing: Thing): boolean =>
  thing.electric?.isolates === true ||
  (CONDUITS.has(thing.kind) && thing.electric?.drawA === undefined && thing.electric?.solarW === undefined);

type Found = Omit<Feed, 'consumers'>;

/**
 * Walks the power cables from each source to what draws from it. `conductorsOf` tells how many conductors a line has. Of a circuit of two
 * single conductors one brings the current back: the one that says so (port or name: minus, negative, return ...), else the one without a
 * fuse beside one with it.
 */
export function distribution(circuit: Circuit, conductorsOf: (lineId: string) => number): Distribution {
  const ids = Object.keys(circuit.things).sort();
  const sources = ids.filter((id) => isSource(circuit.things[id] as Thing));
  const found: Found[] = [];
  const devices: Record<string, Device> = {};
  for (const source of sources) walkFrom(circuit, source, found, devices);
  const consumers = consumersBehind(circuit, found);
  const isReturn = returnsOf(found, consumers, conductorsOf);
  const ways = found
    .filter(({ path }) => !isReturn.has(path[0] ?? ''))
    .map((one): Feed => ({ ...one, consumers: [...(consumers.get(one.line) ?? [])].sort() }));
  const feeds: Record<string, Feed> = {};
  for (const way of ways) if (!Object.hasOwn(feeds, way.line)) feeds[way.line] = way;
  for (const [id, device] of Object.entries(devices)) {
    const protects = Object.values(feeds).filter((feed) => feed.device === id);
    devices[id] = { ...device, protects: protects.map(({ line }) => line).sort() };
  }
  return { ways, feeds, devices };
}

function walkFrom(circuit: Circuit, source: string, found: Found[], devices: Record<string, Device>): void {
  interface At {
    readonly node: PortNode;
    readonly device: string | null;
    readonly path: readonly string[];
  }
  const own = circuit.things[source];
  const guard = isDevice(own) ? source : null;
  const queue: At[] = portsOf(circuit, source).map((node) => ({ node, device: guard, path: [] }));
  const seenPorts = new Set<string>(queue.map(({ node }) => keyOf(node)));
  const seenLines = new Set<string>();
  for (let head = 0; head < queue.length; head++) {
    const { node, device, path } = queue[head] as At;
    for (const { edge, to } of stepsFrom(circuit, node, null)) {
      if (edge.kind === 'line') {
        if (edge.medium !== 'dcPower' || seenLines.has(edge.id) || saysReturn(circuit, edge.id)) continue;
        seenLines.add(edge.id);
        const on = [...path, edge.id];
        const thing = circuit.things[to.thing];
        // What joins two sources is a link of the bank.
        if (!thing || isSource(thing)) continue;
        found.push({ line: edge.id, source, device, path: on, end: to.thing });
        if (isDevice(thing) && !Object.hasOwn(devices, to.thing))
          devices[to.thing] = { id: to.thing, source, before: device, path: on, protects: [] };
        if (seenPorts.has(keyOf(to))) continue;
        seenPorts.add(keyOf(to));
        queue.push({ node: to, device, path: on });
      } else {
        const thing = circuit.things[edge.thing];
        if (edge.thing === source || !thing || !passesOn(thing) || seenPorts.has(keyOf(to))) continue;
        seenPorts.add(keyOf(to));
        queue.push({ node: to, device: isDevice(thing) ? edge.thing : device, path });
      }
    }
  }
}

function saysReturn({ lines }: Circuit, lineId: string): boolean {
  const line = lines[lineId];
  return (
    line !== undefined &&
    (RETURN_PORT.test(line.from.port) || RETURN_PORT.test(line.to.port) || RETURN_NAME.test(line.name))
  );
}

/** By line: the things at the far ends of the paths through it that draw current. */
function consumersBehind({ things }: Circuit, found: readonly Found[]): Map<string, Set<string>> {
  const behind = new Map<string, Set<string>>();
  for (const { path, end } of found) {
    const thing = things[end];
    if (!thing || passesOn(thing)) continue;
    for (const id of path) {
      const list = behind.get(id) ?? new Set();
      list.add(end);
      behind.set(id, list);
    }
  }
  return behind;
}

/** First lines of single conductors that bring back what another one takes out. */
function returnsOf(
  found: readonly Found[],
  consumers: ReadonlyMap<string, ReadonlySet<string>>,
  conductorsOf: (lineId: string) => number,
): ReadonlySet<string> {
  const starts = found.filter(({ path }) => path.length === 1);
  const isGuarded = (start: string): boolean => found.some(({ path, device }) => path[0] === start && device !== null);
  const returns = new Set<string>();
  for (const { line, source } of starts) {
    const reached = consumers.get(line);
    if (conductorsOf(line) > 1 || !reached || isGuarded(line)) continue;
    const isOtherOut = starts.some(
      (other) =>
        other.line !== line &&
        other.source === source &&
        conductorsOf(other.line) < 2 &&
        (isGuarded(other.line) || other.line < line) &&
        [...reached].every((id) => consumers.get(other.line)?.has(id)),
    );
    if (isOtherOut) returns.add(line);
  }
  return returns;
}
