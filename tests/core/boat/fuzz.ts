import { readdirSync, readFileSync } from 'node:fs';
import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import { expect } from 'vitest';
import { inProject } from '../../../electron/launch/project.mjs';
import { emptyBoat, threeLockers } from '../../support/boats';
import { mutated } from '../../support/mutations';

/** Small boats of every kind that there is: those of this test, and the faulty ones that come with the product. */
function smallBoats(): readonly string[] {
  const faulty = readdirSync(inProject('sample-boats', 'faulty')).sort();
  const texts = faulty.map((name) => readFileSync(inProject('sample-boats', 'faulty', name, 'boat.json'), 'utf8'));
  const own = [emptyBoat(), threeLockers()].map((boat) => JSON.stringify(boat));
  return [...own, ...texts.filter((text) => text.length < SMALL)];
}
const SMALL = 6_000;
/** A sentence about a file stays readable, whatever its keys and values are. */
const LONGEST_MESSAGE = 3_000;
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/u;

export interface FuzzTally {
  files: number;
  accepted: number;
  notJson: number;
  refused: number;
}

const ownOf = (value: object): readonly string[] => Object.getOwnPropertyNames(value);
const PROTOTYPES = [Object.prototype, Array.prototype, String.prototype, Number.prototype].map(
  (it) => [it, ownOf(it)] as const,
);

/**
 * Reads mutated files. Each must give problems that name path, value and limit, or a boat that is the same after writing and reading.
 */
export function fuzzReader(from: number, files: number): FuzzTally {
  const texts = smallBoats();
  const tally: FuzzTally = { files: 0, accepted: 0, notJson: 0, refused: 0 };
  for (let seed = from; seed < from + files; seed++) {
    const text = mutated(texts, seed);
    try {
      judge(text, tally);
    } catch (error) {
      throw new Error(
        `seed ${seed}: ${error instanceof Error ? error.message : String(error)}\n${text.slice(0, 2000)}`,
      );
    }
    tally.files += 1;
  }
  for (const [prototype, names] of PROTOTYPES) expect(ownOf(prototype)).toEqual(names);
  return tally;
}

function judge(text: string, tally: FuzzTally): void {
  const result = readBoat(text);
  if (result.ok) {
    tally.accepted += 1;
    const written = writeBoat(result.boat);
    const again = readBoat(written);
    if (!again.ok) throw new Error(`what was written is refused: ${again.problems[0]?.message}`);
    expect({ ...again.boat, engineVersion: '' }).toEqual({ ...result.boat, engineVersion: '' });
    expect(writeBoat(again.boat)).toBe(written);
    return;
  }
  expect(result.problems.length).toBeGreaterThan(0);
  for (const { path, value, limit, message } of result.problems) {
    if (value === 'not JSON') tally.notJson += 1;
    if (value === '' || limit === '') throw new Error(`a problem without value or limit: ${message}`);
    if (!message.startsWith(`${path === '' ? 'The file' : path} is ${value}, ${limit}`))
      throw new Error(`not a sentence: ${message}`);
    if (message.length > LONGEST_MESSAGE || UNSEEN.test(message)) throw new Error(`not readable: ${message}`);
  }
  tally.refused += 1;
}
