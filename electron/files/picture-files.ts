import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import { type In, type Out, PICTURE_BYTES_LIMIT } from '../ipc/contract';
import { writeAtomically } from './atomic-write';
import { codeOf, whyNotRead, whyNotWritten } from './disk-words';
import type { GrantedPaths } from './granted-paths';

type Kept = Out<'picture:keep'>;
type Read = Out<'picture:read'>;
type Problem = Extract<Kept, { outcome: 'problem' }>;

const MEGABYTE = 1024 * 1024;
const problem = (code: Problem['code'], message: string): Problem => ({ outcome: 'problem', code, message });

/**
 * Pictures in the folder of a boat that was opened or saved here. Knows names and bytes, and never decodes one: the window
 * does that, in its sandbox. What is not plainly a picture is neither written nor read.
 */
export class PictureFiles {
  readonly #granted: GrantedPaths;
  constructor(granted: GrantedPaths) {
    this.#granted = granted;
  }

  /** Writes a picture beside the boat. A file of that name with other content stays as it is and the picture is refused. */
  async keep({ token, name, content }: In<'picture:keep'>): Promise<Kept> {
    const file = this.#beside(token, name);
    if (file === null) return noSuchBoat(name);
    const fault = faultOf(name, content);
    if (fault) return fault;
    const there = await bytesOf(file, name);
    if (there instanceof Uint8Array) {
      if (Buffer.compare(there, content) === 0) return { outcome: 'kept' };
      return problem('notWritten', `${name} was not written: another file of that name stands beside the boat.`);
    }
    if (there.code !== 'ENOENT') return there.problem;
    try {
      await writeAtomically(file, content, { backups: false });
      return { outcome: 'kept' };
    } catch (error) {
      return problem('notWritten', `${name} was not written beside the boat: ${whyNotWritten(error)}.`);
    }
  }

  async read({ token, name }: In<'picture:read'>): Promise<Read> {
    const file = this.#beside(token, name);
    if (file === null) return noSuchBoat(name);
    const content = await bytesOf(file, name);
    if (!(content instanceof Uint8Array)) return content.problem;
    return faultOf(name, content) ?? { outcome: 'read', content };
  }

  #beside(token: string, name: string): string | null {
    const boat = this.#granted.pathOf(token);
    return boat === null ? null : path.join(path.dirname(boat), name);
  }
}

const noSuchBoat = (name: string): Problem =>
  problem('noSuchToken', `${name} belongs to a boat that was not opened here.`);

/** A link is not followed: it could show what the boat's folder does not hold. A pipe is not waited for. Windows knows neither. */
const READ_ONLY = constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);

async function bytesOf(
  file: string,
  name: string,
): Promise<Uint8Array<ArrayBuffer> | { readonly code: string; readonly problem: Problem }> {
  const refused = (code: string, found: Problem) => ({ code, problem: found });
  try {
    const handle = await open(file, READ_ONLY);
    try {
      const stats = await handle.stat();
      if (!stats.isFile()) return refused('EISDIR', problem('unreadable', `${name} is not a file.`));
      if (stats.size > PICTURE_BYTES_LIMIT) return refused('EFBIG', tooLarge(name, stats.size));
      return new Uint8Array(await handle.readFile());
    } finally {
      await handle.close();
    }
  } catch (error) {
    const code = codeOf(error);
    const words =
      code === 'ENOENT' ? `${name} is not beside the boat file.` : `${name} can't be read: ${whyNotRead(error)}.`;
    return refused(code, problem('unreadable', words));
  }
}

function faultOf(name: string, content: Uint8Array): Problem | null {
  if (content.byteLength > PICTURE_BYTES_LIMIT) return tooLarge(name, content.byteLength);
  if (beginsAsPicture(content)) return null;
  return problem('wrongKind', `${name} is no JPEG, PNG or WebP picture by its content.`);
}

function tooLarge(name: string, bytes: number): Problem {
  const size = (bytes / MEGABYTE).toFixed(1);
  return problem('tooLarge', `${name} has ${size} MB; the limit is ${PICTURE_BYTES_LIMIT / MEGABYTE} MB.`);
}

/** By its first bytes, whatever its name says: JPEG (FF D8 FF), PNG (eight bytes) or WebP (RIFF .... WEBP). */
function beginsAsPicture(content: Uint8Array): boolean {
  const at = (from: number, to: number): string => Buffer.from(content.subarray(from, to)).toString('latin1');
  return (
    at(0, 3) === '\xff\xd8\xff' || at(0, 8) === '\x89PNG\r\n\x1a\n' || (at(0, 4) === 'RIFF' && at(8, 12) === 'WEBP')
  );
}
