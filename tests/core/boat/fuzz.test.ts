import { describe, expect, it } from 'vitest';
import { fuzzReader } from './fuzz';

// Derived: what must hold of any text at all. FUZZ_SEED gives other files; fuzz.deep.ts reads 20,000 of others.
const SEED = Number(process.env.FUZZ_SEED ?? 1);
const FILES = Number(process.env.FUZZ_FILES ?? 20_000);

describe('the reader of boat files', () => {
  it(`gives problems with path, value and limit, or a boat that stays the same in its file, for ${FILES} mutated files`, () => {
    const tally = fuzzReader(SEED, FILES);
    expect(tally.files).toBe(FILES);
    // The mutations reach every stage: the parser, the schema, and boats that are valid all the same.
    for (const share of [tally.accepted, tally.notJson, tally.refused - tally.notJson]) {
      expect(share).toBeGreaterThan(FILES / 20);
    }
  });
});
