import { expect, it } from 'vitest';
import { fuzzChains } from './chain-fuzz';

/** Derived, as in chain-fuzz.test.ts; other seeds. */
it('never exceeds the length of 120,000 random curves', () => {
  const counts = [11, 12, 13, 14, 15, 16].map((seed) => fuzzChains(seed, 20_000));
  console.log(JSON.stringify(counts));
  for (const count of counts) {
    expect(count.above).toBe(0);
    expect(count.legsAbove).toBe(0);
    expect(count.withoutShortLegs).toBeGreaterThan(1000);
    expect(count.withoutWindows).toBeGreaterThan(300);
  }
});
