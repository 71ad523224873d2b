import { readBoat } from './read';
import { type Boat, FORMAT, SCHEMA_VERSION } from './schema/boat';

/** A boat without a hull and without anything in it, and one arrangement to put things into. */
export function newBoat(name: string): Boat {
  const read = readBoat(
    JSON.stringify({
      format: FORMAT,
      schemaVersion: SCHEMA_VERSION,
      name,
      arrangements: { first: { name: 'First arrangement' } },
    }),
  );
  if (!read.ok)
    throw new Error(`newBoat: expected a boat, got ${read.problems.map(({ message }) => message).join('; ')}`);
  return read.boat;
}
