// @vitest-environment happy-dom
import { windowOf } from '@renderer/panels/row-window';
import { type Column, Table } from '@renderer/panels/Table';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
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
