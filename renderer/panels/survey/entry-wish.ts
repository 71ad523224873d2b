import { create } from 'zustand';

/** Brings the table of readings up, from anywhere; each wish is a new one. */
interface EntryWish {
  readonly count: number;
  ask(): void;
}
export const useEntryWish = create<EntryWish>()((set, get) => ({
  count: 0,
  ask: () => set({ count: get().count + 1 }),
}));
