/** A long question, worked on a slice at a time, so that a worker can take up something else between two of them. */

/** How far long work has come: so many of so many parts. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

export interface InSlices<T> {
  /** The answer, or how far it has come. */
  step(): { readonly answer: T } | { readonly progress: Progress };
}

/** Work that stops between two slices; null tells that it is as far as before. What is told never goes back. */
export function inSlices<T>(work: Generator<Progress | null, T>): InSlices<T> {
  let progress: Progress = { done: 0, of: 1 };
  return {
    step() {
      const next = work.next();
      if (next.done) return { answer: next.value };
      if (next.value && next.value.done / next.value.of >= progress.done / progress.of) progress = next.value;
      return { progress };
    },
  };
}

/** All slices at once. */
export function atOnce<T>(work: InSlices<T>): T {
  for (;;) {
    const step = work.step();
    if ('answer' in step) return step.answer;
  }
}
