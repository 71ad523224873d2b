import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { sweepTemporaries, writeAtomically } from '@electron/files/atomic-write';
import { BoatFiles } from '@electron/files/boat-files';
import { GrantedPaths } from '@electron/files/granted-paths';
import { Journals } from '@electron/files/journal';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { FailingDisk } from '../../support/failing-disk';
import { temporaryFolder } from '../../support/temporary-folder';

// No figure from outside: what must hold at every call is derived from what "kept" means, and said beside each check.
const disk = await vi.hoisted(async () => {
  const { FailingDisk } = await import('../../support/failing-disk');
  return new FailingDisk(await import('node:fs/promises'));
});
vi.mock('node:fs/promises', () => disk.calls);
afterEach(() => disk.arm(null));

const root = temporaryFolder();
const fresh = (): string => mkdtempSync(path.join(root, 'f'));
const read = (file: string): string | null => {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return null;
  }
};
const versionsOf = (file: string): readonly (string | null)[] =>
  ['', '.bak1', '.bak2', '.bak3'].map((ending) => read(file + ending));
const leftovers = (folder: string): readonly string[] => readdirSync(folder).filter((name) => name.endsWith('.tmp'));

/** A boat file with its three versions before. */
function fourVersions(): { readonly folder: string; readonly file: string } {
  const folder = fresh();
  const file = path.join(folder, 'boat.json');
  for (const [ending, text] of [
    ['', 'version 4'],
    ['.bak1', 'version 3'],
    ['.bak2', 'version 2'],
    ['.bak3', 'version 1'],
  ]) {
    writeFileSync(file + ending, text ?? '');
  }
  return { folder, file };
}
const save = (file: string, text: string): Promise<boolean> => writeAtomically(file, text, { backups: true });
async function callsOf(work: () => Promise<unknown>): Promise<FailingDisk['made']> {
  disk.arm(null);
  await work();
  return [...disk.made];
}
const outcomeOf = (work: Promise<unknown>): Promise<'done' | 'failed'> =>
  work.then(
    () => 'done' as const,
    () => 'failed' as const,
  );

describe('a save of which one call to the system fails', () => {
  it.each(['ENOSPC', 'EIO', 'EACCES', 'EROFS'])(
    'leaves all versions and no leftovers, whichever call it is: %s',
    async (code) => {
      const calls = await callsOf(() => save(fourVersions().file, 'version 5'));
      expect(calls.filter((name) => name === 'rename').length).toBe(4);
      for (let at = 0; at < calls.length; at++) {
        const { folder, file } = fourVersions();
        disk.arm({ at, what: { code } });
        const outcome = await outcomeOf(save(file, 'version 5'));
        disk.arm(null);
        const where = `${code} at ${at} (${calls[at]})`;
        // It says that it failed exactly when the file is still the old one.
        expect([where, read(file)]).toEqual([where, outcome === 'done' ? 'version 5' : 'version 4']);
        for (const kept of ['version 2', 'version 3', 'version 4'])
          expect([where, versionsOf(file)]).toEqual([where, expect.arrayContaining([kept])]);
        expect([where, leftovers(folder)]).toEqual([where, []]);
        // Trying again, and again, pushes no version out that a save that went well would have kept.
        disk.arm({ at: calls.lastIndexOf('rename'), what: { code } });
        await outcomeOf(save(file, 'version 5'));
        disk.arm(null);
        if (outcome === 'failed') {
          await save(file, 'version 5');
          expect([where, versionsOf(file)]).toEqual([where, ['version 5', 'version 4', 'version 3', 'version 2']]);
        }
      }
    },
  );

  it('is reported in words, with what the system said, and the edits can be saved elsewhere', async () => {
    const words: readonly (readonly [string, string])[] = [
      ['ENOSPC', 'the disk is full'],
      ['EDQUOT', 'your share of the disk is used up'],
      ['EROFS', 'the disk can only be read'],
      ['EACCES', 'you may not write there'],
      ['EIO', 'the disk reports a fault'],
      ['ENODEV', 'the disk is no longer there'],
      ['EFOO', 'the system refuses it'],
    ];
    for (const [code, why] of words) {
      const { file } = fourVersions();
      const elsewhere = path.join(fresh(), 'elsewhere.json');
      let asked = 0;
      const files = new BoatFiles(new GrantedPaths(), {
        boatToOpen: async () => file,
        boatToSave: async () => {
          asked += 1;
          return elsewhere;
        },
        exportTo: async () => null,
      });
      const opened = await files.open();
      if (opened.outcome !== 'opened') throw new Error(opened.outcome);
      const request = { token: opened.token, suggestedName: 'boat.json', text: 'version 5', replaces: null };
      const calls = await callsOf(() => save(fourVersions().file, 'version 5'));
      disk.arm({ at: calls.indexOf('writeFile'), what: { code } });
      const failed = await files.save(request);
      disk.arm(null);
      expect(failed).toEqual({
        outcome: 'problem',
        code: 'notWritten',
        message: `boat.json was not written: ${why} (${code}). What was there still is.`,
      });
      expect(await files.save({ ...request, token: null })).toMatchObject({ outcome: 'saved', name: 'elsewhere.json' });
      expect([read(elsewhere), asked]).toEqual(['version 5', 1]);
    }
  });
});

