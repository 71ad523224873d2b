import { useDrawer } from '../store/drawer';

/** Fields that a command leads to. */
export const FIND_FIELD_ID = 'find-field';
export const TABLE_FILTER_ID = 'table-filter';

export const focusFind = (): void => document.getElementById(FIND_FIELD_ID)?.focus();

/** The field over the tables; it is there once the drawer is open. */
export function focusTableFilter(): void {
  const { height, setHeight } = useDrawer.getState();
  if (height === 'closed') setHeight('usual');
  requestAnimationFrame(() => document.getElementById(TABLE_FILTER_ID)?.focus());
}
