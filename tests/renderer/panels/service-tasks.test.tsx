// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import type { Service } from '@core/boat/schema/boat';
import { service } from '@core/boat/schema/services';
import { Inspector } from '@renderer/panels/inspector/Inspector';
import { needsWords } from '@renderer/panels/inspector/service-words';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const state = () => useApp.getState();
const tasks = (): Readonly<Record<string, Service>> => state().boat?.fixtures.battery?.services ?? {};
const press = (name: string | RegExp): void => void fireEvent.click(screen.getByRole('button', { name }));
const choose = (name: string | RegExp, value: string): void =>
  void fireEvent.change(screen.getByRole('combobox', { name }), { target: { value } });

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  state().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
  useApp.setState({ displayUnits: 'mm' });
  state().select({ kind: 'thing', id: 'battery' });
  render(<Inspector />);
});
afterEach(cleanup);

describe('service tasks in the inspector', () => {
  it('a task of a kind is added, stands open, says what it asks for, and is changed, duplicated and removed, each one undo step', () => {
    const before = Object.keys(tasks()).length;
    choose('Task to add', 'oilGlass');
    press('Add a task');
    expect(tasks().oilGlass).toMatchObject({ task: 'oilGlass', direction: [0, 0, 1], clearM: 0 });
    const number = before + 1;
    const said = () => screen.getByTestId(`task-needs-${number}`).textContent ?? '';
    expect(said()).toContain('Seen from 500 mm at most, within 45°, or in a mirror, with a lamp.');
    choose(`What is done in task ${number}`, 'handle');
    expect(tasks().oilGlass?.task).toBe('handle');
    expect(said()).toContain('One hand, 60 mm off.');
    choose(`Direction of task ${number}`, '+y');
    expect(tasks().oilGlass?.direction).toEqual([0, 1, 0]);
    expect(tasks().oilGlass?.at[1]).toBeGreaterThan(0);
    press('Duplicate the task Handle');
    expect(Object.keys(tasks())).toHaveLength(before + 2);
    state().undo();
    press('Remove the task Handle');
    expect(Object.keys(tasks())).toHaveLength(before);
    state().undo();
    expect(tasks().oilGlass?.task).toBe('handle');
  });

  it('all that the file can say of a task is reached from there', () => {
    choose('Task to add', 'bowlDrop');
    press('Add a task');
    const more = screen.getByRole('combobox', { name: /^Add to Bowl drop/ });
    const offered = [...more.querySelectorAll('option')].map(({ value }) => value);
    expect(offered).toEqual(
      expect.arrayContaining([
        'see',
        'secondAt',
        'standOffM',
        'coneDeg',
        'tool',
        'withdrawM',
        'tiltOk',
        'tiltAfterM',
        'below',
        'massKg',
        'intervalH',
        'intervalDays',
        'minutes',
        'spillL',
      ]),
    );
    fireEvent.change(more, { target: { value: 'see' } });
    expect(tasks().bowlDrop?.see).toEqual({});
  });

  it('what things of its kind usually have is added in one step', () => {
    const steps = state().history.done.length;
    press(/^Add its (usual task|\d+ usual tasks)$/);
    expect(Object.values(tasks()).map(({ task }) => task)).toEqual(expect.arrayContaining(['batteryPosts']));
    expect(state().history.done.length).toBe(steps + 1);
    expect(screen.queryByRole('button', { name: /^Add its / })).toBeNull();
  });
});

describe('what a task asks for, in words', () => {
  const words = (record: object): string =>
    needsWords(service.parse({ task: 'other', at: [0, 0, 0], direction: [0, 0, 1], ...record }), 'mm');

  it('names tool, vessel, way out and interval with what is usual filled in', () => {
    expect(words({ task: 'bowlDrop', clearM: 0.06 })).toBe(
      'Asks for: Two hands, 60 mm off, 2.0 kg in them. Strap that swings 90° in 200 mm. Out 300 mm straight, or tilted after 60 mm. Tray 60 mm high, 200 mm wide, below. Clear for 60 mm. 10 min, every 100 h.',
    );
    expect(words({ task: 'liftOut', minutes: 5 })).toContain('Two hands, 60 mm off, all its mass in them.');
    expect(words({})).toBe('Asks for: One hand, 60 mm off. 5 min, when something is wrong.');
  });
});