describe('a process that ends between any two calls, or between any two bytes of a write', () => {
  it('leaves the file whole, old or new, and its versions; the next save goes well', async () => {
    const text = 'version 5';
    const calls = await callsOf(() => save(fourVersions().file, text));
    let deaths = 0;
    for (let at = 0; at < calls.length; at++) {
      const isWrite = calls[at] === 'writeFile';
      for (let bytes = 0; bytes <= (isWrite ? text.length : 0); bytes++) {
        const { folder, file } = fourVersions();
        disk.arm({ at, what: 'dies', ...(isWrite ? { bytes } : {}) });
        await outcomeOf(save(file, text));
        disk.arm(null);
        deaths += 1;
        const where = `death at ${at} (${calls[at]}), ${bytes} bytes`;
        const now = versionsOf(file);
        expect([where, ['version 4', 'version 5'].includes(now[0] ?? '')]).toEqual([where, true]);
        for (const version of now) expect(version ?? 'version 0').toMatch(/^version [0-5]$/);
        for (const kept of ['version 2', 'version 3', 'version 4'])
          expect([where, now]).toEqual([where, expect.arrayContaining([kept])]);
        await save(file, 'version 6');
        expect([where, versionsOf(file)[0], versionsOf(file)[1]]).toEqual([where, 'version 6', now[0]]);
        await sweepTemporaries(folder, Date.now() + 7_200_000);
        expect(leftovers(folder)).toEqual([]);
      }
    }
    // by hand: two writes of nine bytes have ten places each
    expect(deaths).toBe(calls.length + 2 * text.length);
  });

  it('keeps every edit that was answered, in the journal or in the file, through saves and new journals', async () => {
    /** A session as the window leads it: the boat is a text, an edit adds a letter. */
    async function session(folder: string): Promise<string> {
      const file = path.join(folder, 'boat.json');
      const granted = new GrantedPaths();
      const files = new BoatFiles(granted, {
        boatToOpen: async () => file,
        boatToSave: async () => null,
        exportTo: async () => null,
      });
      const journals = new Journals(path.join(folder, 'recovery'), granted);
      let answered = '';
      try {
        const opened = await files.open();
        if (opened.outcome !== 'opened') throw new Error('not opened');
        const { token } = opened;
        let document = 'document-1';
        const base = { name: 'boat.json', token, isSaved: true };
        const started = await journals.start({ ...base, documentId: document, baseText: '"' });
        if (started.outcome !== 'started') throw new Error('not started');
        for (const [letter, isSave] of [
          ['a', false],
          ['b', true],
          ['c', false],
        ] as const) {
          const kept = await journals.append({ documentId: document, entry: letter });
          if (kept.outcome !== 'appended') throw new Error('not kept');
          answered += letter;
          if (!isSave) continue;
          const text = `"${answered}`;
          const saved = await files.save({ token, suggestedName: 'boat.json', text, replaces: null });
          if (saved.outcome !== 'saved') throw new Error('not saved');
          await journals.start({ ...base, documentId: 'document-2', baseText: text });
          await journals.clear({ documentId: document });
          document = 'document-2';
        }
      } catch {
        // What was answered until then is what counts.
      }
      await journals.closeAll().catch(() => undefined);
      return answered;
    }
    const begun = (): string => {
      const folder = fresh();
      mkdirSync(path.join(folder, 'recovery'));
      writeFileSync(path.join(folder, 'boat.json'), '"');
      return folder;
    };
    const calls = await callsOf(() => session(begun()));
    let deaths = 0;
    for (let at = 0; at < calls.length; at++) {
      const isWrite = ['writeFile', 'appendFile'].includes(calls[at] ?? '');
      // The longest write here is the first line of a journal.
      const places = isWrite ? [0, 1, 2, 3, 17, 18, 19, 20, 21, 60, 120, 400] : [0];
      for (const bytes of places) {
        const folder = begun();
        disk.arm({ at, what: 'dies', ...(isWrite ? { bytes } : {}) });
        const answered = await session(folder);
        disk.arm(null);
        deaths += 1;
        const { journals } = await new Journals(path.join(folder, 'recovery'), new GrantedPaths()).list();
        const boats = [
          read(path.join(folder, 'boat.json')) ?? '',
          ...journals.map(({ baseText, entries }) => baseText + entries.join('')),
        ];
        const where = `death at ${at} (${calls[at]}), ${bytes} bytes, ${answered} answered`;
        expect([where, boats.some((boat) => boat.startsWith(`"${answered}`))]).toEqual([where, true]);
        // Nothing that was never sent, and nothing half sent.
        for (const boat of boats) expect('"abc'.startsWith(boat)).toBe(true);
      }
    }
    expect(deaths).toBeGreaterThan(120);
  });
});

describe('a folder that vanishes, a file that is marked read-only', () => {
  it('are named as such', async () => {
    const folder = fresh();
    await expect(save(path.join(folder, 'gone', 'boat.json'), 'x')).rejects.toThrow('ENOENT');
    const file = path.join(folder, 'boat.json');
    writeFileSync(file, 'kept', { mode: 0o444 });
    await expect(save(file, 'x')).rejects.toMatchObject({ code: 'EROFILE' });
    expect(read(file)).toBe('kept');
  });
});
