// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import { Stowage } from '@renderer/panels/stages/Stowage';
import { CompartmentsTable } from '@renderer/panels/tables/CompartmentsTable';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';
import { studiesAtHand } from '../../worker/studies-at-hand';

let end = (): void => {};

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  end = studiesAtHand();
  const read = readBoat(
    JSON.stringify({
      ...threeLockers(),
      lines: {},
      stowageBoxes: {
        filters: { name: 'Filters', sizeM: [0.4, 0.3, 0.2], near: 'strainer', massKg: 3 },
        anchor: { name: 'Second anchor', sizeM: [1.4, 0.9, 0.9], near: 'fore' },
      },
    }),
  );
  if (!read.ok) throw new Error(read.problems[0]?.message);
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
});
afterEach(() => {
  cleanup();
  end();
});

const Both = () => {
  const boat = useApp((state) => state.boat);
  return boat ? (
    <>
      <Stowage boat={boat} />
      <CompartmentsTable boat={boat} />
    </>
  ) : null;
};

describe('stowage', () => {
  it('tells of each box the compartment that takes it, and of each compartment what the plan takes of it', async () => {
    render(<Both />);
    const [filters, anchor] = within(screen.getByRole('region', { name: 'To stow' })).getAllByRole('listitem');
    await screen.findByText('no compartment takes it');
    expect(filters?.textContent).toBe('Filters, 400 × 300 × 200 mm, 3.0 kgMiddle locker, near Strainer');
    expect(anchor?.textContent).toMatch(/^Second anchor.*no compartment takes it$/);
    const row = screen.getByRole('row', { name: /^Middle locker/ });
    // derived: the strainer is a box of 0.13 x 0.12 x 0.2 m, 3.12 L
    expect(within(row).getByText('3.1')).toBeTruthy();
    fireEvent.click(within(filters as HTMLElement).getByRole('button', { name: 'Middle locker' }));
    expect(useApp.getState().selection).toEqual({ kind: 'compartment', id: 'middle' });
  });

  it('begins a new box with one step to undo', () => {
    render(<Both />);
    fireEvent.click(screen.getByRole('button', { name: 'Add a box to stow' }));
    expect(Object.keys(useApp.getState().boat?.stowageBoxes ?? {})).toHaveLength(3);
    expect(useApp.getState().canUndo).toBe('Add a box to stow');
    useApp.getState().undo();
    expect(Object.keys(useApp.getState().boat?.stowageBoxes ?? {})).toHaveLength(2);
  });
});
