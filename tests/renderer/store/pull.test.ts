import { edit } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { Session } from '@core/engine/session';
import { useApp } from '@renderer/store/app';
import { connectEngine, connectJournal, connectRuns, type Tried } from '@renderer/store/connections';
import { useDrag } from '@renderer/store/drag';
import { judgedEdit } from '@renderer/store/judged-edit';
import { clipPointSet, crossingFreed, decidedHole, heldOf, nudgePulled, pinToggled } from '@renderer/store/pulled';
import { useRunPlace } from '@renderer/store/run-place';
import { isPinned } from '@renderer/store/select';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const sent: { what: string; pulled?: unknown }[] = [];
let boat: Boat;
let session: Session;
let line: string;
let hole: number;

beforeAll(() => {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  boat = read.boat;
  session = new Session(boat);
  const run = session
    .settled()
    .runs.find(({ status, holes }) => status === 'routed' && holes.some(({ existing }) => !existing));
  if (!run) throw new Error('expected a run with a hole to drill');
  line = run.lineId;
  hole = run.holes.findIndex(({ existing }) => !existing);
});

/** The engine answers at once, and trials by a session of its own. */
beforeEach(() => {
  sent.length = 0;
  connectEngine({
    open: () => sent.push({ what: 'open' }),
    edit: () => sent.push({ what: 'edit' }),
    whatIf: (_, __, pulled) => sent.push({ what: 'whatIf', pulled }),
    endWhatIf: () => sent.push({ what: 'endWhatIf' }),
  });
  connectRuns({
    trial: (lineId, patches, told) => {
      const tried = new Session(useApp.getState().boat as Boat);
      tried.edit(patches);
      told(tried.settled().runs.find((run) => run.lineId === lineId) ?? null);
    },
  });
  connectJournal(null);
  useApp.getState().open(boat, { fileName: '', token: null, saved: true });
  useApp.getState().answered(useApp.getState().sent, session.settled());
  useRunPlace.setState({ marked: null });
});
afterAll(() => connectRuns(null));

const app = () => useApp.getState();
const drag = () => useDrag.getState();
const clips = () => Object.entries(app().boat?.arrangements.first?.clipPoints[line] ?? {});
const holes = () => Object.values(app().boat?.arrangements.first?.newHoles ?? {});
const runNow = (): RunReport => app().report?.runs.find(({ lineId }) => lineId === line) as RunReport;

describe('a clip point by hand', () => {
  it('is set on the run as it is, where its profile points', () => {
    app().select({ kind: 'line', id: line });
    useRunPlace.setState({ marked: { line, alongM: (runNow().lengthM ?? 0) / 3 } });
    clipPointSet();
    expect(clips()).toHaveLength(1);
    expect(app().selection).toMatchObject({ kind: 'clipPoint', line });
    app().undo();
    expect(clips()).toEqual([]);
  });

  it('follows the hand as what-ifs and becomes one edit when it is let go', () => {
    app().select({ kind: 'line', id: line });
    clipPointSet();
    const [[id, { at }] = ['', { at: [0, 0, 0] as const }]] = clips();
    const held = heldOf(app().boat as Boat, 'first', { kind: 'clipPoint', id, line });
    if (!held) throw new Error('expected it to be held');
    sent.length = 0;
    drag().startPull(held);
    drag().pullTo([at[0] + 0.002, at[1], at[2]]);
    drag().pullTo([at[0] + 0.004, at[1], at[2]]);
    expect(clips()[0]?.[1].at).toEqual(at);
    expect(sent.map(({ what }) => what)).toEqual(['whatIf', 'whatIf']);
    expect(JSON.stringify(sent[1]?.pulled)).toContain(id);
    drag().endDrag('commit');
    expect(clips()[0]?.[1].at[0]).toBeCloseTo(at[0] + 0.004, 6);
    expect(sent.map(({ what }) => what)).toEqual(['whatIf', 'whatIf', 'endWhatIf', 'edit']);
    expect(drag().pulled).toBeNull();
    app().undo();
    expect(clips()[0]?.[1].at).toEqual(at);
  });

  it('keeps the run as last drawn while it cannot follow, and tells why', () => {
    const run = runNow();
    drag().startPull({ kind: 'clip', line, id: 'c', order: 1, isNew: true, start: [0, 0, 0], at: [0, 0, 0] });
    drag().pullTo([0.1, 0, 0]);
    drag().answeredStep(drag().sent, { runs: [run], findings: [], gone: [] });
    const blocked: RunReport = { ...run, status: 'blocked', lengthM: null, prims: [], holes: [] };
    drag().pullTo([0.2, 0, 0]);
    drag().answeredStep(drag().sent, { runs: [blocked], findings: [], gone: [] });
    expect(drag().runs[line]).toBe(run);
    expect(drag().refused).toBe(blocked);
    drag().endDrag('cancel');
    expect(drag().refused).toBeNull();
    expect(clips()).toEqual([]);
  });

  it('is refused where the line would lose its run, with what is in the way', () => {
    drag().startPull({ kind: 'clip', line, id: 'c', order: 1, isNew: true, start: [1, 0, 0], at: [1, 0, 0] });
    // Far outside every locker.
    drag().pullTo([1, 5, 0]);
    drag().endDrag('commit');
    expect(clips()).toEqual([]);
    expect(app().problem?.title).toMatch(/not set$/);
    expect(app().problem?.lines.join(' ')).toMatch(/It stays as it was/);
    expect(app().canUndo).toBeNull();
  });

  it('takes the steps of the keys as one undo step', () => {
    app().select({ kind: 'line', id: line });
    clipPointSet();
    const { selection } = app();
    const before = clips()[0]?.[1].at;
    for (let step = 0; step < 3; step++) nudgePulled(selection, ([x, y, z]) => [x + 0.001, y, z]);
    expect(clips()[0]?.[1].at[0]).toBeCloseTo((before?.[0] ?? 0) + 0.003, 6);
    app().undo();
    expect(clips()[0]?.[1].at).toEqual(before);
  });
});

