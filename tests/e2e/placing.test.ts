import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import type { BoardProbe } from '@renderer/board/probe';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { boatFrom } from '../core/engine/moved-boats';
import { threeLockers } from '../support/boats';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import {
  boatNow,
  clientPos,
  drag,
  errorsOf,
  expectAccessible,
  expectBoardCold,
  placeNow,
  settle,
  told,
} from './planning';

/** Three lockers in a row, each with a lid, and a place to stand before them. */
function lockers(): string {
  const draft = threeLockers();
  const lid = draft.openings?.lid;
  if (!lid) throw new Error('expected a lid');
  const over = (compartment: string, x: number) => ({
    ...lid,
    name: `Lid ${compartment}`,
    compartment,
    at: [x, 0, 0.4] as [number, number, number],
  });
  const openings = { lid, aft: over('aft', 0.5), middle: over('middle', 1.5) };
  const standingPlaces = { sole: { name: 'Cabin sole', at: [1.5, 1, -0.4] as [number, number, number] } };
  return JSON.stringify({ ...draft, openings, standingPlaces });
}

const panel = (page: Page) => page.getByRole('complementary', { name: 'Where can it go?' });
const rows = (page: Page) => panel(page).locator('[role=listbox]').getByRole('option');
const chosen = (page: Page) => panel(page).locator('.place-row[aria-selected="true"]');
const status = (page: Page) => panel(page).locator('output');

/** Waits until every compartment is judged, for the boat as it is. */
const judged = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => {
    const said = document.querySelector('.side.placing output')?.textContent ?? '';
    return / of \d+ compartments? /.test(said) && !document.querySelector('.side.placing progress');
  });
};

const select = (page: Page, id: string) =>
  page.evaluate((thing) => window.underberthBoard?.app().select({ kind: 'thing', id: thing }), id);

/** Where in a compartment nothing of the asked part stands, on the page. */
const middleOf = async (page: Page, at: readonly [number, number, number]) => {
  const found = await page.evaluate((point) => window.underberthBoard?.clientAt(point, 'plan') ?? null, at);
  if (!found) throw new Error('expected the point on the plan');
  return found;
};

