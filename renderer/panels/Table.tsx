import { termOfLabel } from '@core/output/text/term-words';
import {
  type JSX,
  type KeyboardEvent,
  type MouseEvent,
  memo,
  type ReactNode,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { holdsWords, RowFilter } from './row-filter';
import { useRowWindow } from './row-window';
import { TermHeading, TermLabel } from './Term';

export interface Column<Row> {
  readonly key: string;
  readonly title: string;
  /** Right-aligned figures. */
  readonly number?: boolean;
  readonly second?: boolean;
  cell(row: Row): ReactNode;
  /** What the column sorts by; without it the column does not sort. */
  sortBy?(row: Row): number | string;
  /** What a search for rows goes by; without it the text of the cell and what it sorts by. */
  text?(row: Row): string;
}

export interface TableProps<Row> {
  readonly label: string;
  readonly rows: readonly Row[];
  readonly columns: readonly Column<Row>[];
  idOf(row: Row): string;
  readonly selectedId: string | null;
  readonly hoveredId: string | null;
  /** Rows that are picked, the selected one among them. */
  readonly chosenIds?: ReadonlySet<string>;
  select(row: Row): void;
  /** Picks several rows, the last of them in front; without it one row is picked at a time. */
  selectMany?(rows: readonly Row[], last: Row): void;
  /** Picks a row beside the others, or no more. */
  toggle?(row: Row): void;
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
  const { label, columns, idOf, selectedId, hoveredId, chosenIds, select, selectMany, toggle, hover, open, empty } =
    props;
  const { words, counted } = useContext(RowFilter);
  const [sorting, setSorting] = useState<Sorting | null>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  const wanted = useMemo(
    () => (words.trim() === '' ? props.rows : props.rows.filter((row) => holdsWords(words, textsOf(row, columns)))),
    [props.rows, columns, words],
  );
  const rows = useMemo(() => sortedRows(wanted, columns, sorting), [wanted, columns, sorting]);
  useEffect(() => {
    counted(wanted.length, props.rows.length);
  }, [counted, wanted.length, props.rows.length]);
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
  const latest = useRef({ rows, select, selectMany, toggle, hover, open });
  latest.current = { rows, select, selectMany, toggle, hover, open };
  /** Where a range of rows began. */
  const anchor = useRef<Row | null>(null);
  const [acts] = useState<Acts<Row>>(() => ({
    select: (row) => {
      anchor.current = row;
      latest.current.select(row);
    },
    toggle: (row) => {
      anchor.current = row;
      (latest.current.toggle ?? latest.current.select)(row);
    },
    rangeTo: (row) => {
      const { rows: now, selectMany: pick } = latest.current;
      if (!pick) {
        acts.select(row);
        return;
      }
      const [from, to] = [now.indexOf(anchor.current ?? row), now.indexOf(row)];
      pick(from < 0 ? [row] : now.slice(Math.min(from, to), Math.max(from, to) + 1), row);
    },
    hover: (row) => latest.current.hover?.(row),
    open: (row) => (latest.current.open ?? latest.current.select)(row),
    keyDown: (event, row) => {
      const { rows: now, selectMany: pick } = latest.current;
      const isCtrl = event.ctrlKey || event.metaKey;
      if (isCtrl && pick && (event.key === 'a' || event.key === ' ')) {
        event.preventDefault();
        event.stopPropagation();
        if (event.key === 'a') pick(now, row);
        else acts.toggle(row);
        return;
      }
      const target = targetOf(event, latest.current.rows.indexOf(row), latest.current.rows.length);
      const next = target === null ? undefined : latest.current.rows[target];
      if (target === null && event.isDefaultPrevented()) acts.open(row);
      if (target === null || next === undefined) return;
      if (event.shiftKey) acts.rangeTo(next);
      else acts.select(next);
      goingTo.current = focusRow(body.current, target) ? null : target;
    },
  }));

  if (rows.length === 0)
    return (
      <p className="empty">
        {props.rows.length === 0 ? empty : 'No row holds these words. Show all, or look for others.'}
      </p>
    );

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
              <Heading
                title={column.title}
                sorted={sorting?.key !== column.key ? null : sorting.descending ? 'down' : 'up'}
                sort={column.sortBy ? () => setSorting(nextSorting(sorting, column.key)) : null}
              />
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
              isChosen={chosenIds?.has(id) ?? index === selectedIndex}
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

/** A heading sorts where the column can be sorted by; where it is a trade word it says what it means. */
function Heading({
  title,
  sorted,
  sort,
}: {
  readonly title: string;
  readonly sorted: 'up' | 'down' | null;
  readonly sort: (() => void) | null;
}): JSX.Element {
  const term = termOfLabel(title);
  const words = `${title}${sorted === null ? '' : sorted === 'down' ? ' \u2193' : ' \u2191'}`;
  if (sort === null) return <TermLabel>{title}</TermLabel>;
  if (term !== null)
    return (
      <TermHeading term={term} press={sort}>
        {words}
      </TermHeading>
    );
  return (
    <button type="button" onClick={sort}>
      {words}
    </button>
  );
}

interface Acts<Row> {
  select(row: Row): void;
  toggle(row: Row): void;
  /** From the row that was picked before to this one. */
  rangeTo(row: Row): void;
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
  readonly isChosen: boolean;
  readonly isHovered: boolean;
  readonly isFocusable: boolean;
  readonly acts: Acts<Row>;
}

/** As in a list of files: with Ctrl one more or less, with Shift all from the last one on. */
function clicked<Row>(event: MouseEvent, row: Row, acts: Acts<Row>): void {
  if (event.ctrlKey || event.metaKey) acts.toggle(row);
  else if (event.shiftKey) acts.rangeTo(row);
  else acts.select(row);
}

function PlainRow<Row>({
  row,
  index,
  columns,
  isSelected,
  isChosen,
  isHovered,
  isFocusable,
  acts,
}: RowProps<Row>): JSX.Element {
  return (
    <tr
      className={`row${isHovered ? ' hovered' : ''}${isChosen ? ' chosen' : ''}`}
      data-index={index}
      aria-rowindex={index + 2}
      aria-current={isSelected}
      onClick={(event) => clicked(event, row, acts)}
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
              aria-pressed={isChosen}
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

/** What a search of a row goes by. */
const textsOf = <Row,>(row: Row, columns: readonly Column<Row>[]): readonly string[] =>
  columns.flatMap((column) => {
    if (column.text) return [column.text(row)];
    return [column.cell(row), column.sortBy?.(row)].filter((value) => typeof value === 'string');
  });

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
