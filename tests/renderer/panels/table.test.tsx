// @vitest-environment happy-dom

import { holdsWords, RowFilter } from '@renderer/panels/row-filter';
import { windowOf } from '@renderer/panels/row-window';
import { type Column, Table } from '@renderer/panels/Table';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { useState } from 'react';
import { afterEach, describe, expect, it } from 'vitest';

interface Row {
  readonly id: string;
  readonly length: number;
}

const ROWS: readonly Row[] = [
  { id: 'R10', length: 2 },
  { id: 'R2', length: 3 },
  { id: 'R1', length: 1 },
];
let drawn: string[] = [];
const COLUMNS: readonly Column<Row>[] = [
  { key: 'id', title: 'Run', cell: (row) => row.id, sortBy: (row) => row.id },
  {
    key: 'length',
    title: 'Length',
    number: true,
    cell: (row) => {
      drawn.push(row.id);
      return row.length;
    },
    sortBy: (row) => row.length,
  },
];

function show(selectedId: string | null, acts: { select?: (row: Row) => void; open?: (row: Row) => void } = {}) {
  return (
    <Table
      label="Runs"
      rows={ROWS}
      columns={COLUMNS}
      idOf={(row) => row.id}
      selectedId={selectedId}
      hoveredId={null}
      select={(row) => acts.select?.(row)}
      open={(row) => acts.open?.(row)}
      empty="None"
    />
  );
}

const order = (): (string | null)[] =>
  within(screen.getByRole('table'))
    .getAllByRole('row')
    .slice(1)
    .map((row) => within(row).getByRole('button').textContent);

afterEach(() => {
  cleanup();
  drawn = [];
});

describe('a table', () => {
  it('sorts by a column up, down and not at all; names with numbers in the order of their numbers', () => {
    render(show(null));
    const heading = screen.getByRole('button', { name: /^Run/ });
    fireEvent.click(heading);
    expect(order()).toEqual(['R1', 'R2', 'R10']);
    fireEvent.click(heading);
    expect(order()).toEqual(['R10', 'R2', 'R1']);
    fireEvent.click(heading);
    expect(order()).toEqual(
      ['R10', 'R2', 'R1'].toSorted((a, b) => ROWS.findIndex((r) => r.id === a) - ROWS.findIndex((r) => r.id === b)),
    );
    fireEvent.click(screen.getByRole('button', { name: /^Length/ }));
    expect(order()).toEqual(['R1', 'R10', 'R2']);
  });

  it('is walked by arrow keys, each step a selection; Enter leads to the place', () => {
    const picked: string[] = [];
    render(show('R10', { select: (row) => picked.push(row.id), open: (row) => picked.push(`open ${row.id}`) }));
    const first = screen.getByRole('button', { name: 'R10' });
    expect(first.tabIndex).toBe(0);
    fireEvent.keyDown(first, { key: 'ArrowDown' });
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'R2' }));
    fireEvent.keyDown(screen.getByRole('button', { name: 'R2' }), { key: 'End' });
    fireEvent.keyDown(screen.getByRole('button', { name: 'R1' }), { key: 'Enter' });
    expect(picked).toEqual(['R2', 'R1', 'open R1']);
  });

  it('draws only the rows that change when the selection moves', () => {
    const { rerender } = render(show('R10'));
    drawn = [];
    rerender(show('R1'));
    expect(drawn.toSorted()).toEqual(['R1', 'R10']);
  });
});

describe('a long table', () => {
  it('has only rows near the sight in the page, and leaves the room of the others', () => {
    const all = windowOf(150, 0);
    expect(all).toEqual({ from: 0, to: 150, above: 0, below: 0 });
    const far = windowOf(1000, 500 * 24);
    expect(far.to - far.from).toBeLessThan(100);
    expect(far.from).toBeLessThan(500);
    expect(far.to).toBeGreaterThan(520);
    // derived: what is left out above, what is in the page and what is left out below add up to all rows of 24 px
    expect(far.above + (far.to - far.from) * 24 + far.below).toBe(1000 * 24);
    expect(windowOf(1000, 1e6).to).toBe(1000);
  });
});

