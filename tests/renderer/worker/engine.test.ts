import { MessageChannel } from 'node:worker_threads';
import { analyze } from '@core/analyze';
import { edit, placed } from '@core/boat/edits';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { nextReadings } from '@core/engine/measure-next/next-readings';
import type { Report } from '@core/engine/report';
import type { NextReading } from '@core/rules/next-reading';
import type { Tried } from '@renderer/store/connections';
import { type Channel, engineOver } from '@renderer/worker/client';
import { serveEngine, type WorkerChannel } from '@renderer/worker/engine';
import type { Delta } from '@renderer/worker/protocol';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { threeLockers } from '../../support/boats';

const boat = ((): Boat => {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error(read.problems.map((problem) => problem.message).join('\n'));
  return read.boat;
})();

/** Both ends over a real channel, with structured clones between them; turns run one by one on `next`. */
function connected() {
  const { port1, port2 } = new MessageChannel();
  const turns: (() => void)[] = [];
  serveEngine(port2 as unknown as WorkerChannel, (turn) => turns.push(turn));
  const reports: { sent: number; report: Report }[] = [];
  const rested: number[] = [];
  const deltas: { seq: number; delta: Delta }[] = [];
  const crashes: string[] = [];
  const progress: number[] = [];
  const answers: { ask: number; readings: readonly NextReading[] }[] = [];
  const engine = engineOver(port1 as unknown as Channel, {
    report: (sent, report) => reports.push({ sent, report }),
    rests: (sent) => rested.push(sent),
    delta: (seq, delta) => deltas.push({ seq, delta }),
    progress: (ask) => progress.push(ask),
    answer: (ask, readings) => answers.push({ ask, readings }),
    crashed: (message) => crashes.push(message),
  });
  const arrived = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
  /** Lets messages arrive, runs a turn, lets its answer arrive; false when there was nothing to do. */
  const next = async (): Promise<boolean> => {
    await arrived();
    const turn = turns.shift();
    turn?.();
    await arrived();
    return turn !== undefined;
  };
  const settle = async (): Promise<void> => {
    while (await next());
  };
  return {
    engine,
    reports,
    rested,
    deltas,
    crashes,
    progress,
    answers,
    foresee: (text: string) => port1.postMessage({ type: 'foresee', text }),
    next,
    settle,
    close: () => port1.close(),
  };
}

let both: ReturnType<typeof connected>;
beforeEach(() => {
  both = connected();
});
afterEach(() => both.close());

describe('the engine behind the channel', () => {
  it('tells nothing of a boat that is foreseen, and answers the one that is opened as from cold, the same or another', async () => {
    both.foresee(JSON.stringify(threeLockers()));
    both.foresee('no boat at all');
    await both.settle();
    expect(both.reports).toEqual([]);
    both.engine.open(1, boat);
    await both.settle();
    expect(both.reports[0]).toEqual({ sent: 1, report: analyze(boat) });
    const other = { ...boat, name: 'Another', greatestHeelDeg: 10 };
    const again = connected();
    again.foresee(JSON.stringify(threeLockers()));
    again.engine.open(1, other);
    await again.settle();
    expect(again.reports[0]).toEqual({ sent: 1, report: analyze(other) });
    again.close();
  });

  it('answers an opened boat with the report of a cold check', async () => {
    both.engine.open(7, boat);
    await both.settle();
    expect(both.crashes).toEqual([]);
    expect(both.reports[0]).toEqual({ sent: 7, report: analyze(boat) });
    // Then, of the same boat, with what takes longer; and that nothing more comes.
    expect(both.reports.slice(1)).toEqual([{ sent: 7, report: analyze(boat, { deeper: true }) }]);
    expect(both.rested).toEqual([7]);
  });

  it('answers an edit with the report of a cold check of the edited boat, keeping what did not change', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const moved = edit(boat, placed('', 'battery', { at: [2.4, 0.3, -0.2] }));
    if (!moved.ok) throw new Error('expected an edit');
    both.engine.edit(2, moved.patches);
    await both.settle();
    const first = both.reports.findLast(({ sent }) => sent === 1);
    const second = both.reports.find(({ sent }) => sent === 2);
    expect(second).toEqual({ sent: 2, report: analyze(moved.boat) });
    const same = second?.report.findings.filter((finding) => first?.report.findings.includes(finding)) ?? [];
    const equal = second?.report.findings.filter((finding) =>
      first?.report.findings.some((old) => JSON.stringify(old) === JSON.stringify(finding)),
    );
    expect(same.length).toBeGreaterThan(0);
    expect(same).toHaveLength(equal?.length ?? 0);
  });

  it('answers only the newest of the steps that wait', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const pose = { at: [2.5, 0, -0.2] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    for (let seq = 1; seq <= 5; seq++)
      both.engine.whatIf(seq, { battery: { ...pose, at: [2.5 + seq / 100, 0, -0.2] } });
    await both.next();
    expect(both.deltas.map(({ seq }) => seq)).toEqual([5]);
  });

  it('a drag that is taken back leaves the settled answer as it was', async () => {
    both.engine.open(1, boat);
    await both.settle();
    both.engine.whatIf(1, { battery: { at: [0.5, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 } });
    await both.settle();
    both.engine.endWhatIf();
    both.engine.edit(2, []);
    await both.settle();
    expect(both.reports.at(-1)).toEqual({ sent: 2, report: analyze(boat, { deeper: true }) });
  });

  it('tells a fault of the program in words and goes on', async () => {
    both.engine.edit(1, []);
    await both.settle();
    expect(both.crashes).toEqual(['an edit came before a boat']);
    both.engine.open(2, boat);
    await both.settle();
    expect(new Set(both.reports.map(({ sent }) => sent))).toEqual(new Set([2]));
  });
});

