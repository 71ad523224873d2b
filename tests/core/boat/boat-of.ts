import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';

/** The boat of a document as it is read from a file; throws with what is wrong where it is none. */
export function boatOf(document: unknown): Boat {
  const read = readBoat(JSON.stringify(document));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.boat;
}
