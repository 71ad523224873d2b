// @vitest-environment happy-dom
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { readBoat } from '@core/boat/read';
import { Inspector } from '@renderer/panels/inspector/Inspector';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import type { Selection } from '@renderer/store/types';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const read = readBoat(
  readFileSync(path.join(import.meta.dirname, '../../../../sample-boats/complete/sandwort/boat.json'), 'utf8'),
);
if (!read.ok) throw new Error('expected the sample to be a boat');
const sample = read.boat;
const state = () => useApp.getState();

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  state().open(sample, { fileName: 'sandwort.boat.json', token: null, saved: true });
  useApp.setState({ displayUnits: 'mm' });
});
afterEach(cleanup);

/** happy-dom does not open a `details` by a click on its summary. */
function open(title: string, whole: HTMLElement = document.body): HTMLElement {
  const summary = [...whole.querySelectorAll('summary')].find((one) => one.firstElementChild?.textContent === title);
  const details = summary?.closest('details');
  if (!details) throw new Error(`expected a heading ${title}`);
  details.open = true;
  fireEvent(details, new Event('toggle'));
  return details;
}

function inspect(selection: Selection, title = 'All data'): HTMLElement {
  state().select(selection);
  render(<Inspector />);
  return open(title);
}
const type = (label: string, text: string, whole: HTMLElement = document.body): void => {
  const field = within(whole).getByRole('textbox', { name: label });
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};
const choose = (label: string, value: string): void => {
  fireEvent.change(screen.getByRole('combobox', { name: label }), { target: { value } });
};

describe('all data of a part', () => {
  it('opens its groups and edits a value deep inside in one step that undo takes back', () => {
    inspect({ kind: 'thing', id: 'pump' });
    open('Electrical data');
    const before = state().boat?.parts.pump?.electric?.drawA;
    const steps = state().history.done.length;
    type('Current drawn of PM1, electrical data', '30,5 A');
    expect(state().boat?.parts.pump?.electric?.drawA).toBe(30.5);
    expect(state().history.done.length).toBe(steps + 1);
    expect(state().canUndo).toBe('Current drawn of PM1, electrical data');
    state().undo();
    expect(state().boat?.parts.pump?.electric?.drawA).toBe(before);
  });

  it('keeps what was typed beside the value that it gave', () => {
    inspect({ kind: 'thing', id: 'pump' });
    type('Mass of PM1', '55 lb');
    // published: one pound is 0.45359237 kg
    expect(state().boat?.parts.pump?.massKg).toBe(24.94758);
    expect(state().boat?.typed?.['parts.pump.massKg']).toBe('55 lb');
    type('Mass of PM1', '25');
    expect(state().boat?.typed?.['parts.pump.massKg']).toBeUndefined();
  });

  it('refuses with the limit, and the last good value stands', () => {
    inspect({ kind: 'thing', id: 'pump' });
    const before = state().boat;
    type('Mass of PM1', '-3');
    expect(screen.getByRole('alert').textContent).toBe('It must be at least 0 kg');
    expect(state().boat).toBe(before);
    expect(screen.getByRole('textbox', { name: 'Mass of PM1' }).getAttribute('aria-invalid')).toBe('true');
  });

  it('asks for a value that is not said, and gives it back when the field is emptied', () => {
    inspect({ kind: 'thing', id: 'tap' });
    expect(screen.queryByRole('textbox', { name: 'Heat given off of TP1' })).toBeNull();
    choose('Add to TP1', 'heatW');
    type('Heat given off of TP1', '0.4 kW');
    expect(state().boat?.parts.tap?.heatW).toBe(400);
    const field = screen.getByRole('textbox', { name: 'Heat given off of TP1' });
    fireEvent.change(field, { target: { value: '' } });
    fireEvent.blur(field);
    expect(state().boat?.parts.tap?.heatW).toBeUndefined();
  });

  it('adds electrical data on demand and takes them out again', () => {
    inspect({ kind: 'thing', id: 'tap' });
    choose('Add to TP1', 'electric');
    expect(state().boat?.parts.tap?.electric).toEqual({});
    fireEvent.click(screen.getByRole('button', { name: 'Remove TP1, electrical data' }));
    expect(state().boat?.parts.tap?.electric).toBeUndefined();
  });

  it('leaves open what may be left open: yes, no, not said', () => {
    inspect({ kind: 'thing', id: 'pump' });
    open('Electrical data');
    if (state().boat?.parts.pump?.electric?.brushed === undefined) choose('Add to PM1, electrical data', 'brushed');
    choose('Makes sparks of PM1, electrical data', 'no');
    expect(state().boat?.parts.pump?.electric?.brushed).toBe(false);
    choose('Makes sparks of PM1, electrical data', 'yes');
    expect(state().boat?.parts.pump?.electric?.brushed).toBe(true);
    choose('Makes sparks of PM1, electrical data', '');
    expect(state().boat?.parts.pump?.electric?.brushed).toBeUndefined();
  });

  it('adds, renames, duplicates and removes ports; the lines at them follow', () => {
    const panel = inspect({ kind: 'thing', id: 'strainer' });
    const ports = open('Ports', panel);
    fireEvent.click(within(ports).getByRole('button', { name: 'Add a port' }));
    expect(Object.keys(state().boat?.parts.strainer?.ports ?? {})).toContain('port');
    open('inlet', ports);
    type('Id of inlet, SR1, ports', 'sea-in', ports);
    expect(state().boat?.lines.r1?.to).toEqual({ thing: 'strainer', port: 'sea-in' });
    open('sea-in', ports);
    fireEvent.click(within(ports).getByRole('button', { name: 'Duplicate sea-in of SR1, ports' }));
    expect(Object.keys(state().boat?.parts.strainer?.ports ?? {})).toContain('sea-in-2');
    fireEvent.click(within(ports).getByRole('button', { name: 'Remove sea-in of SR1, ports' }));
    expect(state().boat?.lines.r1).toBeUndefined();
    state().undo();
    expect(state().boat?.lines.r1).toBeDefined();
  });

  it('refuses an id that is taken or is none', () => {
    const ports = open('Ports', inspect({ kind: 'thing', id: 'strainer' }));
    open('inlet', ports);
    type('Id of inlet, SR1, ports', 'outlet', ports);
    expect(within(ports).getByRole('alert').textContent).toContain('outlet is taken');
    expect(Object.keys(state().boat?.parts.strainer?.ports ?? {})).toEqual(['inlet', 'outlet']);
    type('Id of inlet, SR1, ports', 'in let', ports);
    expect(within(ports).getByRole('alert').textContent).toContain('Letters, digits');
  });

  it('changes the form of its envelope', () => {
    const panel = inspect({ kind: 'thing', id: 'tap' });
    open('Shape', panel);
    choose('Form of TP1, shape', 'cylinder');
    expect(state().boat?.parts.tap?.shape.type).toBe('cylinder');
  });

  it('says below what the field in hand means', () => {
    const panel = inspect({ kind: 'thing', id: 'pump' });
    fireEvent.focus(within(panel).getByRole('textbox', { name: 'Mass of PM1' }));
    expect(panel.querySelector('.record-hint')?.textContent).toContain('as it stands aboard');
  });
});

