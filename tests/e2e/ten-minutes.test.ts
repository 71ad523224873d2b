import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, expectBoardCold, settle, startPage, told } from './planning';

/** Most numbers that a newcomer may have to type before the first answers. */
const MOST_TYPED = 25;

const door = (page: Page): Locator => page.getByRole('region', { name: 'Ten minutes' });
const button = (page: Page, name: string): Locator => door(page).getByRole('button', { name, exact: true });
const field = (page: Page, name: string): Locator => door(page).getByRole('textbox', { name, exact: true });
const typed = async (page: Page): Promise<number> =>
  Number.parseInt(
    (await door(page)
      .getByText(/values typed/)
      .textContent()) ?? '',
    10,
  );

/** The boat on the board is new, answered, and what it says is what a cold check of its file says. */
async function expectFirstAnswers(page: Page): Promise<void> {
  await page.waitForFunction(
    () => {
      const state = window.underberthBoard?.app();
      return (
        state?.boat !== undefined &&
        state.boat !== null &&
        state.boat.name !== 'Sandwort' &&
        state.report !== null &&
        !state.stale
      );
    },
    null,
    { timeout: 110_000 },
  );
  const { boat, report, revision, savedRevision } = await told(page);
  expect(revision).not.toBe(savedRevision);
  expect(boat?.hull?.grade).toBe('guessed');
  expect(report?.summary.danger).toBe(0);
  expect(report?.findings.length).toBeGreaterThan(50);
  const { routed, blocked } = report?.summary ?? { routed: 0, blocked: 1 };
  expect(routed / (routed + blocked)).toBeGreaterThanOrEqual(0.8);
  // Nothing was measured: what passes is for the most part a close call.
  expect(report?.summary.closeCalls).toBeGreaterThan(20);
  await expectBoardCold(page);
}

describe.skipIf(!hasChromium())('a newcomer at the ten-minute door', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[] = [];
  beforeAll(async () => {
    built = await openBuiltPage();
  });
  beforeEach(async () => {
    const context = await built.browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await context.newPage();
    errors = errorsOf(page);
    await startPage(page, built.url);
  });
  afterAll(async () => {
    await built?.close();
  });

  it('gets first answers by mouse alone', async () => {
    await page.getByRole('button', { name: 'Boat file' }).click();
    await page.getByRole('menuitem', { name: 'New in ten minutes' }).click();
    await door(page).waitFor();
    await button(page, 'Long keel').click();
    for (const [name, times] of [
      ['Less: Length over all', 6],
      ['More: Beam', 1],
      ['More: Draught', 1],
      ['Less: Displacement', 2],
      ['More: Cabin sole below water', 1],
    ] as const)
      for (let k = 0; k < times; k += 1) await button(page, name).click();
    await button(page, '30 L/h').click();
    expect(await typed(page)).toBe(5);
    await button(page, 'Add a measured locker').click();
    await door(page)
      .getByRole('combobox', { name: 'Locker 1 is the' })
      .selectOption({ label: 'Settee locker, starboard aft' });
    for (const name of ['length, fore and aft', 'width, from its inner face', 'height'])
      await button(page, `Less: Locker 1: ${name}`).click();
    expect(await typed(page)).toBeLessThanOrEqual(MOST_TYPED);
    await button(page, 'Draw the boat').click();
    await expectFirstAnswers(page);
    const { boat } = await told(page);
    expect(boat?.hull?.form).toBe('longKeel');
    expect(boat?.compartments['settee-stbd-aft']?.grade).toBe('taped');
    expect(errors).toEqual([]);
  });

  it('gets first answers by keyboard alone, and leaving the door half way loses nothing', async () => {
    const open = async (): Promise<void> => {
      await page.keyboard.press('Control+k');
      await page.keyboard.type('New in ten minutes');
      await page.keyboard.press('Enter');
      await door(page).waitFor();
    };
    /** Tabs on until the wanted control has the focus. */
    const tabTo = async (wanted: Locator): Promise<void> => {
      for (let k = 0; k < 120; k += 1) {
        if (await wanted.evaluate((element) => element === document.activeElement)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error('expected the control to be reached by Tab');
    };
    const enter = async (name: string, text: string): Promise<void> => {
      await tabTo(field(page, name));
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    };
    await open();
    await tabTo(button(page, 'Catamaran'));
    await page.keyboard.press('Space');
    await enter('Length over all', `39' 4"`);
    await enter('Beam', '6,7 m');
    await enter('Displacement', '8.2 t');
    await tabTo(button(page, 'Back'));
    await page.keyboard.press('Enter');
    await door(page).waitFor({ state: 'detached' });

    await open();
    expect(await field(page, 'Beam').inputValue()).toBe('6.70');
    expect(await typed(page)).toBe(3);
    await tabTo(field(page, 'Cabin sole below water'));
    await page.keyboard.press('ArrowUp');
    expect(await typed(page)).toBe(4);
    await tabTo(button(page, 'Draw the boat'));
    await page.keyboard.press('Enter');
    await expectFirstAnswers(page);
    const { boat } = await told(page);
    expect(boat?.hull?.form).toBe('catamaran');
    expect(boat?.weights?.displacementKg).toBe(8200);
    expect(errors).toEqual([]);
  });

  it('is offered beside the sample, is left by a stage, and no key works on the boat behind it', async () => {
    const before = await told(page);
    await page.getByRole('button', { name: 'Ten minutes' }).click();
    await door(page).waitFor();
    await page.getByRole('heading', { level: 1, name: 'New boat' }).waitFor();
    const stages = page.getByRole('navigation', { name: 'Stages' });
    expect(await stages.locator('[aria-current]').count()).toBe(0);
    for (const key of ['b', 'Delete', ']', 'Control+z']) await page.keyboard.press(key);
    // The stage that the boat is at already leads back as any other does.
    await stages.getByRole('button', { name: /Equipment/ }).click();
    await door(page).waitFor({ state: 'detached' });
    await page.getByRole('heading', { level: 1, name: 'Sandwort' }).waitFor();
    await settle(page);
    const after = await told(page);
    expect([after.revision, after.sectionX]).toEqual([before.revision, before.sectionX]);
    await page.getByRole('button', { name: 'Ten minutes' }).click();
    await door(page).waitFor();
    await page.keyboard.press('Escape');
    await door(page).waitFor({ state: 'detached' });
    expect(errors).toEqual([]);
  });

  it('says what no boat of the form carries, and keeps the drawing', async () => {
    await page.getByRole('button', { name: 'Boat file' }).click();
    await page.getByRole('menuitem', { name: 'New in ten minutes' }).click();
    const sketch = door(page).getByRole('img', { name: /boat as typed/ });
    await sketch.waitFor();
    await field(page, 'Displacement').fill('60 t');
    await page.keyboard.press('Enter');
    await door(page)
      .getByRole('alert')
      .getByText(/60\s000 kg: with these dimensions the form carries/)
      .waitFor();
    expect(await button(page, 'Draw the boat').isDisabled()).toBe(true);
    expect(await sketch.isVisible()).toBe(true);
    await button(page, 'Back').click();
    await settle(page);
    expect((await told(page)).boat?.name).toBe('Sandwort');
  });
});
