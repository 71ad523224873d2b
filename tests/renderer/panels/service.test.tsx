// @vitest-environment happy-dom
import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { RehearsalStep, ServiceReport, TaskReport } from '@core/engine/service/service-report';
import { Drawer } from '@renderer/panels/Drawer';
import { DoneByHand } from '@renderer/panels/service/DoneByHand';
import { minutesText } from '@renderer/panels/service/minutes';
import { ServiceOverview } from '@renderer/panels/service/ServiceOverview';
import { TaskPanel } from '@renderer/panels/service/TaskPanel';
import { TasksBar } from '@renderer/panels/service/TasksBar';
import { TasksTable } from '@renderer/panels/service/TasksTable';
import { ThingTasks } from '@renderer/panels/service/ThingTasks';
import { Timeline } from '@renderer/panels/service/Timeline';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectStudies, type StudyPort, type Told } from '@renderer/store/connections';
import { useDrawer } from '@renderer/store/drawer';
import { NO_TASK_FILTER, useService } from '@renderer/store/service';
import type { StudyKind } from '@renderer/worker/studies/protocol';
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { rehearsalStep, serviceReport, taskReport } from '../../core/output/service-told';
import { threeLockers } from '../../support/boats';

const TASKS: readonly TaskReport[] = [
  taskReport({
    thing: 'tank',
    service: 'lid',
    isPart: false,
    task: 'tankLid',
    verdict: 'byDismantling',
    before: 'byHand',
    isWorse: true,
    removals: [{ what: 'pump', kind: 'thing', minutes: 20 }],
    blockers: [{ owner: 'pump', label: 'Pump', shortByM: 0.03 }],
  }),
  taskReport({
    thing: 'pump',
    service: 'glass',
    task: 'oilGlass',
    verdict: 'noWayFound',
    shortByM: 0.012,
    tried: 40,
    blockers: [{ owner: 'tank', label: 'Water tank', shortByM: 0.012 }],
  }),
  taskReport({
    thing: 'strainer',
    service: 'basket',
    openings: ['lid'],
    spillL: 0.6,
    closeCall: { gradeM: 0.01, passProbability: [0.3, 0.6] },
    measures: [
      { what: 'reach', value: 0.6, limit: 0.7, bound: 'atMost', unit: 'm', met: true, closeCall: null, sources: [] },
      {
        what: 'seenShare',
        value: 0.84,
        limit: 0.8,
        bound: 'atLeast',
        unit: 'share',
        met: true,
        closeCall: null,
        sources: [],
      },
    ],
    cannotSee: ['Force at the end of an arm.'],
    sources: [{ key: 'geometry', standing: 'fromMemory' }],
  }),
];
const REPORT = serviceReport(TASKS, {
  person: { id: 'ana', name: 'Ana', isInterpolated: true },
  burden: {
    aYear: 108,
    accessAYear: 36,
    byThing: [
      { thing: 'strainer', aYear: 36, accessAYear: 12 },
      { thing: 'pump', aYear: 72, accessAYear: 24 },
    ],
    leftOut: 1,
  },
});
const STEPS: readonly RehearsalStep[] = [
  rehearsalStep({ kind: 'go', minutes: 0 }),
  rehearsalStep({ kind: 'open', subject: 'lid', minutes: 0.5 }),
  rehearsalStep({ kind: 'work', minutes: 4 }),
];

interface Asked {
  readonly kind: StudyKind;
  readonly from: { readonly boat: Boat; readonly person: string | null; readonly key?: string };
  readonly told: (told: Told<StudyKind>) => void;
  readonly going: Parameters<StudyPort['study']>[3];
  isDropped: boolean;
}
const asked: Asked[] = [];
const last = (kind: StudyKind): Asked => {
  const found = asked.filter((one) => one.kind === kind).at(-1);
  if (!found) throw new Error(`expected a question about ${kind}`);
  return found;
};
const answer = (kind: 'service' | 'rehearsal', gives: ServiceReport | readonly RehearsalStep[]): void =>
  act(() => last(kind).told({ ok: true, gives }));
/** The pause after an edit passes. */
const pass = (): void => act(() => void vi.advanceTimersByTime(1000));