describe('what was typed in a panel of its own', () => {
  it('is kept beside the value, shown there, and gone when the thing is changed otherwise', () => {
    state().select({ kind: 'thing', id: 'pump' });
    const view = render(<Inspector />);
    type('Size along its own x', '17 3/4 in');
    expect(state().boat?.typed?.['parts.pump.shape.sizeM[0]']).toBe('17 3/4 in');
    view.rerender(<Inspector />);
    expect(screen.getByText('typed 17 3/4 in')).toBeDefined();
    state().edit('Size', (boat) => {
      const own = boat.parts.pump;
      if (own?.shape.type === 'box') own.shape.sizeM[0] = 0.4;
    });
    expect(state().boat?.typed?.['parts.pump.shape.sizeM[0]']).toBeUndefined();
  });
});

describe('all data of other records', () => {
  it('offers compartments for the side of an opening, and grades one of its values alone', () => {
    const id = Object.keys(sample.openings)[0] ?? '';
    inspect({ kind: 'opening', id });
    const name = sample.openings[id]?.name ?? id;
    const other = Object.keys(sample.compartments).find((one) => one !== sample.openings[id]?.compartment) ?? '';
    choose(`Compartment of ${name}`, other);
    expect(state().boat?.openings[id]?.compartment).toBe(other);
    open('Grades of single values');
    choose(`Grade one value of ${name}`, 'widthM');
    choose(`Grade of Width of ${name}`, 'guessed');
    expect(state().boat?.gradeOf?.[`openings.${id}.widthM`]).toBe('guessed');
  });

  it('of a place: the surface that the part is screwed to, and the ways in', () => {
    inspect({ kind: 'thing', id: 'pump' }, 'All data of its place');
    const surface = Object.keys(sample.mountingSurfaces)[1] ?? '';
    choose('Screwed to of the place of PM1', surface);
    expect(state().boat?.arrangements['a-quarter']?.places.pump?.mountedOn).toBe(surface);
  });

  it('of a line: ends can be led to other ports of the thing at that end', () => {
    const panel = inspect({ kind: 'line', id: 'r1' });
    open('To', panel);
    choose('Port of S1, to', 'outlet');
    expect(state().boat?.lines.r1?.to.port).toBe('outlet');
  });
});
