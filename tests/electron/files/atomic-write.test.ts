import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { sweepTemporaries, writeAtomically } from '@electron/files/atomic-write';
import { build } from 'vite';
import { beforeAll, describe, expect, it } from 'vitest';
import { inProject } from '../../../electron/launch/project.mjs';
import { temporaryFolder } from '../../support/temporary-folder';

const KILLS = 24;
const CHARACTERS = 8_000_000;

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

describe('a process killed while it saves', () => {
  const folder = temporaryFolder();
  beforeAll(async () => {
    await build({
      configFile: false,
      logLevel: 'error',
      build: {
        ssr: inProject('electron', 'files', 'atomic-write.ts'),
        outDir: folder,
        emptyOutDir: false,
        rolldownOptions: { output: { entryFileNames: 'atomic-write.mjs', format: 'es' } },
      },
    });
    // Each version is 8 MB of one digit, so that a mixture of two versions shows.
    writeFileSync(
      path.join(folder, 'saver.mjs'),
      `import { writeAtomically } from './atomic-write.mjs';
       for (let version = 0; ; version += 1) {
         await writeAtomically(process.argv[2], String(version % 10).repeat(${CHARACTERS}), { backups: true });
         process.stdout.write('.');
       }`,
    );
  });

  it(`leaves the file and every backup whole, ${KILLS} times of ${KILLS}`, async () => {
    const boat = path.join(folder, 'boat.json');
    const versions = [boat, ...[1, 2, 3].map((age) => `${boat}.bak${age}`)];
    let seen = 0;
    for (let kill = 0; kill < KILLS; kill += 1) {
      const saver = spawn(process.execPath, [path.join(folder, 'saver.mjs'), boat], { stdio: ['ignore', 'pipe', 2] });
      await afterSaves(saver, 1 + (kill % 2));
      // Another moment of the next save each time.
      await new Promise((resolve) => setTimeout(resolve, kill % 12));
      saver.kill('SIGKILL');
      await new Promise((resolve) => saver.once('close', resolve));
      for (const version of versions.filter(existsSync)) {
        const content = readFileSync(version, 'utf8');
        expect(content.length).toBe(CHARACTERS);
        expect(content).toBe(content.charAt(0).repeat(CHARACTERS));
        seen += 1;
      }
      expect(existsSync(boat)).toBe(true);
    }
    expect(seen).toBeGreaterThan(KILLS);
  });
});

/** Resolves when the child has reported so many whole saves. */
function afterSaves(child: ChildProcess, saves: number): Promise<void> {
  return new Promise((resolve, reject) => {
    let count = 0;
    child.once('exit', (code) => reject(new Error(`saver ended by itself with ${code}`)));
    child.stdout?.on('data', (dots: Buffer) => {
      count += dots.length;
      if (count < saves) return;
      child.removeAllListeners('exit');
      resolve();
    });
  });
}
