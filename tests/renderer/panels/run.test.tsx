// @vitest-environment happy-dom

import { readFileSync } from 'node:fs';
import path from 'node:path';
import { analyze } from '@core/analyze';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { deriveLayout } from '@core/shape/layout/derive';
import { Inspector } from '@renderer/panels/inspector/Inspector';
import { RunsTable } from '@renderer/panels/tables/RunsTable';
import { UnrolledRun } from '@renderer/panels/tables/UnrolledRun';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectRuns, connectStudies } from '@renderer/store/connections';
import { useRunPlace } from '@renderer/store/run-place';
import { offeredWays, useRunQuestion } from '@renderer/store/run-question';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const read = (text: string): Boat => {
  const result = readBoat(text);
  if (!result.ok) throw new Error(result.problems[0]?.message);
  return result.boat;
};
let boat: Boat;
let report: Report;
const asked: string[] = [];

beforeAll(() => {
  boat = read(JSON.stringify(threeLockers()));
  report = analyze(boat, { deeper: true });
});

function open(now: Boat, answer: Report): void {
  useApp.getState().open(now, { fileName: 'a.boat.json', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, answer);
  useApp.getState().rests(useApp.getState().sent);
}

beforeEach(() => {
  asked.length = 0;
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  connectRuns({
    trial: (_, __, told) => told(null),
  });
  connectStudies({
    study: (kind, from) => {
      asked.push(`${kind} ${'lineId' in from ? from.lineId : ''}`);
      return () => asked.push('taken back');
    },
  });
  open(boat, report);
});
afterEach(() => {
  cleanup();
  useRunQuestion.getState().drop();
  useRunPlace.setState({ marked: null });
  connectRuns(null);
  connectStudies(null);
});

const pick = (line: string): void => act(() => useApp.getState().select({ kind: 'line', id: line }));
const Table = ({ blockedOnly = false }: { readonly blockedOnly?: boolean }) => {
  const now = useApp((state) => state.boat);
  return now ? <RunsTable boat={now} blockedOnly={blockedOnly} /> : null;
};
const Unrolled = () => {
  const now = useApp((state) => state.boat);
  return now ? <UnrolledRun boat={now} /> : null;
};

describe('the inspector of a run', () => {
  it('says how good the run is by what none can beat', () => {
    render(<Inspector />);
    pick('power');
    const run = report.runs.find(({ lineId }) => lineId === 'power');
    // derived: the length over the certified bound
    const above = ((run?.lengthM ?? 0) / (run?.lowerBoundM ?? 1) - 1) * 100;
    const words = screen.getByText(/^No run can be shorter/).textContent ?? '';
    expect(words).toContain(above < 0.05 ? 'that is proved' : `than ${run?.lowerBoundM.toFixed(2)} m`);
    if (above >= 0.05) expect(words).toContain(`${above.toFixed(1)}\u00a0% above`);
  });

  it('lists what the run pays for, and the sum', () => {
    render(<Inspector />);
    pick('power');
    const panel = screen.getByRole('region', { name: 'What it pays for' });
    const run = report.runs.find(({ lineId }) => lineId === 'power');
    expect(within(panel).getByText('Holes to drill')).toBeDefined();
    expect(panel.textContent).toContain(`Together${run?.costM?.toFixed(2)}`);
  });

  it('opens a crossing and takes a place for it that is typed', () => {
    render(<Inspector />);
    pick('power');
    const panel = screen.getByRole('region', { name: 'Crossings' });
    const link = within(within(panel).getByRole('list')).getAllByRole('button')[0];
    if (!link) throw new Error('expected a crossing');
    fireEvent.click(link);
    expect(useApp.getState().selection).toMatchObject({ kind: 'crossing', line: 'power' });
    const field = within(panel).getByRole('textbox', { name: 'z of hole 1' });
    fireEvent.change(field, { target: { value: '-50 mm' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    const [hole] = Object.values(useApp.getState().boat?.arrangements.first?.newHoles ?? {});
    expect(hole?.at[2]).toBeCloseTo(-0.05, 6);
    expect(hole?.for).toEqual(['power']);
    expect(useApp.getState().canUndo).toBe('Slide a hole of power');
  });

  it('pins and unpins', () => {
    render(<Inspector />);
    pick('power');
    fireEvent.click(screen.getByRole('button', { name: 'Pin as built' }));
    expect(useApp.getState().boat?.arrangements.first?.pins?.power).toBeDefined();
    expect(screen.queryByText(/^No run can be shorter/)).toBeNull();
    fireEvent.click(screen.getByRole('button', { name: 'Unpin' }));
    expect(useApp.getState().boat?.arrangements.first?.pins).toBeUndefined();
  });

  it('asks for other ways, lights the one that has the focus, and lets Escape leave', () => {
    const work = new Session(boat).alternatives('power');
    let step = work.step();
    while ('progress' in step) step = work.step();
    const alternatives = step.answer;
    expect(alternatives.length).toBeGreaterThan(1);
    render(<Inspector />);
    pick('power');
    fireEvent.click(screen.getByRole('button', { name: 'Show other ways' }));
    expect(asked).toEqual(['alternatives power']);
    act(() =>
      useRunQuestion.getState().answered(useRunQuestion.getState().ask, { about: 'alternatives', alternatives }),
    );
    const list = screen.getByRole('region', { name: 'Other ways' });
    fireEvent.keyDown(document.activeElement as Element, { key: 'ArrowDown' });
    expect(useRunQuestion.getState().lit).toBe(alternatives[1]?.id);
    expect(offeredWays(useRunQuestion.getState()).filter(({ isLit }) => isLit)).toHaveLength(1);
    fireEvent.keyDown(within(list).getAllByRole('button')[1] as Element, { key: 'Escape' });
    expect(useRunQuestion.getState().about).toBeNull();
    expect(offeredWays(useRunQuestion.getState())).toEqual([]);
    fireEvent.click(screen.getByRole('button', { name: 'Show other ways' }));
    act(() =>
      useRunQuestion.getState().answered(useRunQuestion.getState().ask, { about: 'alternatives', alternatives }),
    );
    fireEvent.click(within(list).getAllByRole('button')[1] as Element);
    expect(useApp.getState().canUndo).toBe('Lead power another way');
  });
});

describe('a line without a run', () => {
  const blocked = read(
    readFileSync(path.resolve(__dirname, '../../../sample-boats/faulty/runs-blocked/boat.json'), 'utf8'),
  );
  const answer = analyze(blocked, { deeper: true });

  it('names the place, the thing and what is missing, and asks by itself for what would help', () => {
    open(blocked, answer);
    render(<Inspector />);
    pick('hose');
    const panel = screen.getByRole('region', { name: 'Run' });
    const run = answer.runs.find(({ lineId }) => lineId === 'hose');
    expect(panel.textContent).toContain(run?.proved ? 'proved impossible' : 'not found');
    if (run?.reason?.blocker) expect(within(panel).getByText('In the way')).toBeDefined();
    expect(asked).toEqual(['remedies hose']);
  });

  it('offers what was routed, with its cautions, and does it', () => {
    const work = new Session(blocked).remedies('hose');
    let step = work.step();
    while ('progress' in step) step = work.step();
    open(blocked, answer);
    render(<Inspector />);
    pick('hose');
    const found = { about: 'remedies', remedies: step.answer } as const;
    act(() => useRunQuestion.getState().answered(useRunQuestion.getState().ask, found));
    const apply = screen.getByRole('button', { name: /^Apply: Drill a hole/ });
    expect(apply.closest('li')?.textContent).toMatch(/not to be drilled/);
    fireEvent.focus(apply);
    expect(offeredWays(useRunQuestion.getState())).toHaveLength(1);
    fireEvent.click(apply);
    expect(useApp.getState().canUndo).toMatch(/^Drill a hole/);
    expect(useRunQuestion.getState().about).toBeNull();
  });

  it('is found in the table by its state, and alone where only blocked ones are shown', () => {
    open(blocked, answer);
    render(<Table blockedOnly />);
    const rows = within(screen.getByRole('table', { name: 'Runs' })).getAllByRole('row');
    expect(rows).toHaveLength(1 + answer.summary.blocked);
    expect(rows[1]?.textContent).toMatch(/Impossible|Not found/);
  });
});

describe('the table of runs', () => {
  it('sorts by what is above the bound, by clearance and by cost', () => {
    render(<Table />);
    const table = screen.getByRole('table', { name: 'Runs' });
    const first = (): string => within(table).getAllByRole('row')[1]?.querySelector('b')?.textContent ?? '';
    const least = (value: (run: Report['runs'][number]) => number): string =>
      [...report.runs].sort((a, b) => value(a) - value(b))[0]?.lineId ?? '';
    fireEvent.click(within(table).getByRole('button', { name: /^Cost/ }));
    expect(first()).toBe(least((run) => run.costM ?? 0));
    fireEvent.click(within(table).getByRole('button', { name: /^Clear/ }));
    expect(first()).toBe(least((run) => run.minClearanceM ?? 0));
    fireEvent.click(within(table).getByRole('button', { name: /^Above/ }));
    expect(first()).toBe(least((run) => (run.lengthM ?? 0) / run.lowerBoundM));
  });

  it('says that none is blocked where none is', () => {
    render(<Table blockedOnly />);
    expect(screen.getByText('No run is blocked.')).toBeDefined();
  });
});

describe('the unrolled run', () => {
  it('asks for a run first', () => {
    act(() => useApp.getState().select(null));
    render(<Unrolled />);
    expect(screen.getByText(/^Pick a run/)).toBeDefined();
  });

  it('tells ends and holes in their order along the run, and points at them', () => {
    render(<Unrolled />);
    pick('power');
    const list = screen.getByRole('list', { name: 'Along power' });
    const lengths = within(list)
      .getAllByRole('button')
      .map((button) => Number.parseFloat(button.textContent ?? ''));
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
    const run = report.runs.find(({ lineId }) => lineId === 'power');
    expect(lengths.length).toBeGreaterThanOrEqual(2 + (run?.holes.length ?? 0));
    const second = within(list).getAllByRole('button')[1];
    if (!second) throw new Error('expected a place along it');
    fireEvent.focus(second);
    expect(useRunPlace.getState().marked?.line).toBe('power');
    expect(useRunPlace.getState().marked?.alongM).toBeGreaterThan(0);
  });
});

describe('what a line has to do and what it is made of', () => {
  const line = () => useApp.getState().boat?.lines.product;
  const arrangement = () => useApp.getState().boat?.arrangements.first;
  const enter = (label: string | RegExp, text: string): void => {
    const [field] = screen.getAllByLabelText(label) as [HTMLElement];
    fireEvent.change(field, { target: { value: text } });
    fireEvent.keyDown(field, { key: 'Enter' });
  };
  beforeEach(() => {
    render(<Inspector />);
    pick('product');
  });

  it('is entered in the units of the screen: rise, fall, supplied length', () => {
    enter(/^Height above the floating waterline/, '12 in');
    expect(line()?.riseToM).toBeCloseTo(0.3048, 9);
    fireEvent.change(screen.getByLabelText('Whether it empties by falling'), { target: { value: 'yes' } });
    expect(line()?.drains).toBe(true);
    fireEvent.change(screen.getByLabelText('Whether it empties by falling'), { target: { value: 'usual' } });
    expect(line()).not.toHaveProperty('drains');
    enter('Supplied length', '3000');
    expect(line()?.supplied).toEqual({ lengthM: 3, spareM: 0.05, mayCut: false });
    fireEvent.click(screen.getByLabelText('It may be cut shorter'));
    enter('Spare length that must be left', '120');
    expect(line()?.supplied).toEqual({ lengthM: 3, spareM: 0.12, mayCut: true });
  });

  it('keeps it out of compartments, and lets it in again', () => {
    const list = screen.getByLabelText('Another compartment to keep out of') as HTMLSelectElement;
    const [first] = Object.keys(boat.compartments);
    fireEvent.change(list, { target: { value: first } });
    expect(arrangement()?.forbidden).toEqual({ product: [first] });
    fireEvent.click(screen.getByRole('button', { name: /^Let product into .* again$/ }));
    expect(arrangement()).not.toHaveProperty('forbidden');
  });

  it('takes a fitting of its own at one end, and that of its kind again', () => {
    const usual = lineKindOf(boat.lineKinds, boat.lines.product?.kind ?? '')?.end;
    enter(/^Angle of the fitting/, '90');
    expect(line()?.ends.from).toMatchObject({ ...usual, angleDeg: 90 });
    enter(/^Height of the elbow/, '35');
    expect(line()?.ends.from?.dropM).toBeCloseTo(0.035, 9);
    fireEvent.click(screen.getAllByLabelText(/^Its nut swivels/)[0] as HTMLElement);
    expect(line()?.ends.from?.swivel).toBe(true);
    fireEvent.click(screen.getByRole('button', { name: /^As its kind again/ }));
    expect(line()?.ends).not.toHaveProperty('from');
  });

  it('keeps what the data sheet says of the hose with the boat', () => {
    const kind = boat.lines.product?.kind ?? '';
    enter('Length that stays straight behind its fittings', '60');
    expect(useApp.getState().boat?.lineKinds[kind]).toMatchObject({
      ...lineKindOf(boat.lineKinds, kind),
      straightM: 0.06,
    });
  });

  it('refuses what no boat can have, and keeps the last good value', () => {
    enter(/^Height above the floating waterline/, '99 m');
    expect(line()).not.toHaveProperty('riseToM');
    expect(useApp.getState().problem?.lines.join(' ') ?? '').toMatch(/riseToM/);
  });
});

describe('a hole that is decided on', () => {
  it('stands in its panel with the lines that it is made for', () => {
    render(<Inspector />);
    const hole = report.runs.find(({ lineId }) => lineId === 'power')?.holes[0];
    if (!hole) throw new Error('expected a crossing of power');
    const planned = structuredClone(boat);
    const between = [...(deriveLayout({ ...boat, newHoles: {} }).panels[hole.panelId]?.between ?? ['', ''])] as [
      string,
      string,
    ];
    const first = planned.arrangements.first as NonNullable<typeof planned.arrangements.first>;
    first.newHoles.hand = { between, at: [...hole.at], diameterM: 0.03, for: ['power'] };
    open(planned, report);
    act(() => useApp.getState().select({ kind: 'panel', id: hole.panelId }));
    const own = () => useApp.getState().boat?.arrangements.first?.newHoles.hand;
    fireEvent.change(screen.getByLabelText(/^Another line that hole \d is made for/), { target: { value: 'product' } });
    expect(own()?.for).toEqual(['power', 'product']);
    fireEvent.click(screen.getAllByRole('button', { name: /^Hole \d is not for/ })[0] as HTMLElement);
    expect(own()?.for).toHaveLength(1);
    fireEvent.click(screen.getByRole('button', { name: /^Do not drill hole/ }));
    expect(own()).toBeUndefined();
  });

  it('and a compartment that takes stowage are entered where they are', () => {
    render(<Inspector />);
    const [id = ''] = Object.keys(boat.compartments);
    act(() => useApp.getState().select({ kind: 'compartment', id }));
    fireEvent.click(screen.getByLabelText(/^Stowage/));
    expect(useApp.getState().boat?.compartments[id]?.stowage).toBe(true);
    fireEvent.click(screen.getByLabelText(/^Stowage/));
    expect(useApp.getState().boat?.compartments[id]).not.toHaveProperty('stowage');
  });
});
