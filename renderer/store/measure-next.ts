import type { Progress } from '@core/engine/in-slices';
import type { NextReading } from '@core/rules/next-reading';
import { create } from 'zustand';
import { useApp } from './app';
import { questionsNow } from './connections';

/** What to measure next: asked of the worker, which answers when it has nothing more urgent to do. */
interface MeasureNextState {
  /** Newest question; 0: none yet. */
  readonly ask: number;
  /** Count of what was sent to the worker when the question was asked: an edit since then makes the answer old. */
  readonly askedAt: number;
  readonly progress: Progress | null;
  readonly readings: readonly NextReading[] | null;
  /** Findings that the reading under the pointer, or in focus, would settle. */
  readonly lit: readonly string[];
  start(): void;
  cancel(): void;
  came(ask: number, progress: Progress): void;
  answered(ask: number, readings: readonly NextReading[]): void;
  light(keys: readonly string[]): void;
}

export const READINGS_SHOWN = 5;
const NOTHING: readonly string[] = [];

export const useMeasureNext = create<MeasureNextState>()((set, get) => ({
  ask: 0,
  askedAt: -1,
  progress: null,
  readings: null,
  lit: NOTHING,

  start() {
    const ask = get().ask + 1;
    set({ ask, askedAt: useApp.getState().sent, progress: { done: 0, of: 1 } });
    questionsNow().ask(ask, READINGS_SHOWN);
  },
  cancel() {
    if (get().progress === null) return;
    questionsNow().dropAsk();
    set({ ask: get().ask + 1, progress: null });
  },
  came(ask, progress) {
    if (ask === get().ask && get().progress) set({ progress });
  },
  answered(ask, readings) {
    if (ask === get().ask) set({ readings, progress: null, lit: NOTHING });
  },
  light: (keys) => set({ lit: keys.length === 0 ? NOTHING : keys }),
}));

// The worker drops a question when the boat changes; another boat has other readings.
useApp.subscribe((state, before) => {
  if (state.sent === before.sent) return;
  const isOther = state.report === null;
  useMeasureNext.setState({ progress: null, lit: NOTHING, ...(isOther ? { readings: null } : {}) });
});
