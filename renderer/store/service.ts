import type { Boat } from '@core/boat/schema/boat';
import type { Progress } from '@core/engine/in-slices';
import type { RehearsalStep, ServiceReport, TaskReport, TaskVerdict } from '@core/engine/service/service-report';
import { create } from 'zustand';
import { useApp } from './app';
import { studiesNow } from './connections';
import { thingOf } from './select';

/** What the table of tasks shows; null: all. */
export interface TaskFilter {
  readonly of: 'parts' | 'fixtures' | null;
  readonly verdict: TaskVerdict | null;
  readonly worseOnly: boolean;
}
export const NO_TASK_FILTER: TaskFilter = { of: null, verdict: null, worseOnly: false };

interface Asked {
  readonly boat: Boat;
  readonly person: string | null;
}

/** The steps of one task, and what they rest on. */
export interface Rehearsal {
  readonly key: string;
  readonly from: Asked;
  readonly steps: readonly RehearsalStep[];
}

interface ServiceState {
  /** Somebody looks at service tasks: they are judged, and again after each edit. */
  readonly isWanted: boolean;
  /** Record of people whose reach counts; null: a middling adult. */
  readonly person: string | null;
  readonly report: ServiceReport | null;
  /** The report is older than the boat, or that of another person. */
  readonly isStale: boolean;
  /** Of a stale report: keys of the tasks that are judged anew; null: any may come out otherwise. */
  readonly open: ReadonlySet<string> | null;
  readonly progress: Progress | null;
  /** What the work threw: a fault of the program. */
  readonly fault: string | null;
  /** Key of the task whose rehearsal stands on the board. */
  readonly chosen: string | null;
  readonly rehearsal: Rehearsal | null;
  /** Which of its steps is shown. */
  readonly step: number;
  readonly isPlaying: boolean;
  /** The step that is shown takes the focus once it is there: from then on the arrow keys lead through the rehearsal. */
  readonly focusWish: boolean;
  readonly filter: TaskFilter;
  /** What the drawer shows of them. */
  readonly view: 'tasks' | 'minutes';
  want(): void;
  setPerson(id: string | null): void;
  setFilter(part: Partial<TaskFilter>): void;
  setView(view: ServiceState['view']): void;
  /** Puts the rehearsal of a task on the board; null: takes it away. */
  choose(key: string | null): void;
  /** Clamped to the steps that there are. */
  goToStep(index: number): void;
  play(on: boolean): void;
}

/** Edits in a row are judged once, so long after the last of them, milliseconds. */
const PAUSE_MS = 250;

export const useService = create<ServiceState>()((set, get) => ({
  isWanted: false,
  person: null,
  report: null,
  isStale: false,
  open: null,
  progress: null,
  fault: null,
  chosen: null,
  rehearsal: null,
  step: 0,
  isPlaying: false,
  focusWish: false,
  filter: NO_TASK_FILTER,
  view: 'tasks',

  want() {
    if (get().isWanted) return;
    set({ isWanted: true });
    judge(0);
  },
  setPerson(person) {
    if (person === get().person) return;
    set({ person });
    judge(0);
  },
  setFilter: (part) => set({ filter: { ...get().filter, ...part } }),
  setView: (view) => set({ view }),
  choose(chosen) {
    if (chosen === get().chosen) return;
    if (chosen !== null) get().want();
    set({ chosen, rehearsal: null, step: 0, isPlaying: false });
    rehearse();
  },
  goToStep(index) {
    const last = (get().rehearsal?.steps.length ?? 1) - 1;
    set({ step: Math.max(0, Math.min(last, index)) });
  },
  play: (isPlaying) => set({ isPlaying }),
}));

/** Whether what is shown of a task is of before. */
export const isStaleTask = ({ isStale, open }: Pick<ServiceState, 'isStale' | 'open'>, key: string): boolean =>
  isStale && (open === null || open.has(key));

