import type { Boat } from '@core/boat/schema/boat';
import type { TakeoffRow } from '@core/engine/report';
import { stillToBuy, stillToFit } from '@core/output/takeoff/stock';
import { create } from 'zustand';

/** Which rows of the list are shown. */
export type TakeoffShown = 'all' | 'toBuy' | 'toFit';

interface TakeoffFilterState {
  readonly shown: TakeoffShown;
  readonly group: TakeoffRow['group'] | null;
  show(shown: TakeoffShown): void;
  showGroup(group: TakeoffRow['group'] | null): void;
}

export const useTakeoffFilter = create<TakeoffFilterState>()((set) => ({
  shown: 'all',
  group: null,
  show: (shown) => set({ shown }),
  showGroup: (group) => set({ group }),
}));

export const isToBuy = (row: TakeoffRow, boat: Pick<Boat, 'stock'>): boolean => stillToBuy(row, boat.stock) > 0;
/** What is neither placed nor routed can't be fitted yet. */
export const isToFit = (row: TakeoffRow, boat: Pick<Boat, 'stock'>): boolean =>
  row.group !== 'notPlaced' && stillToFit(row, boat.stock) > 0;

export const passesTakeoff = (
  row: TakeoffRow,
  boat: Pick<Boat, 'stock'>,
  { shown, group }: Pick<TakeoffFilterState, 'shown' | 'group'>,
): boolean =>
  (group === null || row.group === group) &&
  (shown === 'all' || (shown === 'toBuy' ? isToBuy(row, boat) : isToFit(row, boat)));
