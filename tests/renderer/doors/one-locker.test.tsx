// @vitest-environment happy-dom
import type { Boat } from '@core/boat/schema/boat';
import { connectDocuments } from '@renderer/app/commands';
import type { Documents } from '@renderer/app/document';
import { useDoor } from '@renderer/doors/door';
import { OneLocker } from '@renderer/doors/one-locker/OneLocker';
import { useLocker } from '@renderer/doors/one-locker/state';
import { act, cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { studiesAtHand } from '../worker/studies-at-hand';

const START = useLocker.getInitialState();
let opened: Boat[] = [];
let endStudies = (): void => {};
const nothing = async (): Promise<void> => {};

beforeEach(() => {
  endStudies = studiesAtHand();
  opened = [];
  useLocker.setState(START, true);
  useDoor.getState().show('oneLocker');
  const documents: Partial<Documents> = {
    openNew: async (boat) => {
      opened.push(boat);
    },
    savePdf: nothing,
  };
  connectDocuments(documents as Documents);
});
afterEach(() => {
  cleanup();
  endStudies();
});
// A search is waited for, however busy the machine.
configure({ asyncUtilTimeout: 20_000 });

const type = (label: string, value: string): void => {
  const field = screen.getByRole('textbox', { name: label });
  fireEvent.change(field, { target: { value } });
  fireEvent.keyDown(field, { key: 'Enter' });
};
const tryPart = (id: string): void => {
  fireEvent.change(screen.getByRole('combobox', { name: 'Part to try' }), { target: { value: id } });
  fireEvent.click(screen.getByRole('button', { name: 'Try it' }));
};
const rowOf = async (name: RegExp): Promise<HTMLElement> => {
  const row = (await screen.findByRole('button', { name })).closest('tr');
  if (!row) throw new Error(`expected a row of ${name}`);
  return row;
};
const measured = (): void => {
  type('Length, fore and aft', '506');
  type('Height', '600');
  type('Depth at the bottom', '400');
  type('Depth at the top', '400');
  type('Width of the opening', '390');
  type('Height of the opening', '390');
};

describe('the one-locker door', () => {
  it('marks every example value as a guess, and a typed one as a reading', () => {
    render(<OneLocker />);
    const gradeOf = (name: string) =>
      screen.getByRole<HTMLSelectElement>('combobox', { name: `How well known: ${name}` }).value;
    expect(gradeOf('Length, fore and aft')).toBe('guessed');
    type('Length, fore and aft', '1 m');
    type('Width of the opening', '20 in');
    expect(gradeOf('Length, fore and aft')).toBe('taped');
    expect(gradeOf('Width of the opening')).toBe('measured');
    expect(useLocker.getState().locker.readings.openingWidth.valueM).toBeCloseTo(0.508, 9);
  });

  it('answers for a part of own sizes: 500 in 506, 6 to spare, with its doubt; and follows an edit', async () => {
    render(<OneLocker />);
    measured();
    tryPart('ownBox');
    type('Length of the part', '500');
    fireEvent.click(screen.getByRole('checkbox', { name: 'Must stand upright' }));
    const row = await rowOf(/P1 Own box/);
    await waitFor(() => expect(within(row).getByText(/Fits, 6 to spare \u00b1/)).toBeTruthy());
    expect(screen.getByText(/Tightest between aft end and forward end/)).toBeTruthy();
    type('Length, fore and aft', '420');
    await waitFor(() => expect(screen.getByText(/^Not found, \d+ short/)).toBeTruthy());
    expect(screen.getByText(/nor a proof that there is none\. Tried 4 square ways round/)).toBeTruthy();
  });

  it('names a reading that cannot be, with the limit, and keeps what was entered', async () => {
    render(<OneLocker />);
    tryPart('ownBox');
    await rowOf(/P1 Own box/);
    type('Width of the opening', '2000');
    expect(screen.getByRole('alert').textContent).toBe('The opening is 2000 mm wide, its side of the locker 900 mm');
    expect(screen.getByRole<HTMLButtonElement>('button', { name: 'Turn it into a boat' }).disabled).toBe(true);
    expect(screen.getByRole('button', { name: /P1 Own box/ })).toBeTruthy();
    type('Width of the opening', '400');
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('takes room for service that the owner adds, and says which is short', async () => {
    render(<OneLocker />);
    measured();
    tryPart('ownBox');
    fireEvent.click(screen.getByRole('checkbox', { name: 'Must stand upright' }));
    fireEvent.click(screen.getByRole('button', { name: 'Add room' }));
    const row = await rowOf(/P1 Own box/);
    await waitFor(() => expect(within(row).getByText('1 of 1')).toBeTruthy());
    type('Room for room on its top', '350');
    await waitFor(() => expect(within(row).getByText(/0 of 1, room on its top 50 short/)).toBeTruthy());
  });

  it('several parts: one is left out where there is no room for both, and the effort is told', async () => {
    render(<OneLocker />);
    measured();
    type('Height', '310');
    type('Height of the opening', '300');
    tryPart('ownBox');
    tryPart('ownBox');
    await waitFor(() =>
      expect(screen.getByText(/left out: no place found beside the others.*Tried \d+ places/)).toBeTruthy(),
    );
    fireEvent.click(screen.getByRole('button', { name: 'Draw all together' }));
    expect(useLocker.getState().shown).toBeNull();
  });

  it('turns into a boat that keeps locker, opening, grades, parts and places', async () => {
    render(<OneLocker />);
    measured();
    tryPart('ownBox');
    await rowOf(/P1 Own box/);
    const turn = screen.getByRole<HTMLButtonElement>('button', { name: 'Turn it into a boat' });
    await waitFor(() => expect(turn.disabled).toBe(false));
    await act(async () => fireEvent.click(turn));
    const [boat] = opened;
    expect(useDoor.getState().door).toBeNull();
    expect(boat?.compartments.locker?.rangeM).toEqual([0, 0.506]);
    expect(boat?.openings.opening).toMatchObject({ widthM: 0.39, grade: 'measured' });
    expect(boat?.gradeOf?.['compartments.locker.rangeM.1']).toBe('taped');
    expect(Object.keys(boat?.parts ?? {})).toEqual(['box']);
    expect(boat?.arrangements.first?.places.box?.at).toHaveLength(3);
  });

  it('is left by its button, and finds everything as it was when it is opened again', async () => {
    render(<OneLocker />);
    type('Height', '777');
    tryPart('ownCylinder');
    fireEvent.click(screen.getByRole('button', { name: 'Close' }));
    expect(useDoor.getState().door).toBeNull();
    cleanup();
    render(<OneLocker />);
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: 'Height' }).value).toBe('777');
    expect(await rowOf(/P1 Own cylinder/)).toBeTruthy();
  });
});
