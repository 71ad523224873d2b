import type { BrowserMode } from '@electron/serve/server';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { hasChromium, openChromium, servePage } from '../support/chromium';

/** Words that stand in the packages that make and read files, and in nothing of ours. */
const MARKS = { pdfkit: '%PDF-', writeExcelFile: 'xl/worksheets', papaparse: 'BAD_DELIMITERS' } as const;

describe.skipIf(!hasChromium())('the built page in a browser', () => {
  let browser: Browser;
  let mode: BrowserMode;
  let page: Page;
  const complaints: string[] = [];
  beforeAll(async () => {
    ensureBuilt(['renderer']);
    mode = await servePage();
    browser = await openChromium();
    page = await browser.newPage();
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(mode.url);
    await page.waitForFunction(() => (document.getElementById('root')?.childElementCount ?? 0) > 0);
  });
  afterAll(async () => {
    await browser?.close();
    await mode?.close();
  });

  it('starts under the content policy without a word of complaint, its worker too', async () => {
    await page.waitForLoadState('networkidle');
    expect(complaints).toEqual([]);
    expect(await page.evaluate(() => window.isSecureContext)).toBe(true);
    await expect.poll(() => page.workers().length).toBeGreaterThan(0);
  });

  it('asks nothing of any other host', async () => {
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.reload();
    await page.waitForLoadState('networkidle');
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.filter((url) => !url.startsWith(mode.url) && !/^(data|blob):/.test(url))).toEqual([]);
  });

  it('loads nothing at start that only files to take away need', async () => {
    const loaded: string[] = [];
    page.on('request', (request) => loaded.push(request.url()));
    await page.reload();
    await page.waitForLoadState('networkidle');
    const scripts = loaded.filter((url) => url.endsWith('.js'));
    expect(scripts.length).toBeGreaterThan(3);
    expect(loaded.filter((url) => url.endsWith('.ttf'))).toEqual([]);
    const found = await page.evaluate(
      async ({ urls, marks }) => {
        const texts = await Promise.all(urls.map(async (url) => (await fetch(url)).text()));
        return urls.flatMap((url, k) => marks.filter((mark) => texts[k]?.includes(mark)).map((mark) => [url, mark]));
      },
      { urls: scripts, marks: Object.values(MARKS) },
    );
    expect(found).toEqual([]);
  });

  it('finds the sample boats where the page looks for them', async () => {
    const names = await page.evaluate(async () => {
      const list: { boat: string }[] = await (await fetch('sample-boats/index.json')).json();
      return Promise.all(list.map(async ({ boat }) => (await (await fetch(boat)).json()).name));
    });
    expect(names.length).toBeGreaterThan(0);
    expect(names.every((name) => typeof name === 'string' && name !== '')).toBe(true);
  });

  it('runs no script that a text could smuggle in', async () => {
    const ran = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.smuggled = true';
      document.body.append(script);
      const image = document.createElement('div');
      image.innerHTML = '<img src="data:," onerror="window.smuggled = true">';
      document.body.append(image);
      await new Promise((resolve) => setTimeout(resolve, 100));
      return 'smuggled' in window;
    });
    expect(ran).toBe(false);
  });
});
