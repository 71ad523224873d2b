import { createHash } from 'node:crypto';
import { type FileHandle, mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import {
  BOAT_BYTES_LIMIT,
  type In,
  type JournalAppendResult,
  type JournalStartResult,
  type LeftJournals,
  type RecoverableJournal,
} from '../ipc/contract';
import { sweepTemporaries, writeAtomically } from './atomic-write';
import { whyNotRead, whyNotWritten } from './disk-words';
import { type GrantedPaths, stampOf } from './granted-paths';

/**
 * Append-only journal of edits, one file a document: `<digest> <JSON>` a line, the first line the base text.
 * A kill at any moment leaves at most the last line torn, and reading stops at the first line that its digest refuses.
 */
const SUFFIX = '.journal';
/** Set aside, told once, never deleted by the program. */
const UNREADABLE = '.unreadable';
const DIGEST_CHARACTERS = 16;
/** Base text and edits together; a journal beyond it is not offered for recovery, as reading it would cost too much. */
const JOURNAL_BYTES_LIMIT = 200 * 1024 * 1024;

const header = z.object({
  name: z.string(),
  file: z.string().nullable(),
  baseText: z.string(),
  isSaved: z.boolean(),
  /** Stamp of what the file held when it was last seen. */
  seen: z.string().nullable(),
});

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, DIGEST_CHARACTERS);
const lineOf = (value: unknown): string => {
  const json = JSON.stringify(value);
  return `${digestOf(json)} ${json}\n`;
};

/** The whole lines of a journal; `torn` when something after them was cut short or damaged. */
function readLines(text: string): { readonly values: readonly unknown[]; readonly torn: boolean } {
  const values: unknown[] = [];
  let at = 0;
  while (at < text.length) {
    const end = text.indexOf('\n', at);
    if (end < 0) return { values, torn: true };
    const json = text.slice(at + DIGEST_CHARACTERS + 1, end);
    if (text.slice(at, at + DIGEST_CHARACTERS) !== digestOf(json)) return { values, torn: true };
    values.push(JSON.parse(json));
    at = end + 1;
  }
  return { values, torn: false };
}

interface OpenJournal {
  readonly handle: FileHandle;
  entries: number;
}

export class Journals {
  readonly #folder: string;
  readonly #granted: GrantedPaths;
  readonly #open = new Map<string, OpenJournal>();
  /** One act at a time a document: entries must land in the order in which they were sent. */
  readonly #queue = new Map<string, Promise<unknown>>();

  constructor(folder: string, granted: GrantedPaths) {
    this.#folder = folder;
    this.#granted = granted;
  }

  start({ documentId, name, token, baseText, isSaved }: In<'journal:start'>): Promise<JournalStartResult> {
    return this.#inTurn(documentId, async () => {
      try {
        await this.#close(documentId);
        await mkdir(this.#folder, { recursive: true });
        const file = token === null ? null : this.#granted.pathOf(token);
        const seen = token === null ? null : this.#granted.seenAt(token);
        const first = lineOf({ name, file, baseText, isSaved, seen });
        // Atomic: until the new journal stands whole, the old one does.
        await writeAtomically(this.#fileOf(documentId), first, { backups: false });
        this.#open.set(documentId, { handle: await open(this.#fileOf(documentId), 'a'), entries: 0 });
        return { outcome: 'started' };
      } catch (error) {
        return notWritten(error);
      }
    });
  }

