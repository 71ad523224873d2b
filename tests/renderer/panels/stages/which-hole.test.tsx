// @vitest-environment happy-dom
import { readBoat } from '@core/boat/read';
import { WhichHole } from '@renderer/panels/stages/WhichHole';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import type { JSX } from 'react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';
import { studiesAtHand } from '../../worker/studies-at-hand';

const hole = (name: string, at: [number, number, number], more: object = {}, opening: object = {}) => ({
  name,
  kind: 'seacock' as const,
  shape: { type: 'box' as const, sizeM: [0.1, 0.1, 0.1] as [number, number, number] },
  pose: { at },
  opensToSea: { at: [0, 0, -0.05] as [number, number, number], boreM: 0.025, material: 'bronze' as const, ...opening },
  valve: { states: ['open', 'shut'] },
  ...more,
});

let endStudies = (): void => {};
beforeEach(() => {
  endStudies = studiesAtHand();
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  const draft = threeLockers();
  const read = readBoat(
    JSON.stringify({
      ...draft,
      runStates: { sailing: { name: 'Sailing', use: 'sailing', heelDeg: 20 } },
      fixtures: {
        deep: hole('Deep gate', [0.5, 0, -0.55], { valve: { states: ['open', 'shut'], kind: 'gate' } }),
        side: hole('Side', [1.5, 0.9, -0.25]),
        middle: hole('Middle', [2.5, 0.2, -0.25]),
      },
      lines: {},
      parts: {},
      arrangements: {},
      currentArrangement: undefined,
    }),
  );
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join());
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
});
afterEach(() => {
  cleanup();
  endStudies();
});
// A search is waited for, however busy the machine.
configure({ asyncUtilTimeout: 20_000 });

function Panel(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  return boat ? <WhichHole boat={boat} /> : null;
}
const names = (): readonly string[] =>
  within(screen.getByRole('table'))
    .getAllByRole('button')
    .map((button) => button.textContent ?? '')
    .filter((text) => /^\d/.test(text));

describe('which hole?', () => {
  it('ranks when asked, and says in words where a hole runs dry', async () => {
    render(<Panel />);
    expect(screen.queryByRole('table')).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: 'Rank the holes' }));
    await screen.findByRole('table', { name: 'Through-hulls, as intake' });
    // 0.9 m off and 0.3 m deep: 0.3 cos 20 - 0.9 sin 20 = -26 mm with starboard down, on port tack (derived).
    expect(names().at(-1)).toBe('3 Side');
    fireEvent.click(screen.getByRole('button', { name: '3 Side' }));
    expect(useApp.getState().selection).toEqual({ kind: 'thing', id: 'side' });
    expect(screen.getByText('Dry at 20\u00b0 on port tack: 26 mm above the water')).toBeTruthy();
    // atan(0.3 / 0.9) = 18.4 degrees.
    expect(screen.getByText('18.4\u00b0 S')).toBeTruthy();
  });

  it('the switch is a demand of the boat, can be undone, and puts a gate valve out', async () => {
    render(<Panel />);
    fireEvent.click(screen.getByRole('button', { name: 'Rank the holes' }));
    await screen.findByRole('table', { name: 'Through-hulls, as intake' });
    const toggle = screen.getByRole('checkbox', { name: 'No haul-out' });
    fireEvent.click(toggle);
    expect(Object.values(useApp.getState().boat?.demands ?? {})).toEqual([{ kind: 'noHaulOut' }]);
    await waitFor(() => expect(names()[0]).toBe('1 Middle'));
    fireEvent.click(screen.getByRole('button', { name: /Deep gate/ }));
    expect(
      await screen.findByText(/Needs a haul-out, which is not wanted: a seacock in place of the gate valve/),
    ).toBeTruthy();
    useApp.getState().undo();
    expect(useApp.getState().boat?.demands).toBeUndefined();
  });

  it('ranks the same holes as brine outlet', async () => {
    render(<Panel />);
    fireEvent.click(screen.getByRole('button', { name: 'Rank the holes' }));
    await screen.findByRole('table', { name: 'Through-hulls, as intake' });
    fireEvent.click(screen.getByRole('button', { name: 'As brine outlet' }));
    expect(screen.getByRole('table', { name: 'Through-hulls, as brine outlet' })).toBeTruthy();
    expect(names()).toHaveLength(3);
  });
});

describe('what the ranking asks for is entered where it is asked', () => {
  const ranked = async (): Promise<void> => {
    render(<Panel />);
    fireEvent.click(screen.getByRole('button', { name: 'Rank the holes' }));
    await screen.findByRole('table', { name: 'Through-hulls, as intake' });
  };
  const choose = (name: string, value: string): void => {
    fireEvent.change(screen.getByRole('combobox', { name }), { target: { value } });
  };

  it('metal, year, valve and what comes out; and it answers', async () => {
    await ranked();
    fireEvent.click(screen.getByRole('button', { name: /Middle/ }));
    choose('Material of Middle', 'brass');
    await screen.findByText('Plain brass: replace it first');
    choose('Material of Middle', 'unknown');
    await screen.findByText('Cannot tell what it is made of: enter the material');
    const year = screen.getByRole('textbox', { name: 'Year in which Middle was fitted' });
    fireEvent.change(year, { target: { value: '1803' } });
    fireEvent.keyDown(year, { key: 'Enter' });
    expect(screen.getByRole('alert').textContent).toBe('Expected a year from 1900 to 2200');
    fireEvent.change(year, { target: { value: '1990' } });
    fireEvent.keyDown(year, { key: 'Enter' });
    await screen.findByText(/Fitted in 1990, \d+ years ago: look at it first/);
    choose('Valve of Middle', 'none');
    await screen.findByText('No seacock');
    choose('What comes out of Middle', 'head');
    await screen.findByText('What comes out of it, the head, would be drawn in');
    expect(useApp.getState().boat?.fixtures.middle?.opensToSea).toMatchObject({
      fittedYear: 1990,
      discharges: ['head'],
    });
    expect(useApp.getState().problem).toBeNull();
  });

  it('the states in which the set runs: at anchor the hole that is dry at 20 degrees serves', async () => {
    await ranked();
    fireEvent.click(screen.getByRole('button', { name: '3 Side' }));
    choose('What the boat does: Sailing', 'anchored');
    const heel = screen.getByRole('textbox', { name: 'Greatest heel: At anchor' });
    fireEvent.change(heel, { target: { value: '0' } });
    fireEvent.keyDown(heel, { key: 'Enter' });
    await screen.findByText('Stays under: 300 mm upright is the least');
    fireEvent.click(screen.getByRole('button', { name: 'Remove At anchor' }));
    expect(screen.getByText('At anchor, upright.')).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Add a state' }));
    expect(Object.values(useApp.getState().boat?.runStates ?? {})).toMatchObject([{ heelDeg: 15, sideDown: 'both' }]);
  });
});
