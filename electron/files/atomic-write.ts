import { randomBytes } from 'node:crypto';
import { type FileHandle, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { codeOf } from './disk-words';

/** How many versions before stay beside a file: .bak1 is the newest. */
export const BACKUPS = 3;
const RETRIES = 5;
const RETRY_MS = 60;
/** Our own, whatever the name of the file: a long name must not get longer. */
const TEMPORARY = /^\.underberth\.[0-9]+-[0-9a-f]{12}\.tmp$/;
/** A temporary file this old belongs to no save that is still going on. */
const ABANDONED_MS = 60 * 60 * 1000;
const WRITE_BITS = 0o222;

export interface WriteOptions {
  /** Keeps the three versions before beside the file. */
  readonly backups: boolean;
  /** Looks at what stands there, read in the same moment as the backup of it; false: nothing is written. */
  mayReplace?(content: Uint8Array): boolean;
}

export const backupOf = (file: string, age: number): string => `${file}.bak${age}`;

/**
 * Replaces a file so that a reader, or a crash at any moment, finds the old content whole or the new content whole. Answers false
 * when `mayReplace` refuses; throws what the system says. A link is followed, permissions are kept, and a file that is marked
 * read-only is not replaced behind that mark.
 */
export async function writeAtomically(
  file: string,
  content: string | Uint8Array,
  options: WriteOptions,
): Promise<boolean> {
  const target = await realpath(file).catch((error: unknown) => {
    ignoreMissing(error);
    return file;
  });
  const before = await readIfThere(target);
  if (before && options.mayReplace?.(before.content) === false) return false;
  if (before && (before.mode & WRITE_BITS) === 0)
    throw Object.assign(new Error(`${target} is read-only`), { code: 'EROFILE' });
  const temporary = temporaryBeside(target);
  const older = temporaryBeside(target);
  try {
    // Everything that takes room is on the disk before a name changes.
    await writeAndSync(temporary, content, before && { mode: before.mode });
    if (options.backups && before && !(await isKept(target, before.content, content))) {
      await writeAndSync(older, before.content, before);
      await rotateBackups(target, older);
    }
    await renamePatiently(temporary, target);
  } catch (error) {
    for (const left of [temporary, older]) await rm(left, { force: true }).catch(() => undefined);
    throw error;
  }
  await syncFolder(path.dirname(target));
  return true;
}

/** What the file holds needs no new backup when it is what is written, or when a save that was broken off has kept it already. */
async function isKept(file: string, before: Buffer, content: string | Uint8Array): Promise<boolean> {
  if (Buffer.compare(before, Buffer.from(content)) === 0) return true;
  const newest = await readIfThere(backupOf(file, 1));
  return newest !== null && Buffer.compare(newest.content, before) === 0;
}

const temporaryBeside = (file: string): string =>
  path.join(path.dirname(file), `.underberth.${process.pid}-${randomBytes(6).toString('hex')}.tmp`);

async function writeAndSync(
  file: string,
  content: string | Uint8Array,
  like: { readonly mode: number; readonly mtime?: Date } | null,
): Promise<void> {
  const handle = await open(file, 'wx');
  try {
    await handle.writeFile(content);
    // Some disks know no permissions and no times; the content matters more.
    if (like) await handle.chmod(like.mode & 0o777).catch(() => undefined);
    if (like?.mtime) await handle.utimes(like.mtime, like.mtime).catch(() => undefined);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/**
 * Moves .bak2 to .bak3 and so on, and `newest` to .bak1; a gap that a broken-off save has left is filled before the oldest goes. The
 * file itself never stops existing meanwhile.
 */
async function rotateBackups(file: string, newest: string): Promise<void> {
  let last = 1;
  while (last < BACKUPS && (await isThere(backupOf(file, last)))) last += 1;
  for (let age = last - 1; age >= 1; age -= 1) {
    await renamePatiently(backupOf(file, age), backupOf(file, age + 1));
  }
  await renamePatiently(newest, backupOf(file, 1));
}

interface Standing {
  readonly content: Buffer;
  readonly mode: number;
  /** When this content was saved: the backup of it keeps that. */
  readonly mtime: Date;
}

async function isThere(file: string): Promise<boolean> {
  try {
    await stat(file);
    return true;
  } catch (error) {
    ignoreMissing(error);
    return false;
  }
}

async function readIfThere(file: string): Promise<Standing | null> {
  let handle: FileHandle;
  try {
    handle = await open(file, 'r');
  } catch (error) {
    ignoreMissing(error);
    return null;
  }
  try {
    const { mode, mtime } = await handle.stat();
    return { content: await handle.readFile(), mode, mtime };
  } finally {
    await handle.close();
  }
}

/** On Windows a virus scanner may hold the target for a moment. */
async function renamePatiently(from: string, to: string): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await rename(from, to);
      return;
    } catch (error) {
      const busy = process.platform === 'win32' && ['EPERM', 'EBUSY', 'EACCES'].includes(codeOf(error));
      if (!busy || attempt === RETRIES) throw error;
      await new Promise((resolve) => setTimeout(resolve, RETRY_MS * attempt));
    }
  }
}

/**
 * Makes the rename itself durable. Windows and some network disks know no such call; the new content stands by then, so a refusal
 * is no failed save.
 */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    return;
  }
}

/** Removes what killed saves left in a folder; `now` in ms since 1970. Returns how many files went. */
export async function sweepTemporaries(folder: string, now: number): Promise<number> {
  let swept = 0;
  for (const name of await readdir(folder).catch(() => [])) {
    if (!TEMPORARY.test(name)) continue;
    const file = path.join(folder, name);
    const { mtimeMs } = await stat(file).catch(() => ({ mtimeMs: now }));
    if (now - mtimeMs < ABANDONED_MS) continue;
    const isGone = await rm(file, { force: true }).then(
      () => true,
      () => false,
    );
    if (isGone) swept += 1;
  }
  return swept;
}

function ignoreMissing(error: unknown): void {
  if (codeOf(error) !== 'ENOENT') throw error;
}
