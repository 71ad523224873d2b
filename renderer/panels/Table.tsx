import { type JSX, type KeyboardEvent, memo, type ReactNode, useEffect, useMemo, useRef, useState } from 'react';

export interface Column<Row> {
  readonly key: string;
  readonly title: string;
  /** Right-aligned figures. */
  readonly number?: boolean;
  readonly second?: boolean;
  cell(row: Row): ReactNode;
  /** What the column sorts by; without it the column does not sort. */
  sortBy?(row: Row): number | string;
}

export interface TableProps<Row> {
  readonly label: string;
  readonly rows: readonly Row[];
  readonly columns: readonly Column<Row>[];
  idOf(row: Row): string;
  readonly selectedId: string | null;
  readonly hoveredId: string | null;
  select(row: Row): void;
  hover?(row: Row | null): void;
  /** Enter or double click: go to its place. */
  open?(row: Row): void;
  readonly empty: string;
}

interface Sorting {
  readonly key: string;
  readonly descending: boolean;
}

/** Rows of 24 px; arrow keys move and select, Enter leads to the place, a click on a heading sorts. */
export function Table<Row>(props: TableProps<Row>): JSX.Element {
  const { label, columns, idOf, selectedId, hoveredId, select, hover, open, empty } = props;
  const [sorting, setSorting] = useState<Sorting | null>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  const rows = useMemo(() => sortedRows(props.rows, columns, sorting), [props.rows, columns, sorting]);
  const selectedIndex = rows.findIndex((row) => idOf(row) === selectedId);

  useEffect(() => {
    if (selectedIndex >= 0) body.current?.children[selectedIndex]?.scrollIntoView?.({ block: 'nearest' });
  }, [selectedIndex]);

  // Rows are drawn again only when they change: what they call is kept in one place that never changes.
  const latest = useRef({ rows, select, hover, open });
  latest.current = { rows, select, hover, open };
  const [acts] = useState<Acts<Row>>(() => ({
    select: (row) => latest.current.select(row),
    hover: (row) => latest.current.hover?.(row),
    open: (row) => (latest.current.open ?? latest.current.select)(row),
    keyDown: (event, row) => moveOn(event, row, latest.current.rows, acts, body.current),
  }));

  if (rows.length === 0) return <p className="empty">{empty}</p>;

  return (
    <table className="grid" aria-label={label}>
      <thead>
        <tr>
          {columns.map((column) => (
            <th
              key={column.key}
              scope="col"
              className={column.number ? 'number' : undefined}
              aria-sort={sorting?.key !== column.key ? undefined : sorting.descending ? 'descending' : 'ascending'}
            >
              {column.sortBy ? (
                <button type="button" onClick={() => setSorting(nextSorting(sorting, column.key))}>
                  {column.title}
                  {sorting?.key === column.key ? (sorting.descending ? ' \u2193' : ' \u2191') : ''}
                </button>
              ) : (
                column.title
              )}
            </th>
          ))}
        </tr>
      </thead>
      <tbody ref={body} onMouseLeave={() => hover?.(null)}>
        {rows.map((row, index) => {
          const id = idOf(row);
          return (
            <TableRow
              key={id}
              row={row}
              columns={columns}
              isSelected={index === selectedIndex}
              isHovered={hoveredId === id}
              isFocusable={selectedIndex >= 0 ? index === selectedIndex : index === 0}
              acts={acts}
            />
          );
        })}
      </tbody>
    </table>
  );
}

interface Acts<Row> {
  select(row: Row): void;
  hover(row: Row): void;
  open(row: Row): void;
  keyDown(event: KeyboardEvent<HTMLButtonElement>, row: Row): void;
}

function moveOn<Row>(
  event: KeyboardEvent<HTMLButtonElement>,
  row: Row,
  rows: readonly Row[],
  acts: Acts<Row>,
  body: HTMLElement | null,
): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === 'Enter') {
    event.preventDefault();
    acts.open(row);
    return;
  }
  const index = rows.indexOf(row);
  const last = rows.length - 1;
  const targets: Readonly<Record<string, number>> = {
    ArrowDown: Math.min(last, index + 1),
    ArrowUp: Math.max(0, index - 1),
    PageDown: Math.min(last, index + ROWS_A_PAGE),
    PageUp: Math.max(0, index - ROWS_A_PAGE),
    Home: 0,
    End: last,
  };
  const target = Object.hasOwn(targets, event.key) ? targets[event.key] : undefined;
  const next = target === undefined ? undefined : rows[target];
  if (target === undefined || next === undefined) return;
  event.preventDefault();
  event.stopPropagation();
  acts.select(next);
  body?.children[target]?.querySelector('button')?.focus();
}

const ROWS_A_PAGE = 6;

interface RowProps<Row> {
  readonly row: Row;
  readonly columns: readonly Column<Row>[];
  readonly isSelected: boolean;
  readonly isHovered: boolean;
  readonly isFocusable: boolean;
  readonly acts: Acts<Row>;
}

function PlainRow<Row>({ row, columns, isSelected, isHovered, isFocusable, acts }: RowProps<Row>): JSX.Element {
  return (
    <tr
      className={isHovered ? 'row hovered' : 'row'}
      aria-current={isSelected}
      onClick={() => acts.select(row)}
      onDoubleClick={() => acts.open(row)}
      onMouseEnter={() => acts.hover(row)}
    >
      {columns.map((column, place) => (
        <td
          key={column.key}
          className={[column.number ? 'number' : '', column.second ? 'second' : ''].join(' ').trim() || undefined}
        >
          {place > 0 ? (
            column.cell(row)
          ) : (
            <button
              type="button"
              className="row-name"
              aria-pressed={isSelected}
              tabIndex={isFocusable ? 0 : -1}
              onKeyDown={(event) => acts.keyDown(event, row)}
            >
              {column.cell(row)}
            </button>
          )}
        </td>
      ))}
    </tr>
  );
}

/** `memo` forgets that a component is generic; the rows of one table are of one kind. */
const TableRow = memo(PlainRow) as typeof PlainRow;

const nextSorting = (now: Sorting | null, key: string): Sorting | null =>
  now?.key !== key ? { key, descending: false } : now.descending ? null : { key, descending: true };

function sortedRows<Row>(
  rows: readonly Row[],
  columns: readonly Column<Row>[],
  sorting: Sorting | null,
): readonly Row[] {
  const by = columns.find((column) => column.key === sorting?.key)?.sortBy;
  if (!sorting || !by) return rows;
  const sign = sorting.descending ? -1 : 1;
  return [...rows].sort((a, b) => {
    const x = by(a);
    const y = by(b);
    if (typeof x === 'number' && typeof y === 'number') return sign * (x - y);
    return sign * String(x).localeCompare(String(y), 'en', { numeric: true });
  });
}
