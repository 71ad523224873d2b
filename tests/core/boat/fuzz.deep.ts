import { describe, expect, it } from 'vitest';
import { fuzzReader } from './fuzz';

/** As fuzz.test.ts over other files. FUZZ_SEED and FUZZ_FILES give yet others and another number; the tally is printed as JSON. */
const SEED = Number(process.env.FUZZ_SEED ?? 1_000_000);
const FILES = Number(process.env.FUZZ_FILES ?? 200_000);

describe('the reader of boat files', () => {
  it(`gives problems with path, value and limit, or a boat that stays the same in its file, for ${FILES} mutated files`, () => {
    const tally = fuzzReader(SEED, FILES);
    process.stdout.write(`${JSON.stringify({ suite: 'fuzz', seed: SEED, ...tally })}\n`);
    expect(tally.files).toBe(FILES);
  });
});
