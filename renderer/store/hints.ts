import { create } from 'zustand';
import { useApp } from './app';
import { readPreferences, writePreferences } from './preferences';

/** What the sample shows to whoever opens it the first time, in this order. */
export const HINTS = ['pump', 'finding', 'run', 'list', 'own'] as const;
export type Hint = (typeof HINTS)[number];

interface HintsState {
  /** Put away, and remembered from one start to the next. */
  readonly away: readonly Hint[];
  /** The one whose words are shown; null: only their numbers. */
  readonly open: Hint | null;
  show(hint: Hint | null): void;
  /** Puts one away; the next that is left opens. */
  putAway(hint: Hint): void;
  putAllAway(): void;
  /** All of them again, from the first. */
  again(): void;
}

const firstLeft = (away: readonly Hint[]): Hint | null => HINTS.find((hint) => !away.includes(hint)) ?? null;

export const useHints = create<HintsState>()((set, get) => {
  const put = (away: readonly Hint[]): void => {
    set({ away, open: firstLeft(away) });
    writePreferences({ hintsAway: away });
  };
  const kept = readPreferences().hintsAway;
  const hintsAway = HINTS.filter((hint) => kept.includes(hint));
  return {
    away: hintsAway,
    open: firstLeft(hintsAway),
    show: (open) => set({ open }),
    putAway: (hint) => put([...get().away, hint]),
    putAllAway: () => put(HINTS),
    again: () => put([]),
  };
});

// Whoever has begun to work needs the drawing: the note folds to its number. Boats that are opened are no work yet.
useApp.subscribe((state, before) => {
  const hasBegun =
    state.selection !== before.selection ||
    state.stage !== before.stage ||
    state.tool !== before.tool ||
    (state.boat !== before.boat && state.canUndo !== null);
  if (hasBegun && useHints.getState().open !== null) useHints.setState({ open: null });
});
