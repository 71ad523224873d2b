import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { readBoat } from '@core/boat/read';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BuiltPage } from '../support/chromium';
import { installDesktop } from '../support/desktop-shim';
import { Acts } from './acts';
import { boatNow, choosesFile, clientPos, errorsOf, placeNow, settle, startPage, told } from './planning';

/** Where what the page saves and exports ends up, and how a file is opened: a browser's downloads, or the disk of the desktop. */
export interface Shore {
  /** Does the act and gives the bytes that came ashore under the name that ends so. */
  received(ending: string, act: () => Promise<void>): Promise<Buffer>;
  /** Opens a file that holds this, by the key for it. */
  chosen(text: string): Promise<void>;
}

/** The two ways of working: everything by the mouse, or everything by keys. Typing a reason is typing in both. */
export interface Hands {
  command(words: string): Promise<void>;
  press(name: string | RegExp): Promise<void>;
  movePump(): Promise<void>;
  typeReason(reason: string): Promise<void>;
}

const MODULE = 'pump';
/** The line without a way in the sample of that name. */
const BLOCKED = 'hose';

/** By the mouse: menus, buttons and rows are clicked, the module is dragged. */
export function mouse(page: Page): Hands {
  const acts = new Acts(page);
  return {
    async command(words) {
      await page.getByRole('combobox', { name: 'Find a part, command or term' }).click();
      await page.keyboard.type(words);
      await page.locator('#find-results [role=option]').first().click();
    },
    press: (name) => acts.click(name),
    async movePump() {
      const from = await clientPos(page, MODULE, 'plan');
      await acts.drag(from, [from[0] - 4, from[1] + 2]);
    },
    async typeReason(reason) {
      await page.getByRole('textbox', { name: 'Reason' }).click();
      await page.keyboard.type(reason);
    },
  };
}

/** By keys alone: no pointer is ever moved. What is pressed is first come to by the Tab key. */
export function keys(page: Page): Hands {
  return {
    async command(words) {
      await page.keyboard.press('Control+k');
      await page.keyboard.type(words);
      await page.keyboard.press('Enter');
    },
    async press(name) {
      await tabTo(page, name);
      await page.keyboard.press('Enter');
    },
    async movePump() {
      await page.locator('#board-list').focus();
      await page.keyboard.press('ArrowLeft');
      await page.keyboard.press('ArrowDown');
    },
    async typeReason(reason) {
      await tabTo(page, 'Reason');
      await page.keyboard.type(reason);
    },
  };
}

/** Goes on by Tab to what a screen reader would call so. */
async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  for (let presses = 0; presses < 400; presses++) {
    const here = await page.evaluate(() => {
      const focused = document.activeElement;
      return (focused?.getAttribute('aria-label') ?? focused?.textContent ?? '').trim();
    });
    if (typeof name === 'string' ? here === name : name.test(here)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`tabTo: expected to come to ${name} within 400 presses`);
}

/** A sample in which a hose finds no way: what would help is looked for, and the first that is offered gives it one. */
async function fixesABlockedRun(page: Page, hands: Hands): Promise<void> {
  await hands.command('New from sample');
  await hands.press(/^Runs blocked/);
  await page.waitForFunction((id) => window.underberthBoard?.app().boat?.lines[id] !== undefined, BLOCKED);
  await settle(page);
  // The finder names a line by its mark and its name; the name alone is in the words of findings too.
  await hands.command(`${BLOCKED} ${(await boatNow(page)).lines[BLOCKED]?.name}`);
  await page.waitForFunction((id) => window.underberthBoard?.app().selection?.id === id, BLOCKED);
  const apply = page.getByRole('button', { name: /^Apply: / }).first();
  await apply.waitFor({ timeout: 60_000 });
  await hands.press(/^Apply: /);
  await page.waitForFunction(
    (id) => {
      const { report, stale } = window.underberthBoard?.app() ?? {};
      return stale === false && report?.runs.find(({ lineId }) => lineId === id)?.status === 'routed';
    },
    BLOCKED,
    { timeout: 60_000 },
  );
}

