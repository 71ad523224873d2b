import { readFileSync } from 'node:fs';
import { distance, type Vec3 } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import type { RunReport } from '@core/engine/report';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { inProject } from '../../electron/launch/project.mjs';
import { threeLockers } from '../support/boats';
import { boatNow, drag, expectAccessible, rest, settle, told } from './planning';

/** What one does to runs by hand, on three lockers with four lines. */

export async function openRuns(page: Page): Promise<void> {
  await open(page, JSON.stringify(threeLockers()));
  await page.keyboard.press('4');
  await page.getByRole('heading', { name: 'Runs', exact: true }).first().waitFor();
}

export async function runNow(page: Page, id: string): Promise<RunReport> {
  const run = (await told(page)).report?.runs.find(({ lineId }) => lineId === id);
  if (!run) throw new Error(`expected a run of ${id}`);
  return run;
}

/** A run of a metre or more that may be pulled, and the middle of its longest straight. */
async function pullable(page: Page): Promise<{ readonly id: string; readonly at: Vec3 }> {
  const { report } = await told(page);
  for (const run of report?.runs ?? []) {
    if (run.status !== 'routed' || (run.lengthM ?? 0) < 1) continue;
    const lines = run.prims.flatMap((prim) => (prim.kind === 'line' ? [prim] : []));
    const { from, to } = lines.reduce((a, b) => (distance(b.from, b.to) > distance(a.from, a.to) ? b : a));
    return { id: run.lineId, at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2] };
  }
  throw new Error('expected a run of a metre');
}

const select = (page: Page, id: string) =>
  page.evaluate((line) => window.underberthBoard?.app().select({ kind: 'line', id: line }), id);

const clipsOf = async (page: Page, id: string) => {
  const boat = await boatNow(page);
  const { arrangementId } = await told(page);
  return Object.entries(boat.arrangements[arrangementId ?? '']?.clipPoints[id] ?? {});
};

async function onPlan(page: Page, at: Vec3): Promise<readonly [number, number]> {
  const found = await page.evaluate((p) => window.underberthBoard?.clientAt([...p], 'plan') ?? null, at);
  if (!found) throw new Error('expected the place on the plan');
  return found;
}

const listBox = (page: Page) => page.getByRole('listbox', { name: 'Things and runs on the drawing board' });

/** The picked run follows the hand; letting go makes one clip point, undo takes it away, Escape leaves all as it was. */
export async function pullsARun(page: Page): Promise<void> {
  const { id, at } = await pullable(page);
  await select(page, id);
  const before = await runNow(page, id);
  const [x, y] = await onPlan(page, at);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 2, y - 3, { steps: 3 });
  await page.mouse.move(x + 4, y - 5, { steps: 3 });
  await page.waitForFunction(() => (window.underberthBoard?.drag().pulled ?? null) !== null);
  await page.getByTestId('pull-bar').waitFor();
  await page.waitForFunction((line) => window.underberthBoard?.drag().runs[line] !== undefined, id);
  // Nothing is in the boat yet, and Escape leaves it so.
  expect(await clipsOf(page, id)).toEqual([]);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect(await clipsOf(page, id)).toEqual([]);
  await drag(page, [x, y], [4, -5]);
  await settle(page);
  const [clip] = await clipsOf(page, id);
  if (!clip) throw new Error('expected a clip point');
  // A drag in plan moves x and y and leaves z alone.
  expect(clip[1].at[2]).toBeCloseTo(at[2], 3);
  expect((await told(page)).selection).toMatchObject({ kind: 'clipPoint', id: clip[0], line: id });
  expect((await runNow(page, id)).lengthM).not.toBe(before.lengthM);
  await page.keyboard.press('Control+z');
  expect(await clipsOf(page, id)).toEqual([]);
  await settle(page);
  expect((await runNow(page, id)).lengthM).toBeCloseTo(before.lengthM ?? 0, 6);
}