describe('a hole by hand', () => {
  it('becomes one that is decided on for its line, moves again, and is freed', () => {
    const here = { kind: 'crossing', id: String(hole), line } as const;
    const at = runNow().holes[hole]?.at ?? [0, 0, 0];
    nudgePulled(here, ([x, y, z]) => [x, y, z + 0.01]);
    expect(holes()).toHaveLength(1);
    expect(holes()[0]?.for).toEqual([line]);
    expect(holes()[0]?.at[2]).toBeCloseTo(at[2] + 0.01, 5);
    app().answered(app().sent, new Session(app().boat as Boat).settled());
    const now = runNow().holes[hole];
    expect(now && decidedHole(app().boat as Boat, 'first', now)).not.toBeNull();
    nudgePulled(here, ([x, y, z]) => [x, y, z + 0.01]);
    expect(holes()).toHaveLength(1);
    app().answered(app().sent, new Session(app().boat as Boat).settled());
    expect(crossingFreed(line, hole)).toBe(true);
    expect(holes()).toEqual([]);
  });

  it('is not held where it is there already', () => {
    const known = app().report?.runs.flatMap((run) =>
      run.holes.flatMap((one, index) => (one.existing ? [{ id: String(index), line: run.lineId }] : [])),
    );
    for (const one of known ?? []) expect(heldOf(boat, 'first', { kind: 'crossing', ...one })).toBeNull();
  });
});

describe('a pinned run', () => {
  it('is kept, and takes no clip point until it is unpinned', () => {
    app().select({ kind: 'line', id: line });
    pinToggled();
    expect(isPinned(app().boat as Boat, 'first', line)).toBe(true);
    clipPointSet();
    expect(clips()).toEqual([]);
    expect(app().notice).toMatch(/unpin it first/);
    pinToggled();
    expect(isPinned(app().boat as Boat, 'first', line)).toBe(false);
  });
});

describe('an edit that promises a run', () => {
  it('is made without a listener, and not made where the promise does not hold', () => {
    const rename = (name: string) =>
      judgedEdit({
        label: 'Name',
        line,
        recipe: (draft) => {
          draft.name = name;
        },
        mustRoute: true,
        refusal: 'Not done',
      });
    rename('Renamed');
    expect(app().boat?.name).toBe('Renamed');
    connectRuns({
      trial: (_, __, told) => told({ ...runNow(), status: 'blocked' }),
    });
    rename('Renamed again');
    expect(app().boat?.name).toBe('Renamed');
    expect(app().problem?.title).toBe('Not done');
  });

  it('is dropped when another edit came in between', () => {
    let tell: (run: Tried) => void = () => {};
    connectRuns({
      trial: (_, __, told) => {
        tell = told;
      },
    });
    const answers: string[] = [];
    judgedEdit({
      label: 'Name',
      line,
      recipe: (draft) => {
        draft.name = 'Late';
      },
      refusal: 'Not done',
      done: (judged) => answers.push(judged),
    });
    const result = edit(app().boat as Boat, (draft) => {
      draft.name = 'First';
    });
    expect(result.ok).toBe(true);
    app().edit('Name', (draft) => {
      draft.name = 'First';
    });
    tell(runNow());
    expect(answers).toEqual(['overtaken']);
    expect(app().boat?.name).toBe('First');
  });
});
