// @vitest-environment happy-dom
import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import { nextReadings } from '@core/engine/measure-next/next-readings';
import { MeasureNext, MeasureNextHint } from '@renderer/panels/measure-next/MeasureNext';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectQuestions } from '@renderer/store/connections';
import { useMeasureNext } from '@renderer/store/measure-next';
import { cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

/** The lid is no better known than 100 mm, so that how the pump passes it is a close call. */
function guessedLid() {
  const draft = threeLockers();
  const lid = draft.openings?.lid;
  if (!lid) throw new Error('expected a lid');
  const over = (compartment: string, x: number) => ({
    ...lid,
    name: `Lid ${compartment}`,
    compartment,
    at: [x, 0, 0.4] as [number, number, number],
  });
  // No lines: nothing else hangs on the tape.
  return {
    ...draft,
    lines: {},
    openings: {
      lid: { ...lid, widthM: 0.34, grade: 'guessed' as const },
      aft: over('aft', 0.5),
      middle: over('middle', 1.5),
    },
  };
}

const asked: { ask: number; most: number }[] = [];
let dropped = 0;

beforeEach(() => {
  asked.length = 0;
  dropped = 0;
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  connectQuestions({ ask: (ask, most) => asked.push({ ask, most }), dropAsk: () => dropped++ });
  const read = readBoat(JSON.stringify(guessedLid()));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, analyze(read.boat));
});
afterEach(cleanup);

const boatNow = () => {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const Shown = () => {
  const boat = useApp((state) => state.boat);
  return boat ? <MeasureNext boat={boat} /> : null;
};
function answer(): void {
  fireEvent.click(screen.getByRole('button', { name: 'Find the 5 best readings' }));
  useMeasureNext.getState().answered(asked.at(-1)?.ask ?? 0, nextReadings(boatNow()));
}

describe('measure this next', () => {
  it('asks the worker when it is wanted, tells how far it is, and can be stopped', async () => {
    render(<Shown />);
    expect(asked).toEqual([]);
    fireEvent.click(screen.getByRole('button', { name: 'Find the 5 best readings' }));
    expect(asked).toEqual([{ ask: expect.any(Number), most: 5 }]);
    useMeasureNext.getState().came(asked[0]?.ask ?? 0, { done: 3, of: 12 });
    const bar = await screen.findByRole('progressbar');
    expect([bar.getAttribute('value'), bar.getAttribute('max')]).toEqual(['3', '12']);
    fireEvent.click(screen.getByRole('button', { name: 'Stop' }));
    expect(dropped).toBe(1);
    // An answer that was under way is not shown any more.
    useMeasureNext.getState().answered(asked[0]?.ask ?? 0, []);
    expect(useMeasureNext.getState().readings).toBeNull();
  });

  it('lists the readings with what they settle, and lights those verdicts and the thing', async () => {
    render(<Shown />);
    answer();
    const rows = (await screen.findAllByRole('listitem')).filter((row) => row.className === 'reading');
    expect(rows.length).toBeGreaterThan(0);
    const row = rows.find((one) => within(one).queryByRole('heading', { name: 'Fore lid: clear width' }));
    if (!row) throw new Error(`expected the lid, got ${rows.map((one) => one.textContent).join('; ')}`);
    fireEvent.mouseEnter(row);
    expect(useMeasureNext.getState().lit).toContain('access/way-in|pump|');
    expect(useApp.getState().hover).toEqual({ kind: 'opening', id: 'lid' });
    fireEvent.mouseLeave(row);
    expect(useMeasureNext.getState().lit).toEqual([]);
    expect(useApp.getState().hover).toBeNull();
  });

  it('enters a reading with its unit as one step that can be undone', async () => {
    render(<Shown />);
    answer();
    const field = (
      await screen.findAllByRole('textbox', { name: /^Reading: Fore lid: clear width/ })
    )[0] as HTMLElement;
    fireEvent.change(field, { target: { value: '17 3/4 in' } });
    fireEvent.keyDown(field, { key: 'Enter' });
    expect(boatNow().openings.lid?.widthM).toBeCloseTo(0.45085, 6);
    expect(boatNow().gradeOf?.['openings.lid.widthM']).toBe('measured');
    expect(boatNow().typed?.['openings.lid.widthM']).toBe('17 3/4 in');
    expect(await screen.findByText(/entered 451 mm/)).toBeTruthy();
    expect(screen.getByText('older than the boat')).toBeTruthy();
    useApp.getState().undo();
    expect(boatNow().openings.lid?.widthM).toBe(0.34);
    expect(boatNow().gradeOf?.['openings.lid.widthM']).toBeUndefined();
  });

  it('leads there from the findings once much hangs on the tape', () => {
    const { report } = useApp.getState();
    if (!report) throw new Error('expected a report');
    const unsure = report.findings.find((finding) => 'closeCall' in finding && finding.closeCall !== undefined);
    if (!unsure) throw new Error('expected a close call');
    const { container, rerender } = render(<MeasureNextHint />);
    useApp.setState({ report: { ...report, findings: Array(4).fill(unsure) } });
    rerender(<MeasureNextHint />);
    expect(container.textContent).toBe('');
    useApp.setState({ report: { ...report, findings: Array(5).fill(unsure) } });
    rerender(<MeasureNextHint />);
    fireEvent.click(screen.getByRole('button', { name: 'Measure this next' }));
    expect(useApp.getState().stage).toBe('checks');
    expect(asked).toHaveLength(1);
  });

  it('forgets the readings of another boat', () => {
    useMeasureNext.setState({ readings: [] });
    useApp.getState().open(boatNow(), { fileName: 'other.boat.json', token: null, saved: true });
    expect(useMeasureNext.getState().readings).toBeNull();
  });
});