/** In profile and section a pull moves what that view shows, and leaves the third coordinate alone. */
export async function pullsInEveryView(page: Page): Promise<void> {
  const { id, at } = await pullable(page);
  for (const [view, still] of [
    ['profile', 1],
    ['section', 0],
  ] as const) {
    await page.evaluate(
      ([line, x]) => {
        window.underberthBoard?.app().select({ kind: 'line', id: line as string });
        window.underberthBoard?.app().setSectionX((x as number) - 0.01);
      },
      [id, at[0]] as const,
    );
    const found = await page.evaluate(
      ([p, field]) => window.underberthBoard?.clientAt(p as [number, number, number], field as 'profile') ?? null,
      [[...at], view] as const,
    );
    if (!found) throw new Error(`expected the run in ${view}`);
    await drag(page, found, [3, -4]);
    await settle(page);
    const [clip] = await clipsOf(page, id);
    if (!clip) throw new Error(`expected a clip point set in ${view}`);
    // The section shows a slab: the nearest place of the run in it may lie a little behind the cut.
    expect(Math.abs(clip[1].at[still] - at[still])).toBeLessThan(view === 'section' ? 0.5 : 0.02);
    expect(clip[1].at[2]).toBeGreaterThan(at[2]);
    await page.keyboard.press('Control+z');
    await settle(page);
  }
}

/** Pulled out of the boat it is said why not, and the boat stays as it was. */
export async function refusesAPull(page: Page): Promise<void> {
  const { id, at } = await pullable(page);
  await select(page, id);
  await drag(page, await onPlan(page, at), [3, -260]);
  const alert = page.getByRole('alert').filter({ hasText: 'not set' });
  await alert.waitFor();
  expect(await alert.textContent()).toMatch(/It stays as it was/);
  expect(await clipsOf(page, id)).toEqual([]);
  await page.evaluate(() => window.underberthBoard?.app().dismissProblem());
}

/** K sets a clip point, arrows move it, Delete takes it away. */
export async function clipsByKeyboard(page: Page): Promise<void> {
  const { id } = await pullable(page);
  await select(page, id);
  await listBox(page).focus();
  await page.keyboard.press('k');
  await settle(page);
  const [set] = await clipsOf(page, id);
  if (!set) throw new Error('expected a clip point');
  await page.waitForFunction(() => window.underberthBoard?.app().selection?.kind === 'clipPoint');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Shift+ArrowRight');
  await settle(page);
  const [moved] = await clipsOf(page, id);
  // derived: in plan an arrow is 10 mm along y, with shift 1 mm along x
  expect((moved?.[1].at[1] ?? 0) - set[1].at[1]).toBeCloseTo(0.01, 6);
  expect((moved?.[1].at[0] ?? 0) - set[1].at[0]).toBeCloseTo(0.001, 6);
  await page.keyboard.press('Delete');
  expect(await clipsOf(page, id)).toEqual([]);
  await settle(page);
}

/** A run with a hole to drill in an upright panel, and which. */
async function drilled(page: Page): Promise<{ readonly id: string; readonly index: number; readonly at: Vec3 }> {
  const { report } = await told(page);
  for (const run of report?.runs ?? []) {
    const index = run.holes.findIndex((hole) => !hole.existing);
    const hole = run.holes[index];
    if (run.status === 'routed' && hole) return { id: run.lineId, index, at: hole.at };
  }
  throw new Error('expected a hole to drill');
}

const newHoles = async (page: Page) => {
  const { boat, arrangementId } = await told(page);
  return Object.values(boat?.arrangements[arrangementId ?? '']?.newHoles ?? {});
};

