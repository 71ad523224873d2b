import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, expectAccessible, startPage } from './planning';
import {
  addsAPointByMouse,
  addsAStation,
  dragsAPoint,
  editsByKeyboard,
  givesUpADrag,
  openSections,
  stopsAtItsNeighbour,
  takesATable,
} from './sections';

describe.skipIf(!hasChromium())('the section board in Chromium', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await startPage(page, built.url);
    await openSections(page);
  });
  afterAll(async () => {
    await built?.close();
  });

  it('drags a point: it follows, is one edit and one undo', () => dragsAPoint(page));
  it('gives up a drag with Escape', () => givesUpADrag(page));
  it('stops a point at its neighbour, dragged or typed, and says why', () => stopsAtItsNeighbour(page));
  it('moves, adds, removes and knuckles by keyboard', () => editsByKeyboard(page));
  it('adds a point by a double click and makes it a knuckle', () => addsAPointByMouse(page));
  it('adds a station and takes it back', () => addsAStation(page));
  it('takes a table in feet, inches and eighths once it is right', () => takesATable(page));

  it('is accessible with its dialogs, and the console stayed clean', async () => {
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Offsets' }).click();
    await page.getByRole('textbox', { name: 'Table of offsets' }).waitFor();
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Type from the tape' }).click();
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Cancel', exact: true }).click();
    await page.getByRole('button', { name: 'Trace', exact: true }).click();
    await page.getByRole('heading', { name: 'Trace a picture' }).waitFor();
    await expectAccessible(page);
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    expect(errors).toEqual([]);
  });
});
