import type { Patch } from '@core/boat/edits';

/** One undo step: the patches of a gesture and those that take it back. */
export interface Step {
  readonly label: string;
  /** State of the boat after the step. */
  readonly revision: number;
  readonly patches: readonly Patch[];
  readonly inverse: readonly Patch[];
  /** Steps in a row with the same word become one. */
  readonly merge: string | null;
}

export interface History {
  readonly done: readonly Step[];
  readonly undone: readonly Step[];
  /** State of the boat before the first step: that of the file as long as no step was forgotten. */
  readonly before: number;
}

/** Name of the state right after opening. */
export const FIRST_REVISION = 0;
export const EMPTY_HISTORY: History = { done: [], undone: [], before: FIRST_REVISION };
/** A long session of edits stays far below this; the bound keeps memory finite. */
export const MOST_STEPS = 2000;

/** Adds a step, joined to the last one when both carry the same merge word. What was undone is gone. */
export function withStep(history: History, step: Step): History {
  const last = history.done.at(-1);
  if (last && step.merge !== null && last.merge === step.merge && history.undone.length === 0) {
    const joined: Step = {
      ...step,
      patches: [...last.patches, ...step.patches],
      inverse: [...step.inverse, ...last.inverse],
    };
    return { ...history, done: [...history.done.slice(0, -1), joined], undone: [] };
  }
  const done = [...history.done, step];
  const forgotten = done.length > MOST_STEPS ? done.shift() : undefined;
  return { done, undone: [], before: forgotten?.revision ?? history.before };
}

/** The next step with its merge word no longer joins the last one. */
export function sealed(history: History): History {
  const last = history.done.at(-1);
  if (!last || last.merge === null) return history;
  return { ...history, done: [...history.done.slice(0, -1), { ...last, merge: null }] };
}

/** Takes the last step back: the step to apply backwards, and the history without it. */
export function undone(history: History): { readonly step: Step; readonly history: History } | null {
  const step = history.done.at(-1);
  if (!step) return null;
  return { step, history: { ...history, done: history.done.slice(0, -1), undone: [...history.undone, step] } };
}

export function redone(history: History): { readonly step: Step; readonly history: History } | null {
  const step = history.undone.at(-1);
  if (!step) return null;
  return {
    step,
    history: { ...history, done: [...history.done, { ...step, merge: null }], undone: history.undone.slice(0, -1) },
  };
}

/** All steps from the first on, and the index of the last one that is done; -1: none is. */
export const stepsOf = ({
  done,
  undone: ahead,
}: History): { readonly steps: readonly Step[]; readonly now: number } => ({
  steps: [...done, ...ahead.toReversed()],
  now: done.length - 1,
});

/**
 * The way to the state after the step of that index, -1 for the state before all: the patches to apply one after the other, the
 * revision that it leads to, and the history there.
 */
export function jumpTo(
  history: History,
  index: number,
): { readonly patches: readonly Patch[]; readonly revision: number; readonly history: History } {
  const { steps, now } = stepsOf(history);
  const to = Math.max(-1, Math.min(steps.length - 1, index));
  const back = steps.slice(to + 1, now + 1).toReversed();
  const on = steps.slice(now + 1, to + 1);
  return {
    patches: [...back.flatMap(({ inverse }) => inverse), ...on.flatMap(({ patches }) => patches)],
    revision: steps[to]?.revision ?? history.before,
    history: {
      ...history,
      done: steps.slice(0, to + 1).map((step) => ({ ...step, merge: null })),
      undone: steps.slice(to + 1).toReversed(),
    },
  };
}
