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

/** Looks for truly different runs of a line; while an edit is looked at, or a line has no run, nothing happens. */
export function askOtherWays(line: string | null): void {
  const { report, notify } = useApp.getState();
  const run = report?.runs.find(({ lineId }) => lineId === line);
  if (line === null) notify('Select a run first');
  else if (run?.status !== 'routed') notify('This line has no run: see what would help');
  else useRunQuestion.getState().start('alternatives', line);
}

// An answer holds for the boat that it was asked of; the worker drops the question when that changes.
useApp.subscribe((state, before) => {
  if (state.sent !== before.sent && useRunQuestion.getState().about !== null)
    useRunQuestion.setState({ ...NOTHING, ask: useRunQuestion.getState().ask + 1 });
});

/** A run that is offered, to be drawn beside the present one. */
export interface OfferedWay {
  readonly line: string;
  readonly prims: readonly Prim[];
  readonly isLit: boolean;
}

const NO_WAYS: readonly OfferedWay[] = [];
let lastWays: { readonly key: readonly unknown[]; readonly ways: readonly OfferedWay[] } | null = null;

/** The runs that are offered: all alternatives, of remedies the one that is looked at. The same list as long as they are the same. */
export function offeredWays({ line, answer, lit }: RunQuestionState): readonly OfferedWay[] {
  const key = [line, answer, lit];
  if (lastWays?.key.every((value, k) => value === key[k])) return lastWays.ways;
  lastWays = { key, ways: waysOf(line, answer, lit) };
  return lastWays.ways;
}

function waysOf(line: string | null, answer: RunAnswer | null, lit: string | null): readonly OfferedWay[] {
  if (line === null || !answer) return NO_WAYS;
  if (answer.about === 'remedies')
    return answer.remedies.filter(({ id }) => id === lit).map(({ prims }) => ({ line, prims, isLit: true }));
  return answer.alternatives
    .filter(({ isCurrent }) => !isCurrent)
    .map(({ id, prims }) => ({ line, prims, isLit: id === lit }))
    .sort((a, b) => Number(a.isLit) - Number(b.isLit));
}
