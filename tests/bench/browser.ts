import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { quantised } from '@core/boat/quantise';
import { checkBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { Page } from 'playwright-core';
import { inProject } from '../../electron/launch/project.mjs';
import { hasChromium, openChromium, servePage } from '../support/chromium';

/** Frame times of the built page in Chromium: from requestAnimationFrame, which ticks at most 60 times a second there. */
export interface BoardFigures {
  /** A part dragged over a board of 1,000 things. */
  readonly frameMs: Spread;
  /** The same with SEVERAL things picked, which all go along. */
  readonly severalFrameMs: Spread;
  /** The sheet panned and zoomed over the same board. */
  readonly cameraFrameMs: Spread;
  /** Main thread busy for one step of a station point held on the section board, 25 stations of 15 points. */
  readonly sectionStepMs: Spread;
  /** From navigation to the first settled drawing of the sample boat. */
  readonly startMs: number;
  /** From navigation to the boat on the board, before it is judged. */
  readonly drawnMs: number;
  /** Scripts that the page and its worker read at start, and all files of the page, kilobytes as they lie on the disk. */
  readonly startKb: number;
  readonly wholeKb: number;
}
interface Spread {
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
}

const THINGS = 1000;
const STARTS = 3;
const SEVERAL = 5;
const STEPS = 120;
/** A boat of 1,000 things is judged slowly; the drag is measured once it has been, or after this while. */
const PATIENCE_MS = 120_000;
const WIDTH = 1440;
const HEIGHT = 900;

/** Runs the page of `dist/renderer`, which must be built. Without Chromium: an error that says so. */
export async function measureBoard(): Promise<BoardFigures> {
  if (!hasChromium()) throw new Error('measureBoard: expected Chromium on this machine; install it or set CHROMIUM');
  const mode = await servePage();
  const browser = await openChromium();
  try {
    const starts: number[] = [];
    const draws: number[] = [];
    let startKb = 0;
    for (let start = 0; start < STARTS; start++) {
      const page = await browser.newPage({ viewport: { width: WIDTH, height: HEIGHT } });
      await page.addInitScript(watchForBoat);
      starts.push(await startOf(page, mode.url));
      draws.push(await page.evaluate(() => (window as unknown as { drawnAt: number }).drawnAt));
      startKb = await scriptKb(page);
      await page.close();
    }
    const lofted = await browser.newPage({ viewport: { width: WIDTH, height: HEIGHT } });
    await startOf(lofted, mode.url);
    const sectionStepMs = spread(await sectionSteps(lofted));
    await lofted.close();
    const page = await browser.newPage({ viewport: { width: WIDTH, height: HEIGHT } });
    await startOf(page, mode.url);
    const part = await crowd(page);
    const frameMs = spread(await dragFrames(page, part));
    const severalFrameMs = spread(await severalFrames(page, part));
    const cameraFrameMs = spread(await cameraFrames(page));
    return {
      frameMs,
      severalFrameMs,
      cameraFrameMs,
      sectionStepMs,
      startMs: round(middleOf(starts)),
      drawnMs: round(middleOf(draws)),
      startKb,
      wholeKb: kbUnder(inProject('dist', 'renderer')),
    };
  } finally {
    await browser.close();
    await mode.close();
  }
}

async function startOf(page: Page, url: string): Promise<number> {
  await page.goto(`${url}?e2e`);
  await settled(page, PATIENCE_MS);
  // Two frames later the answer is on the glass.
  return page.evaluate(
    () =>
      new Promise<number>((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now())))),
  );
}

/** Runs before the page does: notes the frame after the one in which the boat stands on the board. */
function watchForBoat(): void {
  const look = (): void => {
    const isThere = document.querySelector('[data-testid="board"] canvas') !== null;
    requestAnimationFrame(isThere ? () => Object.assign(window, { drawnAt: performance.now() }) : look);
  };
  requestAnimationFrame(look);
}

