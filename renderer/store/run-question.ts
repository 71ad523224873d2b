import type { Boat } from '@core/boat/schema/boat';
import type { Progress } from '@core/engine/in-slices';
import type { Remedy } from '@core/rules/remedy';
import type { Alternative } from '@core/runs/alternative';
import type { Prim } from '@core/runs/routing/types';
import { create } from 'zustand';
import { useApp } from './app';
import { studiesNow } from './connections';

export type AboutRun = 'remedies' | 'alternatives';

/** What was found about a run: edits that were routed before they are told. */
export type RunAnswer =
  | { readonly about: 'remedies'; readonly remedies: readonly Remedy[] }
  | { readonly about: 'alternatives'; readonly alternatives: readonly Alternative[] };

/** What may be done about the run of a line: worked out apart from the open boat, so that no drag waits for it. */
interface RunQuestionState {
  /** Newest question; 0: none yet. */
  readonly ask: number;
  readonly about: AboutRun | null;
  readonly line: string | null;
  readonly progress: Progress | null;
  readonly answer: RunAnswer | null;
  /** What the work threw: a fault of the program. */
  readonly fault: string | null;
  /** Of the answer, the edit that is looked at: its run is drawn beside the present one. */
  readonly lit: string | null;
  start(about: AboutRun, line: string): void;
  drop(): void;
  came(ask: number, progress: Progress): void;
  answered(ask: number, answer: RunAnswer): void;
  failed(ask: number, fault: string): void;
  light(id: string | null): void;
}

const NOTHING = { about: null, line: null, progress: null, answer: null, fault: null, lit: null } as const;

const NOTHING_ASKED = (): void => {};
let takeBack = NOTHING_ASKED;

export const useRunQuestion = create<RunQuestionState>()((set, get) => ({
  ...NOTHING,
  ask: 0,

  start(about, line) {
    const ask = get().ask + 1;
    const { boat } = useApp.getState();
    if (!boat) return;
    takeBack();
    set({ ...NOTHING, ask, about, line, progress: { done: 0, of: 1 } });
    takeBack = asked({ boat, lineId: line }, about, ask);
  },
  drop() {
    if (get().about === null) return;
    takeBack();
    takeBack = NOTHING_ASKED;
    set({ ...NOTHING, ask: get().ask + 1 });
  },
  came(ask, progress) {
    if (ask === get().ask && get().progress) set({ progress });
  },
  answered(ask, answer) {
    if (ask !== get().ask) return;
    takeBack = NOTHING_ASKED;
    set({ answer, progress: null });
  },
  failed(ask, fault) {
    if (ask !== get().ask) return;
    takeBack = NOTHING_ASKED;
    set({ fault, progress: null });
  },
  light(lit) {
    if (lit !== get().lit) set({ lit });
  },
}));

/** Sends the question off; gives what takes it back. */
function asked(from: { readonly boat: Boat; readonly lineId: string }, about: AboutRun, ask: number): () => void {
  const { came, answered, failed } = useRunQuestion.getState();
  const going = (progress: Progress): void => came(ask, progress);
  return about === 'remedies'
    ? studiesNow().study(
        about,
        from,
        (told) => (told.ok ? answered(ask, { about, remedies: told.gives }) : failed(ask, told.message)),
        going,
      )
    : studiesNow().study(
        about,
        from,
        (told) => (told.ok ? answered(ask, { about, alternatives: told.gives }) : failed(ask, told.message)),
        going,
      );
}

/** Looks for truly different runs of a line; while an edit is looked at, or a line has no run, nothing happens. */
export function askOtherWays(line: string | null): void {
  const { report, notify } = useApp.getState();
  const run = report?.runs.find(({ lineId }) => lineId === line);
  if (line === null) notify('Select a run first');
  else if (run?.status !== 'routed') notify('This line has no run: see what would help');
  else useRunQuestion.getState().start('alternatives', line);
}

// An answer holds for the boat that it was asked of.
useApp.subscribe((state, before) => {
  if (state.sent !== before.sent) useRunQuestion.getState().drop();
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
