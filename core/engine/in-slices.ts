/** A long question, worked on a slice at a time, so that a worker can take up something else between two of them. */

/** How far long work has come: so many of so many parts. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

/** What a slice comes to: how far the work has come, and what can be told of the answer already. */
export interface Underway<P> {
  readonly progress: Progress;
  /** Only with the slice that brought it. */
  readonly partial?: P;
}

/** `P`: what is told of the answer before it is whole; by default nothing. */
export interface InSlices<T, P = never> {
  /** The answer, or how far it has come. */
  step(): { readonly answer: T } | Underway<P>;
}

/**
 * Work that stops between two slices; null tells that it is as far as before, `partial` what can be shown meanwhile. How far it has
 * come never goes back.
 */
export function inSlices<T, P = never>(
  work: Generator<Progress | (Progress & { readonly partial: P }) | null, T>,
): InSlices<T, P> {
  let progress: Progress = { done: 0, of: 1 };
  return {
    step() {
      const next = work.next();
      if (next.done) return { answer: next.value };
      const told = next.value;
      if (told === null) return { progress };
      if (told.done / told.of >= progress.done / progress.of) progress = { done: told.done, of: told.of };
      return 'partial' in told ? { progress, partial: told.partial } : { progress };
    },
  };
}

/** All slices at once. */
export function atOnce<T, P>(work: InSlices<T, P>): T {
  for (;;) {
    const step = work.step();
    if ('answer' in step) return step.answer;
  }
}
