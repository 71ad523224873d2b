import type { Boat } from '@core/boat/schema/boat';
import type { TakeoffRow } from '@core/engine/report';
import { useApp } from '../../store/app';
import { copied, NOT_COPIED } from '../copying';

/** Puts the rows on the clipboard, as lines with tabs and as a table; what pastes takes the one that it knows. */
export async function copyList(rows: readonly TakeoffRow[], { stock }: Pick<Boat, 'stock'>): Promise<void> {
  const [{ clipboardOf }, { listTable }] = await Promise.all([
    import('@core/output/takeoff/csv'),
    import('@core/output/takeoff/tables'),
  ]);
  const { text, html } = clipboardOf(listTable(rows, stock === undefined ? {} : { stock }));
  const isCopied = copied({ text, html });
  const { notify, showProblem } = useApp.getState();
  if (isCopied) notify(`Copied ${rows.length === 1 ? '1 row' : `${rows.length} rows`} of the list`);
  else showProblem(NOT_COPIED);
}