beforeEach(() => {
  vi.useFakeTimers();
  asked.length = 0;
  connectEngine({ open: () => {}, edit: () => {}, whatIf: () => {}, endWhatIf: () => {} });
  connectJournal({ append: () => {} });
  connectStudies({
    study(kind, from, told, going) {
      const one = { kind, from, told, going, isDropped: false } as unknown as Asked;
      asked.push(one);
      return () => {
        one.isDropped = true;
      };
    },
  });
  useService.setState({
    isWanted: false,
    person: null,
    report: null,
    isStale: false,
    open: null,
    fault: null,
    chosen: null,
    rehearsal: null,
    step: 0,
    isPlaying: false,
    filter: NO_TASK_FILTER,
    view: 'tasks',
  });
  const read = readBoat(
    JSON.stringify({
      ...threeLockers(),
      people: { ana: { name: 'Ana', percentile: 20, sex: 'female' }, bo: { name: 'Bo', percentile: 90 } },
    }),
  );
  if (!read.ok) throw new Error(read.problems[0]?.message);
  useApp.getState().open(read.boat, { fileName: 'three.boat.json', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, analyze(read.boat));
  useApp.setState({ stage: 'checks', selection: null });
});
afterEach(() => {
  cleanup();
  connectStudies(null);
  vi.useRealTimers();
});

const boatNow = (): Boat => {
  const { boat } = useApp.getState();
  if (!boat) throw new Error('expected a boat');
  return boat;
};
const Shown = ({ of: Part }: { readonly of: (props: { readonly boat: Boat }) => React.JSX.Element | null }) => {
  const boat = useApp((state) => state.boat);
  return boat ? <Part boat={boat} /> : null;
};
/** The drawer with its table, which is read when it is first shown: here it is there already. */
async function tables(): Promise<void> {
  expect([TasksBar, TasksTable].every((part) => typeof part === 'function')).toBe(true);
  useDrawer.setState({ tab: 'Service', height: 'usual', filter: '', searching: false });
  await act(async () => {
    render(<Drawer />);
    await vi.dynamicImportSettled();
  });
  pass();
  answer('service', REPORT);
}
const rows = (): readonly string[] =>
  within(screen.getByRole('table', { name: 'Service tasks' }))
    .getAllByRole('row')
    .slice(1)
    .map((row) => row.textContent ?? '');

describe('the table of service tasks', () => {
  it('is asked for when it is looked at, and keeps the order of the report: what became worse first', async () => {
    await tables();
    expect(asked.map(({ kind }) => kind)).toEqual(['service']);
    expect(rows()).toHaveLength(3);
    expect(rows()[0]).toMatch(/^tankInspection lid|^tank/);
    expect(rows()[0]).toContain('Only by dismantling');
    expect(rows()[0]).toContain('By hand, now worse');
    expect(rows()[1]).toContain('No way found');
    expect(rows()[1]).toContain('12 mm short at Water tank');
    expect(rows()[2]).toContain('By hand, a close call');
    expect(rows()[2]).toContain('an arm in, Fore lid');
  });

  it('narrows down by part or fixture, verdict and what became worse', async () => {
    await tables();
    fireEvent.change(screen.getByLabelText('Tasks of what'), { target: { value: 'fixtures' } });
    expect(rows()).toHaveLength(1);
    fireEvent.change(screen.getByLabelText('Tasks of what'), { target: { value: '' } });
    fireEvent.change(screen.getByLabelText('Tasks with which verdict'), { target: { value: 'noWayFound' } });
    expect(rows()).toHaveLength(1);
    expect(rows()[0]).toContain('No way found');
    fireEvent.change(screen.getByLabelText('Tasks with which verdict'), { target: { value: '' } });
    fireEvent.click(screen.getByRole('button', { name: '1 worse' }));
    expect(rows()).toHaveLength(1);
  });

  it('is judged anew after an edit, stale until then, by the ways of before at once', async () => {
    await tables();
    act(() => {
      useApp.getState().edit('Name', (draft) => {
        draft.name = 'Other';
      });
    });
    expect(useService.getState().isStale).toBe(true);
    expect(asked).toHaveLength(1);
    pass();
    expect(asked).toHaveLength(2);
    expect(last('service').from.boat.name).toBe('Other');
    act(() => last('service').going?.({ done: 0, of: 1 }, { report: REPORT, open: ['pump/glass'] } as never));
    const stale = (words: string): boolean => screen.getByText(words).className.includes('stale');
    expect(stale('No way found')).toBe(true);
    expect(stale('Only by dismantling')).toBe(false);
    answer('service', REPORT);
    expect(useService.getState().isStale).toBe(false);
    expect(stale('No way found')).toBe(false);
  });

  it('judges by the reach of whoever is chosen', async () => {
    await tables();
    fireEvent.change(screen.getByLabelText('Whose reach counts'), { target: { value: 'bo' } });
    pass();
    expect(last('service').from.person).toBe('bo');
    expect(asked[0]?.isDropped).toBe(true);
  });

  it('says what stopped the work, and keeps what was found before', async () => {
    await tables();
    act(() => useService.getState().setPerson('bo'));
    pass();
    act(() => last('service').told({ ok: false, message: 'out of order' }));
    expect(screen.getByRole('alert').textContent).toContain('out of order');
    expect(rows()).toHaveLength(3);
  });

  it('shows the minutes a year, the dearest thing first, with what they are counted with', async () => {
    await tables();
    fireEvent.click(screen.getByRole('button', { name: 'Minutes a year' }));
    const table = within(screen.getByRole('table', { name: 'Minutes a year, by thing' }));
    const told = table
      .getAllByRole('row')
      .slice(1)
      .map((row) => row.textContent);
    // derived: 72 of the pump with 24 of getting there leave 48 of work
    expect(told).toEqual(['pump244872', 'strainer122436']);
    expect(screen.getByText(/^Counted with/).textContent).toContain('set 100 h and engine 100 h a year');
    const hours = screen.getByLabelText(/^Set runs a year/);
    fireEvent.change(hours, { target: { value: '250' } });
    fireEvent.keyDown(hours, { key: 'Enter' });
    expect(boatNow().serviceWork?.setHoursYear).toBe(250);
    expect(screen.getByText(/^Counted with/).textContent).toContain('set 250 h');
  });
});

describe('a rehearsal', () => {
  const open = (key: string): void => {
    act(() => useService.getState().want());
    pass();
    answer('service', REPORT);
    act(() => useService.getState().choose(key));
    answer('rehearsal', STEPS);
  };

  it('opens from a row, is stepped through by buttons, and ends where it is left', async () => {
    await tables();
    fireEvent.click(screen.getByRole('button', { name: 'strainer' }));
    expect(last('rehearsal').from.key).toBe('strainer/basket');
    answer('rehearsal', STEPS);
    render(<Shown of={Timeline} />);
    expect(screen.getByText(/^Step 1 of 3/)).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Next step' }));
    expect(screen.getByText('Step 2 of 3: Lift out Fore lid')).toBeTruthy();
    const steps = within(screen.getByRole('region', { name: 'Rehearsal' })).getAllByRole('listitem');
    expect(steps).toHaveLength(3);
    expect(screen.getByRole('button', { name: /^Step 2 / }).getAttribute('aria-current')).toBe('step');
    fireEvent.keyDown(screen.getByRole('button', { name: /^Step 2 / }), { key: 'End' });
    expect(useService.getState().step).toBe(2);
    act(() => useService.getState().goToStep(9));
    expect(useService.getState().step).toBe(2);
    fireEvent.click(screen.getByRole('button', { name: 'Back to the board' }));
    expect(useService.getState().chosen).toBeNull();
  });

  it('plays its steps one after the other and rests at the last', () => {
    open('strainer/basket');
    render(<Shown of={Timeline} />);
    fireEvent.click(screen.getByRole('button', { name: 'Play the steps' }));
    for (let i = 0; i < 4; i++) act(() => void vi.advanceTimersByTime(4000));
    expect(useService.getState().step).toBe(2);
    expect(useService.getState().isPlaying).toBe(false);
  });

  it('leaves when another stage is gone to, and forgets the tasks of another boat', () => {
    open('strainer/basket');
    act(() => useApp.getState().setStage('equipment'));
    expect(useService.getState().chosen).toBeNull();
    act(() => useApp.getState().open({ ...boatNow() }, { fileName: 'x', token: null, saved: true }));
    expect(useService.getState().report).toBeNull();
    pass();
    expect(last('service').isDropped).toBe(false);
  });

  it('has the verdict, what it was measured against, what is opened first, and what it is blind to beside it', () => {
    open('strainer/basket');
    render(<Shown of={TaskPanel} />);
    expect(screen.getByText(/By hand, an arm in through Fore lid\./)).toBeTruthy();
    expect(screen.getByText('Arm, shoulder to grip')).toBeTruthy();
    expect(screen.getByText('600').parentElement?.textContent).toBe('600, at most 700');
    expect(screen.getByText('84').parentElement?.textContent).toBe('84, at least 80\u2009%');
    expect(screen.getByRole('button', { name: 'Lift out Fore lid' })).toBeTruthy();
    expect(screen.getByText('Force at the end of an arm.')).toBeTruthy();
    expect(screen.getByText(/0\.6 L spilled/)).toBeTruthy();
  });

  it('names what is in the way with what is missing, and leads there', () => {
    open('pump/glass');
    render(<Shown of={TaskPanel} />);
    expect(screen.getByText(/^No way found after 40 tries: short by about 12 mm at Water tank/)).toBeTruthy();
    const way = screen.getByRole('region', { name: 'In the way' });
    expect(within(way).getByText('12')).toBeTruthy();
    fireEvent.click(within(way).getByRole('button', { name: 'Water tank' }));
    expect(useApp.getState().selection).toEqual({ kind: 'thing', id: 'tank' });
    expect(useApp.getState().stage).toBe('equipment');
    expect(useService.getState().chosen).toBeNull();
  });

  it('says so where the boat has no such task any more', () => {
    open('strainer/basket');
    answer('service', serviceReport([]));
    render(<Shown of={TaskPanel} />);
    expect(screen.getByText('The boat has no such task any more.')).toBeTruthy();
  });
});

describe('beside the checks and in the inspector', () => {
  it('counts the verdicts, and leads to their rows', () => {
    render(<Shown of={ServiceOverview} />);
    pass();
    answer('service', REPORT);
    fireEvent.click(screen.getByRole('button', { name: 'No way found 1' }));
    expect(useService.getState().filter.verdict).toBe('noWayFound');
    expect(useDrawer.getState().tab).toBe('Service');
    expect(screen.getByRole('button', { name: 'The plan makes one task worse.' })).toBeTruthy();
  });

  it('tries nothing in the inspector until somebody asks, then shows the tasks of the thing alone', () => {
    render(<Shown of={({ boat }) => <ThingTasks boat={boat} id="pump" />} />);
    // Going from stage to stage asks nothing either.
    act(() => useApp.getState().setStage('runs'));
    act(() => useApp.getState().setStage('equipment'));
    pass();
    expect(asked).toHaveLength(0);
    fireEvent.click(screen.getByRole('button', { name: 'Try its tasks' }));
    pass();
    answer('service', REPORT);
    const row = screen.getByRole('button', { name: /No way found/ });
    expect(screen.queryByText(/Only by dismantling/)).toBeNull();
    fireEvent.click(row);
    expect(useService.getState().chosen).toBe('pump/glass');
  });
});

describe('done by hand', () => {
  const key = 'access/service-task|pump|glass';
  const withFinding = (): void => {
    const { report } = useApp.getState();
    const known = report?.findings.find(({ outcome }) => outcome === 'cannotTell' || outcome === 'fail');
    if (!report || !known) throw new Error('expected an open finding');
    useApp.setState({ report: { ...report, findings: [{ ...known, key }] } });
  };

  it('is recorded with its day as an accepted finding, where the task has one', () => {
    const task = TASKS[1] as TaskReport;
    render(<Shown of={({ boat }) => <DoneByHand boat={boat} task={task} />} />);
    expect(screen.queryByRole('button')).toBeNull();
    act(withFinding);
    fireEvent.click(screen.getByRole('button', { name: 'I have done it by hand' }));
    fireEvent.change(screen.getByLabelText('How it was done'), { target: { value: 'left arm' } });
    fireEvent.change(screen.getByLabelText('Day'), { target: { value: '2026-05-02' } });
    fireEvent.click(screen.getByRole('button', { name: 'Record it' }));
    expect(boatNow().accepted[key]).toEqual({
      by: 'owner',
      why: 'Done by hand on 2026-05-02: left arm',
      on: '2026-05-02',
    });
  });
});

describe('minutes as words', () => {
  it('are seconds below one, hours from sixty on', () => {
    expect([0, 0.4, 1, 4.62, 12.4, 60, 400].map(minutesText)).toEqual([
      '0 min',
      '24\u2009s',
      '1 min',
      '4.6 min',
      '12 min',
      '1 h',
      '6 h 40 min',
    ]);
  });
});
