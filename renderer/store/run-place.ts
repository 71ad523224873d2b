import { create } from 'zustand';

/** The place on a run that its profile points at: marked on the drawing too, and where a clip point would be set. */
export interface RunPlace {
  readonly marked: { readonly line: string; readonly alongM: number } | null;
}
export const useRunPlace = create<RunPlace>()(() => ({ marked: null }));
