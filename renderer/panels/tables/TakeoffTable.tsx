import type { Boat } from '@core/boat/schema/boat';
import type { TakeoffRow } from '@core/engine/report';
import { GROUP_TEXT } from '@core/output/takeoff/words';
import { type JSX, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { thingOf } from '../../store/select';
import { figure } from '../format';
import { type Column, Table } from '../Table';
import { plainWords, sentence } from '../words';

const NO_ROWS: readonly TakeoffRow[] = [];

export const groupWords = (group: TakeoffRow['group']): string => GROUP_TEXT[group];

const amount = (value: number, unit: TakeoffRow['unit']): string => figure(value, unit === 'm' ? 2 : 0);

const columnsOf = (rows: readonly TakeoffRow[]): readonly Column<TakeoffRow>[] => [
  // The number of a balloon on the drawing.
  { key: 'number', title: 'No.', cell: (row) => figure(rows.indexOf(row) + 1), sortBy: (row) => rows.indexOf(row) },
  { key: 'item', title: 'Item', cell: (row) => row.item, sortBy: (row) => row.item },
  { key: 'group', title: 'Group', second: true, cell: (row) => groupWords(row.group), sortBy: (row) => row.group },
  {
    key: 'kind',
    title: 'Kind',
    second: true,
    cell: (row) => sentence(plainWords(row.kind)),
    sortBy: (row) => row.kind,
  },
  {
    key: 'quantity',
    title: 'Quantity',
    number: true,
    cell: (row) => amount(row.quantity, row.unit),
    sortBy: (row) => row.quantity,
  },
  { key: 'unit', title: 'Unit', cell: (row) => (row.unit === 'm' ? 'm' : 'pcs'), sortBy: (row) => row.unit },
  { key: 'buy', title: 'Buy', number: true, cell: (row) => amount(row.buy, row.unit), sortBy: (row) => row.buy },
  {
    key: 'range',
    title: 'From, to m',
    number: true,
    second: true,
    cell: (row) =>
      row.leastM === undefined || row.greatestM === undefined
        ? ''
        : `${figure(row.leastM, 2)} to ${figure(row.greatestM, 2)}`,
  },
  {
    key: 'place',
    title: 'Place',
    cell: (row) => <span className="place">{row.place}</span>,
    sortBy: (row) => row.place,
  },
  { key: 'note', title: 'Note', second: true, cell: (row) => row.note },
];

export function TakeoffTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const rows = useApp((state) => state.report?.takeoff) ?? NO_ROWS;
  const columns = useMemo(() => columnsOf(rows), [rows]);
  const selection = useApp((state) => state.selection);
  const { select } = useApp.getState();
  const [chosen, setChosen] = useState<string | null>(null);
  const about = (row: TakeoffRow): boolean => selection !== null && row.from.includes(selection.id);
  const selectedKey = (rows.find((row) => row.key === chosen && about(row)) ?? rows.find(about))?.key ?? null;
  return (
    <Table
      label="Parts and lengths"
      rows={rows}
      columns={columns}
      idOf={(row) => row.key}
      selectedId={selectedKey}
      hoveredId={null}
      select={(row) => {
        setChosen(row.key);
        const id = row.from[0];
        if (id === undefined) return;
        if (thingOf(boat, id)) select({ kind: 'thing', id });
        else if (boat.lines[id]) select({ kind: 'line', id });
      }}
      empty="Nothing to list yet."
    />
  );
}
