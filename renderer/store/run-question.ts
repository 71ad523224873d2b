import type { Progress } from '@core/engine/measure-next/next-readings';
import type { Prim } from '@core/runs/routing/types';
import { create } from 'zustand';
import type { AboutRun, RunAnswer } from '../worker/protocol';
import { useApp } from './app';
import { runsNow } from './connections';

/** What may be done about the run of a line: asked of the worker, which answers when it has nothing more urgent to do. */
interface RunQuestionState {
  /** Newest question; 0: none yet. */
  readonly ask: number;
  readonly about: AboutRun | null;
  readonly line: string | null;
  readonly progress: Progress | null;
  readonly answer: RunAnswer | null;
  /** Of the answer, the edit that is looked at: its run is drawn beside the present one. */
  readonly lit: string | null;
  start(about: AboutRun, line: string): void;
  drop(): void;
  came(ask: number, progress: Progress): void;
  answered(ask: number, answer: RunAnswer): void;
  light(id: string | null): void;
}

const NOTHING = { about: null, line: null, progress: null, answer: null, lit: null } as const;

export const useRunQuestion = create<RunQuestionState>()((set, get) => ({
  ...NOTHING,
  ask: 0,

  start(about, line) {
    const ask = get().ask + 1;
    set({ ...NOTHING, ask, about, line, progress: { done: 0, of: 1 } });
    runsNow().askRun(ask, about, line);
  },
  drop() {
    if (get().about === null) return;
    runsNow().dropAskRun();
    set({ ...NOTHING, ask: get().ask + 1 });
  },
  came(ask, progress) {
    if (ask === get().ask && get().progress) set({ progress });
  },
  answered(ask, answer) {
    if (ask === get().ask) set({ answer, progress: null });
  },
  light(lit) {
    if (lit !== get().lit) set({ lit });
  },
}));

// An answer holds for the boat that it was asked of; the worker drops the question when that changes.
useApp.subscribe((state, before) => {
  if (state.sent !== before.sent && useRunQuestion.getState().about !== null)
    useRunQuestion.setState({ ...NOTHING, ask: useRunQuestion.getState().ask + 1 });
});

interface Way {
  readonly line: string;
  readonly prims: readonly Prim[];
}
let lastWay: { readonly state: readonly unknown[]; readonly way: Way | null } | null = null;

/** The run of the offer that is looked at; the same object as long as that is. */
export function litWay({ line, answer, lit }: RunQuestionState): Way | null {
  const key = [line, answer, lit];
  if (lastWay?.state.every((value, k) => value === key[k])) return lastWay.way;
  const prims = lit === null ? undefined : answer?.remedies.find(({ id }) => id === lit)?.prims;
  lastWay = { state: key, way: line !== null && prims ? { line, prims } : null };
  return lastWay.way;
}
