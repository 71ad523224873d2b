// @vitest-environment happy-dom
import { newBoat } from '@core/boat/new-boat';
import { readBoat } from '@core/boat/read';
import { DrawingBar } from '@renderer/board/drawing/DrawingBar';
import { Inspector } from '@renderer/panels/inspector/Inspector';
import { CompartmentsOverview } from '@renderer/panels/stages/StageOverview';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { deleteSelected, nameAcross, nextPanel, setRule, useCompartmentForm } from '@renderer/store/interior';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const state = () => useApp.getState();
const boat = () => {
  const now = state().boat;
  if (!now) throw new Error('expected a boat');
  return now;
};

function open(records: object): void {
  const read = readBoat(JSON.stringify(records));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  state().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
}

beforeEach(() => {
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  open(threeLockers());
});
afterEach(() => {
  cleanup();
  useCompartmentForm.setState({ open: false, beside: null });
});

function Overview() {
  return <CompartmentsOverview boat={useApp((s) => s.boat) ?? newBoat('None')} />;
}

const enter = (label: string, text: string): void => {
  const field = screen.getByRole('textbox', { name: label });
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};

describe('the form for a new compartment', () => {
  it('makes a box beside another, as large across, of the length that is typed', () => {
    useCompartmentForm.setState({ open: true, beside: 'fore' });
    render(<Overview />);
    enter('Name of the new compartment', 'Sail locker');
    enter('Length along x', '0.8 m');
    fireEvent.click(screen.getByRole('button', { name: 'Make the compartment' }));
    // derived: the fore locker ends at x = 3.03, is 1.2 m wide and 0.8 m high
    expect(boat().compartments['sail-locker']).toMatchObject({
      name: 'Sail locker',
      outline: [
        [3.03, -0.6],
        [3.83, -0.6],
        [3.83, 0.6],
        [3.03, 0.6],
      ],
      rangeM: [-0.4, 0.4],
    });
    expect(state().selection).toEqual({ kind: 'compartment', id: 'sail-locker' });
  });

  it('is given up with Escape; a field takes the first one for what is typed in it', () => {
    useCompartmentForm.setState({ open: true, beside: null });
    render(<Overview />);
    const field = screen.getByRole('textbox', { name: 'x from' });
    fireEvent.change(field, { target: { value: '9 m' } });
    fireEvent.keyDown(field, { key: 'Escape' });
    expect(useCompartmentForm.getState().open).toBe(true);
    fireEvent.keyDown(field, { key: 'Escape' });
    expect(useCompartmentForm.getState().open).toBe(false);
    expect(Object.keys(boat().compartments)).toHaveLength(3);
  });

  it('makes an outline corner by corner, and says what is wrong with one that crosses itself', () => {
    useCompartmentForm.setState({ open: true, beside: null });
    render(<Overview />);
    fireEvent.click(screen.getByRole('button', { name: 'Corners' }));
    fireEvent.click(screen.getByRole('button', { name: 'Add a corner' }));
    enter('x of new corner 4', '300 mm');
    enter('y of new corner 4', '-200 mm');
    fireEvent.click(screen.getByRole('button', { name: 'Make the compartment' }));
    expect(state().problem?.lines.join()).toMatch(/cross/);
    expect(Object.keys(boat().compartments)).toHaveLength(3);
    enter('y of new corner 4', '600 mm');
    enter('x of new corner 4', '0');
    fireEvent.click(screen.getByRole('button', { name: 'Make the compartment' }));
    expect(boat().compartments['locker-1']?.outline).toHaveLength(4);
  });
});

describe('what does not fit together', () => {
  it('is explained, and one click mends it', () => {
    const overlapping = threeLockers();
    const middle = overlapping.compartments?.middle;
    if (middle) middle.rangeM = [0.9, 1.9];
    open(overlapping);
    render(<Overview />);
    expect(screen.getByText(/They overlap by 100 mm/)).toBeDefined();
    fireEvent.click(screen.getByRole('button', { name: 'Cut it from Aft locker' }));
    expect(boat().compartments.aft?.rangeM).toEqual([0, 0.9]);
    expect(screen.queryByText(/They overlap/)).toBeNull();
    // The forward locker now stands 130 mm off: derived, 2.03 - 1.9
    fireEvent.click(screen.getByRole('button', { name: 'Move Middle locker up to it' }));
    expect(boat().compartments.middle?.rangeM).toEqual([0.9, 2.03]);
  });

  it('lists data without a panel, binds them to another and removes them', () => {
    state().select({ kind: 'compartment', id: 'aft' });
    expect(deleteSelected()).toBe(true);
    expect(boat().panels['aft-middle']?.setAside).toBe(true);
    render(<Overview />);
    const list = screen.getByRole('region', { name: /Data without a panel/ });
    expect(within(list).getByText(/Its compartments were merged or deleted/)).toBeDefined();
    expect(within(list).getByText(/Kept: may drill, 15 mm/)).toBeDefined();
    fireEvent.click(within(list).getByRole('button', { name: 'Bind here' }));
    expect(boat().panels['aft-middle']).toBeUndefined();
    expect(boat().panels['middle-fore']?.thicknessM).toBe(0.015);
    state().undo();
    cleanup();
    render(<Overview />);
    fireEvent.click(screen.getByRole('button', { name: 'Remove' }));
    expect(boat().panels['aft-middle']).toBeUndefined();
  });
});

