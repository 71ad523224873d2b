import { TYPICAL } from '@core/boat/catalogue/templates';
import { type BoatRecipe, edit } from '@core/boat/edits';
import { idFrom, valueSet } from '@core/boat/record/edits';
import type { Boat, Part } from '@core/boat/schema/boat';
import { part as partSchema } from '@core/boat/schema/things';
import { useState } from 'react';
import type { SheetSubject } from '../data-sheet';

/** A new part before its sheet is read: a box of a shoe's size. */
const BLANK: Part = partSchema.parse({
  name: 'New part',
  kind: 'other',
  shape: { type: 'box', sizeM: [0.3, 0.2, 0.15] },
  source: 'data sheet',
});

export interface SheetDraft {
  /** The open boat with the part as it is on the form. */
  readonly boat: Boat;
  readonly path: readonly ['parts' | 'fixtures', string];
  readonly isNew: boolean;
  readonly problems: readonly string[];
  edit(label: string, recipe: BoatRecipe): boolean;
}

/** Works on a draft of the boat: each entry is judged as an edit of the boat would be, and what is refused changes nothing. */
export function useSheetDraft(open: Boat, subject: SheetSubject): SheetDraft {
  const [start] = useState(() => begin(open, subject));
  const [boat, setBoat] = useState(start.boat);
  const [problems, setProblems] = useState<readonly string[]>([]);
  return {
    boat,
    path: start.path,
    isNew: subject.kind !== 'edit',
    problems,
    edit(_label, recipe) {
      const edited = edit(boat, recipe);
      setProblems(edited.ok ? [] : edited.problems.map(({ message }) => message));
      if (edited.ok) setBoat(edited.boat);
      return edited.ok;
    },
  };
}

function begin(open: Boat, subject: SheetSubject): Pick<SheetDraft, 'boat' | 'path'> {
  if (subject.kind === 'edit') return { boat: open, path: [open.parts[subject.id] ? 'parts' : 'fixtures', subject.id] };
  const part = subject.kind === 'from' ? { ...subject.part, source: TYPICAL } : BLANK;
  const id = idFrom({ ...open.parts, ...open.fixtures }, part.name);
  const edited = edit(open, valueSet(['parts', id], part));
  return { boat: edited.ok ? edited.boat : open, path: ['parts', id] };
}
