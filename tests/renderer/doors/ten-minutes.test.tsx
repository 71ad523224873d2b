// @vitest-environment happy-dom
import type { Boat } from '@core/boat/schema/boat';
import { connectDocuments } from '@renderer/app/commands';
import type { Documents } from '@renderer/app/document';
import { useDoor } from '@renderer/doors/door';
import {
  fieldsOf,
  inputOf,
  mostTyped,
  NO_ANSWERS,
  typedCount,
  useTenMinutes,
} from '@renderer/doors/ten-minutes/answers';
import { TenMinutes } from '@renderer/doors/ten-minutes/TenMinutes';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { act, cleanup, configure, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { studiesAtHand } from '../worker/studies-at-hand';

/** A hull is solved on the way: a busy machine takes its time. */
configure({ asyncUtilTimeout: 60_000 });

const opened: Boat[] = [];
/** Whether the answer to "save first?" lets the new boat in. */
let mayLeave = true;
let endStudies = (): void => {};

beforeEach(() => {
  endStudies = studiesAtHand();
  opened.length = 0;
  mayLeave = true;
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const openNew = async (boat: Boat): Promise<void> => {
    if (!mayLeave) return;
    opened.push(boat);
    useApp.getState().open(boat, { fileName: boat.name, token: null, saved: false });
  };
  connectDocuments({ openNew } as Partial<Documents> as Documents);
  useTenMinutes.getState().startOver();
  useDoor.getState().show('tenMinutes');
});
afterEach(() => {
  cleanup();
  endStudies();
});

const field = (name: string): HTMLInputElement => screen.getByRole('textbox', { name });
function type(name: string, text: string): void {
  fireEvent.change(field(name), { target: { value: text } });
  fireEvent.keyDown(field(name), { key: 'Enter' });
}
const count = (): string => screen.getByText(/values typed/).textContent ?? '';
const draw = (): HTMLButtonElement => screen.getByRole('button', { name: /Draw/ });
const settled = (): Promise<void> =>
  waitFor(() => {
    expect(document.querySelector('.sketch')).not.toBeNull();
    expect(document.querySelector('.stale-drawing')).toBeNull();
  });

describe('what may be typed', () => {
  it('is at most 25 numbers, whatever the form', () => {
    for (const form of ['longKeel', 'finKeel', 'lightDisplacement', 'motorHull', 'catamaran'] as const)
      expect([form, mostTyped(form)]).toEqual([form, 25]);
    // A catamaran has the breadth of a hull where others have a waterline length.
    expect(fieldsOf('catamaran')).toContain('hullBeamM');
    expect(fieldsOf('catamaran')).not.toContain('waterlineLengthM');
  });

  it('counts what was typed and nothing else', () => {
    expect(typedCount(NO_ANSWERS)).toBe(0);
    expect(typedCount({ ...NO_ANSWERS, values: { lengthM: 10, hullBeamM: 2 } })).toBe(1);
  });

  it('half a locker is a guess: it is left out until its three sizes are known', () => {
    const locker = { id: 1, compartment: 'nav-locker', name: '', values: { lengthM: 0.8, widthM: 0.5 } };
    expect(inputOf({ ...NO_ANSWERS, lockers: [locker] }).lockers).toEqual([]);
    const whole = { ...locker, values: { ...locker.values, heightM: 0.4 } };
    expect(inputOf({ ...NO_ANSWERS, lockers: [whole] }).lockers).toHaveLength(1);
  });
});

describe('the page', () => {
  it('shows a guess in every field, and takes metres, feet and inches, tonnes', async () => {
    render(<TenMinutes />);
    expect(field('Length over all').value).toBe('11.00');
    expect(count()).toBe('0 of 25 values typed');
    type('Length over all', `34' 6"`);
    // Derived: 34.5 x 0.3048.
    expect(useTenMinutes.getState().answers.values.lengthM).toBeCloseTo(10.5156, 6);
    type('Displacement', '5.4 t');
    expect(useTenMinutes.getState().answers.values.displacementKg).toBe(5400);
    expect(count()).toBe('2 of 25 values typed');
    await settled();
    expect(screen.getByText(/Floats at 5.40 t/)).toBeTruthy();
  });

  it('steps every number by mouse alone, and emptying a field brings its guess back', () => {
    render(<TenMinutes />);
    const before = Number(field('Beam').value);
    fireEvent.click(screen.getByRole('button', { name: 'More: Beam' }));
    const after = Number(field('Beam').value);
    expect(after).toBeGreaterThan(before);
    // On to the next whole tenth.
    expect(Math.abs(after * 10 - Math.round(after * 10))).toBeLessThan(1e-9);
    fireEvent.click(screen.getByRole('button', { name: 'Less: Beam' }));
    expect(Number(field('Beam').value)).toBeCloseTo(after - 0.1, 9);
    type('Beam', '');
    expect(useTenMinutes.getState().answers.values.beamM).toBeUndefined();
    for (const name of screen.getAllByRole('textbox').map((one) => one.getAttribute('aria-label') ?? ''))
      if (name !== 'Name of the boat') expect(screen.getByRole('button', { name: `More: ${name}` })).toBeTruthy();
  });

  it('speaks of a sole as it was typed, below the water, not by the sign of its height', async () => {
    render(<TenMinutes />);
    await settled();
    type('Cabin sole below water', '5000');
    await waitFor(() =>
      expect(screen.getByRole('alert').textContent).toMatch(
        /^5\.00 m below the water: in this hull it must be from [\d.]+ m below to [\d.]+ m above the water$/,
      ),
    );
  });

  it('says what is wrong at its field with the range, keeps the last good drawing, and draws no boat', async () => {
    render(<TenMinutes />);
    await settled();
    type('Displacement', '60000');
    await waitFor(() =>
      expect(screen.getByRole('alert').textContent).toMatch(/^60\u2009000 kg: .* carries \d+ to \d+ kg$/),
    );
    expect(screen.getByRole('img', { name: /boat as typed/ })).toBeTruthy();
    expect(draw().disabled).toBe(true);
    type('Displacement', '6000');
    await settled();
    expect(draw().disabled).toBe(false);
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('going back loses nothing: what was typed stands there again', () => {
    const first = render(<TenMinutes />);
    type('Draught', '1.7');
    fireEvent.click(screen.getByRole('button', { name: 'Back' }));
    expect(useDoor.getState().door).toBeNull();
    first.unmount();
    render(<TenMinutes />);
    expect(field('Draught').value).toBe('1.70');
  });

  it('draws the boat as a new one, not saved, and forgets the answers then', async () => {
    render(<TenMinutes />);
    fireEvent.click(screen.getByRole('button', { name: 'Long keel' }));
    fireEvent.change(screen.getByRole('textbox', { name: 'Name of the boat' }), { target: { value: 'Heron' } });
    await settled();
    await act(async () => fireEvent.click(draw()));
    await waitFor(() => expect(opened).toHaveLength(1));
    expect([opened[0]?.name, opened[0]?.hull?.form]).toEqual(['Heron', 'longKeel']);
    expect(useDoor.getState().door).toBeNull();
    expect(useTenMinutes.getState().answers).toEqual(NO_ANSWERS);
  });

  it('a boat that was not let in leaves the door open with its answers', async () => {
    mayLeave = false;
    render(<TenMinutes />);
    type('Beam', '3.3');
    await settled();
    await act(async () => fireEvent.click(draw()));
    await waitFor(() => expect(draw().textContent).toBe('Draw the boat'));
    expect(useDoor.getState().door).toBe('tenMinutes');
    expect(field('Beam').value).toBe('3.30');
  });

  it('takes up to four lockers, each in the place of another guessed one', async () => {
    render(<TenMinutes />);
    await settled();
    const add = screen.getByRole('button', { name: 'Add a measured locker' });
    for (let k = 0; k < 4; k += 1) fireEvent.click(add);
    expect(add).toHaveProperty('disabled', true);
    const places = useTenMinutes.getState().answers.lockers.map(({ compartment }) => compartment);
    expect(new Set(places).size).toBe(4);
    type('Locker 2: height', '45 cm');
    expect(useTenMinutes.getState().answers.lockers[1]?.values.heightM).toBe(0.45);
    fireEvent.click(screen.getAllByRole('button', { name: 'Remove' })[0] as HTMLElement);
    expect(field('Locker 1: height').value).toBe('450');
  });
});