/** A table of which many rows can be picked, as the drawer has it. */
function Many({
  words = '',
  counted = () => {},
}: {
  readonly words?: string;
  counted?(shown: number, all: number): void;
}) {
  const [picked, setPicked] = useState<readonly string[]>([]);
  const asked = { words, counted };
  return (
    <RowFilter.Provider value={asked}>
      <Table
        label="Many"
        rows={ROWS}
        columns={COLUMNS}
        idOf={(row) => row.id}
        selectedId={picked.at(-1) ?? null}
        hoveredId={null}
        chosenIds={new Set(picked)}
        select={(row) => setPicked([row.id])}
        selectMany={(rows, last) => setPicked([...rows.map(({ id }) => id).filter((id) => id !== last.id), last.id])}
        toggle={(row) =>
          setPicked(picked.includes(row.id) ? picked.filter((id) => id !== row.id) : [...picked, row.id])
        }
        empty="None"
      />
    </RowFilter.Provider>
  );
}
const pressed = (): readonly (string | null)[] =>
  screen
    .getAllByRole('button', { pressed: true })
    .map((button) => button.textContent)
    .sort();
const rowButton = (name: string): HTMLElement => screen.getByRole('button', { name });

describe('rows of a table', () => {
  it('are picked several at a time by mouse: one more with Ctrl, a stretch with Shift, one alone without', () => {
    render(<Many />);
    fireEvent.click(rowButton('R10'));
    fireEvent.click(rowButton('R1'), { ctrlKey: true });
    expect(pressed()).toEqual(['R1', 'R10']);
    fireEvent.click(rowButton('R1'), { ctrlKey: true });
    expect(pressed()).toEqual(['R10']);
    fireEvent.click(rowButton('R10'));
    fireEvent.click(rowButton('R1'), { shiftKey: true });
    expect(pressed()).toEqual(['R1', 'R10', 'R2']);
    fireEvent.click(rowButton('R2'));
    expect(pressed()).toEqual(['R2']);
  });

  it('are picked several at a time by keys: Shift and an arrow, Ctrl and space, Ctrl and A', () => {
    render(<Many />);
    fireEvent.click(rowButton('R10'));
    fireEvent.keyDown(rowButton('R10'), { key: 'ArrowDown', shiftKey: true });
    expect(pressed()).toEqual(['R10', 'R2']);
    expect(document.activeElement?.textContent).toBe('R2');
    fireEvent.keyDown(rowButton('R2'), { key: ' ', ctrlKey: true });
    expect(pressed()).toEqual(['R10']);
    fireEvent.keyDown(rowButton('R2'), { key: 'a', ctrlKey: true });
    expect(pressed()).toEqual(['R1', 'R10', 'R2']);
    fireEvent.keyDown(rowButton('R1'), { key: 'ArrowUp' });
    expect(pressed()).toEqual(['R2']);
  });

  it('are left out where they lack a word that is looked for; how many are left is told', () => {
    const told: (readonly [number, number])[] = [];
    const { rerender } = render(<Many words="r1" counted={(shown, all) => told.push([shown, all])} />);
    expect(screen.queryByRole('button', { name: 'R2' })).toBeNull();
    expect(rowButton('R10')).toBeTruthy();
    expect(told.at(-1)).toEqual([2, 3]);
    rerender(<Many words="zebra" counted={(shown, all) => told.push([shown, all])} />);
    expect(screen.getByText('No row holds these words. Show all, or look for others.')).toBeTruthy();
    expect(told.at(-1)).toEqual([0, 3]);
    rerender(<Many words="" />);
    expect(rowButton('R2')).toBeTruthy();
  });
});

describe('words of a row', () => {
  it('are met in any order and case, all of them, anywhere', () => {
    expect(holdsWords('locker FINE', ['FL2', 'Fine filter', 'Nav seat locker'])).toBe(true);
    expect(holdsWords('fine  ', ['Fine filter'])).toBe(true);
    expect(holdsWords('fine saloon', ['Fine filter', 'Nav seat locker'])).toBe(false);
  });
});
