import { MessageChannel } from 'node:worker_threads';
import { readBoat } from '@core/boat/read';
import { alternatives } from '@core/engine/alternatives/alternatives';
import { type ShellInput, shellOf } from '@core/engine/first-boat/first-boat';
import { lockerAnswers } from '@core/engine/fit/one-locker';
import type { Progress } from '@core/engine/in-slices';
import { remedies } from '@core/engine/remedies/remedies';
import { Session } from '@core/engine/session';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { undrawnSpace } from '@core/shape/layout/undrawn';
import { netVolume } from '@core/shape/space/net-volume';
import type { Told } from '@renderer/store/connections';
import { type StudyChannel as ClientChannel, studiesOver } from '@renderer/worker/studies/client';
import type { Studies, StudyKind, ToStudies } from '@renderer/worker/studies/protocol';
import { type StudyChannel as ServerChannel, serveStudies } from '@renderer/worker/studies/serve';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { boxPart, lockerOf } from '../../core/engine/fit/lockers';
import { threeLockers } from '../../support/boats';

/** Both ends over a real channel, with structured clones between them; turns run one by one on `next`. */
function connected() {
  const { port1, port2 } = new MessageChannel();
  const turns: (() => void)[] = [];
  serveStudies(port2 as unknown as ServerChannel, (turn) => turns.push(turn));
  const studies = studiesOver(port1 as unknown as ClientChannel);
  const told: { readonly name: string; readonly told: Told<StudyKind> }[] = [];
  const progress: Progress[] = [];
  const ask = <K extends StudyKind>(name: string, kind: K, from: Studies[K]['from']): (() => void) =>
    studies.study(
      kind,
      from,
      (answer) => told.push({ name, told: answer }),
      (step) => progress.push(step),
    );
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
  return { ask, told, progress, next, settle, close: () => port1.close() };
}

let both: ReturnType<typeof connected>;
beforeEach(() => {
  both = connected();
});
afterEach(() => both.close());

const usual: ShellInput = {
  form: 'finKeel',
  lengthM: 11,
  beamM: 3.5,
  draughtM: 1.9,
  displacementKg: 6200,
  lockers: [],
};
/** More than such a hull carries: refused before anything is solved. */
const tooHeavy: ShellInput = { ...usual, displacementKg: 60_000 };
const locker = lockerOf({ length: 506, height: 600, bottom: 400, opening: [390, 390] });
const parts = { a: boxPart([500, 300, 200]), b: boxPart([200, 200, 200]) };

