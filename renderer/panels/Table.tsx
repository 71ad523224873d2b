import { type JSX, type KeyboardEvent, memo, type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { useRowWindow } from './row-window';

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

  const { from, to, above, below, reveal } = useRowWindow(body, rows.length);
  useEffect(() => {
    if (selectedIndex >= 0) reveal(selectedIndex);
  }, [selectedIndex, reveal]);
  // The row that the keyboard goes to may have to come into the page first.
  const goingTo = useRef<number | null>(null);
  useEffect(() => {
    if (goingTo.current !== null && focusRow(body.current, goingTo.current)) goingTo.current = null;
  });

  // Rows are drawn again only when they change: what they call is kept in one place that never changes.
  const latest = useRef({ rows, select, hover, open });
  latest.current = { rows, select, hover, open };
  const [acts] = useState<Acts<Row>>(() => ({
    select: (row) => latest.current.select(row),
    hover: (row) => latest.current.hover?.(row),
    open: (row) => (latest.current.open ?? latest.current.select)(row),
    keyDown: (event, row) => {
      const target = targetOf(event, latest.current.rows.indexOf(row), latest.current.rows.length);
      const next = target === null ? undefined : latest.current.rows[target];
      if (target === null && event.isDefaultPrevented()) acts.open(row);
      if (target === null || next === undefined) return;
      acts.select(next);
      goingTo.current = focusRow(body.current, target) ? null : target;
    },
  }));

  if (rows.length === 0) return <p className="empty">{empty}</p>;

  return (
    <table className="grid" aria-label={label} aria-rowcount={rows.length + 1}>
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
        {above > 0 ? <tr className="left-out" style={{ height: above }} /> : null}
        {rows.slice(from, to).map((row, place) => {
          const id = idOf(row);
          const index = from + place;
          return (
            <TableRow
              key={id}
              row={row}
              index={index}
              columns={columns}
              isSelected={index === selectedIndex}
              isHovered={hoveredId === id}
              isFocusable={index === (selectedIndex >= from && selectedIndex < to ? selectedIndex : from)}
              acts={acts}
            />
          );
        })}
        {below > 0 ? <tr className="left-out" style={{ height: below }} /> : null}
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

/** False where the row is not in the page. */
function focusRow(body: HTMLElement | null, index: number): boolean {
  const name = body?.querySelector(`[data-index="${index}"] button`);
  if (!(name instanceof HTMLElement)) return false;
  name.focus();
  return true;
}

/** The row that a key leads to; null where the key is another's. Enter is taken, and leads to no row. */
function targetOf(event: KeyboardEvent<HTMLButtonElement>, index: number, count: number): number | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  const last = count - 1;
  const targets: Readonly<Record<string, number>> = {
    ArrowDown: Math.min(last, index + 1),
    ArrowUp: Math.max(0, index - 1),
    PageDown: Math.min(last, index + ROWS_A_PAGE),
    PageUp: Math.max(0, index - ROWS_A_PAGE),
    Home: 0,
    End: last,
  };
  const target = Object.hasOwn(targets, event.key) ? (targets[event.key] ?? null) : null;
  if (target === null && event.key !== 'Enter') return null;
  event.preventDefault();
  if (target !== null) event.stopPropagation();
  return target;
}

const ROWS_A_PAGE = 6;

interface RowProps<Row> {
  readonly row: Row;
  readonly index: number;
  readonly columns: readonly Column<Row>[];
  readonly isSelected: boolean;
  readonly isHovered: boolean;
  readonly isFocusable: boolean;
  readonly acts: Acts<Row>;
}

function PlainRow<Row>({ row, index, columns, isSelected, isHovered, isFocusable, acts }: RowProps<Row>): JSX.Element {
  return (
    <tr
      className={isHovered ? 'row hovered' : 'row'}
      data-index={index}
      aria-rowindex={index + 2}
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
