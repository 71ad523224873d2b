import { readFile, stat } from 'node:fs/promises';
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
  let text: string;
  try {
    const file = (await stat(place)).isDirectory() ? path.join(place, FOLDER_FILE) : place;
    const { size } = await stat(file);
    if (size > LIMITS.bytes) return unusable(`${file} has ${size} bytes; at most ${LIMITS.bytes} are read`);
    text = new TextDecoder('utf-8', { fatal: true }).decode(await readFile(file));
  } catch (error) {
    if (error instanceof TypeError) return unusable(`${place} is not UTF-8 text`);
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    return unusable(code === 'ENOENT' ? `${place} is not there` : `${place} can't be read (${code})`);
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