describe('a study', () => {
  it('answers as the core does at once: a refused hull, a locker, the holes, the undrawn space, volumes', async () => {
    const read = readBoat(JSON.stringify(threeLockers()));
    const shell = shellOf(usual);
    if (!read.ok || !shell.ok) throw new Error('expected a boat and a hull');
    const { compartments } = shell.interior;
    const interior = { compartments, panels: {}, newHoles: {}, newHoleCostM: 0 };
    both.ask('shell', 'shell', tooHeavy);
    both.ask('locker', 'locker', { locker, parts });
    both.ask('holes', 'holes', { boat: read.boat, year: 2026 });
    const [id = ''] = Object.keys(compartments);
    both.ask('volumes', 'volumes', { ids: [id], interior, hull: shell.hull, fixtures: {} });
    both.ask('undrawn', 'undrawn', { interior, hull: shell.hull });
    await both.settle();
    const answers = Object.fromEntries(both.told.map(({ name, told }) => [name, told.ok ? told.gives : told.message]));
    expect(answers).toEqual({
      shell: shellOf(tooHeavy),
      locker: lockerAnswers(locker, parts),
      holes: new Session(read.boat).holes(2026),
      volumes: {
        [id]: netVolume({ compartments, fixtures: {}, hull: shell.hull }, deriveLayout(interior), shell.surface, id),
      },
      undrawn: undrawnSpace(deriveLayout(interior), hullSurface(shell.hull)),
    });
  });

  it('of one kind the newest counts: those that it overtakes are never answered', async () => {
    both.ask('first', 'locker', { locker, parts });
    await both.next();
    both.ask('second', 'locker', { locker, parts: { a: parts.a } });
    both.ask('third', 'locker', { locker, parts: { b: parts.b } });
    await both.settle();
    expect(both.told.map(({ name }) => name)).toEqual(['third']);
    expect(both.told[0]?.told).toEqual({ ok: true, gives: lockerAnswers(locker, { b: parts.b }) });
  });

  it('that is taken back is never answered, not even when its answer was on the way', async () => {
    const takeBack = both.ask('dropped', 'shell', tooHeavy);
    await both.next();
    takeBack();
    await both.settle();
    const late = both.ask('late', 'shell', tooHeavy);
    // Its only slice is worked on, and the answer is under way when it is taken back.
    await both.next();
    const turn = both.next();
    late();
    await turn;
    await both.settle();
    expect(both.told).toEqual([]);
  });

  it('that is long holds up no short one', async () => {
    both.ask('long', 'locker', { locker, parts });
    both.ask('short', 'shell', tooHeavy);
    await both.settle();
    expect(both.told.map(({ name }) => name)).toEqual(['short', 'long']);
  });

  it('that cannot be sent says so', () => {
    both.ask('unsent', 'locker', { locker, parts: { a: { ...parts.a, name: (() => '') as unknown as string } } });
    expect(both.told.map(({ told }) => told.ok)).toEqual([false]);
  });

  it('that throws says so, and the next one is answered', async () => {
    const wide = lockerOf({ length: 506, height: 600, bottom: 400, opening: [2000, 390] });
    both.ask('thrown', 'locker', { locker: wide, parts });
    both.ask('next', 'shell', tooHeavy);
    await both.settle();
    const thrown = both.told.find(({ name }) => name === 'thrown')?.told;
    expect(thrown?.ok === false && thrown.message).toMatch(/opening is 2000 mm wide/);
    expect(both.told.find(({ name }) => name === 'next')?.told.ok).toBe(true);
  });

  it('tells everyone that waits when the worker falls', () => {
    const sent: ToStudies[] = [];
    const channel: ClientChannel = { postMessage: (message) => sent.push(message), onmessage: null, onerror: null };
    const studies = studiesOver(channel);
    const told: unknown[] = [];
    studies.study('shell', tooHeavy, (answer) => told.push(answer));
    studies.study('locker', { locker, parts }, (answer) => told.push(answer));
    channel.onerror?.({ message: 'out of memory' } as ErrorEvent);
    const fault = { ok: false, message: 'out of memory' };
    expect(told).toEqual([fault, fault]);
    expect(sent.map(({ type }) => type)).toEqual(['study', 'study']);
  });
});

describe('questions about a run', () => {
  const read = readBoat(JSON.stringify(threeLockers()));
  if (!read.ok) throw new Error('expected a boat');
  const { boat } = read;

  it('are answered as the engine would at once, and tell how far they are', async () => {
    both.ask('ways', 'alternatives', { boat, lineId: 'product' });
    await both.settle();
    expect(both.told).toEqual([{ name: 'ways', told: { ok: true, gives: alternatives(boat, 'product') } }]);
    expect(both.progress.length).toBeGreaterThan(2);
    both.ask('help', 'remedies', { boat, lineId: 'product' });
    await both.settle();
    expect(both.told[1]).toEqual({ name: 'help', told: { ok: true, gives: remedies(boat, 'product') } });
  });

  it('hold up no other study, and are silent once they are taken back', async () => {
    const takeBack = both.ask('ways', 'alternatives', { boat, lineId: 'product' });
    while (both.progress.length === 0) await both.next();
    both.ask('rest', 'volumes', {
      ids: [],
      interior: { compartments: {}, panels: {}, openings: {} },
      hull: boat.hull,
      fixtures: {},
    } as unknown as Studies['volumes']['from']);
    while (both.told.length === 0) await both.next();
    expect(both.told.map(({ name }) => name)).toEqual(['rest']);
    const before = both.progress.length;
    takeBack();
    await both.settle();
    expect(both.told).toHaveLength(1);
    expect(both.progress.length).toBeLessThanOrEqual(before + 1);
  });
});
