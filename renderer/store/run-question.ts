import type { Boat } from '@core/boat/schema/boat';
import type { Progress } from '@core/engine/in-slices';
import type { Remedy } from '@core/rules/remedy';
import type { Alternative } from '@core/runs/alternative';
import type { Prim } from '@core/runs/routing/types';
import { create } from 'zustand';
import { useApp } from './app';
import { studiesNow, type Told } from './connections';

/** What would mend a line, or a failed finding; other ways to lead a line. */
export type AboutRun = 'remedies' | 'mends' | 'alternatives';

/** What was found about a run: edits that were routed before they are told. */
export type RunAnswer =
  | { readonly about: 'remedies' | 'mends'; readonly remedies: readonly Remedy[] }
  | { readonly about: 'alternatives'; readonly alternatives: readonly Alternative[] };

/** What may be done about the run of a line: worked out apart from the open boat, so that no drag waits for it. */
interface RunQuestionState {
  /** Newest question; 0: none yet. */
  readonly ask: number;
  readonly about: AboutRun | null;
  /** Id of the line, or key of the finding. */
  readonly of: string | null;
  readonly progress: Progress | null;
  readonly answer: RunAnswer | null;
  /** What the work threw: a fault of the program. */
  readonly fault: string | null;
  /** Of the answer, the edit that is looked at: its run is drawn beside the present one. */
  readonly lit: string | null;
  start(about: AboutRun, of: string): void;
  drop(): void;
  came(ask: number, progress: Progress): void;
  answered(ask: number, answer: RunAnswer): void;
  failed(ask: number, fault: string): void;
  light(id: string | null): void;
}

const NOTHING = { about: null, of: null, progress: null, answer: null, fault: null, lit: null } as const;

const NOTHING_ASKED = (): void => {};
let takeBack = NOTHING_ASKED;

export const useRunQuestion = create<RunQuestionState>()((set, get) => ({
  ...NOTHING,
  ask: 0,

  start(about, of) {
    const ask = get().ask + 1;
    const { boat } = useApp.getState();
    if (!boat) return;
    takeBack();
    set({ ...NOTHING, ask, about, of, progress: { done: 0, of: 1 } });
    takeBack = asked(boat, of, about, ask);
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
function asked(boat: Boat, of: string, about: AboutRun, ask: number): () => void {
  const { came, answered, failed } = useRunQuestion.getState();
  const going = (progress: Progress): void => came(ask, progress);
  const offers =
    (named: 'remedies' | 'mends') =>
    (told: Told<'remedies'>): void =>
      told.ok ? answered(ask, { about: named, remedies: told.gives }) : failed(ask, told.message);
  const studies = studiesNow();
  if (about === 'remedies') return studies.study(about, { boat, lineId: of }, offers(about), going);
  if (about === 'mends') return studies.study<'mends'>(about, { boat, key: of }, offers(about), going);
  return studies.study(
    about,
    { boat, lineId: of },
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
export function offeredWays({ of, answer, lit }: RunQuestionState): readonly OfferedWay[] {
  const key = [of, answer, lit];
  if (lastWays?.key.every((value, k) => value === key[k])) return lastWays.ways;
  lastWays = { key, ways: waysOf(of, answer, lit) };
  return lastWays.ways;
}

function waysOf(of: string | null, answer: RunAnswer | null, lit: string | null): readonly OfferedWay[] {
  if (of === null || !answer) return NO_WAYS;
  // A finding on a line: rule|line|instance.
  const line = answer.about === 'mends' ? (of.split('|')[1] ?? of) : of;
  if (answer.about !== 'alternatives')
    return answer.remedies
      .filter(({ id, prims }) => id === lit && prims.length > 0)
      .map(({ prims }) => ({ line, prims, isLit: true }));
  return answer.alternatives
    .filter(({ isCurrent }) => !isCurrent)
    .map(({ id, prims }) => ({ line, prims, isLit: id === lit }))
    .sort((a, b) => Number(a.isLit) - Number(b.isLit));
}
