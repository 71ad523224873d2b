import { constants } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import path from 'node:path';
import {
  BOAT_BYTES_LIMIT,
  type ExportResult,
  type In,
  type LookResult,
  type OpenResult,
  type SaveResult,
  type VersionsResult,
} from '../ipc/contract';
import { BACKUPS, backupOf, sweepTemporaries, writeAtomically } from './atomic-write';
import { codeOf, whyNotRead, whyNotWritten } from './disk-words';
import { type GrantedPaths, stampOf } from './granted-paths';

/** What the user is asked; null when the user thinks better of it. */
export interface FileDialogs {
  boatToOpen(): Promise<string | null>;
  boatToSave(suggestedName: string): Promise<string | null>;
  exportTo(suggestedName: string, extension: string): Promise<string | null>;
}

const EXPORTS: ReadonlySet<string> = new Set(['csv', 'json', 'txt', 'pdf', 'svg', 'dxf', 'xlsx']);
const MEGABYTE = 1024 * 1024;
type Problem = Extract<OpenResult, { outcome: 'problem' }>;

const problem = (code: Problem['code'], message: string): Problem => ({ outcome: 'problem', code, message });
/** boat.json says nothing by itself: its folder is its name. */
const shownName = (file: string): string =>
  path.basename(file) === 'boat.json' ? `${path.basename(path.dirname(file))}/boat.json` : path.basename(file);

/** Opens, saves and exports; knows paths and bytes, never boats. */
export class BoatFiles {
  readonly #granted: GrantedPaths;
  readonly #dialogs: FileDialogs;
  /** One save of a file at a time: the second must see what the first has written. */
  #saving: Promise<unknown> = Promise.resolve();

  constructor(granted: GrantedPaths, dialogs: FileDialogs) {
    this.#granted = granted;
    this.#dialogs = dialogs;
  }

  async open(): Promise<OpenResult> {
    const file = await this.#dialogs.boatToOpen();
    if (file === null) return { outcome: 'cancelled' };
    const read = await readBoatText(file);
    if (typeof read !== 'string') return read;
    await sweepTemporaries(path.dirname(file), Date.now());
    return { outcome: 'opened', token: this.#granted.grant(file, stampOf(read)), name: shownName(file), text: read };
  }

  save(request: In<'boat:save'>): Promise<SaveResult> {
    const turn = this.#saving.then(() => this.#save(request));
    this.#saving = turn.catch(() => undefined);
    return turn;
  }

  async #save({ token, suggestedName, text, replaces }: In<'boat:save'>): Promise<SaveResult> {
    if (Buffer.byteLength(text) > BOAT_BYTES_LIMIT) return tooLarge(suggestedName, Buffer.byteLength(text));
    let file: string | null;
    let known: ReadonlySet<string> | null = null;
    if (token === null) {
      // The dialog itself has asked before it lets a file be replaced.
      file = await this.#dialogs.boatToSave(suggestedName);
      if (file === null) return { outcome: 'cancelled' };
      // The open dialog takes *.json; a name without it would be lost to the user.
      if (path.extname(file).toLowerCase() !== '.json') file = `${file}.json`;
    } else {
      file = this.#granted.pathOf(token);
      if (file === null) return problem('noSuchToken', 'This file was not opened here; save it under a name.');
      const seen = [this.#granted.seenAt(token), replaces].filter((known) => known !== null);
      known = new Set([stampOf(text), ...seen]);
    }
    try {
      const mayReplace = (content: Uint8Array): boolean => known?.has(stampOf(content)) ?? true;
      if (await writeAtomically(file, text, { backups: true, mayReplace })) {
        return { outcome: 'saved', token: this.#granted.grant(file, stampOf(text)), name: shownName(file) };
      }
    } catch (error) {
      return notWritten(file, error);
    }
    const now = await readBoatText(file);
    return typeof now === 'string' ? changed(file, now) : now;
  }

  async look({ token }: In<'boat:look'>): Promise<LookResult> {
    const file = this.#granted.pathOf(token);
    if (file === null) return problem('noSuchToken', 'This file was not opened here.');
    const isThere = await stat(file).then(
      () => true,
      (error: unknown) => codeOf(error) !== 'ENOENT' && codeOf(error) !== 'ENOTDIR',
    );
    if (!isThere) return { outcome: 'gone', name: shownName(file) };
    const now = await readBoatText(file);
    if (typeof now !== 'string') return now;
    return stampOf(now) === this.#granted.seenAt(token) ? { outcome: 'same' } : changed(file, now);
  }

  async versions({ token }: In<'boat:versions'>): Promise<VersionsResult> {
    const file = this.#granted.pathOf(token);
    if (file === null) return problem('noSuchToken', 'This file was not opened here.');
    const versions: { readonly savedAtMs: number; readonly text: string }[] = [];
    for (let age = 1; age <= BACKUPS; age += 1) {
      const backup = backupOf(file, age);
      const stats = await stat(backup).catch(() => null);
      const text = stats ? await readBoatText(backup) : null;
      if (stats && typeof text === 'string') versions.push({ savedAtMs: stats.mtimeMs, text });
    }
    return { outcome: 'listed', versions };
  }

  async exportFile({ suggestedName, content }: In<'export:save'>): Promise<ExportResult> {
    const extension = path.extname(suggestedName).slice(1).toLowerCase();
    if (!EXPORTS.has(extension)) {
      return problem('wrongKind', `.${extension} is not exported; known are ${[...EXPORTS].join(', ')}.`);
    }
    const chosen = await this.#dialogs.exportTo(suggestedName, extension);
    if (chosen === null) return { outcome: 'cancelled' };
    const file = path.extname(chosen).toLowerCase() === `.${extension}` ? chosen : `${chosen}.${extension}`;
    try {
      await writeAtomically(file, content, { backups: false });
      return { outcome: 'saved', name: path.basename(file) };
    } catch (error) {
      return notWritten(file, error);
    }
  }
}

const notWritten = (file: string, error: unknown): Problem =>
  problem('notWritten', `${path.basename(file)} was not written: ${whyNotWritten(error)}. What was there still is.`);

const changed = (file: string, text: string): Extract<LookResult, { outcome: 'changed' }> => ({
  outcome: 'changed',
  name: shownName(file),
  text,
  stamp: stampOf(text),
});

/** A pipe is not waited for; Windows knows no such flag. */
const READ_ONLY = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** The size is looked at before the content costs memory, and again by what was really read. */
async function readBoatText(file: string): Promise<string | Problem> {
  const name = path.basename(file);
  try {
    const handle = await open(file, READ_ONLY);
    try {
      const stats = await handle.stat();
      if (!stats.isFile()) return problem('unreadable', `${name} is not a file.`);
      if (stats.size > BOAT_BYTES_LIMIT) return tooLarge(name, stats.size);
      const bytes = await handle.readFile();
      if (bytes.byteLength > BOAT_BYTES_LIMIT) return tooLarge(name, bytes.byteLength);
      return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (error instanceof TypeError) return problem('notText', `${name} is not UTF-8 text.`);
    return problem('unreadable', `${name} can't be read: ${whyNotRead(error)}.`);
  }
}

function tooLarge(name: string, bytes: number): Problem {
  const size = (bytes / MEGABYTE).toFixed(1);
  return problem('tooLarge', `${name} has ${size} MB; the limit is ${BOAT_BYTES_LIMIT / MEGABYTE} MB.`);
}
