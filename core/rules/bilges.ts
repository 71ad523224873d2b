import type { Facts } from './facts';

/** Whether the boat file says anything of how water leaves her: a bilge pump, a compartment that is pumped or is not. */
export const saysOfBilges = (facts: Facts): boolean =>
  Object.keys(facts.layout().cellsOf).some((id) => facts.compartment(id)?.bilgePumped !== undefined) ||
  facts.thingIds().some((id) => facts.thing(id)?.kind === 'bilgePump');
