// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import { SurveyPanel } from '@renderer/panels/survey/SurveyPanel';
import { SurveyTable } from '@renderer/panels/survey/SurveyTable';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';
import { madeSurvey } from '../../support/surveys';

const state = () => useApp.getState();
const put = (survey?: object): void => {
  const read = readBoat(JSON.stringify({ ...threeLockers(), ...(survey ? { survey } : {}) }));
  if (!read.ok) throw new Error('expected a boat');
  state().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
};
beforeEach(() => {
  connectEngine(null);
  connectJournal({ append: () => {} });
  put();
});
afterEach(cleanup);

function Shown() {
  const boat = useApp((now) => now.boat);
  return boat ? (
    <>
      <SurveyTable boat={boat} />
      <SurveyPanel boat={boat} />
    </>
  ) : null;
}
const field = (name: string): HTMLElement => screen.getByRole(name === 'Reading' ? 'textbox' : 'combobox', { name });
const type = (name: string, text: string): void => {
  fireEvent.change(field(name), { target: { value: text } });
};

describe('typing readings', () => {
  it('takes each by Enter, in any unit, makes the points, keeps the start and goes back to it', () => {
    render(<Shown />);
    for (const [from, to, value] of [
      ['Mast', 'Shelf', '1.2 m'],
      ['Mast', 'Bin', '2\' 6 1/2"'],
    ] as const) {
      type('From', from);
      type('To', to);
      type('Reading', value);
      fireEvent.keyDown(field('Reading'), { key: 'Enter' });
    }
    expect(state().boat?.survey?.readings).toEqual({
      '1': { from: 'Mast', to: 'Shelf', kind: 'distance', valueM: 1.2, grade: 'measured', typed: '1.2 m' },
      // derived: 30.5 inches of 25.4 mm
      '2': { from: 'Mast', to: 'Bin', kind: 'distance', valueM: 0.7747, grade: 'measured', typed: '2\' 6 1/2"' },
    });
    expect(document.activeElement).toBe(field('From'));
    expect((field('From') as HTMLInputElement).value).toBe('Mast');
    expect((field('To') as HTMLInputElement).value).toBe('');
  });

  it('says what is missing or unreadable, and keeps what was typed', () => {
    render(<Shown />);
    type('From', 'Mast');
    fireEvent.keyDown(field('From'), { key: 'Enter' });
    expect(screen.getByRole('alert').textContent).toContain('where it ends');
    type('To', 'Shelf');
    type('Reading', '12 parsec');
    fireEvent.keyDown(field('Reading'), { key: 'Enter' });
    expect(screen.getByRole('alert').textContent).toContain('parsec');
    expect(state().boat?.survey).toBeUndefined();
    expect((field('Reading') as HTMLInputElement).value).toBe('12 parsec');
  });

  it('is one step back for each reading', () => {
    render(<Shown />);
    type('From', 'Mast');
    type('To', 'Shelf');
    type('Reading', '900');
    fireEvent.keyDown(field('Reading'), { key: 'Enter' });
    expect(state().canUndo).toBe('Reading 1');
    state().undo();
    expect(state().boat?.survey).toBeUndefined();
  });
});

describe('the verdicts beside the readings', () => {
  it('name the slip in its row and above, and follow when it is measured again', () => {
    const { survey } = madeSurvey(5, 'boxy', { noiseM: 0.002, grade: 'measured', neighbours: 8 });
    const reading = survey.readings['4'];
    if (!reading) throw new Error('expected a reading');
    const right = reading.valueM;
    reading.valueM += 0.05;
    put(survey);
    render(<Shown />);
    expect(screen.getByText(/^Reading 4, .* is off by (4[5-9]|5[0-5]) mm \(too long\): measure again\.$/)).toBeTruthy();
    expect(screen.getAllByRole('img', { name: 'Fault' })).toHaveLength(2);
    const value = screen.getByRole('textbox', { name: 'Reading 4' });
    fireEvent.change(value, { target: { value: `${right} m` } });
    fireEvent.keyDown(value, { key: 'Enter' });
    fireEvent.blur(value);
    expect(screen.queryByText(/measure again/)).toBeNull();
    expect(screen.queryByRole('img', { name: 'Fault' })).toBeNull();
  });

  it('light the reading that is picked, and a removed reading is gone with one step', () => {
    put(madeSurvey(5, 'boxy', { noiseM: 0.002, grade: 'measured', neighbours: 8 }).survey);
    render(<Shown />);
    fireEvent.click(screen.getByRole('button', { name: '3' }));
    expect(state().selection).toEqual({ kind: 'reading', id: '3' });
    fireEvent.click(screen.getByRole('button', { name: 'Remove reading 3' }));
    expect(state().boat?.survey?.readings?.['3']).toBeUndefined();
    expect(state().selection).toBeNull();
  });

  it('datums come by one press, with the way that readings from them run', () => {
    render(<Shown />);
    fireEvent.click(screen.getByRole('button', { name: 'Add a bulkhead' }));
    expect(state().boat?.survey?.datums).toEqual({
      'Main-bulkhead': { name: 'Main bulkhead', at: [0, 0, 0], axis: 'x', reversed: true },
    });
    fireEvent.change(screen.getByRole('combobox', { name: 'Main bulkhead: which way counts as positive' }), {
      target: { value: 'along' },
    });
    expect(state().boat?.survey?.datums?.['Main-bulkhead']?.reversed).toBeUndefined();
  });
});
