// @vitest-environment happy-dom
import { analyze } from '@core/analyze';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { amountOf } from '@renderer/panels/tables/StockCell';
import { TakeoffBar } from '@renderer/panels/tables/TakeoffBar';
import { TakeoffTable } from '@renderer/panels/tables/TakeoffTable';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { useTakeoffFilter } from '@renderer/store/takeoff-filter';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';

function opened(): Boat {
  const read = checkBoat(threeLockers());
  if (!read.ok) throw new Error('expected a boat');
  return read.boat;
}
const report = analyze(opened());
const CLAMP = 'clamp|26';

/** The table as the drawer shows it: with the boat of the moment. */
function Shown() {
  const boat = useApp((state) => state.boat);
  return boat ? (
    <>
      <TakeoffBar boat={boat} />
      <TakeoffTable boat={boat} />
    </>
  ) : null;
}

const rowOf = (item: string): HTMLElement => {
  const cell = screen.getAllByRole('row').find((row) => row.textContent?.includes(item));
  if (!cell) throw new Error(`no row ${item}`);
  return cell;
};
const stockNow = () => useApp.getState().boat?.stock;

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  useApp.getState().open(opened(), { fileName: 'lockers.json', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, report);
  useTakeoffFilter.setState({ shown: 'all', group: null });
});
afterEach(cleanup);

describe('the list in the window', () => {
  it('ticks all of a row as one undo step, and back', () => {
    render(<Shown />);
    const clamps = report.takeoff.find(({ key }) => key === CLAMP);
    const tick = within(rowOf('Hose clamp for 26')).getByRole('checkbox', { name: /^Bought: / });
    fireEvent.click(tick);
    expect(stockNow()).toEqual({ [CLAMP]: { bought: clamps?.buy } });
    expect(useApp.getState().canUndo).toContain('Bought');
    act(() => useApp.getState().undo());
    expect(stockNow()).toBeUndefined();
  });

  it('counts, keeps what cannot be a count out, and shows a part as half ticked', () => {
    render(<Shown />);
    const count = (): HTMLInputElement =>
      within(rowOf('Hose clamp for 26')).getByRole('textbox', { name: /^There, how many/ });
    fireEvent.change(count(), { target: { value: '3' } });
    fireEvent.keyDown(count(), { key: 'Enter' });
    expect(stockNow()).toEqual({ [CLAMP]: { have: 3 } });
    const tick = within(rowOf('Hose clamp for 26')).getByRole('checkbox', { name: /^There: / });
    expect((tick as HTMLInputElement).indeterminate).toBe(true);
    fireEvent.change(count(), { target: { value: '-2' } });
    expect(count().getAttribute('aria-invalid')).toBe('true');
    fireEvent.blur(count());
    expect(stockNow()).toEqual({ [CLAMP]: { have: 3 } });
    expect([amountOf('2,5'), amountOf(''), amountOf('1e9'), amountOf('x')]).toEqual([2.5, 0, null, null]);
  });

  it('shows what is still to buy, and no row once that is nothing', () => {
    render(<Shown />);
    const all = report.takeoff.filter(({ buy }) => buy > 0).length;
    fireEvent.click(screen.getByRole('button', { name: `Still to buy ${all}` }));
    expect(screen.getAllByRole('row')).toHaveLength(all + 1);
    fireEvent.click(within(rowOf('Hose clamp for 26')).getByRole('checkbox', { name: /^Bought: / }));
    expect(screen.getByRole('button', { name: `Still to buy ${all - 1}` })).toBeTruthy();
    expect(screen.queryByText('Hose clamp for 26 mm outside')).toBeNull();
  });

  it('lights up all that a row comes from, picked and pointed at', () => {
    render(<Shown />);
    const row = rowOf('Hose clamp for 26');
    const from = report.takeoff.find(({ key }) => key === CLAMP)?.from ?? [];
    expect(from.length).toBeGreaterThan(1);
    fireEvent.mouseEnter(row);
    const { hover, alsoHovered } = useApp.getState();
    expect([hover, ...alsoHovered].map((one) => one?.id)).toEqual(from);
    fireEvent.click(row);
    const { selection, alsoSelected } = useApp.getState();
    expect([selection, ...alsoSelected].map((one) => one?.id)).toEqual(from);
  });

  it('marks the rows of what is picked or pointed at on the drawing', () => {
    render(<Shown />);
    act(() => useApp.getState().select({ kind: 'line', id: 'raw-1' }));
    const marked = screen.getAllByRole('row').filter((row) => row.className.includes('chosen'));
    const wanted = report.takeoff.filter(({ from }) => from.includes('raw-1')).length;
    expect(wanted).toBeGreaterThan(2);
    expect(marked).toHaveLength(wanted);
  });
});
