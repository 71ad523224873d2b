import { inOrder } from '../../base/order';
import type { Compartment, Opening, Thing } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';

/** Why gas or petrol vapour can be in a compartment. */
export interface GasSpace {
  /** said: the boat file says so; bottles: it is the gas locker; petrol: an engine or tank of petrol stands in it. */
  readonly why: 'said' | 'bottles' | 'petrol';
  /** Compartment in which it is set free: itself, or one that it is open to. */
  readonly from: string;
}

export interface GasInput {
  readonly compartments: Readonly<Record<string, Compartment>>;
  readonly panels: Layout['panels'];
  readonly openings: Readonly<Record<string, Opening>>;
  readonly limberHoles: Readonly<Record<string, { readonly between: readonly [string, string] }>>;
  /** Things with the compartment that holds their centre. */
  readonly things: readonly { readonly thing: Pick<Thing, 'kind' | 'fuel'>; readonly compartment: string | null }[];
}

/** Openings that nothing shuts. */
const NEVER_SHUT: ReadonlySet<string> = new Set(['open', 'curtain']);

/** Compartments that gas or vapour can get into, by id: where it is set free, and what is open to that. */
export function gasSpaces(input: GasInput): Readonly<Record<string, GasSpace>> {
  const found: Record<string, GasSpace> = {};
  const queue: string[] = [];
  const put = (id: string, space: GasSpace): void => {
    if (Object.hasOwn(found, id)) return;
    found[id] = space;
    queue.push(id);
  };
  for (const [id, { gasBottles, openToGas }] of inOrder(input.compartments)) {
    if (gasBottles) put(id, { why: 'bottles', from: id });
    else if (openToGas) put(id, { why: 'said', from: id });
  }
  for (const { thing, compartment } of input.things)
    if (compartment !== null && thing.fuel === 'petrol') put(compartment, { why: 'petrol', from: compartment });
  const joined = joinsOf(input);
  for (let head = 0; head < queue.length; head++) {
    const id = queue[head] as string;
    const { why, from } = found[id] as GasSpace;
    for (const next of joined.get(id) ?? []) if (Object.hasOwn(input.compartments, next)) put(next, { why, from });
  }
  return found;
}

/** By compartment, what is open to it. */
function joinsOf({ panels, openings, limberHoles }: GasInput): ReadonlyMap<string, readonly string[]> {
  const joined = new Map<string, string[]>();
  const join = (a: string, b: string): void => {
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = joined.get(one);
      if (list) list.push(other);
      else joined.set(one, [other]);
    }
  };
  for (const { rule, between } of Object.values(panels)) if (rule === 'open') join(...between);
  for (const { how, compartment, to } of Object.values(openings)) if (NEVER_SHUT.has(how)) join(compartment, to);
  for (const { between } of Object.values(limberHoles)) join(...between);
  for (const list of joined.values()) list.sort();
  return joined;
}
