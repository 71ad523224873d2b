// @vitest-environment happy-dom
import { edit } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { stationsReplaced } from '@core/boat/station-edits';
import { StationInspector } from '@renderer/panels/inspector/StationInspector';
import { giveUpPoint, holdPoint, pickPoint, releasePoint } from '@renderer/sections/actions';
import { FairnessPanel } from '@renderer/sections/FairnessPanel';
import { HullsPanel } from '@renderer/sections/HullsPanel';
import OffsetsDialog from '@renderer/sections/OffsetsDialog';
import { PointsTable } from '@renderer/sections/PointsTable';
import { useSections } from '@renderer/sections/store';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal } from '@renderer/store/connections';
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { emptyBoat } from '../../support/boats';
import { wigley } from '../../support/hull-shapes';

const STATION = 's004';
const POINT = 7;

/** A Wigley hull of 9 stations, one of its points standing out by so much. */
function hulled(bumpM: number): Boat {
  const empty = checkBoat(emptyBoat());
  if (!empty.ok) throw new Error('expected a boat');
  const { stations } = wigley(10, 3, 1.2, 9, 15);
  const point = stations[STATION]?.points[POINT];
  if (point) point[0] += bumpM;
  const done = edit(empty.boat, stationsReplaced(stations));
  if (!done.ok) throw new Error(done.problems.map(({ message }) => message).join('\n'));
  return done.boat;
}

function open(boat: Boat): void {
  useApp.getState().open(boat, { fileName: 'wigley.boat.json', token: null, saved: true });
  useSections.setState({
    stationId: STATION,
    point: POINT,
    held: null,
    refusal: null,
    dialog: null,
    board: 'sections',
  });
}
const state = () => useApp.getState();
const station = () => state().boat?.hull?.stations[STATION];

/** The panels with the boat as it is now. */
function Here() {
  const boat = useApp((now) => now.boat);
  return boat ? (
    <>
      <PointsTable boat={boat} id={STATION} end="forward" />
      <FairnessPanel boat={boat} />
      <HullsPanel boat={boat} />
    </>
  ) : null;
}

function Inspector() {
  const boat = useApp((now) => now.boat);
  return boat ? <StationInspector boat={boat} id={STATION} /> : null;
}

beforeEach(() => {
  connectEngine(null);
  connectJournal(null);
  open(hulled(0));
});
afterEach(cleanup);

describe('a held point', () => {
  it('is no edit until it is let go, and then one', () => {
    const before = state().boat;
    pickPoint(STATION, POINT);
    for (const by of [0.01, 0.02, 0.035]) holdPoint(POINT, [by, 0]);
    expect(state().boat).toBe(before);
    releasePoint();
    expect(
      (station()?.points[POINT]?.[0] ?? 0) - (before?.hull?.stations[STATION]?.points[POINT]?.[0] ?? 0),
    ).toBeCloseTo(0.035, 9);
    expect(state().history.done).toHaveLength(1);
    state().undo();
    expect(state().boat?.hull).toEqual(before?.hull);
  });

  it('that is given up leaves no trace, and one that is let go where it was makes no step', () => {
    const before = state().boat;
    holdPoint(POINT, [0.05, 0.01]);
    giveUpPoint();
    releasePoint();
    expect(state().boat).toBe(before);
    holdPoint(POINT, [0, 0]);
    releasePoint();
    expect(state().canUndo).toBeNull();
  });

  it('stops at its neighbour and at the centreline, and says so', () => {
    holdPoint(POINT, [0, 1]);
    expect(useSections.getState().refusal).toMatch(/^Point 8 cannot go above point 9/);
    releasePoint();
    expect(station()?.points[POINT]?.[1]).toBe(station()?.points[POINT + 1]?.[1]);
    holdPoint(POINT, [-9, 0]);
    expect(useSections.getState().refusal).toMatch(/^Point 8 cannot pass the centreline/);
    releasePoint();
    expect(station()?.points[POINT]?.[0]).toBe(0);
  });
});

