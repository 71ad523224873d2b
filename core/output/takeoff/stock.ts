import type { Boat } from '../../boat/schema/boat';
import type { StockKey } from '../../boat/stock-edits';
import type { TakeoffRow } from './row';

type Stock = NonNullable<Boat['stock']>[string];

/** What of a row is there, bought and fitted, in the unit of the row. */
export const stockOf = (stock: Boat['stock'], key: string): Readonly<Record<StockKey, number>> => {
  const own: Stock = stock && Object.hasOwn(stock, key) ? (stock[key] ?? {}) : {};
  return { have: own.have ?? 0, bought: own.bought ?? 0, fitted: own.fitted ?? 0 };
};

/** How much there is of a row to have: what is bought by length counts as it is bought. */
export const wantedOf = (row: TakeoffRow): number => (row.unit === 'm' || row.buy > 0 ? row.buy : 0);

/** What is still to be bought of a row. */
export function stillToBuy(row: TakeoffRow, stock: Boat['stock']): number {
  const { have, bought } = stockOf(stock, row.key);
  return Math.max(0, Math.round((wantedOf(row) - have - bought) * 1e6) / 1e6);
}

/** What is still to be fitted: pieces; of lengths the metres that the drawing asks for. */
export const stillToFit = (row: TakeoffRow, stock: Boat['stock']): number =>
  Math.max(0, Math.round((row.quantity - stockOf(stock, row.key).fitted) * 1e6) / 1e6);

/** Sum of the prices that are known, and how many rows to be bought have none; null without any price. */
export function priceOf(rows: readonly TakeoffRow[]): { readonly sum: number; readonly unknown: number } | null {
  const priced = rows.flatMap(({ price }) => price ?? []);
  if (priced.length === 0) return null;
  const sum = Math.round(priced.reduce((so, price) => so + price, 0) * 100) / 100;
  return { sum, unknown: rows.filter(({ price, buy }) => price === undefined && buy > 0).length };
}