describe('an edit that is tried first', () => {
  /** A clip point of a line, beside its run or far outside the boat. */
  const clipped = (y: number) => {
    const done = edit(boat, (draft) => {
      const clips = draft.arrangements.first?.clipPoints;
      if (clips) clips['raw-1'] = { clip: { at: [1.3, y, 0], order: 1 } };
    });
    if (!done.ok) throw new Error('expected an edit');
    return done;
  };

  it('is answered with the run that the line would have, and made afterwards as if it had not been tried', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const there = clipped(0.1);
    const told: Tried[] = [];
    both.engine.trial('raw-1', there.patches, (run) => told.push(run));
    await both.settle();
    expect(told).toEqual([analyze(there.boat).runs.find(({ lineId }) => lineId === 'raw-1')]);
    expect(told[0]).toMatchObject({ status: 'routed' });
    both.engine.edit(2, there.patches);
    await both.settle();
    expect(both.reports.find(({ sent }) => sent === 2)?.report).toEqual(analyze(there.boat));
    expect(both.crashes).toEqual([]);
  });

  it('given up leaves the boat and its answer as they were', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const told: Tried[] = [];
    both.engine.trial('raw-1', clipped(9).patches, (run) => told.push(run));
    await both.settle();
    expect(told).toMatchObject([{ status: 'blocked' }]);
    both.engine.endWhatIf();
    both.engine.edit(2, []);
    await both.settle();
    expect(both.reports.find(({ sent }) => sent === 2)?.report).toEqual(analyze(boat, { deeper: true }));
  });

  it('that throws is told as failed', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const told: Tried[] = [];
    // A line without its kind: no edit of the window can make one.
    both.engine.trial('raw-1', [{ op: 'replace', path: ['lines', 'raw-1', 'kind'], value: 'nothing' }], (run) =>
      told.push(run),
    );
    await both.settle();
    expect(told).toEqual(['failed']);
    expect(both.crashes).toHaveLength(1);
  });

  it('tells only of the newest of two', async () => {
    both.engine.open(1, boat);
    await both.settle();
    const told: string[] = [];
    both.engine.trial('raw-1', clipped(9).patches, () => told.push('first'));
    both.engine.trial('raw-1', clipped(0.1).patches, () => told.push('second'));
    await both.settle();
    expect(told).toEqual(['second']);
  });
});

describe('a question that takes its time', () => {
  it('is answered in slices as it would be at once', async () => {
    both.engine.open(1, boat);
    both.engine.ask(4, 3);
    await both.settle();
    expect(both.answers).toEqual([{ ask: 4, readings: nextReadings(boat, { most: 3 }) }]);
    expect(both.progress.length).toBeGreaterThan(2);
    expect(both.crashes).toEqual([]);
  });

  it('waits for a drag, and goes on after it', async () => {
    both.engine.open(1, boat);
    both.engine.ask(1, 3);
    while (both.progress.length === 0) await both.next();
    const place = boat.arrangements.first?.places.pump;
    if (!place) throw new Error('expected a placed pump');
    both.engine.whatIf(1, { pump: { ...place, at: [place.at[0] + 0.01, place.at[1], place.at[2]] } });
    const before = both.progress.length;
    await both.next();
    expect(both.deltas.length).toBeGreaterThan(0);
    expect(both.progress.length).toBe(before);
    both.engine.endWhatIf();
    await both.settle();
    expect(both.answers).toHaveLength(1);
  });

  it('is dropped when the boat changes, and when it is taken back', async () => {
    both.engine.open(1, boat);
    both.engine.ask(1, 3);
    while (both.progress.length === 0) await both.next();
    const result = edit(boat, placed('first', 'pump', { at: [2.6, 0.28, -0.2] }));
    if (!result.ok) throw new Error('expected an edit');
    both.engine.edit(2, result.patches);
    await both.settle();
    expect(both.answers).toEqual([]);
    both.engine.ask(2, 3);
    await both.next();
    both.engine.dropAsk();
    await both.settle();
    expect(both.answers).toEqual([]);
  });
});
