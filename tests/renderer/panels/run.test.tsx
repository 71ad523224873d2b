// @vitest-environment happy-dom
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { Session } from '@core/engine/session';
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
    expect(panel.textContent).toContain(`Length and all of these${run?.costM?.toFixed(2)}`);
  });

  it('opens a crossing and takes a place for it that is typed', () => {
    render(<Inspector />);
    pick('power');
    const panel = screen.getByRole('region', { name: 'Crossings' });
    const link = within(panel).getAllByRole('button')[0];
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
