// @vitest-environment happy-dom
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { readBoat } from '@core/boat/read';
import { setIntoBoat } from '@core/engine/first-boat/set-into-boat';
import { BoatData } from '@renderer/panels/data/BoatData';
import { Catalogue } from '@renderer/panels/data/catalogue/Catalogue';
import { PART_ENTRIES } from '@renderer/panels/data/catalogue/entries';
import { openDataSheet } from '@renderer/panels/data/data-sheet';
import { DataSheet } from '@renderer/panels/data/sheet/DataSheet';
import { ThreeViews } from '@renderer/panels/data/ThreeViews';
import { WholeSet } from '@renderer/panels/data/WholeSet';
import { Arrangements } from '@renderer/panels/stages/Arrangements';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectStudies } from '@renderer/store/connections';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const file = path.join(import.meta.dirname, '../../../sample-boats/complete/sandwort/boat.json');
const read = readBoat(readFileSync(file, 'utf8'));
if (!read.ok) throw new Error('expected the sample to be a boat');
const sample = read.boat;
const state = () => useApp.getState();
const nothing = (): void => {};

beforeEach(() => {
  connectEngine({ open: nothing, edit: nothing, whatIf: nothing, endWhatIf: nothing });
  connectJournal({ append: nothing });
  connectStudies({
    study(kind, from, told) {
      if (kind === 'wholeSet') told({ ok: true, gives: setIntoBoat(from as Parameters<typeof setIntoBoat>[0]) });
      return nothing;
    },
  });
  state().open(sample, { fileName: 'sandwort.boat.json', token: null, saved: true });
  useApp.setState({ displayUnits: 'mm' });
});
afterEach(cleanup);

const type = (label: string | RegExp, text: string): void => {
  const field = screen.getByRole('textbox', { name: label });
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};
const choose = (label: string | RegExp, value: string): void => {
  fireEvent.change(screen.getByRole('combobox', { name: label }), { target: { value } });
};
const press = (name: string | RegExp): void => {
  fireEvent.click(screen.getByRole('button', { name }));
};

describe('the catalogue', () => {
  it('finds by every word, marks each entry typical, and puts a part into a compartment in one step', () => {
    render(<Catalogue close={nothing} />);
    const steps = state().history.done.length;
    fireEvent.change(screen.getByRole('searchbox', { name: 'Find in the catalogue' }), {
      target: { value: 'filter 5 mic' },
    });
    const options = within(screen.getByRole('listbox')).getAllByRole('option');
    expect(options.map((option) => option.textContent)).toEqual([expect.stringContaining('Fine filter 5 micron')]);
    expect(options[0]?.textContent).toContain('typical');
    choose('Compartment to put it into', 'nav-locker');
    press('Add as a part to fit');
    const picked = state().selection?.id ?? '';
    expect(state().boat?.parts[picked]?.micron).toBe(5);
    const at = state().boat?.arrangements['a-quarter']?.places[picked]?.at;
    // derived: the middle of the locker's bounds along x, 3.6 to 4.88 m
    expect(at?.[0]).toBeCloseTo(4.24, 6);
    expect(state().history.done.length).toBe(steps + 1);
  });

  it('goes from entry to entry by the arrow keys', () => {
    render(<Catalogue close={nothing} />);
    fireEvent.keyDown(screen.getByRole('listbox'), { key: 'ArrowDown' });
    const picked = screen.getAllByRole('option').findIndex((option) => option.getAttribute('aria-selected') === 'true');
    expect(picked).toBe(1);
    expect(screen.getByRole('heading', { name: PART_ENTRIES[1]?.part.name ?? '' })).toBeDefined();
  });

  it('keeps a hose with the boat, to be edited there', () => {
    render(<Catalogue close={nothing} />);
    press('Hoses, tubes, cables');
    press('Keep with this boat to edit it');
    expect(state().boat?.lineKinds['hose-suction-13']?.outsideM).toBe(0.019);
    type(/^Outside diameter of/, '3/4 in');
    // derived: 0.75 x 25.4 mm
    expect(state().boat?.lineKinds['hose-suction-13']?.outsideM).toBe(0.01905);
    press('Typical values again');
    expect(state().boat?.lineKinds['hose-suction-13']).toBeUndefined();
  });
});