/** The task that is rehearsed, as it was judged last. */
export const taskInHand = ({ report, chosen }: Pick<ServiceState, 'report' | 'chosen'>): TaskReport | null =>
  report?.tasks.find(({ key }) => key === chosen) ?? null;

/** The finding that says a task, by its key; of tasks that stand for each other there is one, in the word that they share. */
export const findingOfTask = (boat: Boat, { thing, service }: Pick<TaskReport, 'thing' | 'service'>): string =>
  `access/service-task|${thing}|${thingOf(boat, thing)?.services[service]?.either ?? service}`;

/** The task that a finding of that key says. */
export function taskOfFinding(boat: Boat, key: string): string {
  const [, thing = '', name = ''] = key.split('|');
  const services = Object.entries(thingOf(boat, thing)?.services ?? {});
  const judged = useService.getState().report?.tasks;
  const own = services.filter(([id, { either }]) => id === name || either === name).map(([id]) => `${thing}/${id}`);
  return own.find((one) => judged?.some((task) => task.key === one)) ?? own[0] ?? `${thing}/${name}`;
}

export const passesTasks = (task: TaskReport, { of, verdict, worseOnly }: TaskFilter): boolean =>
  (of === null || task.isPart === (of === 'parts')) &&
  (verdict === null || task.verdict === verdict) &&
  (!worseOnly || task.isWorse);

let timer: ReturnType<typeof setTimeout> | undefined;
let takeBack = (): void => {};
let takeBackSteps = (): void => {};
/** What the report rests on. */
let judged: Asked | null = null;

/** The person, while the boat has such a record. */
const personIn = (boat: Boat): string | null => {
  const { person } = useService.getState();
  return person !== null && Object.hasOwn(boat.people ?? {}, person) ? person : null;
};

function judge(afterMs: number): void {
  clearTimeout(timer);
  takeBack();
  const { boat } = useApp.getState();
  const { isWanted, report } = useService.getState();
  if (!isWanted || !boat) return;
  useService.setState({ isStale: report !== null, open: null });
  timer = setTimeout(() => {
    const { boat: now } = useApp.getState();
    if (!now) return;
    const from: Asked = { boat: now, person: personIn(now) };
    takeBack = studiesNow().study(
      'service',
      from,
      (told) => {
        if (told.ok) came(from, told.gives);
        else useService.setState({ fault: told.message, progress: null });
      },
      (progress, partial) => {
        useService.setState({ progress });
        if (partial !== undefined) useService.setState({ report: partial.report, open: new Set(partial.open) });
      },
    );
  }, afterMs);
}

function came(from: Asked, report: ServiceReport): void {
  judged = from;
  useService.setState({ report, fault: null, isStale: false, open: null, progress: null });
  rehearse();
}

/** The steps of the task in hand, as far as they are not those of the newest report. */
function rehearse(): void {
  takeBackSteps();
  const { report, chosen, rehearsal } = useService.getState();
  const task = taskInHand({ report, chosen });
  if (!judged || !task || (rehearsal?.key === task.key && rehearsal.from === judged)) return;
  const from = judged;
  takeBackSteps = studiesNow().study('rehearsal', { ...from, key: task.key }, (told) => {
    if (!told.ok) useService.setState({ fault: told.message });
    else
      useService.setState({
        rehearsal: { key: task.key, from, steps: told.gives },
        step: Math.max(0, Math.min(useService.getState().step, told.gives.length - 1)),
      });
  });
}

useApp.subscribe((state, before) => {
  if (state.boat === before.boat) return;
  if (state.report === null || state.boat === null) {
    // Another boat: nothing of this one's tasks is said of it.
    judged = null;
    useService.setState({
      report: null,
      person: null,
      chosen: null,
      rehearsal: null,
      step: 0,
      isPlaying: false,
      filter: NO_TASK_FILTER,
    });
  }
  judge(PAUSE_MS);
});

// Going on to another stage leaves the rehearsal.
useApp.subscribe((state, before) => {
  if (state.stage !== before.stage) useService.getState().choose(null);
});