describe('the inspectors', () => {
  it('move a face by its place and take its neighbour along: one bulkhead', () => {
    state().select({ kind: 'compartment', id: 'aft' });
    render(<Inspector />);
    enter('x of the forward end', '1.1 m');
    expect(boat().compartments.aft?.rangeM).toEqual([0, 1.1]);
    expect(boat().compartments.middle?.rangeM).toEqual([1.115, 2.015]);
    expect(boat().panels['aft-middle']?.near[0]).toBeCloseTo(1.1075, 9);
  });

  it('make an opening in a face, hinge it and set a standing place before it', () => {
    state().select({ kind: 'compartment', id: 'aft' });
    render(<Inspector />);
    fireEvent.click(screen.getByRole('button', { name: 'Opening in the top' }));
    const [id, made] = Object.entries(boat().openings).find(([, opening]) => opening.compartment === 'aft') ?? [];
    expect(made).toMatchObject({ normal: [0, 0, 1], at: [0.5, 0, 0.4], to: 'outside', how: 'liftOut' });
    fireEvent.change(screen.getByRole('combobox', { name: 'How it opens' }), { target: { value: 'hinged' } });
    fireEvent.change(screen.getByRole('combobox', { name: 'Side of the hinge, seen from outside' }), {
      target: { value: 'top' },
    });
    enter('What must be moved first, with commas between', 'cushion, board');
    fireEvent.click(screen.getByRole('button', { name: 'New standing place before it' }));
    const opening = boat().openings[id ?? ''];
    expect(opening).toMatchObject({
      how: 'hinged',
      swing: { hingeAlong: 'top', angleDeg: 90 },
      moveFirst: ['cushion', 'board'],
    });
    // derived: 0.4 m above the lid
    expect(boat().standingPlaces[opening?.standing ?? '']?.at).toEqual([0.5, 0, 0.8]);
  });

  it('give a panel its material and a hole that carries a loom', () => {
    state().select({ kind: 'compartment', id: 'middle' });
    nextPanel();
    setRule('noDrill');
    expect(boat().panels['aft-middle']?.rule).toBe('noDrill');
    render(<Inspector />);
    fireEvent.change(screen.getByRole('combobox', { name: 'Material of the panel' }), { target: { value: 'ply' } });
    fireEvent.click(screen.getByRole('button', { name: 'Add a hole' }));
    enter('Diameter of hole 1', '40');
    fireEvent.click(screen.getByRole('button', { name: 'Something runs through it' }));
    const panel = boat().panels['aft-middle'];
    expect(panel?.material).toBe('ply');
    const [hole] = Object.values(panel?.holes ?? {});
    expect(hole?.diameterM).toBe(0.04);
    expect(Object.values(hole?.carries ?? {})).toEqual([{ name: 'Cable loom', diameterM: 0.015 }]);
  });

  it('change the envelope, the heat, a sweep and a service task of what is aboard', () => {
    state().select({ kind: 'thing', id: 'battery' });
    render(<Inspector />);
    enter('Name of the thing', 'House bank');
    enter('Size along its own x', '350');
    enter('Heat that it gives off while it runs', '12');
    fireEvent.click(screen.getByRole('button', { name: 'Add a swing' }));
    enter('Radius of sweep 1', '500');
    fireEvent.click(screen.getByRole('button', { name: 'Add a task' }));
    const own = boat().fixtures.battery;
    expect(own).toMatchObject({ name: 'House bank', heatW: 12 });
    expect(own?.shape).toMatchObject({ type: 'box', sizeM: [0.35, expect.anything(), expect.anything()] });
    expect(Object.values(own?.sweeps ?? {})).toEqual([expect.objectContaining({ type: 'sector', radiusM: 0.5 })]);
    expect(Object.keys(own?.services ?? {}).length).toBeGreaterThan(0);
  });

  it('name the twin on the other side', () => {
    expect(nameAcross('Locker, port')).toBe('Locker, starboard');
    expect(nameAcross('Starboard berth')).toBe('Port berth');
    expect(nameAcross('Wet locker')).toBe('Wet locker, across');
  });
});

describe('the strip of a drawing tool', () => {
  it('stands there for drawing tools alone, with a point, a range and Done', () => {
    state().setTool('select');
    const { rerender } = render(<DrawingBar sceneRef={{ current: null }} />);
    expect(screen.queryByTestId('drawing-bar')).toBeNull();
    state().setTool('rectangle');
    rerender(<DrawingBar sceneRef={{ current: null }} />);
    expect(screen.getByRole('region', { name: 'Rectangle tool' })).toBeDefined();
    expect(screen.getByRole('button', { name: 'Set the point' }).hasAttribute('disabled')).toBe(true);
    fireEvent.click(screen.getByRole('button', { name: 'Done' }));
    expect(state().tool).toBe('select');
  });
});