/** The ring of a hole is slid in its panel: it becomes a hole that is decided on, for this line. */
export async function slidesAHole(page: Page): Promise<void> {
  const { id, index, at } = await drilled(page);
  await select(page, id);
  const { panelId } = (await runNow(page, id)).holes[index] ?? { panelId: '' };
  await drag(page, await onPlan(page, at), [4, 3]);
  await settle(page);
  const [hole] = await newHoles(page);
  expect(hole?.for).toEqual([id]);
  expect(hole?.between.join('|')).toBe(panelId.replace(/#\d+$/, ''));
  expect(hole && distance(hole.at, at)).toBeGreaterThan(0.005);
  const now = (await runNow(page, id)).holes[index];
  expect(now && hole && distance(now.at, hole.at)).toBeLessThan(0.005);
  expect((await told(page)).selection).toMatchObject({ kind: 'crossing', line: id });
}

/** From the keyboard: an arrow slides it, Delete frees it again. */
export async function slidesByKeyboard(page: Page): Promise<void> {
  const { boat, arrangementId, selection } = await told(page);
  const [before] = Object.values(boat?.arrangements[arrangementId ?? '']?.newHoles ?? {});
  expect(selection?.kind).toBe('crossing');
  await listBox(page).focus();
  // One of the four ways lies in the panel, whichever way that faces.
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowDown');
  await settle(page);
  const [after] = await newHoles(page);
  expect(before && after && distance(before.at, after.at)).toBeGreaterThan(0.005);
  await page.keyboard.press('Delete');
  expect(await newHoles(page)).toEqual([]);
  await settle(page);
}

/** A run that is pinned is kept and cannot be pulled; unpinned it is the router's again. */
export async function pinsARun(page: Page): Promise<void> {
  const { id } = await pullable(page);
  await select(page, id);
  const before = await runNow(page, id);
  await page.getByRole('button', { name: 'Pin as built' }).click();
  await settle(page);
  const kept = await runNow(page, id);
  expect(kept.lengthM).toBeCloseTo(before.lengthM ?? 0, 4);
  expect(await page.getByRole('button', { name: 'Add a clip point' }).isDisabled()).toBe(true);
  expect(await page.locator('tr[aria-current="true"]').textContent()).toContain('As built');
  await listBox(page).focus();
  await page.keyboard.press('i');
  await page.getByRole('button', { name: 'Pin as built' }).waitFor();
  await settle(page);
}

/** The profile of a run along its length: a place on it is picked from the keyboard, and a clip point set there. */
export async function unrollsARun(page: Page): Promise<void> {
  const { id } = await pullable(page);
  await select(page, id);
  await page.getByRole('tab', { name: 'Unrolled' }).click();
  const slider = page.getByRole('slider', { name: 'Place along it' });
  await slider.focus();
  for (let press = 0; press < 6; press++) await page.keyboard.press('ArrowRight');
  // derived: six steps of 10 mm
  expect(await slider.getAttribute('aria-valuetext')).toMatch(/^0\.06 m along/);
  const chart = page.getByRole('img', { name: /unrolled/ });
  expect(await chart.getAttribute('aria-label')).toMatch(/ m/);
  await expectAccessible(page);
  await page.getByRole('tab', { name: /^Runs/ }).click();
}

/** Puts a boat on the board in place of the one that is there. */
export async function open(page: Page, text: string): Promise<void> {
  const read = readBoat(text);
  if (!read.ok) throw new Error(read.problems[0]?.message);
  await page.evaluate(
    (boat) => window.underberthBoard?.app().open(boat, { fileName: 'a.boat.json', token: null, saved: true }),
    read.boat,
  );
  await rest(page);
}

/** Other ways are ghosts on the drawing: by keyboard one is looked at and chosen, by mouse too; Escape leaves them. */
export async function choosesAnotherWay(page: Page): Promise<void> {
  await select(page, 'power');
  const before = await runNow(page, 'power');
  await listBox(page).focus();
  await page.keyboard.press('a');
  const ways = page.locator('.way');
  await ways.nth(1).waitFor();
  // The list has the focus: an arrow goes to the next way, Enter chooses it.
  await page.keyboard.press('ArrowDown');
  await page.locator('.offer.lit .way').waitFor();
  expect(await page.locator('.offer.lit .way').textContent()).not.toContain('As it is');
  await expectAccessible(page);
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => window.underberthBoard?.app().canUndo !== null);
  await settle(page);
  const chosen = await runNow(page, 'power');
  expect(chosen.status).toBe('routed');
  expect(chosen.prims).not.toEqual(before.prims);
  await page.keyboard.press('Control+z');
  await settle(page);
  await page.getByRole('button', { name: 'Show other ways' }).click();
  await ways.nth(1).hover();
  await page.locator('.offer.lit').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Show other ways' }).click();
  await ways.nth(1).click();
  await page.waitForFunction(() => window.underberthBoard?.app().canUndo !== null);
  await settle(page);
  expect((await runNow(page, 'power')).lengthM).toBeCloseTo(chosen.lengthM ?? 0, 3);
}

/** A line without a run says why; what would help was routed, carries its cautions, and one press does it. */
export async function appliesARemedy(page: Page): Promise<void> {
  await open(page, readFileSync(inProject('sample-boats', 'faulty', 'runs-blocked', 'boat.json'), 'utf8'));
  await page.getByRole('button', { name: '1 blocked' }).click();
  await page.getByRole('table', { name: 'Runs' }).getByRole('button').last().click();
  await page.getByRole('heading', { name: 'What would help' }).waitFor();
  const apply = page.getByRole('button', { name: /^Apply: Drill a hole/ });
  await apply.waitFor();
  expect(await page.locator('.offer').first().textContent()).toMatch(/not to be drilled/);
  await expectAccessible(page);
  await apply.focus();
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => window.underberthBoard?.app().canUndo !== null);
  await settle(page);
  expect((await runNow(page, 'hose')).status).toBe('routed');
  await page.getByText('No run is blocked.').waitFor();
  await page.getByRole('button', { name: '0 blocked' }).click();
}