describe.skipIf(!hasChromium())('where can it go, in Chromium', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await page.goto(`${built.url}?e2e`);
    await page.waitForFunction(() => window.underberthBoard !== undefined);
    await page.evaluate(
      (boat) =>
        (window.underberthBoard as BoardProbe)
          .app()
          .open(boat as Boat, { fileName: 'lockers.boat.json', token: null, saved: true }),
      boatFrom(lockers()) as unknown,
    );
    await page.getByRole('heading', { level: 1, name: 'Three lockers' }).waitFor();
    await settle(page);
  });
  afterAll(async () => {
    await built?.close();
  });

  it('is asked by key, walked by arrows, and moves the part with Enter', async () => {
    await select(page, 'strainer');
    await page.getByRole('listbox', { name: 'Things and runs on the drawing board' }).focus();
    await page.keyboard.press('w');
    await rows(page).first().waitFor();
    await judged(page);
    expect(await rows(page).count()).toBe(3);
    // The keys are in the list by themselves; the best place other than its own is looked at.
    const before = await placeNow(page, 'strainer');
    await page.keyboard.press('Home');
    while (/now here/.test((await chosen(page).textContent()) ?? '')) await page.keyboard.press('ArrowDown');
    const name = await chosen(page).locator('.place').textContent();
    const [compartment] = Object.entries((await boatNow(page)).compartments).find(([, one]) => one.name === name) ?? [];
    await page.keyboard.press('Enter');
    const after = await placeNow(page, 'strainer');
    expect(after).not.toEqual(before);
    expect((await told(page)).sectionX).toBeCloseTo(after[0], 6);
    // Judged again, it is now here.
    await page.waitForFunction(() => !document.querySelector('.place-row.old'));
    await judged(page);
    expect(await page.locator(`#place-${compartment}`).textContent()).toMatch(/now here/);
    await settle(page);
    expect((await told(page)).report?.places.strainer?.compartment).toBe(compartment);
    await page.keyboard.press('Control+z');
    expect(await placeNow(page, 'strainer')).toEqual(before);
    await page.keyboard.press('Escape');
    expect(await panel(page).count()).toBe(0);
    await expectBoardCold(page);
  });

  it('is asked from the inspector, chosen on the drawing, and moves the part with one click', async () => {
    await select(page, 'strainer');
    await page.getByRole('button', { name: 'Where can it go?' }).click();
    await rows(page).first().waitFor();
    await judged(page);
    const [x, y] = await middleOf(page, [0.3, -0.35, 0]);
    await page.mouse.move(x, y);
    await page.locator('#place-aft.hovered').waitFor();
    await page.mouse.click(x, y);
    expect(await chosen(page).getAttribute('id')).toBe('place-aft');
    expect((await told(page)).selection).toEqual({ kind: 'thing', id: 'strainer' });
    // And the other way round: the drawing answers to the row.
    await page.locator('#place-fore').hover();
    expect(await page.evaluate(() => window.underberthBoard?.app().hover)).toEqual({ kind: 'compartment', id: 'fore' });
    const before = await boatNow(page);
    await panel(page)
      .getByRole('button', { name: /^Move strainer to the aft locker/ })
      .click();
    await settle(page);
    const { report } = await told(page);
    expect(report?.places.strainer?.compartment).toBe('aft');
    // Its runs follow.
    expect(report?.runs.filter(({ status: is }) => is === 'routed').map(({ lineId }) => lineId)).toEqual(
      expect.arrayContaining(['raw-1', 'raw-2']),
    );
    await page.getByRole('button', { name: /^Undo/ }).click();
    expect(await boatNow(page)).toEqual(before);
    await judged(page);
  });

  it('keeps demands in the boat file and judges by them', async () => {
    await panel(page).getByRole('checkbox', { name: 'Serviceable without dismantling' }).check();
    await panel(page).getByRole('checkbox', { name: 'Seen from' }).check();
    expect(JSON.parse(writeBoat(boatFrom(writeBoat(await boatNow(page))))).demands).toEqual({
      noDismantling: { kind: 'noDismantling', subject: 'strainer' },
      seenFrom: { kind: 'seenFrom', place: 'sole', subject: 'strainer' },
    });
    await page.waitForFunction(() => !document.querySelector('.place-row.old'));
    await judged(page);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    expect((await boatNow(page)).demands ?? {}).toEqual({});
    await page.waitForFunction(() => !document.querySelector('.place-row.old'));
    await judged(page);
  });

  it('tells that the answer is old while the part is dragged, and judges again', async () => {
    const from = await clientPos(page, 'strainer', 'plan');
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move(from[0] + 12, from[1] + 6, { steps: 4 });
    await page.locator('.place-row.old').first().waitFor();
    await page.mouse.up();
    await page.waitForFunction(() => !document.querySelector('.place-row.old'));
    await judged(page);
    expect(await status(page).textContent()).toMatch(/of 3 compartments/);
    await page.keyboard.press('Control+z');
    await settle(page);
  });

  it('can be asked of several, from the strip of what is picked', async () => {
    await page.keyboard.press('Escape');
    await page.evaluate(() =>
      window.underberthBoard?.app().select({ kind: 'thing', id: 'strainer' }, [{ kind: 'thing', id: 'pump' }]),
    );
    await page.getByRole('button', { name: 'Where can they go?' }).click();
    await rows(page).first().waitFor();
    await judged(page);
    await panel(page).getByText('Strainer', { exact: false }).first().waitFor();
    await panel(page)
      .getByRole('button', { name: /^Close/ })
      .click();
    expect(await panel(page).count()).toBe(0);
  });

  it('is found by its name, accessible in light and dark, and the console stayed clean', async () => {
    await select(page, 'strainer');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('where can');
    await page.keyboard.press('Enter');
    await rows(page).first().waitFor();
    await judged(page);
    for (const theme of ['light', 'dark'] as const) {
      await page.evaluate((choice) => window.underberthBoard?.app().setTheme(choice), theme);
      // Grounds pass over into the new colours in a moment; what counts is how they stand then.
      await page.evaluate(async () => {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        await Promise.allSettled(document.getAnimations().map(({ finished }) => finished));
      });
      await expectAccessible(page);
    }
    await drag(page, [400, 300], [30, 10]);
    expect(errors).toEqual([]);
  });
});
