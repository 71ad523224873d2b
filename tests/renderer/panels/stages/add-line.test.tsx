// @vitest-environment happy-dom
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { readBoat } from '@core/boat/read';
import { AddLine } from '@renderer/panels/stages/AddLine';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const file = path.join(import.meta.dirname, '../../../../sample-boats/complete/sandwort/boat.json');
const read = readBoat(readFileSync(file, 'utf8'));
if (!read.ok) throw new Error('expected the sample to be a boat');
const sample = read.boat;
const state = () => useApp.getState();

beforeEach(() => {
  const nothing = (): void => {};
  connectEngine({ open: nothing, edit: nothing, whatIf: nothing, endWhatIf: nothing });
  connectJournal({ append: nothing });
  state().open(sample, { fileName: 'sandwort.boat.json', token: null, saved: true });
});
afterEach(cleanup);
const choose = (label: string, value: string): void => {
  fireEvent.change(screen.getByRole('combobox', { name: label }), { target: { value } });
};

describe('a line by its two ports', () => {
  it('is offered in a hose of the bore of the ports, another kind when it is picked', () => {
    const without = {
      ...sample,
      lines: Object.fromEntries(Object.entries(sample.lines).filter(([id]) => id !== 'r2')),
    };
    state().open(without, { fileName: 'sandwort.boat.json', token: null, saved: true });
    render(<AddLine boat={without} />);
    choose('From port of the new line', 'strainer/outlet');
    choose('To port of the new line', 'service-valve/sea');
    fireEvent.click(screen.getByRole('button', { name: 'Add' }));
    const made = state().boat?.lines[state().selection?.id ?? ''];
    // The ports have a bore of 19 mm.
    expect(made).toMatchObject({ kind: 'hose-suction-19', from: { thing: 'strainer', port: 'outlet' } });
  });

  it('says what speaks against it', () => {
    render(<AddLine boat={sample} />);
    choose('From port of the new line', 'strainer/outlet');
    choose('To port of the new line', 'tap/inlet');
    expect(screen.getByText(/sea water|product/i, { selector: 'p' })).toBeDefined();
  });
});
