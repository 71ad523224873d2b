import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';
import { buildSession, killSessions } from './kills';

// Derived: whatever was answered must be found again. kills.deep.ts does the same 500 times.
const KILLS = 40;
const SEED = Number(process.env.KILL_SEED ?? 1);

describe('a process that is killed while it edits, journals and saves', () => {
  const folder = temporaryFolder();
  const built = temporaryFolder();

  it(`leaves no file that can't be read and loses no edit that was answered, ${KILLS} kills`, async () => {
    const tally = await killSessions(await buildSession(built), folder, KILLS, SEED);
    // The kills came while there was something to lose: edits between saves, saves under way.
    expect(tally.kills).toBe(KILLS);
    expect(tally.answered).toBeGreaterThan(KILLS);
    expect(tally.inJournalAlone).toBeGreaterThan(0);
  });
});