describe('the table of a station', () => {
  it('shows the points from the sheer down and takes what is typed, with its words', () => {
    render(<Here />);
    const names = screen.getAllByRole('button', { name: /^Point \d+$/ }).map((button) => button.textContent);
    expect(names).toEqual(Array.from({ length: 15 }, (_, i) => String(15 - i)));
    const field = screen.getByRole('textbox', { name: `Half-breadth of point ${POINT + 1}` });
    fireEvent.change(field, { target: { value: '3-8-2' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    // derived: 3 ft 8 2/8 in = 44.25 in x 25.4 mm = 1123.95 mm
    expect(station()?.points[POINT]?.[0]).toBe(1.12395);
    expect(state().boat?.typed?.[`hull.stations.${STATION}.points[${POINT}][0]`]).toBe('3-8-2');
  });

  it('refuses a height beyond a neighbour at its place; the boat stands', () => {
    render(<Here />);
    const before = station();
    const field = screen.getByRole('textbox', { name: `Height of point ${POINT + 1}` });
    fireEvent.change(field, { target: { value: '-100' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(screen.getByRole('alert').textContent).toMatch(/^Point 8 cannot go above point 9, at −514 mm/);
    expect(station()).toEqual(before);
    expect(state().problem).toBeNull();
  });

  it('nudges with the arrow keys on the row, 10 mm and 1 mm', () => {
    render(<Here />);
    const before = station()?.points[POINT]?.[0] ?? 0;
    const row = screen.getByRole('button', { name: `Point ${POINT + 1}` });
    fireEvent.keyDown(row, { key: 'ArrowRight' });
    fireEvent.keyDown(row, { key: 'ArrowRight', shiftKey: true });
    expect((station()?.points[POINT]?.[0] ?? 0) - before).toBeCloseTo(0.011, 9);
    fireEvent.keyDown(row, { key: 'k' });
    expect(station()?.knuckles).toEqual([POINT]);
    fireEvent.keyDown(row, { key: 'Delete' });
    expect(station()?.points).toHaveLength(14);
    expect(station()?.knuckles).toBeUndefined();
  });
});

describe('fairness', () => {
  it('of a fair hull is told as such', () => {
    render(<Here />);
    expect(screen.getByText('No comb turns more often than the form asks.')).toBeTruthy();
  });

  it('names a planted bump, and one click makes it fair', () => {
    open(hulled(0.012));
    render(<Here />);
    expect(screen.getByText('Station 4 is not fair at point 8')).toBeTruthy();
    // derived: at half draught the section slopes 5 in 4, so 12 mm of breadth are 12 x 4 / sqrt 41 = 7.5 mm across it, mostly downwards
    expect(screen.getByText(/move point 8 up [78] mm/)).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Fair within the tape' }));
    // published: Wigley's form amidships, y = B/2 (1 - (z/T)^2)
    const [y, z] = station()?.points[POINT] ?? [0, 0];
    expect(Math.abs(y - 1.5 * (1 - (z / 1.2) ** 2))).toBeLessThan(0.002);
    expect(screen.getByText('No comb turns more often than the form asks.')).toBeTruthy();
  });

  it('a bump beyond the tape can only be the boat; that is kept while the point stands there', () => {
    open(hulled(0.05));
    render(<Here />);
    expect(screen.getByRole('button', { name: 'Fair within the tape' }).hasAttribute('disabled')).toBe(true);
    fireEvent.click(screen.getByRole('button', { name: 'It is the boat' }));
    expect(station()?.acceptedUnfair).toEqual([station()?.points[POINT]]);
    expect(screen.queryByText('Station 4 is not fair at point 8')).toBeNull();
    act(() => {
      holdPoint(POINT, [0.003, 0]);
      releasePoint();
    });
    expect(screen.getByText('Station 4 is not fair at point 8')).toBeTruthy();
  });
});

describe('stations', () => {
  it('cannot stand on or pass another one: told at the place', () => {
    render(<Here />);
    render(<Inspector />);
    const field = screen.getByRole('textbox', { name: 'x of the station' });
    for (const [typed, words] of [
      ['6250', /^6250 mm is where station 5 stands already\.$/],
      ['7 m', /^Station 4 cannot pass station 5, at 6250 mm/],
    ] as const) {
      fireEvent.change(field, { target: { value: typed } });
      fireEvent.keyDown(field, { key: 'Enter' });
      expect(useSections.getState().refusal).toMatch(words);
      expect(station()?.xM).toBe(5);
    }
    fireEvent.change(field, { target: { value: '5.5 m' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(station()?.xM).toBe(5.5);
  });

  it('are copied, interpolated and deleted', () => {
    render(<Inspector />);
    const count = () => Object.keys(state().boat?.hull?.stations ?? {}).length;
    fireEvent.click(screen.getByRole('button', { name: 'Interpolate there' }));
    expect(count()).toBe(10);
    act(() => state().undo());
    fireEvent.click(screen.getByRole('button', { name: 'Copy this there' }));
    expect(count()).toBe(10);
    act(() => state().undo());
    fireEvent.click(screen.getByRole('button', { name: 'Delete' }));
    expect(count()).toBe(8);
    act(() => state().undo());
    fireEvent.click(screen.getByRole('button', { name: 'Renumber all' }));
    expect(Object.keys(state().boat?.hull?.stations ?? {})).toEqual(Array.from({ length: 9 }, (_, i) => `s${i}`));
  });
});

describe('a hull off the centreline', () => {
  it('is there twice, as far out as is typed', () => {
    render(<Here />);
    fireEvent.click(screen.getByRole('button', { name: 'Two hulls' }));
    // derived: half-breadth 1.5 m, so breadth 3 m, 1.6 breadths off the centre
    expect(state().boat?.hull?.offsetM).toBe(4.8);
    const field = screen.getByRole('textbox', { name: 'Centre of a hull off the centreline' });
    fireEvent.change(field, { target: { value: '2.2 m' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(state().boat?.hull?.offsetM).toBe(2.2);
    expect(screen.queryByText(/counted twice/)).toBeNull();
    // 1.2 m off, half a hull is 1.5 m broad: the two share the middle
    fireEvent.change(field, { target: { value: '1.2 m' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(
      screen.getByText(/overlap: 1200 mm off the centreline is less than the greatest half-breadth, 1500 mm/),
    ).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'One hull' }));
    expect(state().boat?.hull?.offsetM).toBe(0);
  });
});

describe('a hull measured from inside', () => {
  it('is typed reading by reading, and shell and lining are kept', () => {
    const bare = checkBoat(emptyBoat());
    if (!bare.ok) throw new Error('expected a boat');
    useApp.getState().open(bare.boat, { fileName: 'empty.boat.json', token: null, saved: true });
    render(<OffsetsDialog boat={bare.boat} fromInside />);
    const type = (name: string, values: readonly string[]): void =>
      values.forEach((value, i) => {
        fireEvent.change(screen.getByRole('textbox', { name: `${name}, station ${i}`, hidden: true }), {
          target: { value },
        });
      });
    type('From the aftmost point', ['1000', '4 m', '7000']);
    type('Lowest point, below water negative', ['-200', '-600', '-100']);
    type('Half-breadth at 0', ['500', '1000', '400']);
    type('Half-breadth at 600', ['700', '1250', '2\' 3 1/2"']);
    fireEvent.click(screen.getByRole('button', { name: 'Take 3 stations', hidden: true }));
    const { hull } = state().boat ?? {};
    expect(hull).toMatchObject({ measuredTo: 'inside', shellM: 0.012, grade: 'taped' });
    expect(hull?.stations.s1).toEqual({
      xM: 4,
      taken: 'tape',
      points: [
        [0, -0.6],
        [1, 0],
        [1.25, 0.6],
      ],
    });
    // derived: 2 ft 3 1/2 in = 698.5 mm
    expect(hull?.stations.s2?.points.at(-1)).toEqual([0.6985, 0.6]);
  });
});
