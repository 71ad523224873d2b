import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, expectAccessible, expectBoardCold, startPage } from './planning';
import {
  appliesARemedy,
  choosesAnotherWay,
  clipsByKeyboard,
  openRuns,
  pinsARun,
  pullsARun,
  pullsInEveryView,
  refusesAPull,
  slidesAHole,
  slidesByKeyboard,
  unrollsARun,
} from './runs';

describe.skipIf(!hasChromium())('runs by hand in Chromium', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await startPage(page, built.url);
    await openRuns(page);
  });
  afterAll(async () => {
    await built?.close();
  });

  it('pulls a run: it follows, is one edit and one undo', () => pullsARun(page));
  it('pulls in profile and section too', () => pullsInEveryView(page));
  it('says what is in the way of a pull and leaves the boat as it was', () => refusesAPull(page));
  it('sets, moves and removes a clip point by keyboard', () => clipsByKeyboard(page));
  it('slides a hole in its panel', () => slidesAHole(page));
  it('slides it by keyboard and frees it again', () => slidesByKeyboard(page));
  it('pins a run as built and unpins it', () => pinsARun(page));
  it('unrolls a run', () => unrollsARun(page));

  it('answers as a cold check does', () => expectBoardCold(page));
  it('shows other ways as ghosts and leads the run another way', () => choosesAnotherWay(page));
  it('offers what would help a line without a run, and does it', () => appliesARemedy(page));

  it('is accessible, and the console stayed clean', async () => {
    await expectAccessible(page);
    expect(errors).toEqual([]);
  });
});
