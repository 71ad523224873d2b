import { create } from 'zustand';

interface ZonesState {
  /** Sheet zone of each finding's mark on the board, such as `B3`, by the finding's key. */
  readonly zones: ReadonlyMap<string, string>;
  setZones(zones: ReadonlyMap<string, string>): void;
}

/** Written by the board at every settle, read by the findings list: one word for eye, keyboard and screen reader. */
export const useZones = create<ZonesState>()((set) => ({
  zones: new Map(),
  setZones: (zones) => set({ zones }),
}));
