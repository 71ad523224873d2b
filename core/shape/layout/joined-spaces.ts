import type { Layout } from './types';

/** Compartments with all that open panels join to them, whatever the order of the panels. */
export function joinedSpaces({ panels }: Layout, start: Iterable<string>): Set<string> {
  const joined = new Set(start);
  // A set is gone through with what is added to it on the way.
  for (const one of joined)
    for (const { rule, between } of Object.values(panels)) {
      if (rule !== 'open' || !between.includes(one)) continue;
      for (const other of between) joined.add(other);
    }
  return joined;
}
