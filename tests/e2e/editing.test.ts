import type { Boat } from '@core/boat/schema/boat';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { boatNow, clientPos, errorsOf, expectAccessible, placeNow, settle, startPage } from './planning';

type Spot = readonly [number, number];

const picked = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const { selection, alsoSelected } = window.underberthBoard?.app() ?? { selection: null, alsoSelected: [] };
    return [...alsoSelected, selection].flatMap((one) => one?.id ?? []);
  });

/** A command by its words, as a hand that knows no key gives it. */
async function give(page: Page, words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

/** Place of a port of a thing that stands as it was made, on the plan. */
async function portOnPlan(page: Page, boat: Boat, thing: string, port: string): Promise<Spot> {
  const pose = boat.fixtures[thing]?.pose ?? Object.values(boat.arrangements)[0]?.places[thing];
  const local = (boat.fixtures[thing] ?? boat.parts[thing])?.ports[port]?.at;
  if (!pose || !local || pose.yawDeg !== 0) throw new Error(`expected ${thing} to stand unturned with a port ${port}`);
  const at = [pose.at[0] + local[0], pose.at[1] + local[1], pose.at[2] + local[2]] as const;
  const spot = await page.evaluate((p) => window.underberthBoard?.clientAt(p, 'plan') ?? null, at);
  if (!spot) throw new Error(`expected ${thing} on the plan`);
  return spot;
}

async function dragTo(page: Page, from: Spot, to: Spot): Promise<void> {
  await page.mouse.move(from[0], from[1]);
  await page.mouse.down();
  await page.mouse.move(from[0] + 9, from[1] + 9);
  await page.mouse.move(to[0], to[1], { steps: 3 });
  await page.mouse.up();
}

describe.skipIf(!hasChromium())('editing on the drawing', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  let before: Boat;

  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await startPage(page, built.url);
    before = await boatNow(page);
  });
  afterAll(() => built.close());

  it('picks several by clicks and by a box, moves them as one and keeps them together', async () => {
    await page.mouse.click(...(await clientPos(page, 'coarse', 'plan')));
    await page.keyboard.down('Shift');
    await page.mouse.click(...(await clientPos(page, 'fine', 'plan')));
    await page.keyboard.up('Shift');
    expect(await picked(page)).toEqual(['coarse', 'fine']);
    expect(await page.getByRole('region', { name: 'Things that are picked' }).textContent()).toContain('2 picked');

    const [coarse, fine] = [await placeNow(page, 'coarse'), await placeNow(page, 'fine')];
    await page.locator('#board-list').focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowUp');
    expect((await placeNow(page, 'coarse'))[1]).toBeCloseTo(coarse[1] + 0.011, 6);
    expect((await placeNow(page, 'fine'))[1]).toBeCloseTo(fine[1] + 0.011, 6);
    await page.keyboard.press('Control+g');
    await page.keyboard.press('Escape');

    // A click takes what stays together, a double click one of it.
    const at = await clientPos(page, 'fine', 'plan');
    await page.mouse.click(...at);
    expect([...(await picked(page))].sort()).toEqual(['coarse', 'fine']);
    await page.mouse.dblclick(...at);
    expect(await picked(page)).toEqual(['fine']);
    await page.keyboard.press('Escape');

    const [x, y] = await clientPos(page, 'pump', 'plan');
    await page.keyboard.down('Shift');
    await dragTo(page, [x - 40, y - 40], [x + 40, y + 40]);
    await page.keyboard.up('Shift');
    expect(await picked(page)).toContain('pump');
  });

  it('drags several at once, the runs of all of them live', async () => {
    await page.locator('#board-list').focus();
    await page.keyboard.press('Escape');
    const start = await placeNow(page, 'coarse');
    await settle(page);
    const at = await clientPos(page, 'coarse', 'plan');
    await page.mouse.click(...at);
    await page.mouse.move(...at);
    await page.mouse.down();
    await page.mouse.move(at[0] + 6, at[1], { steps: 3 });
    await page.waitForFunction(() => {
      const held = window.underberthBoard?.drag();
      return held !== undefined && held.sent > 0 && held.answered === held.sent && Object.keys(held.runs).length > 2;
    });
    await page.mouse.up();
    const moved = await placeNow(page, 'coarse');
    expect(moved[0]).toBeGreaterThan(start[0]);
    const fine = before.arrangements[Object.keys(before.arrangements)[0] ?? '']?.places.fine?.at ?? [0, 0, 0];
    expect((await placeNow(page, 'fine'))[0] - fine[0]).toBeCloseTo(moved[0] - start[0], 6);
  });

  it('copies through the clipboard of the system with the lines between', async () => {
    await page.locator('#board-list').focus();
    await page.keyboard.press('Control+c');
    await page.keyboard.press('Control+v');
    await page.waitForFunction(() => window.underberthBoard?.app().boat?.parts['fine-2'] !== undefined);
    const { lines } = await boatNow(page);
    const fresh = Object.values(lines).filter(({ from, to }) => from.thing.endsWith('-2') && to.thing.endsWith('-2'));
    expect(fresh).toHaveLength(1);
    await give(page, 'delete what is selected');
    expect((await boatNow(page)).parts['fine-2']).toBeUndefined();
  });

  it('joins two ports by a drag, and says why it does not join two others', async () => {
    const count = Object.keys((await boatNow(page)).lines).length;
    await give(page, 'join two ports');
    const plus = await portOnPlan(page, before, 'bank-b', 'plus');
    await dragTo(page, plus, await portOnPlan(page, before, 'breaker', 'in'));
    await page.waitForFunction(
      (n) => Object.keys(window.underberthBoard?.app().boat?.lines ?? {}).length === n,
      count + 1,
    );
    const line = await page.evaluate(() => {
      const app = window.underberthBoard?.app();
      return app?.boat?.lines[app.selection?.id ?? ''] ?? null;
    });
    expect(line).toMatchObject({ medium: 'dcPower', from: { thing: 'bank-b' }, to: { thing: 'breaker' } });
    expect(line?.kind).toMatch(/^cable-pair-/);

    await dragTo(page, plus, await portOnPlan(page, before, 'sink', 'drain'));
    expect(await page.getByRole('alert').first().textContent()).toContain('Not joined');
    expect(Object.keys((await boatNow(page)).lines)).toHaveLength(count + 1);
    // The same by names, without the pointer.
    const strip = page.getByTestId('join-bar');
    await strip.getByRole('combobox', { name: 'From port' }).selectOption('bank-b/plus');
    await strip.getByRole('combobox', { name: 'To port' }).selectOption('sink/drain');
    expect(await strip.getByRole('button', { name: 'Join', exact: true }).isDisabled()).toBe(true);
    expect(await strip.textContent()).toContain('do not go together');
    await strip.getByRole('button', { name: 'Done' }).click();
  });

  it('measures a way by clicks, keeps it on the drawing, and clears it by name', async () => {
    await give(page, 'measure a distance');
    const [x, y] = await clientPos(page, 'engine', 'plan');
    for (const [dx, dy] of [
      [-60, 0],
      [0, 0],
      [0, 60],
    ] as const)
      await page.mouse.click(x + dx, y + dy);
    await page.keyboard.press('Enter');
    const measures = await page.evaluate(() => document.querySelector('.title-block')?.textContent ?? '');
    expect(measures).toMatch(/in all [\d\u2009]+ mm, \d+/);
    await page.keyboard.press('Escape');
    await give(page, 'clear the measures');
    expect(await page.evaluate(() => document.querySelector('.title-block')?.textContent ?? '')).not.toContain(
      'in all',
    );
  });

  it('finds rows, picks several and opens the map of keys, all by keyboard, and is fine for a screen reader', async () => {
    await give(page, 'table of parts and fixtures');
    await page.keyboard.press('Control+f');
    await page.keyboard.type('filter nav');
    await expect.poll(() => page.locator('.row-search output').textContent()).toMatch(/^2 of /);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Control+a');
    expect([...(await picked(page))].sort()).toEqual(['coarse', 'fine']);
    await expectAccessible(page);
    await page.keyboard.press('?');
    await page.keyboard.type('keep');
    expect(await page.getByRole('dialog', { name: 'Keyboard map' }).textContent()).toContain(
      'Keep what is picked together',
    );
    await page.keyboard.press('Escape');
  });

  it('takes every step back, down to the boat as it was, without an error of the page', async () => {
    for (let i = 0; i < 40 && (await page.evaluate(() => window.underberthBoard?.app().canUndo)) !== null; i++)
      await page.evaluate(() => window.underberthBoard?.app().undo());
    expect(await boatNow(page)).toEqual(before);
    expect(errors).toEqual([]);
  });
});
