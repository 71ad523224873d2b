import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserMode } from '@electron/serve/server';
import type { BoardProbe } from '@renderer/board/probe';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { hasChromium, openChromium, servePage } from '../support/chromium';
import { type DesktopShim, installDesktop } from '../support/desktop-shim';
import { dice } from '../support/dice';
import {
  acceptsAFinding,
  boatNow,
  choosesFile,
  clientPos,
  cutsByMouse,
  drag,
  dragsAClipPoint,
  errorsOf,
  expectAccessible,
  expectBoardCold,
  listOf,
  movesAtRandom,
  movesByKeyboard,
  movesByMouse,
  opensAFinding,
  placeNow,
  rest,
  settle,
  slidesTheSection,
  startPage,
  told,
  typesAPlace,
} from './planning';

declare global {
  interface Window {
    underberthBoard?: BoardProbe;
  }
}

const SIZE = { width: 1280, height: 800 };
/** A file with one impossible value. */
const BROKEN = JSON.stringify({
  format: 'underberth-boat',
  schemaVersion: 1,
  name: 'Broken',
  compartments: {
    hold: {
      name: 'Hold',
      view: 'plan',
      outline: [
        [0, 0],
        [1, 0],
        [1, 1],
      ],
      rangeM: [0, 123456],
    },
  },
});

let browser: Browser;
let mode: BrowserMode;
const folder = mkdtempSync(path.join(tmpdir(), 'underberth-'));
const at = (name: string): string => path.join(folder, name);