const scriptKb = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const read = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
    const scripts = read.filter(({ name }) => name.endsWith('.js'));
    return Math.round(scripts.reduce((sum, { decodedBodySize }) => sum + decodedBodySize, 0) / 1000);
  });

const kbUnder = (folder: string): number =>
  Math.round(
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .reduce((sum, { parentPath, name }) => sum + statSync(path.join(parentPath, name)).size, 0) / 1000,
  );

const settled = (page: Page, timeout: number): Promise<unknown> =>
  page.waitForFunction(
    () => {
      const state = window.underberthBoard?.app();
      return state !== undefined && state.report !== null && !state.stale;
    },
    null,
    { timeout },
  );

/** Fills the boat on the board up to THINGS things and returns the part to drag. */
async function crowd(page: Page): Promise<string> {
  const boat = await page.evaluate(() => window.underberthBoard?.app().boat ?? null);
  if (!boat) throw new Error('measureBoard: expected a boat on the board');
  const crowded = checkBoat(withThings(boat, THINGS));
  if (!crowded.ok) throw new Error(crowded.problems.map(({ message }) => message).join('\n'));
  await page.evaluate((many) => {
    window.underberthBoard?.app().open(many, { fileName: 'crowded', token: null, saved: true });
  }, crowded.boat);
  await settled(page, PATIENCE_MS).catch(() => undefined);
  const part =
    Object.keys(boat.parts).find((id) => boat.parts[id]?.kind === 'pumpModule') ?? Object.keys(boat.parts)[0];
  if (part === undefined) throw new Error('measureBoard: expected a part in the sample boat');
  await page.evaluate((id) => window.underberthBoard?.app().select({ kind: 'thing', id }), part);
  return part;
}

/** Small boxes in rows through the boat, soft, so that they crowd the drawing and not the ways of the runs. */
function withThings(boat: Boat, count: number): Boat {
  const missing = count - Object.keys(boat.fixtures).length - Object.keys(boat.parts).length;
  const fixtures: Record<string, unknown> = { ...boat.fixtures };
  const across = 25;
  for (let i = 0; i < missing; i++) {
    const x = 1 + 8.5 * (Math.floor(i / across) / Math.ceil(missing / across));
    const y = -1.2 + (2.4 * (i % across)) / (across - 1);
    fixtures[`crowd-${i}`] = {
      name: `Box ${i + 1}`,
      kind: 'other',
      soft: true,
      shape: { type: 'box', sizeM: [0.06, 0.05, 0.04] },
      massKg: 0.1,
      pose: { at: [quantised(x), quantised(y), 0.9], yawDeg: 0, pitchDeg: 0, rollDeg: 0 },
    };
  }
  return { ...boat, fixtures } as Boat;
}

/** Starts to keep the time of every frame; `frames` hands it over. */
const watchFrames = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { frameTimes: times });
    let last = performance.now();
    const tick = (now: number) => {
      times.push(now - last);
      last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });
/** All but the first few, in which the gesture begins. */
const frames = (page: Page): Promise<number[]> =>
  page.evaluate(() => {
    const times = (window as unknown as { frameTimes: number[] }).frameTimes;
    return times.splice(0).slice(3);
  });

async function dragFrames(page: Page, part: string): Promise<number[]> {
  const at = await page.evaluate((id) => window.underberthBoard?.clientPos(id, 'plan') ?? null, part);
  if (!at) throw new Error(`measureBoard: expected ${part} on the plan`);
  await watchFrames(page);
  await page.mouse.move(at[0], at[1]);
  await page.mouse.down();
  await page.mouse.move(at[0] + 6, at[1], { steps: 3 });
  await frames(page);
  for (let i = 1; i <= STEPS; i++)
    await page.mouse.move(at[0] + 6 + 60 * Math.sin(i / 12), at[1] + 20 * Math.sin(i / 7));
  const times = await frames(page);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await settled(page, PATIENCE_MS).catch(() => undefined);
  return times;
}

