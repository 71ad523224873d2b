import type { Boat } from '@core/boat/schema/boat';
import type { TakeoffRow } from '@core/engine/report';
import { stockOf, wantedOf } from '@core/output/takeoff/stock';
import { GROUP_TEXT, noteText } from '@core/output/takeoff/words';
import { type JSX, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { chosenOf, placeOf, thingOf } from '../../store/select';
import { passesTakeoff, useTakeoffFilter } from '../../store/takeoff-filter';
import type { Selection } from '../../store/types';
import { figure } from '../format';
import { type Column, Table } from '../Table';
import { plainWords, sentence } from '../words';
import { StockCell } from './StockCell';

const NO_ROWS: readonly TakeoffRow[] = [];

export const groupWords = (group: TakeoffRow['group']): string => GROUP_TEXT[group];

const amount = (value: number, unit: TakeoffRow['unit']): string => figure(value, unit === 'm' ? 2 : 0);

/** What of the drawing a row comes from, each once. */
export const sourcesOf = (boat: Boat, row: TakeoffRow): readonly Selection[] =>
  row.from.flatMap((id): readonly Selection[] => {
    if (thingOf(boat, id)) return [{ kind: 'thing', id }];
    return Object.hasOwn(boat.lines, id) ? [{ kind: 'line', id }] : [];
  });

const isFrom = (row: TakeoffRow, { kind, id }: Selection): boolean =>
  (kind === 'thing' || kind === 'line') && row.from.includes(id);

/** Of all but parts the item says the kind. */
const kindWords = ({ group, kind }: TakeoffRow): string => (group === 'part' ? sentence(plainWords(kind)) : '');

function columnsOf(rows: readonly TakeoffRow[], boat: Boat): readonly Column<TakeoffRow>[] {
  const numbers = new Map(rows.map((row, i) => [row.key, i + 1]));
  const numberOf = (row: TakeoffRow): number => numbers.get(row.key) ?? 0;
  const stock = (what: 'have' | 'bought' | 'fitted', title: string): Column<TakeoffRow> => ({
    key: what,
    title,
    cell: (row) => (
      <StockCell
        row={row}
        what={what}
        value={stockOf(boat.stock, row.key)[what]}
        wanted={what === 'fitted' ? (row.group === 'notPlaced' ? 0 : row.quantity) : wantedOf(row)}
      />
    ),
    sortBy: (row) => stockOf(boat.stock, row.key)[what],
  });
  return [
    // The number of a balloon on the drawing.
    { key: 'number', title: 'No.', cell: (row) => figure(numberOf(row)), sortBy: numberOf },
    { key: 'item', title: 'Item', cell: (row) => row.item, sortBy: (row) => row.item },
    { key: 'group', title: 'Group', second: true, cell: (row) => groupWords(row.group), sortBy: (row) => row.group },
    {
      key: 'quantity',
      title: 'Needed',
      number: true,
      cell: (row) => amount(row.quantity, row.unit),
      sortBy: (row) => row.quantity,
    },
    { key: 'unit', title: 'Unit', cell: (row) => (row.unit === 'm' ? 'm' : 'pcs'), sortBy: (row) => row.unit },
    {
      key: 'buy',
      title: 'Buy',
      number: true,
      cell: (row) => (row.buy > 0 ? amount(row.buy, row.unit) : '\u2013'),
      sortBy: (row) => row.buy,
    },
    stock('have', 'There'),
    stock('bought', 'Bought'),
    stock('fitted', 'Fitted'),
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
      text: (row) => row.place,
      sortBy: (row) => row.place,
    },
    {
      key: 'kind',
      title: 'Kind',
      second: true,
      cell: kindWords,
      sortBy: kindWords,
    },
    {
      key: 'price',
      title: 'Price',
      number: true,
      cell: (row) => (row.price === undefined ? '' : figure(row.price, 2)),
      sortBy: (row) => row.price ?? -1,
    },
    { key: 'note', title: 'Note', second: true, cell: noteText },
  ];
}

/** The list: a row lights up what it comes from on the drawing, and what is picked or pointed at there lights up its rows. */
export function TakeoffTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const all = useApp((state) => state.report?.takeoff) ?? NO_ROWS;
  const arrangementId = useApp((state) => state.arrangementId);
  const selection = useApp((state) => state.selection);
  const alsoSelected = useApp((state) => state.alsoSelected);
  const hover = useApp((state) => state.hover);
  const filter = useTakeoffFilter();
  const columns = useMemo(() => columnsOf(all, boat), [all, boat]);
  const rows = useMemo(() => all.filter((row) => passesTakeoff(row, boat, filter)), [all, boat, filter]);
  const { select, setHover, goTo } = useApp.getState();
  const [chosen, setChosen] = useState<string | null>(null);
  const picked = chosenOf({ selection, alsoSelected });
  const about = rows.filter((row) => picked.some((one) => isFrom(row, one)));
  // The row that was pressed stays the one, though others come from the same thing.
  const selectedKey = (about.find(({ key }) => key === chosen) ?? about[0])?.key ?? null;
  const place = (row: TakeoffRow) => {
    const [first] = row.from;
    return row.hole?.at ?? (first === undefined ? null : (placeOf(boat, arrangementId, first)?.at ?? null));
  };
  return (
    <Table
      label="Parts and lengths"
      rows={rows}
      columns={columns}
      idOf={(row) => row.key}
      selectedId={selectedKey}
      hoveredId={(hover && rows.find((row) => isFrom(row, hover))?.key) ?? null}
      chosenIds={new Set(selectedKey === chosen ? (chosen === null ? [] : [chosen]) : about.map(({ key }) => key))}
      select={(row) => {
        setChosen(row.key);
        const sources = sourcesOf(boat, row);
        select(sources[0] ?? null, sources);
      }}
      hover={(row) => {
        const sources = row ? sourcesOf(boat, row) : [];
        setHover(sources[0] ?? null, sources.slice(1));
      }}
      open={(row) => {
        const [first] = sourcesOf(boat, row);
        if (first) goTo(first, place(row));
      }}
      empty={
        all.length === 0
          ? 'Nothing to list yet: place a part or draw a line.'
          : 'No row of this kind: everything is bought or fitted.'
      }
    />
  );
}
