import type { Facts } from './facts';

/** Lines that begin or end at a thing, sorted. */
export const linesAt = (id: string, facts: Facts): readonly string[] =>
  facts.lineIds().filter((lineId) => endsAt(lineId, id, facts));

/** Whether a line begins or ends at a thing. */
export function endsAt(lineId: string, id: string, facts: Facts): boolean {
  const line = facts.line(lineId);
  return line?.from.thing === id || line?.to.thing === id;
}
