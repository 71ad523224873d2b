import { type Circuit, keyOf, type PortNode } from '../../runs/circuit/circuit';
import { joinsAllWays } from '../../runs/circuit/passages';
import { combinationsOf, handStates, openState, shutStates, usualState, type Valves } from '../../runs/circuit/valves';
import { isAtHull, productOutlets } from './shut-off';
import { crossesMembrane, ofKind, valvesAmong, walk } from './walk';

/** What the made water of one or more membranes meets. */
export interface ProductWay {
  /** Valve that turns bad water away; null where none does. */
  readonly diverter: string | null;
  readonly membranes: readonly string[];
  readonly starts: readonly PortNode[];
  readonly tanks: readonly string[];
  /** Where else it can go: taps, sinks, overboard. */
  readonly others: readonly string[];
  readonly valves: readonly string[];
  readonly things: readonly string[];
}

/** States that keep bad water from the tank, and such as let it in. */
const REJECTS = /reject|tap|test|sample|dump|waste|drain|overboard|discard/i;
const ACCEPTS = /tank|accept|good|store/i;

const isTank = (circuit: Circuit, id: string): boolean => circuit.things[id]?.kind === 'waterTank';

/** Ends that made water comes to with the valves so. */
export function productEnds(circuit: Circuit, starts: readonly PortNode[], valves: Valves | null): readonly string[] {
  return walk(circuit, starts, { valves, mayTake: (edge) => !crossesMembrane(circuit, edge) }).openEnds;
}

/** Ways of made water, by the valve that diverts it. */
export function productWays(circuit: Circuit): readonly ProductWay[] {
  const ways = new Map<string, ProductWay>();
  for (const membrane of ofKind(circuit, ['membrane'])) {
    const starts = productOutlets(circuit, membrane).filter((node) =>
      circuit.edgesAt(node).some(({ kind }) => kind === 'line'),
    );
    if (starts.length === 0) continue;
    const { things } = walk(circuit, starts, { valves: null, mayTake: (edge) => !crossesMembrane(circuit, edge) });
    const behind = things.filter((id) => id !== membrane);
    const valves = valvesAmong(circuit, behind);
    const diverter = behind.find((id) => diverts(circuit, id)) ?? null;
    const ends = productEnds(circuit, starts, null);
    const key = diverter ?? `membrane ${membrane}`;
    const before = ways.get(key);
    ways.set(key, {
      diverter,
      membranes: [...(before?.membranes ?? []), membrane],
      starts: [...(before?.starts ?? []), ...starts],
      tanks: union(
        before?.tanks,
        ends.filter((id) => isTank(circuit, id)),
      ),
      others: union(
        before?.others,
        ends.filter((id) => !isTank(circuit, id)),
      ),
      valves: union(before?.valves, valves),
      things: union(before?.things, behind),
    });
  }
  return [...ways.values()];
}

const union = (a: readonly string[] = [], b: readonly string[]): readonly string[] => [...new Set([...a, ...b])].sort();

/** Whether a valve on the way of made water is meant to turn it away from the tank. */
function diverts(circuit: Circuit, id: string): boolean {
  const thing = circuit.things[id];
  const states = handStates(thing);
  if (!thing || states.length < 2 || thing.opensToSea || thing.kind === 'tap') return false;
  if (thing.kind === 'diverter' || thing.valve?.reject !== undefined) return true;
  return states.some((state) => REJECTS.test(state)) || (thing.kind === 'controlStation' && states.some(isAccepting));
}

const isAccepting = (state: string): boolean => ACCEPTS.test(state) && !REJECTS.test(state);

/** States of a diverter in which it keeps water from the tank; null where the file does not tell. */
export function rejectStates(circuit: Circuit, diverter: string): readonly string[] | null {
  const thing = circuit.things[diverter];
  if (!thing) return null;
  if (thing.valve?.reject !== undefined) return [thing.valve.reject];
  const states = handStates(thing).filter((state) => !shutStates(thing).includes(state));
  const named = states.filter((state) => REJECTS.test(state));
  if (named.length > 0) return named;
  const other = states.filter((state) => !isAccepting(state));
  return other.length > 0 && other.length < states.length ? other : null;
}

/** What a diverter does in its states. */
export interface Diverting {
  /** Tanks that water comes to in a reject state, and how the valves stand then. */
  readonly wrong: { readonly tank: string; readonly state: string } | null;
  /** A reject state in which water gets nowhere. */
  readonly nowhere: string | null;
  /** No state lets water into a tank. */
  readonly neverAccepts: boolean;
}

/** What a diverter does in its reject states and in the others, over all positions of the other valves. */
export function divertingOf(circuit: Circuit, way: ProductWay, diverter: string, reject: readonly string[]): Diverting {
  const rest = way.valves.filter((id) => id !== diverter);
  const { all } = combinationsOf(circuit.things, rest);
  let wrong: Diverting['wrong'] = null;
  let nowhere: string | null = null;
  for (const state of reject) {
    const ends = all.map((valves) => productEnds(circuit, way.starts, { ...valves, [diverter]: state }));
    const tank = ends.flat().find((id) => isTank(circuit, id));
    if (tank !== undefined) wrong ??= { tank, state };
    if (ends.every((found) => found.length === 0)) nowhere ??= state;
  }
  const accepting = handStates(circuit.things[diverter]).filter((state) => !reject.includes(state));
  const accepts = accepting.some((state) =>
    all.some((valves) =>
      productEnds(circuit, way.starts, { ...valves, [diverter]: state }).some((id) => isTank(circuit, id)),
    ),
  );
  return { wrong, nowhere, neverAccepts: accepting.length > 0 && !accepts };
}

/** Whether hand valves without a diverter can send the water elsewhere than to a tank, and to the tank. */
export function canSeparate(circuit: Circuit, way: ProductWay): boolean {
  const { all } = combinationsOf(circuit.things, way.valves);
  const ends = all.map((valves) => productEnds(circuit, way.starts, valves));
  return ends.some((found) => found.length > 0 && !found.some((id) => isTank(circuit, id)));
}

/** Positions of all valves in an operating state: what it names; of the others those at the hull are opened for it, the rest stand as usual. */
export const positionsIn = (circuit: Circuit, ids: readonly string[], named: Valves): Valves =>
  Object.fromEntries(
    ids.flatMap((id) => {
      const thing = circuit.things[id];
      const usual = usualState(thing);
      const state = named[id] ?? (usual !== null && isAtHull(circuit, id) ? openState(thing) : usual);
      return state === null ? [] : [[id, state]];
    }),
  );

/** Whether an operating state is meant to keep made water from the tank, or to let it in; null: neither is asked. */
export function meantFor(
  id: string,
  state: { readonly name: string; readonly product?: 'tank' | 'reject' | 'none' | undefined },
): 'tank' | 'reject' | null {
  if (state.product !== undefined) return state.product === 'none' ? null : state.product;
  return /reject|\btest|sample|dump|discard/i.test(`${id} ${state.name}`) ? 'reject' : null;
}

/** Whether a valve counts as joining all its ports in every state, for want of passages. */
export const joinsAll = (circuit: Circuit, id: string): boolean => {
  const thing = circuit.things[id];
  if (!thing) return false;
  return joinsAllWays(thing, (port) => {
    const node = { thing: id, port };
    const line = circuit.edgesAt(node).find((edge) => edge.kind === 'line');
    return line?.kind === 'line' ? { medium: line.medium, begins: keyOf(line.a) === keyOf(node) } : undefined;
  });
};
