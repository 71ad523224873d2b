import type { TakeoffRow } from './row';

/** Hardware by the place where it is fitted: one bag for each, to be carried there. */
export interface Bag {
  readonly place: string;
  readonly contents: readonly BagItem[];
}

export interface BagItem {
  readonly row: TakeoffRow;
  /** Number of the row in the list, from 1. */
  readonly number: number;
  /** Pieces of it that go here. */
  readonly quantity: number;
  /** What they are for. */
  readonly what: string;
}

/** Bags by the name of their place; what is not placed goes nowhere. */
export function bagsOf(rows: readonly TakeoffRow[]): readonly Bag[] {
  const bags = new Map<string, BagItem[]>();
  rows.forEach((row, i) => {
    const here = new Map<string, { quantity: number; what: string[] }>();
    for (const { place, quantity, what } of row.spread) {
      if (place === '') continue;
      const share = here.get(place) ?? { quantity: 0, what: [] };
      share.quantity += quantity;
      share.what.push(what);
      here.set(place, share);
    }
    for (const [place, { quantity, what }] of here)
      bags.set(place, [
        ...(bags.get(place) ?? []),
        { row, number: i + 1, quantity, what: [...new Set(what)].join('; ') },
      ]);
  });
  return [...bags]
    .map(([place, contents]) => ({ place, contents }))
    .sort((a, b) => a.place.localeCompare(b.place, 'en'));
}
