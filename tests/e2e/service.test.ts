import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, startPage } from './planning';
import { changesAnInterval, isAccessible, listsTasks, rehearsesByKeyboard, rehearsesByMouse } from './service';

describe.skipIf(!hasChromium())('service tasks in Chromium', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await startPage(page, built.url);
  });
  afterAll(async () => {
    await built?.close();
  });

  it('lists every task with its verdict', () => listsTasks(page));
  it('rehearses one by mouse: rows, steps, wheel, and back', () => rehearsesByMouse(page));
  it('rehearses one by keyboard alone', () => rehearsesByKeyboard(page));
  it('takes another interval and reckons the year anew', () => changesAnInterval(page));
  it('is accessible, light and dark, and the console stayed clean', async () => {
    await isAccessible(page);
    expect(errors).toEqual([]);
  });
});
