/// <reference types="vite/client" />
import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { currentArrangementId, edit, placed } from '@core/boat/edits';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat, Place } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { run } from '@core/engine/final-run';
import { baseRun, ranked } from '@core/engine/run-stages';
import { Session } from '@core/engine/session';
import { hull, layout } from '@core/engine/shape-stages';
import { lineIds, sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import { randomFrom } from '../support/random';
import { tenfold } from '../support/tenfold';
import { placeTimes } from './place';
import { serviceTimes } from './service';
import { type TakeAwayTimes, takeAwayTimes } from './take-away';

/**
 * Prints the figures of the budgets as JSON. Every sample is taken beside a run of one fixed calibration kernel, and every
 * figure is given as a ratio to it as well, since machines are noisy and differ.
 */
const SAMPLE_BOAT = 'sample-boats/complete/sandwort/boat.json';
const COLD_RUNS = 7;
const DRAGS = 8;
const MOVES = 25;
const SETTLED_MOVES = 16;
const TAKE_AWAYS = 5;

/** Parts of the browser's share, when they are there: `measureBoard` gives the frames of the board, steps of a section, starts and sizes. */
interface BrowserFigures {
  readonly frameMs: Spread;
  readonly severalFrameMs: Spread;
  readonly sectionStepMs: Spread;
  readonly startMs: number;
  readonly drawnMs: number;
  readonly startKb: number;
  readonly wholeKb: number;
}
interface BrowserModule {
  measureBoard(): Promise<BrowserFigures>;
}

interface Spread {
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
}

/** A fixed piece of work: sorting and trigonometry over doubles, some 20 ms. */
function kernel(): number {
  const random = randomFrom(42);
  let sum = 0;
  for (let round = 0; round < 6; round++) {
    const values = Float64Array.from({ length: 20_000 }, () => random());
    values.sort();
    for (const value of values) sum += Math.sqrt(value) * Math.sin(value * round);
  }
  return sum;
}

const calibrations: number[] = [];
let kept = 0;
function calibrate(): number {
  const start = performance.now();
  kept += kernel();
  const took = performance.now() - start;
  calibrations.push(took);
  return took;
}

interface Sample {
  readonly ms: number;
  readonly ratio: number;
}

/** Samples of one figure, each divided by the calibration beside it. */
function timed(samples: Sample[], work: () => void): void {
  const before = calibrations.at(-1) ?? calibrate();
  const start = performance.now();
  work();
  const ms = performance.now() - start;
  samples.push({ ms, ratio: ms / before });
}

const quantile = (values: readonly number[], share: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? 0;
};
const round = (value: number): number => Math.round(value * 1000) / 1000;
const spread = (values: readonly number[]): Spread => ({
  p50: round(quantile(values, 0.5)),
  p95: round(quantile(values, 0.95)),
  p99: round(quantile(values, 0.99)),
});
const figure = (samples: readonly Sample[]): { readonly ms: Spread; readonly ratio: Spread } => ({
  ms: spread(samples.map(({ ms }) => ms)),
  ratio: spread(samples.map(({ ratio }) => ratio)),
});

function sampleBoat(): { readonly text: string; readonly boat: Boat; readonly arrangement: string } {
  const text = readFileSync(SAMPLE_BOAT, 'utf8');
  const result = readBoat(text);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  const arrangement = currentArrangementId(result.boat);
  if (arrangement === null) throw new Error('bench: the sample boat has no arrangement');
  return { text, boat: result.boat, arrangement };
}

/** What stands between the file and a first drawing: reading, hull, panels. */
function open(text: string): void {
  const result = readBoat(text);
  if (!result.ok) throw new Error('bench: unreadable');
  const store = new Store(sourceOf(result.boat));
  store.read(hull);
  store.read(layout);
}

interface DragFigures {
  readonly warm: Sample[];
  readonly fresh: Sample[];
  /** Lines that end at the thing that was moved, by drag. */
  readonly attached: number[];
}

/** Things that so many lines end at count for the drag of a thing with about five lines. */
const LEAST_ATTACHED = 4;

/** Lines by the thing that they end at. */
function attachedTo(boat: Boat, id: string): number {
  return Object.values(boat.lines).filter(({ from, to }) => from.thing === id || to.thing === id).length;
}

/** Moves things at random; `isMoved` says which may be. */
function drags(boat: Boat, arrangement: string, count: number, isMoved = (_: string): boolean => true): DragFigures {
  const session = new Session(boat, { arrangement });
  session.settled();
  const random = randomFrom(1);
  const places = Object.entries(boat.arrangements[arrangement]?.places ?? {}).filter(([id]) => isMoved(id));
  const warm: Sample[] = [];
  const fresh: Sample[] = [];
  const attached: number[] = [];
  let seq = 0;
  for (let drag = 0; drag < count; drag++) {
    const [id, place] = places[Math.floor(random() * places.length)] ?? [];
    if (id === undefined || !place) continue;
    attached.push(attachedTo(boat, id));
    const heading = random() * 2 * Math.PI;
    calibrate();
    for (let move = 1; move <= MOVES; move++) {
      seq += 1;
      const moved = along(place, heading, 0.004 * move);
      const start = performance.now();
      session.whatIf({ seq, places: { [id]: moved } });
      session.step();
      const warmMs = performance.now() - start;
      while (session.step()?.fresh === false);
      const freshMs = performance.now() - start;
      const beside = calibrations.at(-1) ?? 1;
      warm.push({ ms: warmMs, ratio: warmMs / beside });
      fresh.push({ ms: freshMs, ratio: freshMs / beside });
      // One slice of searching between two moves, as between two frames.
      session.step();
    }
    // What the worker does when the hand lets go.
    session.settled();
  }
  return { warm, fresh, attached };
}

const along = (place: Place, heading: number, metres: number): Place => ({
  ...place,
  at: [place.at[0] + Math.cos(heading) * metres, place.at[1] + Math.sin(heading) * metres, place.at[2]],
});

function settledMoves(boat: Boat, arrangement: string): Sample[] {
  const session = new Session(boat, { arrangement });
  session.settled();
  const random = randomFrom(2);
  const ids = Object.keys(boat.arrangements[arrangement]?.places ?? {});
  const samples: Sample[] = [];
  for (let move = 0; move < SETTLED_MOVES; move++) {
    const id = ids[Math.floor(random() * ids.length)] ?? '';
    const place = session.boat.arrangements[arrangement]?.places[id];
    if (!place) continue;
    const moved = along(place, random() * 2 * Math.PI, 0.03);
    const result = edit(session.boat, placed(arrangement, id, moved));
    if (!result.ok) continue;
    calibrate();
    timed(samples, () => {
      session.edit(result.patches);
      session.settled();
    });
  }
  return samples;
}

interface ColdFigures {
  readonly cold: Sample[];
  readonly routing: Sample[];
  /** One sample a line, in the order of routing: each begins with what the lines before it have made ready. */
  readonly lines: Sample[];
  readonly opening: Sample[];
}

/** A function of its own, so that none of its stores is held when the memory is measured. */
function colds(text: string, boat: Boat, arrangement: string): ColdFigures {
  const cold: Sample[] = [];
  const routing: Sample[] = [];
  const lines: Sample[] = [];
  const opening: Sample[] = [];
  for (let sample = 0; sample < COLD_RUNS; sample++) {
    calibrate();
    timed(opening, () => open(text));
    timed(cold, () => analyze(boat, { arrangement }));
    const store = new Store(sourceOf(boat, arrangement));
    store.read(hull);
    store.read(layout);
    timed(routing, () => {
      for (const id of store.read(lineIds)) store.read(run, id);
    });
    const apart = new Store(sourceOf(boat, arrangement));
    apart.read(hull);
    apart.read(layout);
    for (const id of apart.read(ranked)) timed(lines, () => apart.read(baseRun, id));
  }
  return { cold, routing, lines, opening };
}

/** Collects what is no longer used; what the stack may still ask for is let go only after a turn of the loop. */
async function heapMb(): Promise<number> {
  await new Promise((done) => setTimeout(done, 0));
  globalThis.gc?.();
  globalThis.gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
}

/** What the runs of a boat and all that the router keeps for them take, hull and layout not counted. */
async function routingMb(boat: Boat, arrangement: string): Promise<number> {
  // A boat of its own: what others have made ready must not be counted as free.
  const store = new Store(sourceOf(structuredClone(boat), arrangement));
  store.read(hull);
  store.read(layout);
  const before = await heapMb();
  for (const id of store.read(lineIds)) store.read(run, id);
  const after = await heapMb();
  if (store.size === 0) throw new Error('bench: nothing was routed');
  return after - before;
}

async function main(): Promise<void> {
  const { text, boat, arrangement } = sampleBoat();
  for (let warmUp = 0; warmUp < 3; warmUp++) calibrate();

  const { cold, routing, lines, opening } = colds(text, boat, arrangement);
  const routingMemoryMb = round(await routingMb(boat, arrangement));
  const report = analyze(boat, { arrangement });
  const gaps = report.runs.flatMap(({ lengthM, lowerBoundM }) =>
    lengthM === null || lowerBoundM <= 0 ? [] : [lengthM / lowerBoundM - 1],
  );
  const { warm, fresh } = drags(boat, arrangement, DRAGS);
  const attached = drags(boat, arrangement, 4, (id) => attachedTo(boat, id) >= LEAST_ATTACHED);
  const settled = settledMoves(boat, arrangement);

  const taken: TakeAwayTimes[] = [];
  for (let sample = 0; sample < TAKE_AWAYS; sample++) taken.push(await takeAwayTimes(boat, arrangement, report));
  const takenMs = (of: keyof TakeAwayTimes): number =>
    round(
      quantile(
        taken.map((times) => times[of]),
        0.5,
      ),
    );

  const service = serviceTimes(() => void calibrate());
  const places = placeTimes(boat, () => void calibrate());

  await heapMb();
  const memoryMb = round(process.memoryUsage().heapUsed / 1e6);

  const large = checkBoat(tenfold(boat, arrangement));
  if (!large.ok) throw new Error(large.problems.map(({ message }) => message).join('\n'));
  const largeText = writeBoat(large.boat);
  const largeOpening: Sample[] = [];
  const largeCold: Sample[] = [];
  for (let sample = 0; sample < 2; sample++) {
    calibrate();
    timed(largeOpening, () => open(largeText));
    timed(largeCold, () => analyze(large.boat, { arrangement }));
  }
  const largeDrags = drags(large.boat, arrangement, 3);

  const browser = Object.values(import.meta.glob<BrowserModule>('./browser.ts'))[0];
  const board = browser ? await (await browser()).measureBoard() : null;

  const median = (samples: readonly Sample[]) => ({
    ms: round(
      quantile(
        samples.map(({ ms }) => ms),
        0.5,
      ),
    ),
    ratio: round(
      quantile(
        samples.map(({ ratio }) => ratio),
        0.5,
      ),
    ),
  });
  const result = {
    boat: {
      compartments: Object.keys(boat.compartments).length,
      things: Object.keys(boat.fixtures).length + Object.keys(boat.parts).length,
      lines: Object.keys(boat.lines).length,
      routed: report.summary.routed,
      blocked: report.summary.blocked,
    },
    calibrationMs: round(quantile(calibrations, 0.5)),
    'analysis.coldMs': median(cold).ms,
    'drag.warmMs': spread(warm.map(({ ms }) => ms)),
    'drag.freshMs': spread(fresh.map(({ ms }) => ms)),
    'drag.settledMs': spread(settled.map(({ ms }) => ms)),
    'routing.coldAllMs': median(routing).ms,
    'routing.lineMs': spread(lines.map(({ ms }) => ms)),
    'routing.memoryMb': routingMemoryMb,
    'drag.attachedLines': round(attached.attached.reduce((sum, one) => sum + one, 0) / attached.attached.length),
    'drag.attachedWarmMs': spread(attached.warm.map(({ ms }) => ms)),
    'routing.gapToBound': { median: round(quantile(gaps, 0.5)), p95: round(quantile(gaps, 0.95)) },
    ...(board
      ? {
          'board.frameMs': board.frameMs,
          'board.severalFrameMs': board.severalFrameMs,
          'sections.stepMs': board.sectionStepMs,
          'start.drawnMs': board.drawnMs,
          startMs: board.startMs,
          'bundle.startKb': board.startKb,
          'bundle.wholeKb': board.wholeKb,
        }
      : {}),
    'service.warmMs': spread(service.warmMs),
    'service.rejudgeMs': spread(service.rejudgeMs),
    'place.firstMs': spread(places.firstMs),
    'place.settledMs': spread(places.settledMs),
    'place.asked': places.asked,
    'service.tasks': { near: service.near, of: service.tasks },
    openMs: median(opening).ms,
    takeoffMs: takenMs('takeoff'),
    'list.csvMs': takenMs('csv'),
    'list.workbookMs': takenMs('workbook'),
    'sheets.generalMs': takenMs('sheets'),
    memoryMb,
    'tenfold.openMs': median(largeOpening).ms,
    'tenfold.coldMs': median(largeCold).ms,
    'tenfold.dragRatio': round(
      quantile(
        largeDrags.warm.map(({ ratio }) => ratio),
        0.5,
      ) /
        quantile(
          warm.map(({ ratio }) => ratio),
          0.5,
        ),
    ),
    ratios: {
      'analysis.cold': median(cold).ratio,
      'drag.warm': figure(warm).ratio,
      'drag.fresh': figure(fresh).ratio,
      'drag.settled': figure(settled).ratio,
      'drag.attachedWarm': figure(attached.warm).ratio,
      'routing.coldAll': median(routing).ratio,
      'routing.line': figure(lines).ratio,
      'service.warm': round(quantile(service.warmMs, 0.5) / quantile(calibrations, 0.5)),
      'place.first': round(quantile(places.firstMs, 0.5) / quantile(calibrations, 0.5)),
      'place.settled': round(quantile(places.settledMs, 0.5) / quantile(calibrations, 0.5)),
      'service.rejudge': round(quantile(service.rejudgeMs, 0.5) / quantile(calibrations, 0.5)),
      open: median(opening).ratio,
      ...(board ? { 'sections.step': round(board.sectionStepMs.p50 / quantile(calibrations, 0.5)) } : {}),
      'tenfold.open': median(largeOpening).ratio,
      'tenfold.cold': median(largeCold).ratio,
    },
    kernel: round(kept % 1),
  };
  process.stdout.write(`${JSON.stringify(result, null, 2)}\n`);
}

await main();