  append({ documentId, entry }: In<'journal:append'>): Promise<JournalAppendResult> {
    return this.#inTurn(documentId, async () => {
      const journal = this.#open.get(documentId);
      if (!journal) return { outcome: 'problem', code: 'noSuchToken', message: 'This document has no journal yet.' };
      try {
        await journal.handle.appendFile(lineOf(entry));
        await journal.handle.datasync();
        journal.entries += 1;
        return { outcome: 'appended', entries: journal.entries };
      } catch (error) {
        // Half a line may stand there now, and reading would stop at it: nothing more is added until a new start.
        await this.#close(documentId).catch(() => undefined);
        return notWritten(error);
      }
    });
  }

  clear({ documentId }: In<'journal:clear'>): Promise<void> {
    return this.#inTurn(documentId, async () => {
      await this.#close(documentId);
      await rm(this.#fileOf(documentId), { force: true });
    });
  }

  /** Lets go of every file; the journals stay. */
  async closeAll(): Promise<void> {
    await Promise.all(
      [...this.#open.keys()].map((documentId) => this.#inTurn(documentId, () => this.#close(documentId))),
    );
  }

  /**
   * What is left of earlier pages, in order of their names. A page asks once, before it begins a journal of its own: whatever is
   * open then belongs to a page that is gone, by a crash or by being loaded anew.
   */
  async list(): Promise<LeftJournals> {
    await this.closeAll();
    await sweepTemporaries(this.#folder, Date.now());
    const journals: RecoverableJournal[] = [];
    const unreadable: string[] = [];
    for (const name of (await readdir(this.#folder).catch(() => [])).sort()) {
      const documentId = name.slice(0, -SUFFIX.length);
      if (!name.endsWith(SUFFIX)) continue;
      const found = await this.#recover(documentId);
      if (typeof found !== 'string') {
        journals.push(found);
        continue;
      }
      await rename(this.#fileOf(documentId), path.join(this.#folder, documentId + UNREADABLE)).catch(() => undefined);
      unreadable.push(
        `A journal of edits that were not saved can't be read: ${found}. It is kept as ${documentId}${UNREADABLE} in the folder recovery of the program's own data.`,
      );
    }
    return { journals, unreadable };
  }

  /** The journal, or why it can't be read. */
  async #recover(documentId: string): Promise<RecoverableJournal | string> {
    const file = this.#fileOf(documentId);
    try {
      const { size, mtimeMs } = await stat(file);
      if (size > JOURNAL_BYTES_LIMIT) return `it has ${size} bytes, at most ${JOURNAL_BYTES_LIMIT} are read`;
      const { values, torn } = readLines(await readFile(file, 'utf8'));
      const first = header.safeParse(values[0]);
      const entries = z.array(z.string()).safeParse(values.slice(1));
      if (!first.success || !entries.success) return 'its first line is damaged';
      const { name, file: savedTo, baseText, isSaved, seen } = first.data;
      const now = savedTo === null ? null : await textIfThere(savedTo);
      return {
        documentId,
        name,
        // What the edits stand on is what was seen: a save looks for anything else first.
        token: savedTo !== null && now !== null ? this.#granted.grant(savedTo, seen) : null,
        baseText,
        isSaved,
        fileText: now === null || stampOf(now) === seen ? null : now,
        entries: entries.data,
        torn,
        editedAtMs: mtimeMs,
      };
    } catch (error) {
      return whyNotRead(error);
    }
  }

  #fileOf(documentId: string): string {
    return path.join(this.#folder, `${documentId}${SUFFIX}`);
  }

  async #close(documentId: string): Promise<void> {
    const journal = this.#open.get(documentId);
    this.#open.delete(documentId);
    await journal?.handle.close();
  }

  #inTurn<T>(documentId: string, act: () => Promise<T>): Promise<T> {
    const turn = (this.#queue.get(documentId) ?? Promise.resolve()).then(act);
    this.#queue.set(
      documentId,
      turn.catch(() => undefined),
    );
    return turn;
  }
}

const notWritten = (error: unknown): Extract<JournalAppendResult, { outcome: 'problem' }> => ({
  outcome: 'problem',
  code: 'notWritten',
  message: `The recovery journal was not written: ${whyNotWritten(error)}.`,
});

/** Null where the file is gone or could not be opened as a boat anyway. */
async function textIfThere(file: string): Promise<string | null> {
  const stats = await stat(file).catch(() => null);
  if (!stats?.isFile() || stats.size > BOAT_BYTES_LIMIT) return null;
  return readFile(file, 'utf8').catch(() => null);
}
