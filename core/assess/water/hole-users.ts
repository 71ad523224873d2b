import { SET_PUMPS } from '../../boat/kinds';
import type { Thing } from '../../boat/schema/boat';
import { type Circuit, keyOf, portsOf } from '../../runs/circuit/circuit';
import type { Discharge, Hole } from './which-hole';

/** Kinds that use a through-hull for themselves; the walk from it ends at them. */
const USERS: ReadonlySet<string> = new Set([
  'engine',
  'head',
  'sink',
  'deckWashPump',
  'bilgePump',
  'holdingTank',
  'waterLock',
  'exhaust',
  'fridge',
  'freshPump',
]);
const CARRIES: ReadonlySet<string> = new Set(['seaWater', 'brine', 'waste']);

/** Things that use a through-hull besides the set, by the lines on it; sorted. */
export function usersOf(circuit: Circuit, id: string): string[] {
  const found = new Set<string>();
  const seen = new Set<string>();
  const queue = portsOf(circuit, id);
  for (let head = 0; head < queue.length; head++) {
    const node = queue[head];
    if (!node || seen.has(keyOf(node))) continue;
    seen.add(keyOf(node));
    const thing = circuit.things[node.thing];
    if (node.thing !== id && USERS.has(thing?.kind ?? '')) {
      found.add(node.thing);
      continue;
    }
    if (node.thing !== id && (thing?.opensToSea || SET_PUMPS.has(thing?.kind ?? ''))) continue;
    for (const edge of circuit.edgesAt(node)) {
      if (edge.kind === 'line' && !CARRIES.has(edge.medium)) continue;
      queue.push(keyOf(edge.a) === keyOf(node) ? edge.b : edge.a);
    }
  }
  return [...found].sort();
}

const DISCHARGE_OF_KIND: Readonly<Record<string, Discharge>> = {
  head: 'head',
  holdingTank: 'head',
  sink: 'sink',
  exhaust: 'exhaust',
  waterLock: 'exhaust',
  engine: 'exhaust',
  bilgePump: 'bilge',
  deckWashPump: 'deck',
  fridge: 'cooling',
};
/** Words of `sharedBy` that tell what comes out. */
const DISCHARGE_WORDS: readonly (readonly [RegExp, Discharge])[] = [
  [/head|toilet|holding/i, 'head'],
  [/sink|basin|galley|shower/i, 'sink'],
  [/exhaust/i, 'exhaust'],
  [/engine|cooling/i, 'cooling'],
  [/bilge/i, 'bilge'],
  [/brine/i, 'brine'],
  [/deck|cockpit|scupper/i, 'deck'],
];

/** What comes out of a through-hull: as its record says, else by who uses it and by names; null where an outlet does not tell. */
export function dischargesOf(thing: Thing, users: readonly string[], circuit: Circuit): Hole['discharges'] {
  const opening = thing.opensToSea;
  if (opening?.discharges) return opening.discharges;
  if (opening?.use !== 'outlet') return [];
  const byKind = users.flatMap((user) => DISCHARGE_OF_KIND[circuit.things[user]?.kind ?? ''] ?? []);
  const byWords = [thing.name, ...(thing.sharedBy ?? [])].flatMap((name) =>
    DISCHARGE_WORDS.flatMap(([words, discharge]) => (words.test(name) ? [discharge] : [])),
  );
  const found = [...new Set([...byKind, ...byWords])];
  return found.length > 0 ? found : null;
}
