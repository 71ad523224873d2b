import type { BoatRecipe } from './edits';

/** What is counted of a row of the list, in the order in which it comes about. */
export const STOCK_KEYS = ['have', 'bought', 'fitted'] as const;
export type StockKey = (typeof STOCK_KEYS)[number];

/** So much of a row of the list is there, bought or fitted, in the unit of the row; nothing is kept as no record. */
export const stockCounted =
  (rowKey: string, what: StockKey, amount: number): BoatRecipe =>
  (boat) => {
    boat.stock ??= {};
    const record = Object.hasOwn(boat.stock, rowKey) ? (boat.stock[rowKey] ?? {}) : {};
    if (amount > 0) boat.stock[rowKey] = { ...record, [what]: amount };
    else {
      const { [what]: _, ...rest } = record;
      if (Object.keys(rest).length > 0) boat.stock[rowKey] = rest;
      else delete boat.stock[rowKey];
    }
    if (Object.keys(boat.stock).length === 0) delete boat.stock;
  };
