import type { Limit, Measured } from './finding';

/** Compared by number: so many faults, where none may be. */
export const countedFaults = (count: number): { readonly measured: Measured; readonly limit: Limit } => ({
  measured: { value: count, unit: 'count' },
  limit: { value: 0, unit: 'count', bound: 'atMost' },
});
