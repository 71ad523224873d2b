import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { Report } from '@core/engine/report';
import { takeoffCsv } from '@core/output/takeoff/csv';
import type { BoardProbe } from '@renderer/board/probe';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { inProject } from '../../electron/launch/project.mjs';
import { boatFrom } from '../core/engine/moved-boats';
import type { Dice } from '../support/dice';

/** What the page tells with `?e2e` in its address. */
interface Told {
  readonly boat: Boat | null;
  readonly report: Report | null;
  readonly stale: boolean;
  readonly arrangementId: string | null;
  readonly selection: { readonly kind: string; readonly id: string } | null;
  readonly sectionX: number;
  readonly revision: number;
  readonly savedRevision: number;
}

export const told = (page: Page): Promise<Told> =>
  page.evaluate(() => {
    const { boat, report, stale, arrangementId, selection, sectionX, document } = (
      window.underberthBoard as BoardProbe
    ).app();
    const { revision, savedRevision } = document;
    return { boat, report, stale, arrangementId, selection, sectionX, revision, savedRevision };
  });

/** Waits until the answer on the board is that of the boat on the board. */
export const settle = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => window.underberthBoard?.isSettled() === true, null, { timeout: 60_000 });
};

/** As settle, and until nothing more comes for that boat: closer bounds, deeper tries. */
export const rest = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => window.underberthBoard?.isAtRest() === true, null, { timeout: 60_000 });
};

export const boatNow = async (page: Page): Promise<Boat> => {
  const boat = await page.evaluate(() => window.underberthBoard?.app().boat ?? null);
  if (!boat) throw new Error('expected a boat on the board');
  return boat;
};

/** Where a part stands, without the rest of the state: that is asked often. */
export const placeNow = async (page: Page, id: string): Promise<readonly [number, number, number]> => {
  const at = await page.evaluate((part) => {
    const app = window.underberthBoard?.app();
    return app?.boat?.arrangements[app.arrangementId ?? '']?.places[part]?.at ?? null;
  }, id);
  if (!at) throw new Error(`expected a place of ${id}`);
  return at;
};

export const clientPos = async (page: Page, id: string, view: 'plan' | 'profile' | 'section' | 'detail') => {
  const found = await page.evaluate(
    ([thing, field]) => window.underberthBoard?.clientPos(thing as string, field as 'plan') ?? null,
    [id, view],
  );
  if (!found) throw new Error(`expected ${id} in ${view}`);
  return found;
};

/** A real drag sends several moves. */
export async function drag(page: Page, from: readonly [number, number], by: readonly [number, number]): Promise<void> {
  await page.mouse.move(from[0], from[1]);
  await page.mouse.down();
  await page.mouse.move(from[0] + by[0], from[1] + by[1], { steps: 6 });
  await page.mouse.up();
}

const listBox = (page: Page) => page.getByRole('listbox', { name: 'Things and runs on the drawing board' });

/** Errors of the page, to be empty at the end. */
export function errorsOf(page: Page): readonly string[] {
  const errors: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  page.on('pageerror', (error) => errors.push(String(error)));
  return errors;
}

/** The answer on the board is, to the last bit, what Node says from cold of the boat as it is or was saved. */
export async function expectBoardCold(page: Page, saved?: string): Promise<void> {
  await rest(page);
  const { boat, report } = await told(page);
  if (!boat) throw new Error('expected a boat on the board');
  expect(report).toEqual(analyze(boatFrom(saved ?? writeBoat(boat)), { deeper: true }));
}

const CHOOSER_MS = 10_000;

/**
 * Opens a file through the browser's own chooser. On a machine that is busy with much else the chooser may come without the test being
 * told of it; a new wish takes the place of one that waits, as it would for a user, so the key is pressed again.
 */
export async function choosesFile(page: Page, name: string, text: string): Promise<void> {
  for (let tries = 1; ; tries++) {
    const choosing = page.waitForEvent('filechooser', { timeout: CHOOSER_MS }).catch((error: unknown) => {
      if (tries === 3) throw error;
      return null;
    });
    await page.keyboard.press('Control+o');
    const chooser = await choosing;
    if (!chooser) continue;
    await chooser.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
    return;
  }
}

/** Opens the page; at first start the 11 m boat is there by itself. */
export async function startPage(page: Page, address: string): Promise<void> {
  await page.goto(`${address}?e2e`);
  await rest(page);
  await page.getByRole('heading', { level: 1, name: 'Sandwort' }).waitFor();
}

