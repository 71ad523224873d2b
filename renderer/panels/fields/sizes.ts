import type { DisplayUnits } from '../../store/types';
import { readLength } from './entries';

export type ReadSizes =
  | { readonly ok: true; readonly sizes: readonly number[] }
  | { readonly ok: false; readonly message: string };

/** One or two lengths, metres, as in `450 x 300` or `17 3/4 in by 12 in`. */
export function readSizes(typed: string, units: DisplayUnits): ReadSizes {
  const words = typed.trim().split(/\s*(?:x|\u00d7|\*|by)\s*/i);
  if (words.length > 2) return { ok: false, message: 'Expected one length, or two as in 450 x 300' };
  const sizes: number[] = [];
  for (const word of words) {
    const read = readLength(word, units);
    if (!read.ok) return read;
    sizes.push(read.value);
  }
  return { ok: true, sizes };
}
