import type { Part } from '@core/boat/schema/boat';
import { create } from 'zustand';
import { useDialogs } from '../../app/dialogs';

/** What the data-sheet form works on: a new part, one that begins as a copy of a typical one, or a thing of the boat. */
export type SheetSubject =
  | { readonly kind: 'new' }
  | { readonly kind: 'from'; readonly part: Part }
  | { readonly kind: 'edit'; readonly id: string };

export const useDataSheet = create<{ readonly subject: SheetSubject }>()(() => ({ subject: { kind: 'new' } }));

export function openDataSheet(subject: SheetSubject): void {
  useDataSheet.setState({ subject });
  useDialogs.getState().show('dataSheet');
}
