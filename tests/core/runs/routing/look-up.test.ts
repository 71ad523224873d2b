/** Checks are derived: by going through everything, and by sorting. */
import { CostHeap } from '@core/runs/routing/heap';
import { CellColumns } from '@core/runs/routing/structure';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../support/random';

describe('cells by columns', () => {
  it('hold every cell that a stretch of x touches, each once and in order (by going through all of them)', () => {
    const random = randomFrom(7);
    for (let boat = 0; boat < 20; boat += 1) {
      const count = 1 + Math.floor(random() * 60);
      const bounds = Float64Array.from({ length: count }, () => random() * 14 - 2).reduce<number[]>((all, low) => {
        all.push(low, 0, 0, low + random() * 3, 1, 1);
        return all;
      }, []);
      const columns = new CellColumns(Float64Array.from(bounds));
      for (let n = 0; n < 50; n += 1) {
        const low = random() * 20 - 5;
        const high = low + random() * (n % 2 === 0 ? 0.3 : 6);
        const found = columns.between(low, high);
        expect([...found]).toEqual([...new Set(found)].sort((a, b) => a - b));
        for (let cell = 0; cell < count; cell += 1)
          if ((bounds[6 * cell] as number) <= high && (bounds[6 * cell + 3] as number) >= low)
            expect(found).toContain(cell);
      }
    }
  });

  it('are fewer than all where the boat is long', () => {
    const bounds = Array.from({ length: 100 }, (_, k) => [k, 0, 0, k + 1, 1, 1]).flat();
    expect(new CellColumns(Float64Array.from(bounds)).between(40.2, 40.4).length).toBeLessThan(4);
  });
});

describe('the heap', () => {
  it('gives entries by cost and equal costs by number, as sorting does', () => {
    const random = randomFrom(3);
    const heap = new CostHeap();
    const entries = Array.from({ length: 3000 }, (_, entry) => ({ cost: Math.floor(random() * 400), entry }));
    for (const { cost, entry } of entries) heap.push(cost, entry);
    expect(heap.size).toBe(3000);
    const sorted = [...entries].sort((a, b) => a.cost - b.cost || a.entry - b.entry);
    expect(sorted.map(() => heap.pop())).toEqual(sorted.map(({ entry }) => entry));
    expect(heap.pop()).toBe(-1);
  });
});