describe('a part from its data sheet', () => {
  it('is drawn as it is typed, and saved in one step with what was typed', () => {
    openDataSheet({ kind: 'new' });
    render(<DataSheet close={nothing} />);
    const before = state().boat;
    const steps = state().history.done.length;
    type('Name of the part', 'Quiet pump');
    type('Length of the envelope', '450 mm');
    type('Width of the envelope', '17 3/4 in');
    press('Add a port');
    type('Name of port 1', 'inlet');
    type('From the bottom to port inlet', '30');
    type('From the starboard side to port inlet', '4 in');
    // The picture says the sizes, too, and the boat is as it was.
    expect(screen.getByRole('img').getAttribute('aria-label')).toMatch(/450 by 450\.[89] by 150/);
    expect(state().boat).toBe(before);
    press('Save into the boat');
    const part = state().boat?.parts[state().selection?.id ?? ''];
    expect(part?.shape).toEqual({ type: 'box', sizeM: [0.45, 0.45085, 0.15] });
    // derived: after end x -450/2; from starboard 101.6 - 450.85/2; from the bottom 30 - 150/2
    expect(part?.ports.inlet?.at).toEqual([-0.225, -0.123825, -0.045]);
    expect(part?.ports.inlet?.direction).toEqual([-1, 0, 0]);
    expect(state().boat?.typed?.[`parts.${state().selection?.id}.shape.sizeM[1]`]).toBe('17 3/4 in');
    expect(state().history.done.length).toBe(steps + 1);
  });

  it('refuses a place off the face with the size of the face', () => {
    openDataSheet({ kind: 'edit', id: 'strainer' });
    render(<DataSheet close={nothing} />);
    type('From the bottom to port inlet', '900');
    expect(screen.getByRole('alert').textContent).toBe('It must be from 0 to 200 mm, the size of that face');
    press('Save');
    expect(state().boat?.parts.strainer).toEqual(sample.parts.strainer);
  });

  it('opens again for a part of the boat; its ports keep their distances when the envelope grows', () => {
    openDataSheet({ kind: 'edit', id: 'strainer' });
    render(<DataSheet close={nothing} />);
    type('Height of the envelope', '300');
    press('Save');
    // derived: the port stood 100 mm over the bottom of 200 mm; of 300 mm that is 50 mm under the middle
    expect(state().boat?.parts.strainer?.ports.inlet?.at).toEqual([0.06, 0, -0.05]);
  });
});

describe('three views', () => {
  it('draw every entry of the catalogue inside their frame', () => {
    for (const { part } of PART_ENTRIES) {
      const { container, unmount } = render(<ThreeViews part={part} width={500} height={400} dimensions />);
      const numbers = [...container.querySelectorAll('path.body')].flatMap(
        (path) => (path.getAttribute('d') ?? '').match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [],
      );
      expect(numbers.length).toBeGreaterThan(0);
      expect([part.name, Math.min(...numbers) >= 0, Math.max(...numbers) <= 500]).toEqual([part.name, true, true]);
      unmount();
    }
  });
});

describe('a whole set', () => {
  it('says where each part goes and what it is joined to, and is placed in one step that undo takes back', async () => {
    render(<WholeSet close={nothing} />);
    await act(() => new Promise((done) => setTimeout(done, 5)));
    const before = Object.keys(state().boat?.parts ?? {}).length;
    const steps = state().history.done.length;
    press(/^Place \d+ of \d+ parts and \d+ lines$/);
    expect(Object.keys(state().boat?.parts ?? {}).length).toBeGreaterThan(before + 8);
    expect(state().history.done.length).toBe(steps + 1);
    state().undo();
    expect(state().boat?.parts).toEqual(sample.parts);
  });
});

describe('all data of the boat', () => {
  it('has a page for every key of the file; people and demands are entered and undone there', () => {
    render(<BoatData close={nothing} />);
    press(/^People/);
    expect(screen.getByRole('heading', { name: 'People' })).toBeDefined();
    press('Add a person');
    expect(Object.values(state().boat?.people ?? {})).toContainEqual({ name: 'New', percentile: 50 });
    press(/^Undo:/);
    expect(state().boat?.people).toEqual(sample.people);
  });

  it('has empty fields for what the boat says nothing of yet', () => {
    const { needs: _, ...silent } = sample;
    state().open(silent, { fileName: 'silent.boat.json', token: null, saved: true });
    render(<BoatData close={nothing} />);
    press(/^Needs/);
    type('Water wanted a day of needs', '10 gal/d');
    // derived: 10 x 3.785411784 litres
    expect(state().boat?.needs?.waterLDay).toBeCloseTo(37.854118, 6);
    press(/^Undo:/);
    expect(state().boat?.needs).toBeUndefined();
  });

  it('shows why an edit was refused inside the dialog', () => {
    render(<BoatData close={nothing} />);
    act(() => {
      state().edit('Lead astray', (boat) => {
        boat.currentArrangement = 'nowhere';
      });
    });
    expect(
      within(screen.getByRole('dialog', { hidden: true })).getByText(/currentArrangement is "nowhere"/),
    ).toBeDefined();
  });
});

describe('arrangements', () => {
  it('are duplicated and judged, renamed, noted and deleted', () => {
    const view = render(<Arrangements boat={sample} />);
    press('Duplicate');
    const copy = state().arrangementId;
    expect(copy).not.toBe('a-quarter');
    const boat = state().boat;
    if (!boat) throw new Error('expected a boat');
    view.rerender(<Arrangements boat={boat} />);
    type('Name of the arrangement', 'Settee');
    const notes = screen.getByRole('textbox', { name: 'Notes on the arrangement' });
    fireEvent.change(notes, { target: { value: 'Louder, but dry.' } });
    fireEvent.blur(notes);
    expect(state().boat?.arrangements[copy ?? '']).toMatchObject({ name: 'Settee', notes: 'Louder, but dry.' });
    press('Delete');
    expect(Object.keys(state().boat?.arrangements ?? {})).toEqual(Object.keys(sample.arrangements));
  });
});
