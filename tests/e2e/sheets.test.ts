import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { pagesOf, rawText } from '../support/pdf-content';
import { settle } from './planning';

describe.skipIf(!hasChromium())('sheets from a real browser', () => {
  let built: BuiltPage;
  let page: Page;
  const asked: string[] = [];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage();
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(`${built.url}?e2e`);
    await settle(page);
  });
  afterAll(async () => {
    await built?.close();
  });

  const panel = (name: string) => page.getByRole('region', { name });

  it('load nothing that only printing needs before something is printed', () => {
    expect(asked.some((url) => /\.js$/.test(url))).toBe(true);
    expect(
      asked.filter((url) => /pdfkit|\.ttf$|mock-up|survey-sheet|general|workbook|write-excel|xlsx/i.test(url)),
    ).toEqual([]);
  });

  it('save a mock-up at full size under the content policy: check line of 100 mm, letters embedded', async () => {
    await page.keyboard.press('6');
    await page.getByLabel('Paper that sheets are printed on').selectOption('letter');
    await page.getByLabel('Thing to make of cardboard').selectOption({ label: 'PM1  Pump module, 12 V' });
    const downloading = page.waitForEvent('download');
    await panel('Cardboard mock-up').getByRole('button', { name: 'Save as PDF' }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toBe('Mock-up of Pump module 12 V.pdf');
    const bytes = new Uint8Array(readFileSync(await download.path()));
    const pages = pagesOf(bytes);
    expect(pages.length).toBeGreaterThan(5);
    for (const { widthMm, heightMm, paths } of pages) {
      expect([widthMm, heightMm].map((side) => Math.round(side * 10) / 10).sort()).toEqual([215.9, 279.4]);
      const lengths = paths.flatMap(({ points: [a, b, ...more] }) =>
        a && b && more.length === 0 ? [Math.hypot(a[0] - b[0], a[1] - b[1])] : [],
      );
      expect(lengths.some((length) => Math.abs(length - 100) < 1e-4)).toBe(true);
    }
    expect(rawText(bytes).match(/\/FontFile2/g)?.length).toBeGreaterThanOrEqual(2);
    expect(asked.some((url) => /pdfkit/.test(url))).toBe(true);
  });

  it('save the sheet that a compartment is measured by, by keyboard alone', async () => {
    const choice = page.getByLabel('Sheet to measure by');
    await choice.focus();
    await choice.selectOption({ label: 'Engine space' });
    await page.keyboard.press('Tab');
    const downloading = page.waitForEvent('download');
    await page.keyboard.press('Enter');
    expect((await downloading).suggestedFilename()).toBe('Survey of Engine space.pdf');
  });

  it('save the general arrangement with its list, and the list as a workbook', async () => {
    const saving = page.waitForEvent('download');
    await panel('General arrangement').getByRole('button', { name: 'Save as PDF' }).click();
    const drawing = await saving;
    expect(drawing.suggestedFilename()).toBe('General arrangement of Sandwort.pdf');
    expect(pagesOf(new Uint8Array(readFileSync(await drawing.path()))).length).toBeGreaterThan(3);
    const exporting = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as workbook' }).click();
    const workbook = await exporting;
    expect(workbook.suggestedFilename()).toBe('Sandwort parts and lengths.xlsx');
    expect([...readFileSync(await workbook.path()).subarray(0, 2)]).toEqual([0x50, 0x4b]);
  });
});
