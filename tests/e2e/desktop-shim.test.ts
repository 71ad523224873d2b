import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { UnderberthDesktop } from '@electron/ipc/contract';
import { type BrowserMode, serve } from '@electron/serve/server';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { hasChromium, openChromium } from '../support/chromium';
import { type DesktopShim, installDesktop } from '../support/desktop-shim';

declare global {
  interface Window {
    underberthDesktop?: UnderberthDesktop;
  }
}

describe.skipIf(!hasChromium())('the built preload in Chromium, over the real handlers', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'underberth-'));
  const at = (name: string): string => path.join(folder, name);
  let browser: Browser;
  let mode: BrowserMode;
  let page: Page;
  let desktop: DesktopShim;
  beforeAll(async () => {
    ensureBuilt(['desktop']);
    // A page of its own: the bridge is judged here, not the app.
    writeFileSync(at('index.html'), '<!doctype html><link rel="icon" href="data:," /><title>Bridge</title>');
    mode = await serve({ page: folder, sampleBoats: folder }, 0);
    browser = await openChromium();
    const context = await browser.newContext();
    desktop = await installDesktop(context, at('user'));
    page = await context.newPage();
    await page.goto(mode.url);
  });
  afterAll(async () => {
    await desktop.dispose();
    await browser.close();
    await mode.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('opens, saves and exports real files', async () => {
    writeFileSync(at('a.boat.json'), '{"v":1}');
    desktop.answers.boatToOpen = at('a.boat.json');
    desktop.answers.exportTo = at('sheet.pdf');
    const outcome = await page.evaluate(async () => {
      const bridge = window.underberthDesktop;
      const opened = await bridge?.openBoat();
      if (opened?.outcome !== 'opened') return opened;
      const saved = await bridge?.saveBoat({
        token: opened.token,
        suggestedName: 'a.json',
        text: '{"v":2}',
        replaces: null,
      });
      const sheet = await bridge?.exportFile({ suggestedName: 'sheet.pdf', content: new Uint8Array([37, 80, 68, 70]) });
      return [opened.text, saved?.outcome, sheet?.outcome];
    });
    expect(outcome).toEqual(['{"v":1}', 'saved', 'saved']);
    expect(readFileSync(at('a.boat.json'), 'utf8')).toBe('{"v":2}');
    expect(readFileSync(at('a.boat.json.bak1'), 'utf8')).toBe('{"v":1}');
    expect([...readFileSync(at('sheet.pdf'))]).toEqual([37, 80, 68, 70]);
    expect(desktop.used).toEqual(['boat:open', 'boat:save', 'export:save']);
  });

  it('keeps pictures beside a boat that was opened, and hands them back byte for byte', async () => {
    writeFileSync(at('b.boat.json'), '{"v":1}');
    desktop.answers.boatToOpen = at('b.boat.json');
    const outcome = await page.evaluate(async () => {
      const bridge = window.underberthDesktop;
      const opened = await bridge?.openBoat();
      if (opened?.outcome !== 'opened') return opened;
      const { token } = opened;
      const content = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16, 1, 2]);
      const kept = await bridge?.keepPicture({ token, name: 'bilge.jpg', content });
      const read = await bridge?.readPicture({ token, name: 'bilge.jpg' });
      const program = await bridge?.keepPicture({ token, name: 'evil.jpg', content: new Uint8Array([77, 90, 144, 0]) });
      const climbing = await bridge?.readPicture({ token, name: '../b.jpg' }).catch(() => 'refused');
      return [kept?.outcome, read?.outcome === 'read' ? [...read.content] : read, program, climbing];
    });
    expect(outcome).toEqual([
      'kept',
      [0xff, 0xd8, 0xff, 0xe0, 0, 16, 1, 2],
      { outcome: 'problem', code: 'wrongKind', message: 'evil.jpg is no JPEG, PNG or WebP picture by its content.' },
      'refused',
    ]);
    expect([...readFileSync(at('bilge.jpg'))]).toEqual([0xff, 0xd8, 0xff, 0xe0, 0, 16, 1, 2]);
  });

  it('keeps a journal that a later start finds', async () => {
    const entries = await page.evaluate(async () => {
      const bridge = window.underberthDesktop;
      await bridge?.startJournal({ documentId: 'document-1', name: 'A', token: null, baseText: '{}', isSaved: true });
      for (const entry of ['one', 'two']) await bridge?.appendJournal({ documentId: 'document-1', entry });
      return (await bridge?.readJournals())?.journals.map((journal) => journal.entries);
    });
    // A page that is loaded anew asks, and finds what the page before it has left.
    expect(entries).toEqual([['one', 'two']]);
    const later = await browser.newContext();
    const laterDesktop = await installDesktop(later, at('user'));
    const laterPage = await later.newPage();
    await laterPage.goto(mode.url);
    const found = await laterPage.evaluate(() => window.underberthDesktop?.readJournals());
    expect(found?.journals.map((journal) => [journal.baseText, journal.entries])).toEqual([['{}', ['one', 'two']]]);
    await laterDesktop.dispose();
    await later.close();
  });

  it('lets no path and no unknown name through', async () => {
    const refused = await page.evaluate(async () => {
      const save = window.underberthDesktop?.saveBoat({
        token: null,
        suggestedName: '../../evil',
        text: '',
        replaces: null,
      });
      return save?.then(
        () => 'saved',
        () => 'refused',
      );
    });
    expect(refused).toBe('refused');
    expect(await page.evaluate(() => Object.keys(window.underberthDesktop ?? {}).length)).toBe(14);
  });

  it('asks before closing', async () => {
    await page.evaluate(async () => {
      window.underberthDesktop?.onCloseRequest(() => void window.underberthDesktop?.confirmClose());
      await window.underberthDesktop?.setUnsaved({ unsaved: true });
    });
    expect(desktop.unsaved()).toBe(true);
    await desktop.requestClose(page);
    await expect.poll(() => desktop.closeConfirmed()).toBe(true);
  });
});
