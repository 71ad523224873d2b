import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BoardProbe } from '@renderer/board/probe';
import { type Browser, chromium, type Page } from 'playwright-core';
import { expect } from 'vitest';
import { dice } from '../support/dice';
import { chromiumPath } from '../support/outside-tools.mjs';

declare global {
  interface Window {
    underberthBoard?: BoardProbe;
    underberthKept?: (entries: number) => void;
  }
}

export interface BrowserKillTally {
  readonly kills: number;
  /** Edits that the database had acknowledged before a kill, all told. */
  readonly acknowledged: number;
}

/** Longest wait after an edit was acknowledged, ms. */
const LONGEST_WAIT_MS = 60;
const MOST_EDITS = 60;

/**
 * Kills a whole browser so often while its page edits, starts it again on the same profile, and looks at what it offers: every edit
 * that its database had acknowledged.
 */
export async function killBrowsers(url: string, kills: number, seed: number): Promise<BrowserKillTally> {
  const luck = dice(seed);
  let acknowledged = 0;
  for (let kill = 0; kill < kills; kill++) {
    const profile = mkdtempSync(path.join(tmpdir(), 'underberth-'));
    try {
      const kept = await killedBrowser(url, profile, 2 + luck.whole(8), luck.from(0, LONGEST_WAIT_MS));
      acknowledged += kept;
      const { browser, page, ended } = await launch(url, profile);
      const offer = page.getByRole('dialog', { name: 'Unsaved work from before' });
      await offer.waitFor();
      const offered = Number(/: (\d+) edits? not saved/.exec((await offer.textContent()) ?? '')?.[1]);
      expect([kill, kept, offered >= kept, offered <= MOST_EDITS]).toEqual([kill, kept, true, true]);
      await offer.getByRole('button', { name: /^Bring them back/ }).click();
      // The boat after the last of them, and no other.
      await page.waitForFunction((name) => window.underberthBoard?.app().boat?.name === name, `n${offered}`);
      await (await browser.newBrowserCDPSession()).send('Browser.close').catch(() => undefined);
      await ended;
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
    }
  }
  return { kills, acknowledged };
}

interface Running {
  readonly child: ChildProcess;
  readonly browser: Browser;
  readonly page: Page;
  readonly ended: Promise<unknown>;
}

/** A browser of this test's own, so that it is this process that is killed, on the page at rest with a boat. */
async function launch(url: string, profile: string, prepare?: (page: Page) => Promise<unknown>): Promise<Running> {
  const executablePath = chromiumPath();
  if (!executablePath) throw new Error('browser-kills: no Chromium here; guard the test with hasChromium()');
  const words = ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--remote-debugging-port=0'];
  const child = spawn(executablePath, [...words, `--user-data-dir=${profile}`, 'about:blank'], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  const address = await new Promise<string>((resolve, reject) => {
    let said = '';
    child.once('exit', (code) => reject(new Error(`the browser ended by itself with ${code}: ${said}`)));
    child.stderr?.on('data', (text: Buffer) => {
      said += text.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (found) resolve(found);
    });
  });
  const browser = await chromium.connectOverCDP(address);
  const [context] = browser.contexts();
  const page = context?.pages()[0] ?? (await context?.newPage());
  if (!page) throw new Error('browser-kills: expected a page');
  await prepare?.(page);
  await page.goto(`${url}?e2e`);
  await page.waitForFunction(() => (window.underberthBoard?.app().boat ?? null) !== null);
  return { child, browser, page, ended };
}

/** Edits until so many are acknowledged, and is killed so many ms after that; tells how many were by then. */
async function killedBrowser(url: string, profile: string, edits: number, waitMs: number): Promise<number> {
  let kept = 0;
  const { child, browser, page, ended } = await launch(url, profile, async (made) => {
    await made.exposeFunction('underberthKept', (entries: number) => {
      kept = Math.max(kept, entries);
    });
    // The database itself tells when an entry is kept: that is what the journal waits for.
    await made.addInitScript(() => {
      let entries = 0;
      const { add } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.add = function (this: IDBObjectStore, ...words: Parameters<typeof add>) {
        if (this.name === 'entries') {
          this.transaction.addEventListener('complete', () => {
            entries += 1;
            window.underberthKept?.(entries);
          });
        }
        return add.apply(this, words);
      };
    });
  });
  await page.evaluate((most) => {
    let edit = 0;
    const timer = setInterval(() => {
      edit += 1;
      window.underberthBoard?.app().edit(`Edit ${edit}`, (boat) => {
        boat.name = `n${edit}`;
      });
      if (edit === most) clearInterval(timer);
    }, 15);
  }, MOST_EDITS);
  await expect.poll(() => kept, { timeout: 60_000, interval: 5 }).toBeGreaterThanOrEqual(edits);
  await new Promise((resolve) => setTimeout(resolve, waitMs));
  const answered = kept;
  child.kill('SIGKILL');
  await ended;
  await browser.close().catch(() => undefined);
  return answered;
}
