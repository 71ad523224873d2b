import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { killBrowsers } from './browser-kills';

/** As browser-kills.test.ts, 50 times. KILL_SEED and KILL_COUNT give other moments and another number; the tally is printed as JSON. */
const KILLS = Number(process.env.KILL_COUNT ?? 50);
const SEED = Number(process.env.KILL_SEED ?? 2026);

describe.skipIf(!hasChromium())('a browser that is killed while its page edits', () => {
  let built: BuiltPage;
  beforeAll(async () => {
    built = await openBuiltPage();
  });
  afterAll(() => built.close());

  it(`offers every edit that was acknowledged, ${KILLS} kills`, async () => {
    const tally = await killBrowsers(built.url, KILLS, SEED);
    process.stdout.write(`${JSON.stringify({ suite: 'browser-kills', seed: SEED, ...tally })}\n`);
    expect(tally.kills).toBe(KILLS);
    expect(tally.acknowledged).toBeGreaterThanOrEqual(2 * KILLS);
  });
});
