import { type JSX, type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';

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
  const rows = sortedRows(props.rows, columns, sorting);
  const selectedIndex = rows.findIndex((row) => idOf(row) === selectedId);

  useEffect(() => {
    if (selectedIndex >= 0) body.current?.children[selectedIndex]?.scrollIntoView?.({ block: 'nearest' });
  }, [selectedIndex]);

  if (rows.length === 0) return <p className="empty">{empty}</p>;

  const onKeyDown = (event: KeyboardEvent<HTMLButtonElement>, index: number): void => {
    const last = rows.length - 1;
    const targets: Readonly<Record<string, number>> = {
      ArrowDown: Math.min(last, index + 1),
      ArrowUp: Math.max(0, index - 1),
      PageDown: Math.min(last, index + 6),
      PageUp: Math.max(0, index - 6),
      Home: 0,
      End: last,
    };
    const target = targets[event.key];
    const row = rows[target ?? index];
    if (!row || event.ctrlKey || event.metaKey || event.altKey) return;
    if (target !== undefined) {
      event.preventDefault();
      event.stopPropagation();
      select(row);
      body.current?.children[target]?.querySelector('button')?.focus();
    } else if (event.key === 'Enter') {
      event.preventDefault();
      (open ?? select)(row);
    }
  };

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
          const focusable = selectedIndex >= 0 ? index === selectedIndex : index === 0;
          return (
            <tr
              key={id}
              className={hoveredId === id ? 'row hovered' : 'row'}
              aria-current={index === selectedIndex}
              onClick={() => select(row)}
              onDoubleClick={() => open?.(row)}
              onMouseEnter={() => hover?.(row)}
            >
              {columns.map((column, place) => (
                <td
                  key={column.key}
                  className={
                    [column.number ? 'number' : '', column.second ? 'second' : ''].join(' ').trim() || undefined
                  }
                >
                  {place > 0 ? (
                    column.cell(row)
                  ) : (
                    <button
                      type="button"
                      className="row-name"
                      aria-pressed={index === selectedIndex}
                      tabIndex={focusable ? 0 : -1}
                      onKeyDown={(event) => onKeyDown(event, index)}
                    >
                      {column.cell(row)}
                    </button>
                  )}
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

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
