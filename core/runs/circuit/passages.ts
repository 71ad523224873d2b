import { inOrder } from '../../base/order';
import type { Medium, Thing } from '../../boat/schema/boat';
import { shutStates } from './valves';

/** What the first line on a port carries, and whether it begins there. */
export interface LineUse {
  readonly medium: Medium;
  readonly begins: boolean;
}

export interface Passage {
  readonly name: string;
  readonly ports: readonly [string, string];
  readonly oneWay: boolean;
  readonly when: readonly string[] | null;
  readonly isRelief: boolean;
}

const PUMPS: ReadonlySet<string> = new Set(['pumpModule', 'feedPump', 'freshPump', 'deckWashPump', 'bilgePump']);
export const isPump = (kind: string): boolean => PUMPS.has(kind);

/** What water passes through whatever it is called: fresh water flushes a sea-water tee, brine goes down a drain. */
const THROUGH: ReadonlySet<string> = new Set([
  'tee',
  'serviceValve',
  'flushValve',
  'diverter',
  'ventedLoop',
  'bulkheadUnion',
  'strainer',
  'filter',
  'carbonFilter',
  'seacock',
  'skinFitting',
  'tap',
]);
const WATER: ReadonlySet<string> = new Set(['seaWater', 'brine', 'product', 'freshWater', 'waste']);
/** Of what has several waters these go together. */
const FEED: ReadonlySet<string> = new Set(['seaWater', 'brine']);

/**
 * Passages as drawn, else by kind: a source joins nothing (the walk ends at it), a membrane splits its feed, fittings and valves join whatever
 * water they meet, anything else joins its ports of one medium. A valve without drawn passages shuts them all in its shut states and joins
 * them all in any other, whatever its states and ports are called.
 */
export function passagesOf(thing: Thing, lineAt: (port: string) => LineUse | undefined): readonly Passage[] {
  if (thing.passages)
    return inOrder(thing.passages).map(([name, passage]) => ({
      name,
      ports: passage.ports,
      oneWay: passage.oneWay || thing.valve?.kind === 'check',
      when: isNeverShut(thing, passage.ports, lineAt) ? null : (passage.when ?? null),
      isRelief: passage.opensBar !== undefined || thing.valve?.kind === 'relief',
    }));
  if (thing.electric?.sourceV !== undefined) return [];
  const shut = shutStates(thing);
  const openStates = thing.valve?.states.filter((state) => !shut.includes(state)) ?? null;
  const ports = Object.keys(thing.ports).sort();
  const found: Passage[] = [];
  ports.forEach((a, i) => {
    for (const b of ports.slice(i + 1)) {
      const from = goesBack(thing, a, b, lineAt) ? b : a;
      const to = from === a ? b : a;
      if (!areJoined(thing, from, to, lineAt)) continue;
      const roles = [thing.ports[from]?.role, thing.ports[to]?.role].join();
      found.push({
        name: `${a}-${b}`,
        ports: [from, to],
        oneWay: thing.valve?.kind === 'check' || (roles === 'in,out' && isPump(thing.kind)),
        when: isNeverShut(thing, [a, b], lineAt) ? null : openStates,
        isRelief: thing.valve?.kind === 'relief',
      });
    }
  });
  return found;
}

type LineAt = (port: string) => LineUse | undefined;

const mediumOf = (thing: Thing, port: string, lineAt: LineAt): Medium | undefined =>
  thing.ports[port]?.medium ?? lineAt(port)?.medium;

function areJoined(thing: Thing, a: string, b: string, lineAt: LineAt): boolean {
  const [one, other] = [mediumOf(thing, a, lineAt), mediumOf(thing, b, lineAt)];
  if (!one || !other) return false;
  if (one === other) return thing.kind !== 'membrane' || one !== 'product';
  if (!WATER.has(one) || !WATER.has(other)) return false;
  if (thing.kind === 'membrane') return true;
  if (THROUGH.has(thing.kind) || (thing.kind === 'other' && thing.valve !== undefined)) return true;
  return thing.kind === 'controlStation' && FEED.has(one) && FEED.has(other);
}

/** Whether water goes from b to a: by the roles of the ports, else by the lines on them. */
function goesBack(thing: Thing, a: string, b: string, lineAt: LineAt): boolean {
  const [roleA, roleB] = [thing.ports[a]?.role ?? 'both', thing.ports[b]?.role ?? 'both'];
  if (roleA !== roleB) return roleA === 'out' || roleB === 'in';
  return thing.valve?.kind === 'check' && lineAt(a)?.begins === true && lineAt(b)?.begins === false;
}

/** A valve that regulates pressure is never quite shut: a needle, or that of a control station on its feed. */
const isNeverShut = (thing: Thing, ports: readonly [string, string], lineAt: LineAt): boolean =>
  thing.valve?.kind === 'needle' ||
  thing.valve?.kind === 'check' ||
  (thing.kind === 'controlStation' && ports.some((port) => FEED.has(mediumOf(thing, port, lineAt) ?? '')));

const waterPorts = (thing: Thing, lineAt: LineAt): readonly string[] =>
  Object.keys(thing.ports)
    .sort()
    .filter((port) => WATER.has(mediumOf(thing, port, lineAt) ?? ''));

/** Whether it stands in the file as a valve with three ports or more of which every open state joins all, since nobody has drawn its passages. */
export function joinsAllWays(thing: Thing, lineAt: LineAt): boolean {
  if (!thing.valve || thing.passages) return false;
  const open = thing.valve.states.length - shutStates(thing).length;
  return open > 1 && waterPorts(thing, lineAt).length > 2;
}
