import type { BoatRecipe } from '@core/boat/edits';
import { type PathPart, pathText } from '@core/boat/problem';
import { valueRemoved, valueSet } from '@core/boat/record/edits';
import { createContext, useContext } from 'react';
import { useApp } from '../../store/app';
import { keepTyped } from '../../store/typed';

export type Path = readonly PathPart[];

/** What the fields speak of, for undo steps and screen readers: `PM-1`, `PM-1, port in`. */
export const Subject = createContext('the boat');
export const useSubject = (): string => useContext(Subject);

/** What edits go to: the boat that is open, or a draft of it that a dialog holds until it is saved. */
export interface EditTarget {
  edit(label: string, recipe: BoatRecipe): boolean;
}
export const Target = createContext<EditTarget | null>(null);

/** Edits of the values below a record, each one undo step that names field and record. */
export interface RecordEdits {
  set(label: string, path: Path, value: unknown, typed?: string): boolean;
  remove(label: string, path: Path): boolean;
  make(label: string, recipe: BoatRecipe): boolean;
}

export function useRecordEdits(): RecordEdits {
  const ofBoat = useApp((state) => state.edit);
  const edit = useContext(Target)?.edit ?? ofBoat;
  const subject = useSubject();
  const step = (label: string): string => `${label} of ${subject}`;
  return {
    set: (label, path, value, typed) =>
      edit(step(label), (boat) => {
        valueSet(path, value)(boat);
        if (typed !== undefined) keepTyped(boat, pathText(path), typed);
      }),
    remove: (label, path) => edit(step(label), valueRemoved(path)),
    make: (label, recipe) => edit(step(label), recipe),
  };
}
