import { create } from 'zustand';
import { readPreferences, TEXT_SIZES, type TextSize, writePreferences } from './preferences';

interface TextSizeState {
  readonly size: TextSize;
  set(size: TextSize): void;
  /** The next larger or smaller one; at the end none. */
  step(by: 1 | -1): void;
}

/** How large the letters of the window are, with all that holds them; the drawing keeps its own. */
export const useTextSize = create<TextSizeState>()((set, get) => ({
  size: readPreferences().textSize,
  set: (size) => {
    set({ size });
    writePreferences({ textSize: size });
  },
  step: (by) => {
    const next = TEXT_SIZES[TEXT_SIZES.indexOf(get().size) + by];
    if (next !== undefined) get().set(next);
  },
}));
