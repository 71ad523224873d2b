/** Values are kept to one micrometre (a millionth of whatever unit), so that memory equals file. */
const STEPS_PER_UNIT = 1e6;
/** Beyond this a millionth is below the spacing of doubles. */
const GREATEST = 1e9;

export function quantised(value: number): number {
  if (!(Math.abs(value) < GREATEST)) return value;
  return Math.round(value * STEPS_PER_UNIT) / STEPS_PER_UNIT + 0;
}

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
