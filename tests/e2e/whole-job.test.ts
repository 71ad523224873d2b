import { afterAll, beforeAll, describe, it } from 'vitest';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { inBrowser, keys, mouse, onDesktop, wholeJob } from './whole-job';

// Each way of working in one storage path; whole-job.deep.ts has each in the other.
const PATIENCE = 400_000;

describe.skipIf(!hasChromium())('the whole job, from the sample to list, sheet and file', () => {
  let built: BuiltPage;
  beforeAll(async () => {
    ensureBuilt(['renderer', 'desktop']);
    built = await openBuiltPage();
  });
  afterAll(() => built.close());

  it('by mouse, in a browser', () => inBrowser(built, (page, shore) => wholeJob(page, mouse(page), shore)), PATIENCE);
  it(
    'by keyboard alone, on the desktop',
    () => onDesktop(built, (page, shore) => wholeJob(page, keys(page), shore)),
    PATIENCE,
  );
});
