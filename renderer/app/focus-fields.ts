import { useDrawer } from '../store/drawer';

/** Fields that a command leads to. */
export const FIND_FIELD_ID = 'find-field';
export const TABLE_FILTER_ID = 'table-filter';

/** What was typed before gives way to what is typed now. */
export function focusFind(): void {
  const field = document.getElementById(FIND_FIELD_ID);
  field?.focus();
  if (field instanceof HTMLInputElement) field.select();
}

/** Brings the field over the tables up; it is there after the next drawing. */
export function focusTableFilter(): void {
  const { height, setHeight, tab, setTab, setSearching } = useDrawer.getState();
  if (height === 'closed') setHeight('usual');
  // The unrolled run is a drawing: it has no rows.
  if (tab === 'Unrolled') setTab('Runs');
  setSearching(true);
  requestAnimationFrame(() => document.getElementById(TABLE_FILTER_ID)?.focus());
}

/** What scrolls and holds nothing that takes the focus takes it itself, so that arrow keys scroll it. */
export const scrollsByKeys = (element: HTMLElement | null): void => element?.setAttribute('tabindex', '0');
