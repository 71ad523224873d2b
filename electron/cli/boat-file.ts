import { open, stat } from 'node:fs/promises';
import path from 'node:path';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { LIMITS } from '@core/boat/schema/boat';

/** A boat ready to be judged, or what makes the input unusable, one line each. */
export type BoatOnDisk =
  | { readonly ok: true; readonly boat: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly string[] };

const FOLDER_FILE = 'boat.json';
const unusable = (...problems: readonly string[]): BoatOnDisk => ({ ok: false, problems });

/** Reads a boat file, or the boat.json of a folder, and sees to it that the arrangement asked for exists. */
export async function boatOnDisk(place: string, arrangement: string | null): Promise<BoatOnDisk> {
  let file = place;
  let text: string;
  try {
    if ((await stat(place)).isDirectory()) file = path.join(place, FOLDER_FILE);
    const { size } = await stat(file);
    if (size > LIMITS.bytes) return unusable(`${file} has ${size} bytes; at most ${LIMITS.bytes} are read`);
    const bytes = await bytesOf(file);
    if (bytes === null) return unusable(`${file} has more than ${LIMITS.bytes} bytes; at most so many are read`);
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return unusable(`${file} is not UTF-8 text`);
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    return unusable(code === 'ENOENT' ? `${file} is not there` : `${file} can't be read (${code})`);
  }
  const read = readBoat(text);
  if (!read.ok) return unusable(...read.problems.map(({ message }) => message));
  const known = Object.keys(read.boat.arrangements);
  if (arrangement !== null && !known.includes(arrangement)) {
    const which = known.length === 0 ? 'the boat has none' : `the boat has ${known.join(', ')}`;
    return unusable(`arrangements.${arrangement} is missing, ${which}`);
  }
  return read;
}

/** The file's bytes; null where they are too many. A pipe or a device does not say beforehand how much will come. */
async function bytesOf(file: string): Promise<Buffer | null> {
  const handle = await open(file);
  try {
    const pieces: Buffer[] = [];
    let count = 0;
    for await (const piece of handle.createReadStream({ autoClose: false }) as AsyncIterable<Buffer>) {
      pieces.push(piece);
      count += piece.length;
      if (count > LIMITS.bytes) return null;
    }
    return Buffer.concat(pieces);
  } finally {
    await handle.close();
  }
}
