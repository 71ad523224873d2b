import { randomBytes } from 'node:crypto';
import { type FileHandle, open, readdir, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';

const BACKUPS = 3;
const RETRIES = 5;
const RETRY_MS = 60;
const TEMPORARY = /^\.(.+)\.[0-9]+-[0-9a-f]{12}\.tmp$/;
/** A temporary file this old belongs to no save that is still going on. */
const ABANDONED_MS = 60 * 60 * 1000;

/**
 * Replaces a file so that a reader, or a crash at any moment, finds the old content whole or the new content whole.
 * With `backups`, the three versions before stay beside it as .bak1 (newest) to .bak3.
 */
export async function writeAtomically(
  file: string,
  content: string | Uint8Array,
  options: { readonly backups: boolean },
): Promise<void> {
  const folder = path.dirname(file);
  const temporary = path.join(folder, `.${path.basename(file)}.${process.pid}-${randomBytes(6).toString('hex')}.tmp`);
  try {
    await writeAndSync(temporary, content);
    if (options.backups) await rotateBackups(file);
    await renamePatiently(temporary, file);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
  await syncFolder(folder);
}

async function writeAndSync(file: string, content: string | Uint8Array): Promise<void> {
  const handle = await open(file, 'wx');
  try {
    await handle.writeFile(content);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Moves .bak2 to .bak3 and so on, and copies the file itself to .bak1: it never stops existing meanwhile. */
async function rotateBackups(file: string): Promise<void> {
  const before = await readIfThere(file);
  if (!before) return;
  for (let age = BACKUPS - 1; age >= 1; age -= 1) {
    await rename(`${file}.bak${age}`, `${file}.bak${age + 1}`).catch(ignoreMissing);
  }
  await writeAtomically(`${file}.bak1`, before, { backups: false });
}

async function readIfThere(file: string): Promise<Uint8Array | null> {
  let handle: FileHandle;
  try {
    handle = await open(file, 'r');
  } catch (error) {
    ignoreMissing(error);
    return null;
  }
  try {
    return await handle.readFile();
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

/** Makes the rename itself durable. Windows knows no such call. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
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
    await rm(file, { force: true });
    swept += 1;
  }
  return swept;
}

export const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'UNKNOWN';

function ignoreMissing(error: unknown): void {
  if (codeOf(error) !== 'ENOENT') throw error;
}
