import type { Group, Share, TakeoffRow } from './row';

/** A row that is counted: its pieces are those that go somewhere. */
export function piecesRow(
  key: string,
  group: Group,
  item: string,
  kind: string,
  spread: readonly Share[],
  note: string,
  more: Partial<TakeoffRow> = {},
): TakeoffRow {
  const quantity = spread.reduce((sum, share) => sum + share.quantity, 0);
  const places = new Set(spread.map(({ place }) => place));
  const [place = ''] = places.size === 1 ? places : [];
  const from = [...new Set(spread.map((share) => share.from))];
  return { key, group, item, kind, quantity, unit: 'piece', buy: quantity, place, from, note, spread, ...more };
}