export async function movesByMouse(page: Page): Promise<void> {
  const [x, y] = await clientPos(page, 'strainer', 'plan');
  await page.mouse.click(x, y);
  expect((await told(page)).selection).toEqual({ kind: 'thing', id: 'strainer' });
  const before = await placeNow(page, 'strainer');
  const runsBefore = (await told(page)).report?.runs;

  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 6, y - 4, { steps: 3 });
  await page.mouse.move(x + 14, y - 9, { steps: 6 });
  // Runs follow while the hand still holds: an answer to a step comes before release.
  await page.waitForFunction(() => (window.underberthBoard?.drag().answered ?? 0) > 0);
  expect(await placeNow(page, 'strainer')).toEqual(before);
  await page.mouse.up();
  await settle(page);

  const after = await placeNow(page, 'strainer');
  // A drag in plan moves x and y and leaves z alone.
  expect(after[0]).not.toBe(before[0]);
  expect(after[2]).toBe(before[2]);
  const { report, boat } = await told(page);
  const attached = Object.entries(boat?.lines ?? {}).filter(([, line]) =>
    [line.from.thing, line.to.thing].includes('strainer'),
  );
  expect(attached.length).toBeGreaterThan(0);
  for (const [id] of attached) {
    const now = report?.runs.find((run) => run.lineId === id);
    expect(now).toBeDefined();
    expect(now).not.toEqual(runsBefore?.find((run) => run.lineId === id));
  }
  await page.keyboard.press('Control+z');
  expect(await placeNow(page, 'strainer')).toEqual(before);
  await rest(page);
  expect((await told(page)).report?.runs).toEqual(runsBefore);
  await page.keyboard.press('Control+y');
  expect(await placeNow(page, 'strainer')).toEqual(after);
  await settle(page);
}

export async function movesByKeyboard(page: Page): Promise<void> {
  const before = await placeNow(page, 'strainer');
  await listBox(page).focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Shift+ArrowUp');
  const after = await placeNow(page, 'strainer');
  // derived: in plan an arrow is 10 mm along x or y, with shift 1 mm
  expect(after[0] - before[0]).toBeCloseTo(-0.01, 9);
  expect(after[1] - before[1]).toBeCloseTo(0.001, 9);
  await settle(page);
}

export async function typesAPlace(page: Page): Promise<void> {
  await page.evaluate(() => window.underberthBoard?.app().select({ kind: 'thing', id: 'strainer' }));
  const field = page.getByRole('textbox', { name: 'z of the centre' });
  const before = await placeNow(page, 'strainer');
  await field.fill('soon');
  await field.press('Enter');
  expect(await page.getByRole('alert').first().textContent()).toMatch(/^Expected a number/);
  expect(await placeNow(page, 'strainer')).toEqual(before);
  await field.fill('-4 1/2 in');
  await field.press('Enter');
  // derived: 4.5 in x 25.4 mm = 114.3 mm
  expect((await placeNow(page, 'strainer'))[2]).toBe(-0.1143);
  await page.getByRole('button', { name: /^Undo/ }).click();
  expect(await placeNow(page, 'strainer')).toEqual(before);
  await settle(page);
}

export async function slidesTheSection(page: Page): Promise<void> {
  const slider = page.getByRole('slider', { name: 'Section A, metres from aft' });
  await slider.focus();
  const before = (await told(page)).sectionX;
  for (let step = 0; step < 5; step++) await page.keyboard.press('ArrowRight');
  // derived: five steps of 10 mm, of which the first goes to the next whole step
  const by = (await told(page)).sectionX - before;
  expect(by).toBeGreaterThan(0.04);
  expect(by).toBeLessThan(0.0501);
}

/** The section tool takes the plane to where the drawing is pressed, and along a drag; then picking is back. */
export async function cutsByMouse(page: Page): Promise<void> {
  const [x, y] = await clientPos(page, 'strainer', 'plan');
  const at = await placeNow(page, 'strainer');
  await page.getByRole('button', { name: 'Move the section' }).click();
  await page.mouse.click(x, y);
  // The press is within a pixel of the middle of the strainer: at 50 pixels a metre and more that is 20 mm.
  await page.waitForFunction(
    (wanted) => Math.abs((window.underberthBoard?.app().sectionX ?? 0) - wanted) < 0.02,
    at[0],
  );
  expect(await placeNow(page, 'strainer')).toEqual(at);
  await page.getByRole('button', { name: 'Select and move' }).click();
}

