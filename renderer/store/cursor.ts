import { create } from 'zustand';
import type { CursorState } from './types';

/** Apart from the other stores: it changes at every move of the pointer, and only the title block listens. */
export const useCursor = create<CursorState>()((set) => ({
  at: null,
  pixelsPerMetre: 55,
  setCursor: (at) => set({ at }),
  setPixelsPerMetre: (pixelsPerMetre) => set({ pixelsPerMetre }),
}));
