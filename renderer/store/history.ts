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
}

export const EMPTY_HISTORY: History = { done: [], undone: [] };
/** A long session of edits stays far below this; the bound keeps memory finite. */
const MOST_STEPS = 2000;

/** Adds a step, joined to the last one when both carry the same merge word. What was undone is gone. */
export function withStep(history: History, step: Step): History {
  const last = history.done.at(-1);
  if (last && step.merge !== null && last.merge === step.merge && history.undone.length === 0) {
    const joined: Step = {
      ...step,
      patches: [...last.patches, ...step.patches],
      inverse: [...step.inverse, ...last.inverse],
    };
    return { done: [...history.done.slice(0, -1), joined], undone: [] };
  }
  return { done: [...history.done, step].slice(-MOST_STEPS), undone: [] };
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
  return { step, history: { done: history.done.slice(0, -1), undone: [...history.undone, step] } };
}

export function redone(history: History): { readonly step: Step; readonly history: History } | null {
  const step = history.undone.at(-1);
  if (!step) return null;
  return {
    step,
    history: { done: [...history.done, { ...step, merge: null }], undone: history.undone.slice(0, -1) },
  };
}
