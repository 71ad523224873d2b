import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { killBrowsers } from './browser-kills';

// Derived: what the database has acknowledged must be found again. browser-kills.deep.ts does it more often.
const KILLS = 2;
const SEED = Number(process.env.KILL_SEED ?? 1);

describe.skipIf(!hasChromium())('a browser that is killed while its page edits', () => {
  let built: BuiltPage;
  beforeAll(async () => {
    built = await openBuiltPage();
  });
  afterAll(() => built.close());

  it(`offers every edit that was acknowledged, ${KILLS} kills`, async () => {
    const tally = await killBrowsers(built.url, KILLS, SEED);
    expect(tally.kills).toBe(KILLS);
    expect(tally.acknowledged).toBeGreaterThanOrEqual(2 * KILLS);
  }, 400_000);
});
