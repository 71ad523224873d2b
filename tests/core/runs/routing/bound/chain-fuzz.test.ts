import { describe, expect, it } from 'vitest';
import { fuzzChains } from './chain-fuzz';

/** Derived: the inequality in core/runs/routing/bound/dual.ts; the curves' lengths are sums of straights and R times angle. */
describe('the bound of a chain of holes, ports and open panels', () => {
  const count = fuzzChains(1, 20_000);

  it('never exceeds the length of 20,000 random curves that pass it', () => {
    expect(count.above).toBe(0);
  });
  it('comes within a thousandth of many of them', () => {
    expect(count.within).toBeGreaterThan(count.curves / 20);
  });
  it('would be caught without its term for short legs, and without its windows', () => {
    expect(count.withoutShortLegs).toBeGreaterThan(1000);
    expect(count.withoutWindows).toBeGreaterThan(300);
  });
});
