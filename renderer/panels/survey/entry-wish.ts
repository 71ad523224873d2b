import { create } from 'zustand';

/** Brings the table of readings up and the cursor into its entry row, from anywhere; each wish is a new one. */
interface EntryWish {
  readonly count: number;
  /** The newest wish that the entry row has answered. */
  readonly answered: number;
  ask(): void;
  answer(): void;
}
export const useEntryWish = create<EntryWish>()((set, get) => ({
  count: 0,
  answered: 0,
  ask: () => set({ count: get().count + 1 }),
  answer: () => set({ answered: get().count }),
}));
