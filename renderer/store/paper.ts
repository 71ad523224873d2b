import { PAPER_SIZES, type PaperSize } from '@core/output/sheets/paper-size';
import { create } from 'zustand';

/** The paper that documents are printed on: a habit of the owner's printer, kept from one start to the next. */
interface PaperStore {
  readonly paper: PaperSize;
  setPaper(paper: PaperSize): void;
}

const KEY = 'underberth.paper';

export const usePaper = create<PaperStore>()((set) => ({
  paper: remembered(),
  setPaper(paper) {
    set({ paper });
    try {
      globalThis.localStorage?.setItem(KEY, paper);
    } catch {
      // A window without storage still prints; it only forgets.
    }
  },
}));

function remembered(): PaperSize {
  try {
    const kept = globalThis.localStorage?.getItem(KEY);
    return PAPER_SIZES.find((size) => size === kept) ?? 'A4';
  } catch {
    return 'A4';
  }
}
