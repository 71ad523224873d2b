import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';
import { buildSession, killSessions } from './kills';

/**
 * As kills.test.ts, 500 times. KILL_SEED and KILL_COUNT give other moments and another number. The tally is printed as JSON.
 */
const KILLS = Number(process.env.KILL_COUNT ?? 500);
const SEED = Number(process.env.KILL_SEED ?? 2026);

describe('a process that is killed while it edits, journals and saves', () => {
  const folder = temporaryFolder();
  const built = temporaryFolder();

  it(`leaves no file that can't be read and loses no edit that was answered, ${KILLS} kills`, async () => {
    const tally = await killSessions(await buildSession(built), folder, KILLS, SEED);
    process.stdout.write(`${JSON.stringify({ suite: 'kills', seed: SEED, ...tally })}\n`);
    expect(tally.kills).toBe(KILLS);
    expect(tally.answered).toBeGreaterThan(KILLS);
    expect(tally.inJournalAlone).toBeGreaterThan(KILLS / 20);
  });
});