/** A clip point is set from the inspector and dragged on the plan: one edit, and the run passes it. */
export async function dragsAClipPoint(page: Page): Promise<void> {
  const { report, boat: before } = await told(page);
  const run = report?.runs.find(({ status, lengthM }) => status === 'routed' && (lengthM ?? 0) > 1);
  if (!run) throw new Error('expected a run of more than a metre');
  await page.evaluate((id) => window.underberthBoard?.app().select({ kind: 'line', id }), run.lineId);
  await page.getByRole('button', { name: 'Add a clip point' }).click();
  await settle(page);
  const clipNow = () =>
    page.evaluate((line) => {
      const app = window.underberthBoard?.app();
      const own = app?.boat?.arrangements[app.arrangementId ?? '']?.clipPoints[line] ?? {};
      return Object.values(own)[0]?.at ?? null;
    }, run.lineId);
  const set = await clipNow();
  if (!set) throw new Error('expected a clip point');
  const from = await page.evaluate((at) => window.underberthBoard?.clientAt([...at], 'plan') ?? null, set);
  if (!from) throw new Error('expected the clip point on the plan');
  await drag(page, from, [6, 5]);
  await settle(page);
  const moved = await clipNow();
  // A drag in plan moves x and y and leaves z alone.
  expect(moved?.[0]).toBeGreaterThan(set[0]);
  expect(moved?.[1]).toBeLessThan(set[1]);
  expect(moved?.[2]).toBe(set[2]);
  expect((await told(page)).report?.runs.find(({ lineId }) => lineId === run.lineId)).not.toEqual(run);
  await page.keyboard.press('Control+z');
  expect(await clipNow()).toEqual(set);
  await page.keyboard.press('Control+z');
  expect((await told(page)).boat).toEqual(before);
  await settle(page);
}

export async function opensAFinding(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Checks/ }).click();
  const { report } = await told(page);
  const open = report?.findings.find((finding) => finding.outcome === 'fail' && finding.at !== null);
  expect(open).toBeDefined();
  const row = page.locator('.finding-head').first();
  await row.click();
  expect(await row.getAttribute('aria-expanded')).toBe('true');
  const { selection, sectionX } = await told(page);
  const picked = report?.findings.find((finding) => finding.key === selection?.id);
  expect(picked).toBeDefined();
  if (picked?.at) expect(sectionX).toBeCloseTo(picked.at[0], 6);
  const body = await page.locator('.finding-body').textContent();
  for (const word of ['Source', 'Blind to', 'Cause']) expect(body).toContain(word);
}

/** Accepts the open finding with a reason, sees it kept in the boat, and takes it back. */
export async function acceptsAFinding(page: Page): Promise<void> {
  const key = (await told(page)).selection?.id ?? '';
  await page.getByRole('button', { name: 'Accept with a reason' }).click();
  await page.getByRole('textbox', { name: 'Reason' }).fill('Seen, and lived with for years');
  await page.getByRole('button', { name: 'Accept', exact: true }).click();
  expect((await boatNow(page)).accepted[key]?.why).toBe('Seen, and lived with for years');
  await settle(page);
  await page.keyboard.press('Control+z');
  expect((await boatNow(page)).accepted[key]).toBeUndefined();
  await settle(page);
}

export async function listOf(page: Page): Promise<string> {
  const report = await page.evaluate(() => window.underberthBoard?.app().report ?? null);
  if (!report) throw new Error('expected a report');
  return takeoffCsv(report.takeoff);
}

/** One random part to one random place within the boat, turned by quarters; seeded, so that it is the same everywhere. */
export async function movesAtRandom(page: Page, luck: Dice): Promise<string> {
  const boat = await boatNow(page);
  const id = luck.pick(Object.keys(boat.parts).sort());
  const at = await placeNow(page, id);
  const place = {
    at: [at[0] + luck.from(-0.3, 0.3), at[1] + luck.from(-0.2, 0.2), at[2] + luck.from(-0.1, 0.1)] as const,
    yawDeg: 90 * luck.whole(4),
    pitchDeg: 0,
    rollDeg: 0,
  };
  await page.evaluate(
    ([part, pose]) => {
      const { app, drag: held } = window.underberthBoard as BoardProbe;
      // Every other time as a drag in steps, so that what a drag leaves behind would be seen.
      if (part.length % 2 === 0) app().placeThing(part, { ...pose, at: [...pose.at] });
      else {
        held().startDrag(part);
        held().updateDrag({ ...pose, at: [...pose.at] });
        held().endDrag('commit');
      }
    },
    [id, place] as const,
  );
  await settle(page);
  return id;
}

const AXE = readFileSync(inProject('node_modules', 'axe-core', 'axe.min.js'), 'utf8');

/** No serious or critical violation of the accessibility rules. */
export async function expectAccessible(page: Page): Promise<void> {
  await page.evaluate(AXE);
  const violations = await page.evaluate(async () => {
    const axe = (window as unknown as { axe: { run(): Promise<{ violations: AxeViolation[] }> } }).axe;
    const { violations: found } = await axe.run();
    return found
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(' | ')}`);
  });
  expect(violations).toEqual([]);
}

interface AxeViolation {
  readonly id: string;
  readonly impact: string;
  readonly nodes: readonly { readonly html: string }[];
}
