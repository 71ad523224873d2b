import type { BoardProbe } from '@renderer/board/probe';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { threeLockers } from '../support/boats';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, expectAccessible } from './planning';

declare global {
  interface Window {
    underberthBoard?: BoardProbe;
    showOpenFilePicker?: () => Promise<FileSystemFileHandle[]>;
    showSaveFilePicker?: (options: { suggestedName: string }) => Promise<FileSystemFileHandle>;
  }
}

// Derived: an edit that was made is found again, and no content is replaced that nobody here has seen.
const FILE = 'lockers.boat.json';
const SIZE = { width: 1280, height: 800 };

describe.skipIf(!hasChromium())('in a browser that knows files, nothing is lost', () => {
  let built: BuiltPage;
  let context: BrowserContext;
  beforeAll(async () => {
    built = await openBuiltPage();
    context = await built.browser.newContext({ viewport: SIZE });
    // The system's pickers can't be answered by a test. The browser's private files stand for those of the disk: their handles are
    // of the same kind, are the same file in two tabs, and are really written.
    await context.addInitScript(() => {
      const folder = () => navigator.storage.getDirectory();
      window.showOpenFilePicker = async () => [await (await folder()).getFileHandle('lockers.boat.json')];
      window.showSaveFilePicker = async ({ suggestedName }) =>
        (await folder()).getFileHandle(suggestedName, { create: true });
    });
  });
  afterAll(() => built.close());

  const textOfFile = (page: Page): Promise<string> =>
    page.evaluate(async (name) => {
      const folder = await navigator.storage.getDirectory();
      return (await (await folder.getFileHandle(name)).getFile()).text();
    }, FILE);
  const putFile = (page: Page, text: string): Promise<void> =>
    page.evaluate(
      async ([name = '', content = '']) => {
        const folder = await navigator.storage.getDirectory();
        const stream = await (await folder.getFileHandle(name, { create: true })).createWritable();
        await stream.write(content);
        await stream.close();
      },
      [FILE, text],
    );
  const appOf = <T>(page: Page, read: (board: BoardProbe) => T): Promise<T> =>
    page.evaluate(`(${read.toString()})(window.underberthBoard)`) as Promise<T>;
  const isOpen = (page: Page) =>
    page.waitForFunction((name) => window.underberthBoard?.app().document.fileName === name, FILE);
  const tab = async (): Promise<Page> => {
    const page = await context.newPage();
    await page.goto(`${built.url}?e2e`);
    await page.waitForFunction(() => (window.underberthBoard?.app().boat ?? null) !== null);
    return page;
  };
  const openFile = async (page: Page): Promise<void> => {
    await page.keyboard.press('Control+o');
    await isOpen(page);
  };
  const nameIt = (page: Page, name: string): Promise<unknown> =>
    page.evaluate(
      (words) =>
        window.underberthBoard?.app().edit(`Name it ${words}`, (boat) => {
          boat.name = words;
        }),
      name,
    );
  const nameInFile = async (page: Page): Promise<unknown> => JSON.parse(await textOfFile(page)).name;
  const isSaved = (page: Page) =>
    page.waitForFunction(() => {
      const document = window.underberthBoard?.app().document;
      return document?.revision === document?.savedRevision;
    });

  /** Waits until so many edits of this file stand in the journal. */
  const areKept = (page: Page, edits: number) =>
    expect
      .poll(() =>
        page.evaluate(
          (name) =>
            new Promise<number>((resolve) => {
              const opening = indexedDB.open('underberth');
              opening.onsuccess = () => {
                const stores = opening.result.transaction(['bases', 'entries'], 'readonly');
                const bases = stores.objectStore('bases').getAll();
                const entries = stores.objectStore('entries').getAll();
                stores.oncomplete = () => {
                  const own = bases.result.filter((base) => base.name === name).map((base) => base.documentId);
                  resolve(entries.result.filter((entry) => own.includes(entry.documentId)).length);
                  opening.result.close();
                };
              };
            }),
          FILE,
        ),
      )
      .toBe(edits);

  it('two tabs on one file know of each other, and the second to save is asked', async () => {
    const first = await tab();
    const errors = errorsOf(first);
    await putFile(first, JSON.stringify(threeLockers()));
    await openFile(first);
    const second = await tab();
    await openFile(second);
    for (const page of [first, second]) {
      await page
        .getByRole('alert')
        .filter({ hasText: `${FILE} is open in another window too.` })
        .waitFor();
    }
    await nameIt(second, 'Second');
    await nameIt(first, 'First');
    await first.keyboard.press('Control+s');
    await isSaved(first);
    expect(await nameInFile(first)).toBe('First');

    // The other tab hears of it without being touched.
    const question = second.getByRole('dialog', { name: `${FILE} was changed by another program or window` });
    await question.waitFor();
    expect(await question.textContent()).toContain('Against your boat: the name changed.');
    await question.getByRole('button', { name: 'Decide later' }).click();
    expect(await nameInFile(second)).toBe('First');
    await second.keyboard.press('Control+s');
    await question.getByRole('button', { name: 'Keep mine' }).click();
    await isSaved(second);
    expect(await nameInFile(second)).toBe('Second');

    // What was replaced is an earlier version, and comes back as an edit.
    await second.evaluate(() => window.underberthBoard?.app().dismissProblem());
    await second.getByRole('button', { name: 'Boat file' }).click();
    await second.getByRole('menuitem', { name: 'Earlier versions' }).click();
    const versions = second.getByRole('dialog', { name: 'Earlier versions' });
    await versions.getByText('Since then: the name changed').first().waitFor();
    await versions
      .getByRole('button', { name: /^Bring back the version of/ })
      .first()
      .click();
    expect(await appOf(second, (board) => board.app().boat?.name)).toBe('First');
    await second.keyboard.press('Control+z');
    expect(await appOf(second, (board) => board.app().boat?.name)).toBe('Second');
    expect(errors).toEqual([]);
    await first.close();
    await second.close();
  });

  it('what was not saved is offered, kept when nobody decides, and goes back to its own file', async () => {
    const page = await tab();
    await putFile(page, JSON.stringify(threeLockers()));
    await openFile(page);
    for (const name of ['One', 'Two', 'Three']) await nameIt(page, name);
    await areKept(page, 3);
    // Its tab goes without a word.
    await page.close({ runBeforeUnload: false });

    const next = await tab();
    const dialog = next.getByRole('dialog', { name: 'Unsaved work from before' });
    await dialog.waitFor();
    expect(await dialog.locator('li').textContent()).toMatch(
      new RegExp(`^${FILE}\\d+ \\w+ 20\\d\\d, \\d\\d:\\d\\d: 3 edits not saved`),
    );
    await next.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    await next.reload();
    await dialog.waitFor();
    await dialog.getByRole('button', { name: `Bring them back: ${FILE}` }).click();
    await isOpen(next);
    expect(await appOf(next, (board) => board.app().boat?.name)).toBe('Three');
    await next.keyboard.press('Control+s');
    await isSaved(next);
    expect(await nameInFile(next)).toBe('Three');
    await next.reload();
    await next.waitForFunction(() => (window.underberthBoard?.app().boat ?? null) !== null);
    expect(await dialog.count()).toBe(0);
    await next.close();
  });

  it('a file that another program has changed is noticed when the window comes to the front', async () => {
    const page = await tab();
    await putFile(page, JSON.stringify(threeLockers()));
    await openFile(page);
    await putFile(page, JSON.stringify({ ...threeLockers(), name: 'By another program' }));
    await page.evaluate(() => window.dispatchEvent(new Event('focus')));
    await page.getByRole('button', { name: 'Take theirs' }).click();
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('By another program');
    await isSaved(page);
    await page.keyboard.press('Control+z');
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('Three lockers');
    await areKept(page, 1);
    await page.close({ runBeforeUnload: false });
    // That undo is unsaved work, and is thrown away here by its name.
    const next = await tab();
    await next.getByRole('button', { name: `Discard them: ${FILE}` }).click();
    await next.getByRole('dialog').waitFor({ state: 'detached' });
    await next.close();
  });

  it('storage that is full is told, the work goes on in the window, and is kept again once there is room', async () => {
    const page = await tab();
    await putFile(page, JSON.stringify(threeLockers()));
    await openFile(page);
    await nameIt(page, 'Before');
    await areKept(page, 1);
    // Files are refused by the browser itself; its databases look at the limit only now and then, so they refuse by this.
    const devtools = await context.newCDPSession(page);
    const origin = new URL(built.url).origin;
    await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    await page.evaluate(() => {
      const store = IDBObjectStore.prototype;
      const { add, put } = store;
      const full = (): never => {
        throw new DOMException('full', 'QuotaExceededError');
      };
      Object.assign(store, { add: full, put: full });
      window.addEventListener('room', () => Object.assign(store, { add, put }));
    });
    await nameIt(page, 'Meanwhile');
    const alert = page.getByRole('alert').filter({ hasText: 'Edits are not kept in the recovery journal.' });
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(/no room left.*They are in this window: save the boat/);
    // Saving fails too, and says why; the boat stays.
    await page.keyboard.press('Control+s');
    const failed = page.getByRole('dialog', { name: 'Not saved' });
    await failed.waitFor();
    expect(await failed.textContent()).toMatch(/no room left.*Nothing is lost/);
    await failed.getByRole('button', { name: 'Go on without saving' }).click();
    expect(await nameInFile(page)).toBe('Three lockers');
    await nameIt(page, 'Full');
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('Full');
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
    await page.evaluate(() => window.dispatchEvent(new Event('room')));
    await nameIt(page, 'Room again');
    await page.waitForFunction(() => window.underberthBoard?.app().notice?.endsWith('recovery journal again.'));
    expect(await alert.count()).toBe(0);
    await page.close({ runBeforeUnload: false });
    const next = await tab();
    await next.getByRole('button', { name: `Bring them back: ${FILE}` }).click();
    await isOpen(next);
    expect(await appOf(next, (board) => board.app().boat?.name)).toBe('Room again');
    await next.keyboard.press('Control+s');
    await isSaved(next);
    await next.close();
  });

  it('the steps taken stand in a list, by mouse and by keyboard, and a step is gone back to', async () => {
    const page = await tab();
    await putFile(page, JSON.stringify(threeLockers()));
    await openFile(page);
    for (let step = 1; step <= 6; step++) await nameIt(page, `n${step}`);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('h');
    const steps = page.getByRole('dialog', { name: 'Steps taken' });
    expect(await steps.locator('ol button').allTextContents()).toEqual([
      'Name it n6now',
      ...[5, 4, 3, 2, 1].map((step) => `Name it n${step}`),
    ]);
    await steps.getByRole('button', { name: 'Name it n2', exact: true }).click();
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('n2');
    expect(await steps.locator('[aria-current=step]').textContent()).toBe('Name it n2now');
    await steps.getByRole('button', { name: 'Name it n4 undone' }).press('Enter');
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('n4');
    await expectAccessible(page);
    await steps.getByRole('button', { name: 'As it was opened' }).click();
    await page.keyboard.press('Escape');
    await steps.waitFor({ state: 'detached' });
    expect(await appOf(page, (board) => board.app().boat?.name)).toBe('Three lockers');
    await isSaved(page);
    await page.close();
  });
});