/** From the sample to list, sheet and file, and back again: the boat that is reopened is the one that was saved. */
export async function wholeJob(page: Page, hands: Hands, shore: Shore): Promise<void> {
  await fixesABlockedRun(page, hands);

  await hands.command('New from sample');
  await hands.press(/^Sandwort/);
  await hands.press('Discard the edits');
  await page.waitForFunction(() => window.underberthBoard?.app().canUndo === null);
  await settle(page);

  await hands.command('Pump module');
  await page.waitForFunction((id) => window.underberthBoard?.app().selection?.id === id, MODULE);
  const before = await placeNow(page, MODULE);
  await hands.movePump();
  expect(await placeNow(page, MODULE)).not.toEqual(before);
  await settle(page);

  const boat = await boatNow(page);
  await hands.command('Next finding');
  const finding = (await told(page)).selection?.id ?? '';
  await hands.press('Accept with a reason');
  await hands.typeReason('Seen, and lived with for years');
  await hands.press('Accept');
  expect((await boatNow(page)).accepted[finding]?.why).toBe('Seen, and lived with for years');
  await settle(page);

  await hands.command('Go to Sheets');
  const list = await shore.received('.csv', () => hands.press('Export the list as CSV'));
  expect(list.toString('utf8')).toContain(boat.parts[MODULE]?.name);
  const sheet = await shore.received('.pdf', () => hands.press('Save as PDF'));
  expect(sheet.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  const saved = (await shore.received('.boat.json', () => page.keyboard.press('Control+s'))).toString('utf8');
  await page.waitForFunction(() => {
    const document = window.underberthBoard?.app().document;
    return document?.revision === document?.savedRevision;
  });

  const was = await boatNow(page);
  const read = readBoat(saved);
  expect(read.ok && { ...read.boat, engineVersion: '' }).toEqual({ ...was, engineVersion: '' });
  await hands.command('Go to Equipment');
  await shore.chosen(saved);
  await page.waitForFunction(() => window.underberthBoard?.app().canUndo === null);
  expect({ ...(await boatNow(page)), engineVersion: '' }).toEqual({ ...was, engineVersion: '' });
  await settle(page);
}

/** Waits for a file that the desktop writes. */
async function fileAshore(file: string): Promise<Buffer> {
  await expect.poll(() => existsSync(file), { timeout: 30_000 }).toBe(true);
  return readFileSync(file);
}

const SIZE = { width: 1280, height: 800 };

/** A page in a browser that has no access to files: what is saved is downloaded, what is opened is uploaded. */
export async function inBrowser(built: BuiltPage, work: (page: Page, shore: Shore) => Promise<void>): Promise<void> {
  const context = await built.browser.newContext({ viewport: SIZE, acceptDownloads: true });
  await context.addInitScript(() => {
    Reflect.deleteProperty(window, 'showOpenFilePicker');
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  const page = await context.newPage();
  const errors = errorsOf(page);
  await startPage(page, built.url);
  await work(page, {
    async received(ending, act) {
      const downloading = page.waitForEvent('download', { timeout: 60_000 });
      await act();
      const download = await downloading;
      expect(download.suggestedFilename().endsWith(ending)).toBe(true);
      return readFileSync(await download.path());
    },
    chosen: (text) => choosesFile(page, 'again.boat.json', text),
  });
  expect(errors).toEqual([]);
  await context.close();
}

/** A page over the built preload and the real handlers of the desktop. */
export async function onDesktop(built: BuiltPage, work: (page: Page, shore: Shore) => Promise<void>): Promise<void> {
  const place = mkdtempSync(path.join(tmpdir(), 'underberth-'));
  const context = await built.browser.newContext({ viewport: SIZE });
  const desktop = await installDesktop(context, path.join(place, 'user'));
  const page = await context.newPage();
  const errors = errorsOf(page);
  await startPage(page, built.url);
  await work(page, {
    async received(ending, act) {
      const file = path.join(place, `saved${ending}`);
      desktop.answers.exportTo = file;
      desktop.answers.boatToSave = file;
      await act();
      return fileAshore(file);
    },
    async chosen(text) {
      const file = path.join(place, 'again.boat.json');
      writeFileSync(file, text);
      desktop.answers.boatToOpen = file;
      await page.keyboard.press('Control+o');
    },
  });
  expect(errors).toEqual([]);
  await context.close();
  await desktop.dispose();
  rmSync(place, { recursive: true, force: true });
}