/** The part and its neighbours in the list of parts held together. */
async function severalFrames(page: Page, part: string): Promise<number[]> {
  await page.evaluate(
    ({ id, count }) => {
      const app = window.underberthBoard?.app();
      const others = Object.keys(app?.boat?.parts ?? {}).filter((one) => one !== id);
      app?.select(
        { kind: 'thing', id },
        others.slice(0, count - 1).map((one) => ({ kind: 'thing', id: one })),
      );
    },
    { id: part, count: SEVERAL },
  );
  return dragFrames(page, part);
}

async function cameraFrames(page: Page): Promise<number[]> {
  const board = await page.locator('[data-testid="board"]').boundingBox();
  if (!board) throw new Error('measureBoard: expected a board');
  const x = board.x + board.width * 0.35;
  const y = board.y + board.height * 0.7;
  await page.mouse.move(x, y);
  await frames(page);
  const times: number[] = [];
  for (let i = 0; i < 4; i++) await page.mouse.wheel(0, -60);
  await page.mouse.down({ button: 'middle' });
  for (let i = 1; i <= STEPS; i++) await page.mouse.move(x + 90 * Math.sin(i / 14), y + 40 * Math.sin(i / 9));
  await page.mouse.up({ button: 'middle' });
  for (let i = 0; i < 30; i++) await page.mouse.wheel(0, i < 15 ? 40 : -40);
  times.push(...(await frames(page)));
  return times;
}

const LOFTED = { stations: 25, levels: 14 } as const;

/** A Wigley hull in place of the boat's own, and one of its points held for STEPS steps: what the main thread did for each. */
async function sectionSteps(page: Page): Promise<number[]> {
  await page.evaluate(({ stations, levels }) => {
    window.underberthBoard?.app().edit('Another hull', (draft) => {
      if (!draft.hull) return;
      draft.hull.stations = Object.fromEntries(
        Array.from({ length: stations }, (_, i) => {
          const along = Math.max(0.02, 1 - ((2 * i) / (stations - 1) - 1) ** 2);
          const points = Array.from({ length: levels }, (_, j): [number, number] => {
            const z = -1.2 + (1.2 * j) / (levels - 1);
            return [1.6 * along * (1 - (z / 1.2) ** 2), z];
          });
          const xM = (11 * i) / (stations - 1);
          return [`w${i}`, { xM, points: [...points, [1.6 * along, 1]], knuckles: [levels - 1] }];
        }),
      );
    });
  }, LOFTED);
  await page.keyboard.press('1');
  await settled(page, PATIENCE_MS);
  const at = await page.evaluate(() => window.underberthSections?.pointAt(7) ?? null);
  if (!at) throw new Error('measureBoard: expected a point on the section board');
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Performance.enable');
  const busyMs = async (): Promise<number> => {
    const { metrics } = await devtools.send('Performance.getMetrics');
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0);
  };
  const twoFrames = (): Promise<void> =>
    page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))));
  await page.mouse.move(at[0], at[1]);
  await page.mouse.down();
  await page.mouse.move(at[0] + 6, at[1], { steps: 3 });
  await twoFrames();
  const times: number[] = [];
  for (let i = 1; i <= STEPS; i++) {
    const before = await busyMs();
    await page.mouse.move(at[0] + 6 + 20 * Math.sin(i / 12), at[1] + 10 * Math.sin(i / 7));
    await twoFrames();
    times.push((await busyMs()) - before);
  }
  await page.keyboard.press('Escape');
  await page.mouse.up();
  return times;
}

const middleOf = (values: readonly number[]): number => sorted(values)[Math.floor(values.length / 2)] ?? 0;
const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const round = (value: number): number => Math.round(value * 1000) / 1000;
function spread(values: readonly number[]): Spread {
  const order = sorted(values);
  const at = (share: number): number =>
    round(order[Math.min(order.length - 1, Math.ceil(share * order.length) - 1)] ?? 0);
  return { p50: at(0.5), p95: at(0.95), p99: at(0.99) };
}
