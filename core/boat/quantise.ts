import { quantised } from '../base/quantity';

export { quantised };

/** A copy of plain data with every number quantised; keeps the identity of what does not change. */
export function quantisedTree<T>(value: T): T;
export function quantisedTree(value: unknown): unknown {
  if (typeof value === 'number') return quantised(value);
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => quantisedTree(item));
    return items.every((item, index) => Object.is(item, value[index])) ? value : items;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(([key, item]) => [key, quantisedTree(item)] as const);
    return entries.every(([key, item]) => Object.is(item, (value as Record<string, unknown>)[key]))
      ? value
      : Object.fromEntries(entries);
  }
  return value;
}
