import { existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { sweepTemporaries, writeAtomically } from '@electron/files/atomic-write';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../support/temporary-folder';

describe('a saved file', () => {
  const folder = temporaryFolder();
  const file = (name: string): string => path.join(folder, name);

  it('keeps the three versions before it, newest first, and leaves nothing else behind', async () => {
    for (const content of ['one', 'two', 'three', 'four', 'five']) {
      await writeAtomically(file('boat.json'), content, { backups: true });
    }
    const read = (name: string): string => readFileSync(file(name), 'utf8');
    expect(['boat.json', 'boat.json.bak1', 'boat.json.bak2', 'boat.json.bak3'].map(read)).toEqual([
      'five',
      'four',
      'three',
      'two',
    ]);
    expect(readdirSync(folder).length).toBe(4);
  });

  it('without backups is one file, bytes kept', async () => {
    const bytes = new Uint8Array([0, 255, 13, 10]);
    await writeAtomically(file('sheet.pdf'), bytes, { backups: false });
    await writeAtomically(file('sheet.pdf'), bytes, { backups: false });
    expect([...readFileSync(file('sheet.pdf'))]).toEqual([...bytes]);
    expect(existsSync(file('sheet.pdf.bak1'))).toBe(false);
  });

  it('stands unharmed when the new one can’t be written', async () => {
    await expect(
      writeAtomically(path.join(folder, 'no-such-folder', 'a.json'), 'x', { backups: true }),
    ).rejects.toThrow('ENOENT');
  });

  it('has its leftovers swept when they are old, and only its leftovers', async () => {
    const now = 1_700_000_000_000;
    const old = '.underberth.123-0123456789ab.tmp';
    const young = '.underberth.124-0123456789ab.tmp';
    for (const name of [old, young, 'mine.tmp']) writeFileSync(file(name), 'x');
    utimesSync(file(old), now / 1000 - 7200, now / 1000 - 7200);
    utimesSync(file('mine.tmp'), now / 1000 - 7200, now / 1000 - 7200);
    utimesSync(file(young), now / 1000, now / 1000);
    expect(await sweepTemporaries(folder, now)).toBe(1);
    expect([old, young, 'mine.tmp'].map((name) => existsSync(file(name)))).toEqual([false, true, true]);
  });
});
