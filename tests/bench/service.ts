import { edit, placed } from '@core/boat/edits';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { Session } from '@core/engine/session';

/** Service tasks re-judged after a move of one part: 40 tasks in one locker. */
export interface ServiceTimes {
  /** Tasks that the move came near to, of all. */
  readonly near: number;
  readonly tasks: number;
  /** Until what can be told at once is told: ways of before that still go. */
  readonly warmMs: readonly number[];
  /** All tasks near it judged anew from cold. */
  readonly rejudgeMs: readonly number[];
}

const MOVES = 15;
const MOVED = 'crate';
/** Valves and pumps on the back of the locker, two rows of five, four tasks each. */
const COLUMNS = 5;
const ROWS = 2;
const TASKS = {
  knob: { task: 'handle', direction: [0, -1, 0], needs: ['hand'] },
  glass: { task: 'oilGlass', direction: [0, -1, 0] },
  clamp: { task: 'clamps', direction: [0, -1, 0], needs: ['driver'] },
  nut: { task: 'nut', direction: [0, -1, 0], needs: ['hand', 'see'] },
} as const;

/** A locker behind two doors, full of what wants service, and a crate that is moved about before it. */
function fullLocker(): Boat {
  const plan = (x0: number, y0: number, x1: number, y1: number) => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const things = Array.from({ length: COLUMNS * ROWS }, (_, k) => {
    const [column, row] = [k % COLUMNS, Math.floor(k / COLUMNS)];
    const at = [0.15 + 0.22 * column, 0.6, -0.2 + 0.38 * row];
    const services = Object.entries(TASKS).map(([id, task], n) => [
      id,
      { ...task, at: [-0.03 + 0.02 * n, -0.06, 0.02] },
    ]);
    return [
      `thing${k}`,
      {
        name: `Thing ${k}`,
        kind: 'other',
        massKg: 2,
        shape: { type: 'box', sizeM: [0.12, 0.12, 0.14] },
        pose: { at },
        services: Object.fromEntries(services),
      },
    ];
  });
  const door = { compartment: 'locker', to: 'cabin', normal: [0, -1, 0], widthM: 0.5, heightM: 0.5, standing: 'sole' };
  const read = checkBoat({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Full locker',
    compartments: {
      cabin: { name: 'Cabin', kind: 'cabin', view: 'plan', outline: plan(-0.4, -1.4, 1.6, 0), rangeM: [-0.6, 1.5] },
      locker: { name: 'Locker', view: 'plan', outline: plan(0, 0.02, 1.2, 0.8), rangeM: [-0.4, 0.4] },
    },
    openings: {
      left: { ...door, name: 'Left door', at: [0.32, 0.01, 0] },
      right: { ...door, name: 'Right door', at: [0.88, 0.01, 0] },
    },
    standingPlaces: { sole: { name: 'Sole', at: [0.6, -0.45, -0.6], compartment: 'cabin' } },
    fixtures: Object.fromEntries(things),
    parts: { [MOVED]: { name: 'Crate', kind: 'other', massKg: 3, shape: { type: 'box', sizeM: [0.16, 0.12, 0.12] } } },
    arrangements: { plan: { name: 'Plan', places: { [MOVED]: { at: placeOf(0) } } } },
  });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.boat;
}

const placeOf = (move: number): [number, number, number] => [0.2 + 0.05 * (move % 15), 0.3, -0.33 + 0.04 * (move % 3)];

/** `beside`: asked before each sample, to run what it is compared with. */
export function serviceTimes(beside: () => void): ServiceTimes {
  const session = new Session(fullLocker());
  session.settled();
  const judged = (): number => session.computed().get('taskOutcome') ?? 0;
  const [warmMs, rejudgeMs]: [number[], number[]] = [[], []];
  let near = 0;
  let tasks = 0;
  for (let move = 0; move < MOVES + 1; move++) {
    const result = edit(session.boat, placed('plan', MOVED, { at: placeOf(move) }));
    if (!result.ok) throw new Error('bench: the crate could not be moved');
    session.edit(result.patches);
    session.settled();
    beside();
    const before = judged();
    const start = performance.now();
    const work = session.service();
    for (let step = work.step(); ; step = work.step()) {
      if ('answer' in step) {
        rejudgeMs.push(performance.now() - start);
        tasks = step.answer.tasks.length;
        break;
      }
      if (step.partial && warmMs.length < rejudgeMs.length + 1) warmMs.push(performance.now() - start);
    }
    near = judged() - before;
  }
  // The first time nothing is known from before.
  return { near, tasks, warmMs: warmMs.slice(1), rejudgeMs: rejudgeMs.slice(1) };
}
