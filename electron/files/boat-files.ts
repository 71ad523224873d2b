import { open } from 'node:fs/promises';
import path from 'node:path';
import { BOAT_BYTES_LIMIT, type ExportResult, type In, type OpenResult, type SaveResult } from '../ipc/contract';
import { codeOf, sweepTemporaries, writeAtomically } from './atomic-write';
import type { GrantedPaths } from './granted-paths';

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
    return { outcome: 'opened', token: this.#granted.grant(file), name: shownName(file), text: read };
  }

  async save({ token, suggestedName, text }: In<'boat:save'>): Promise<SaveResult> {
    if (Buffer.byteLength(text) > BOAT_BYTES_LIMIT) return tooLarge(suggestedName, Buffer.byteLength(text));
    let file: string | null;
    if (token === null) {
      file = await this.#dialogs.boatToSave(suggestedName);
      if (file === null) return { outcome: 'cancelled' };
      // The open dialog takes *.json; a name without it would be lost to the user.
      if (path.extname(file).toLowerCase() !== '.json') file = `${file}.json`;
    } else {
      file = this.#granted.pathOf(token);
      if (file === null) return problem('noSuchToken', 'This file was not opened here; save it under a name.');
    }
    const failed = await write(file, text, true);
    return failed ?? { outcome: 'saved', token: this.#granted.grant(file), name: shownName(file) };
  }

  async exportFile({ suggestedName, content }: In<'export:save'>): Promise<ExportResult> {
    const extension = path.extname(suggestedName).slice(1).toLowerCase();
    if (!EXPORTS.has(extension)) {
      return problem('wrongKind', `.${extension} is not exported; known are ${[...EXPORTS].join(', ')}.`);
    }
    const chosen = await this.#dialogs.exportTo(suggestedName, extension);
    if (chosen === null) return { outcome: 'cancelled' };
    const file = path.extname(chosen).toLowerCase() === `.${extension}` ? chosen : `${chosen}.${extension}`;
    return (await write(file, content, false)) ?? { outcome: 'saved', name: path.basename(file) };
  }
}

async function write(file: string, content: string | Uint8Array, backups: boolean): Promise<Problem | null> {
  try {
    await writeAtomically(file, content, { backups });
    return null;
  } catch (error) {
    return problem('notWritten', `${path.basename(file)} was not written (${codeOf(error)}); what was there still is.`);
  }
}

/** The size is looked at before the content costs memory, and again by what was really read. */
async function readBoatText(file: string): Promise<string | Problem> {
  const name = path.basename(file);
  try {
    const handle = await open(file, 'r');
    try {
      const stats = await handle.stat();
      if (!stats.isFile()) return problem('unreadable', `${name} is not a file.`);
      if (stats.size > BOAT_BYTES_LIMIT) return tooLarge(name, stats.size);
      const bytes = await handle.readFile();
      if (bytes.byteLength > BOAT_BYTES_LIMIT) return tooLarge(name, bytes.byteLength);
      return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (error instanceof TypeError) return problem('notText', `${name} is not UTF-8 text.`);
    return problem('unreadable', `${name} can't be read (${codeOf(error)}).`);
  }
}

function tooLarge(name: string, bytes: number): Problem {
  const size = (bytes / MEGABYTE).toFixed(1);
  return problem('tooLarge', `${name} has ${size} MB; the limit is ${BOAT_BYTES_LIMIT / MEGABYTE} MB.`);
}