describe.skipIf(!hasChromium())('planning, from opening the 11 m boat to the list', () => {
  beforeAll(async () => {
    ensureBuilt(['renderer', 'desktop']);
    mode = await servePage();
    browser = await openChromium();
    writeFileSync(at('broken.boat.json'), BROKEN);
  });
  afterAll(async () => {
    await browser.close();
    await mode.close();
    rmSync(folder, { recursive: true, force: true });
  });

  describe('in a browser without access to files', () => {
    let page: Page;
    let errors: readonly string[];
    beforeAll(async () => {
      const context = await browser.newContext({ viewport: SIZE, acceptDownloads: true });
      // Pickers of the system can't be answered by a test; without them the page uploads and downloads.
      await context.addInitScript(() => {
        Reflect.deleteProperty(window, 'showOpenFilePicker');
        Reflect.deleteProperty(window, 'showSaveFilePicker');
      });
      page = await context.newPage();
      errors = errorsOf(page);
      await startPage(page, mode.url);
    });
    afterAll(() => page.context().close());

    it('moves a part by mouse, and the runs follow; undo and redo', () => movesByMouse(page));
    it('moves it by keyboard, 10 mm and 1 mm', () => movesByKeyboard(page));
    it('takes a typed place and refuses a wrong one with the reason', () => typesAPlace(page));
    it('slides the section by keys', () => slidesTheSection(page));
    it('cuts where the section tool is pressed', () => cutsByMouse(page));
    it('sets a clip point and drags it on the drawing', () => dragsAClipPoint(page));
    it('opens a finding with its reason and goes to its place', () => opensAFinding(page));
    it('accepts a finding with a reason, kept in the boat', () => acceptsAFinding(page));

    it('exports the list as it stands', async () => {
      await page.getByRole('button', { name: 'Sheets' }).click();
      const downloading = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Export the list as CSV' }).click();
      const download = await downloading;
      expect(download.suggestedFilename()).toBe('Sandwort parts and lengths.csv');
      expect(readFileSync(await download.path(), 'utf8')).toBe(await listOf(page));
    });

    it('saves a file whose cold check says what the board says, and opens it again as it was', async () => {
      const before = await boatNow(page);
      const downloading = page.waitForEvent('download');
      await page.keyboard.press('Control+s');
      const saved = await downloading;
      const text = readFileSync(await saved.path(), 'utf8');
      await rest(page);
      const { revision, savedRevision } = await told(page);
      expect(revision).toBe(savedRevision);
      await expectBoardCold(page, text);

      await choosesFile(page, 'again.boat.json', text);
      await page.waitForFunction(() => window.underberthBoard?.app().document.fileName === 'again.boat.json');
      const { engineVersion: _, ...again } = await boatNow(page);
      const { engineVersion: __, ...was } = before;
      expect(again).toEqual(was);
      await settle(page);
    });

    it('refuses a broken file by path and leaves the boat', async () => {
      const before = await boatNow(page);
      await choosesFile(page, 'broken.boat.json', BROKEN);
      const alert = page.getByRole('alert').filter({ hasText: 'broken.boat.json' });
      await alert.waitFor();
      expect(await alert.textContent()).toMatch(/compartments\.hold\.rangeM\[1\] is 123456.*1000/);
      expect(await boatNow(page)).toEqual(before);
      await alert.getByRole('button', { name: 'Close' }).click();
    });

    it('moves every part by mouse and by keyboard', async () => {
      const parts = Object.keys((await boatNow(page)).parts);
      expect(parts.length).toBeGreaterThan(10);
      for (const id of parts) {
        const before = await placeNow(page, id);
        await page.evaluate((thing) => window.underberthBoard?.app().select({ kind: 'thing', id: thing }), id);
        await drag(page, await clientPos(page, id, 'detail'), [23, -17]);
        const after = await placeNow(page, id);
        expect([id, after.every((value, axis) => value === before[axis])]).toEqual([id, false]);
        await page.getByRole('listbox', { name: 'Things and runs on the drawing board' }).focus();
        await page.keyboard.press('ArrowRight');
        const nudged = await placeNow(page, id);
        expect([id, nudged.every((value, axis) => value === after[axis])]).toEqual([id, false]);
        await page.keyboard.press('Control+z');
        await page.keyboard.press('Control+z');
        expect(await placeNow(page, id)).toEqual(before);
      }
      await settle(page);
    }, 400_000);

    it('settles, after each of five random moves, to what a cold check of the saved file says', async () => {
      const luck = dice(2026);
      for (let move = 0; move < 5; move++) {
        await movesAtRandom(page, luck);
        await expectBoardCold(page);
      }
      for (let move = 0; move < 5; move++) await page.keyboard.press('Control+z');
      await settle(page);
      await expectBoardCold(page);
    }, 400_000);

    it('brings back edits that a closed tab left unsaved', async () => {
      await page.evaluate(() => window.underberthBoard?.app().nudge('strainer', [0.01, 0, 0]));
      const lost = await boatNow(page);
      await settle(page);
      page.once('dialog', (dialog) => void dialog.accept());
      await page.reload();
      await page.getByRole('button', { name: 'Bring them back' }).click();
      await settle(page);
      const { engineVersion: _, ...recovered } = await boatNow(page);
      const { engineVersion: __, ...was } = lost;
      expect(recovered).toEqual(was);
    });

    it('is accessible in every stage and both themes, and the console stayed clean', async () => {
      for (const theme of ['light', 'dark'] as const) {
        await page.evaluate((choice) => window.underberthBoard?.app().setTheme(choice), theme);
        for (const stage of ['1', '2', '3', '4', '5', '6']) {
          await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
          await page.keyboard.press(stage);
          await expectAccessible(page);
        }
      }
      expect(errors).toEqual([]);
    });
  });

  describe('through the built preload of the desktop', () => {
    let page: Page;
    let desktop: DesktopShim;
    let errors: readonly string[];
    beforeAll(async () => {
      const context = await browser.newContext({ viewport: SIZE });
      desktop = await installDesktop(context, at('user'));
      page = await context.newPage();
      errors = errorsOf(page);
      await startPage(page, mode.url);
    });
    afterAll(async () => {
      await page.context().close();
      await desktop.dispose();
    });

    it('moves a part by mouse, and the runs follow; undo and redo', () => movesByMouse(page));
    it('moves it by keyboard, 10 mm and 1 mm', () => movesByKeyboard(page));
    it('opens a finding with its reason and goes to its place', () => opensAFinding(page));

    it('exports the list to a file', async () => {
      desktop.answers.exportTo = at('list.csv');
      await page.getByRole('button', { name: 'Sheets' }).click();
      await page.getByRole('button', { name: 'Export the list as CSV' }).click();
      await expect.poll(() => desktop.used.includes('export:save')).toBe(true);
      await expect.poll(() => contentOf(at('list.csv'))).toBe(await listOf(page));
    });

    it('saves, reopens as it was, and the cold check agrees', async () => {
      const before = await boatNow(page);
      expect(desktop.unsaved()).toBe(true);
      desktop.answers.boatToSave = at('sandwort.boat.json');
      await page.keyboard.press('Control+s');
      await expect.poll(async () => (await told(page)).revision === (await told(page)).savedRevision).toBe(true);
      expect(desktop.unsaved()).toBe(false);
      await rest(page);
      await expectBoardCold(page, readFileSync(at('sandwort.boat.json'), 'utf8'));
      desktop.answers.boatToOpen = at('sandwort.boat.json');
      await page.keyboard.press('Control+o');
      await page.waitForFunction(() => window.underberthBoard?.app().canUndo === null);
      const { engineVersion: _, ...again } = await boatNow(page);
      const { engineVersion: __, ...was } = before;
      expect(again).toEqual(was);
      await settle(page);
    });

    it('refuses a broken file and leaves the boat', async () => {
      const before = await boatNow(page);
      desktop.answers.boatToOpen = at('broken.boat.json');
      await page.keyboard.press('Control+o');
      const alert = page.getByRole('alert').filter({ hasText: 'broken.boat.json' });
      await alert.waitFor();
      expect(await boatNow(page)).toEqual(before);
    });

    it('brings back edits that a crash left unsaved, and the console stayed clean', async () => {
      await page.evaluate(() => window.underberthBoard?.app().nudge('strainer', [0.01, 0, 0]));
      const lost = await boatNow(page);
      await expect.poll(() => desktop.used.filter((channel) => channel === 'journal:append').length).toBeGreaterThan(0);
      expect(errors).toEqual([]);
      // The whole program goes away without a word, as in a crash; the next start finds its folder.
      await page.context().close();
      await desktop.dispose();
      const context = await browser.newContext({ viewport: SIZE });
      desktop = await installDesktop(context, at('user'));
      page = await context.newPage();
      await page.goto(`${mode.url}?e2e`);
      await page.getByRole('button', { name: 'Bring them back' }).click();
      await settle(page);
      const { engineVersion: _, ...recovered } = await boatNow(page);
      const { engineVersion: __, ...was } = lost;
      expect(recovered).toEqual(was);
    });
  });
});

const contentOf = (file: string): string => {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
};
