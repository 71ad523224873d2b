import { expect, it } from 'vitest';
import { fuzzProofs } from './proof-fuzz';

/** Derived, as in impossible.test.ts. PROOF_SEED: where to begin. */
const FIRST = Number(process.env.PROOF_SEED ?? 231);

it.each(Array.from({ length: 20 }, (_, k) => FIRST + k))('contradicts no run of scene %i', (seed) => {
  const { wrong, above, lines, blocked, proved } = fuzzProofs(seed, seed % 2 === 1, 400);
  console.log(JSON.stringify({ seed, lines, blocked, proved }));
  expect(wrong).toEqual([]);
  expect(above).toEqual([]);
});
