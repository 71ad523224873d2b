import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { expectAccessible } from './planning';

/** A header alone, as W3C PNG 11.2.2 writes it (from memory): nothing behind it is ever decoded. */
function pngHeader(widthPx: number, heightPx: number): Buffer {
  const bytes = Buffer.alloc(40);
  bytes.write('\x89PNG\r\n\x1a\n', 'latin1');
  bytes.writeUInt32BE(13, 8);
  bytes.write('IHDR', 12, 'latin1');
  bytes.writeUInt32BE(widthPx, 16);
  bytes.writeUInt32BE(heightPx, 20);
  return bytes;
}

describe.skipIf(!hasChromium())('a survey, typed and photographed', () => {
  let built: BuiltPage;
  let page: Page;
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(built.url);
    await page.getByRole('tab', { name: /^Survey/ }).waitFor();
  });
  afterAll(async () => {
    await built?.close();
  });

  it('is entered by keyboard alone: Tab from field to field, Enter to the next reading', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('Enter survey readings');
    await page.keyboard.press('Enter');
    const type = async (from: string, to: string, value: string): Promise<void> => {
      await page.keyboard.type(from);
      await page.keyboard.press('Tab');
      await page.keyboard.type(to);
      await page.keyboard.press('Tab');
      await page.keyboard.press('Tab');
      await page.keyboard.type(value);
      await page.keyboard.press('Enter');
    };
    await page.locator('input[aria-label="From"]:focus').waitFor();
    await type('Mast', 'Shelf', '1.2 m');
    await type('Shelf', 'Bin', '850');
    const rows = page.getByRole('table', { name: 'Readings' }).locator('tbody tr');
    await rows.nth(1).waitFor();
    // Two tapes for three points: nothing checks them, and that is said.
    expect(await rows.nth(0).textContent()).toContain('nothing checks it');
    await page.keyboard.press('Control+z');
    await rows.nth(1).waitFor({ state: 'detached' });
    expect(await rows.count()).toBe(1);
    await expectAccessible(page);
  });

  it('takes a photograph of a compartment, shows it, keeps it, and refuses what is none', async () => {
    await page.getByRole('tab', { name: /^Compartments/ }).click();
    await page.getByRole('table', { name: 'Compartments' }).locator('.row-name').first().click();
    const photograph = Buffer.from(
      await page.evaluate(() => {
        const canvas = document.createElement('canvas');
        canvas.width = 640;
        canvas.height = 480;
        canvas.getContext('2d')?.fillRect(100, 100, 300, 200);
        return canvas.toDataURL('image/jpeg').split(',')[1] ?? '';
      }),
      'base64',
    );
    const chooser = page.locator('input[type=file][multiple]');
    const file = (name: string, buffer: Buffer) => ({ name, mimeType: 'image/jpeg', buffer });
    await chooser.setInputFiles([
      file('Bilge.jpg', photograph),
      file('panorama.jpg', pngHeader(8944, 6708)),
      file('holiday.jpg', Buffer.from([0x4d, 0x5a, 0x90, 0x00, 3])),
    ]);
    const shown = page.getByRole('button', { name: /^Show the photograph/ });
    await shown.waitFor();
    await page.waitForFunction(() => document.querySelector<HTMLCanvasElement>('.thumb canvas')?.width === 320);
    // derived: 8944 x 6708 = 59 996 352
    const banner = await page.locator('body').textContent();
    expect(banner).toMatch(/panorama\.jpg has 60\.0 megapixels \(8944 \u00d7 6708\); at most 40 are taken/);
    expect(banner).toMatch(/holiday\.jpg is no JPEG, PNG or WebP picture: it begins with 4D 5A 90 00/);
    const kept = await page.evaluate(
      () =>
        new Promise<readonly IDBValidKey[]>((resolve, reject) => {
          const request = indexedDB.open('underberth-pictures');
          request.onerror = () => reject(request.error);
          request.onsuccess = () => {
            const keys = request.result.transaction('pictures').objectStore('pictures').getAllKeys();
            keys.onsuccess = () => resolve(keys.result);
          };
        }),
    );
    expect(kept).toEqual([expect.stringMatching(/^bilge-[0-9a-f]{8}\.jpg$/)]);
    await shown.click();
    await page.waitForFunction(() => document.querySelector<HTMLImageElement>('dialog img')?.naturalWidth === 640);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expectAccessible(page);
  });
});
