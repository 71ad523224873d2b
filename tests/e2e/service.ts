import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { threeLockers } from '../support/boats';
import { boatNow, expectAccessible } from './planning';
import { open } from './runs';

/** Three lockers, each with a lid, a place to stand beside them, and three things that are serviced. */
function lockers(): string {
  const draft = threeLockers();
  const { strainer, pump } = draft.parts ?? {};
  const battery = draft.fixtures?.battery;
  const lid = draft.openings?.lid;
  if (!strainer || !pump || !battery || !lid) throw new Error('expected strainer, pump, battery and lid');
  const over = (compartment: string, x: number): typeof lid => ({
    ...lid,
    name: `Lid ${compartment}`,
    compartment,
    at: [x, 0, 0.4],
    standing: 'sole',
  });
  const lidTask = strainer.services?.lid;
  if (!lidTask) throw new Error('expected the lid of the strainer');
  strainer.services = { lid: { ...lidTask, intervalDays: 180 } };
  battery.services = {
    posts: { task: 'batteryPosts', at: [0, 0, 0.11], direction: [0, 0, 1], intervalDays: 365 },
  };
  return JSON.stringify({
    ...draft,
    fixtures: { ...draft.fixtures, battery },
    openings: { lid: { ...lid, standing: 'sole' }, aft: over('aft', 0.5), middle: over('middle', 1.5) },
    standingPlaces: { sole: { name: 'Cabin sole', at: [1.5, 1, -0.4] } },
    people: { ana: { name: 'Ana', percentile: 20, sex: 'female' }, bo: { name: 'Bo', percentile: 90 } },
  });
}

const table = (page: Page) => page.getByRole('table', { name: 'Service tasks' });
const rows = (page: Page) => table(page).locator('tbody tr.row');
const strip = (page: Page) => page.getByRole('region', { name: 'Rehearsal' });
const stepNow = (page: Page) => strip(page).locator('[aria-current="step"]');
/** `Step 2 Open ...` as 2 */
const numberNow = async (page: Page): Promise<number> =>
  Number(/^Step (\d+)/.exec((await stepNow(page).textContent()) ?? '')?.[1]);
/** How much of the drawing is not paper: a rehearsal that is drawn has lines in it. */
const inkOf = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="rehearsal-board"] canvas');
    const data = canvas?.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
    const seen = new Set<number>();
    for (let i = 0; i < data.length; i += 4)
      seen.add((data[i] ?? 0) * 65536 + (data[i + 1] ?? 0) * 256 + (data[i + 2] ?? 0));
    return seen.size;
  });

export async function listsTasks(page: Page): Promise<void> {
  await open(page, lockers());
  await page.keyboard.press('s');
  await rows(page).first().waitFor({ timeout: 60_000 });
  const boat = await boatNow(page);
  const count = ['parts', 'fixtures'] as const;
  const tasks = count.reduce(
    (sum, of) => sum + Object.values(boat[of]).reduce((own, { services }) => own + Object.keys(services).length, 0),
    0,
  );
  expect(await rows(page).count()).toBe(tasks);
  // Every verdict is a shape and a word.
  expect(await rows(page).locator('svg.task-mark').count()).toBe(tasks);
  await page.getByRole('complementary', { name: 'Findings' }).getByRole('heading', { name: 'Service' }).waitFor();
}

export async function rehearsesByMouse(page: Page): Promise<void> {
  await rows(page).filter({ hasText: 'strainer' }).first().click();
  await stepNow(page).waitFor();
  expect(await numberNow(page)).toBe(1);
  expect(await inkOf(page)).toBeGreaterThan(10);
  const panel = page.getByRole('complementary', { name: 'Service task' });
  await panel.getByRole('heading', { name: 'Measured against' }).waitFor();
  await strip(page).getByRole('listitem').nth(1).click();
  expect(await numberNow(page)).toBe(2);
  await strip(page).getByRole('button', { name: 'Next step' }).click();
  expect(await numberNow(page)).toBe(3);
  // Closer about the pointer, and back to the whole.
  const board = await page.getByTestId('rehearsal-board').boundingBox();
  if (!board) throw new Error('expected the board of the rehearsal');
  await page.mouse.move(board.x + board.width / 5, board.y + board.height / 2);
  const scale = () => page.locator('.title-block .cell', { hasText: 'Scale' }).textContent();
  const whole = await scale();
  await page.mouse.wheel(0, -300);
  await expect.poll(scale).not.toBe(whole);
  await strip(page).getByRole('button', { name: 'Back to the board' }).click();
  await page.getByTestId('board').waitFor();
}

export async function rehearsesByKeyboard(page: Page): Promise<void> {
  const first = table(page).locator('.row-name[tabindex="0"]');
  await first.focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-current'))).toBe('step');
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => numberNow(page)).toBe(2);
  // The focus goes along.
  expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-current'))).toBe('step');
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => numberNow(page)).toBe(1);
  await page.keyboard.press('End');
  const last = await strip(page).getByRole('listitem').count();
  await expect.poll(() => numberNow(page)).toBe(last);
  await page.keyboard.press('Escape');
  await page.getByTestId('board').waitFor();
  // The keys are back in the table, at the row.
  await expect.poll(() => page.evaluate(() => document.activeElement?.className)).toBe('row-name');
  // The finder knows it too.
  await page.keyboard.press('Control+k');
  await page.keyboard.type('minutes of service');
  await page.keyboard.press('Enter');
  await page.getByRole('table', { name: 'Minutes a year, by thing' }).waitFor();
  await page.getByRole('button', { name: 'Tasks', exact: true }).click();
}

export async function changesAnInterval(page: Page): Promise<void> {
  await rows(page).filter({ hasText: 'strainer' }).first().click();
  const panel = page.getByRole('complementary', { name: 'Service task' });
  const days = panel.getByLabel(/^Time between/);
  await days.fill('30');
  await days.press('Enter');
  expect((await boatNow(page)).parts.strainer?.services.lid?.intervalDays).toBe(30);
  // derived: 365 / 30 = 12.2 times a year
  await expect
    .poll(async () => Number(/Times a year\s*([\d.]+)/.exec((await panel.textContent()) ?? '')?.[1]), {
      timeout: 60_000,
    })
    .toBe(12);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Escape');
}

export async function isAccessible(page: Page): Promise<void> {
  await expectAccessible(page);
  await rows(page).first().click();
  await stepNow(page).waitFor();
  await expectAccessible(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.waitForFunction(() => document.getAnimations().length === 0);
  await expectAccessible(page);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.keyboard.press('3');
  await page.getByTestId('board').waitFor();
}
