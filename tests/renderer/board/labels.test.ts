import { abbreviated, type Candidate, placeLabels, spread, uncrossed } from '@renderer/board/labels';
import { letterPlaces } from '@renderer/board/paint/runs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const word = (id: string, rank: number, ...places: [number, number][]): Candidate => ({
  id,
  rank,
  width: 40,
  height: 12,
  places,
});

describe('words on a crowded drawing', () => {
  it('survive in order of rank', () => {
    const placed = placeLabels([word('name', 4, [50, 50]), word('tag', 3, [60, 50])]);
    expect([...placed.keys()]).toEqual(['tag']);
  });

  it('take the next free place before they drop out', () => {
    const placed = placeLabels([word('a', 1, [50, 50]), word('b', 2, [52, 50], [52, 70])]);
    expect(placed.get('b')).toEqual([52, 70]);
  });

  it('keep off what is taken', () => {
    expect(placeLabels([word('a', 1, [50, 50])], [{ x: 40, y: 45, w: 5, h: 5 }]).size).toBe(0);
  });

  it('never lie over each other', () => {
    const points = fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 200 })), {
      maxLength: 60,
    });
    fc.assert(
      fc.property(points, (list) => {
        const placed = [...placeLabels(list.map((p, i) => word(String(i), i % 4, p))).values()];
        for (const [i, a] of placed.entries())
          for (const b of placed.slice(i + 1))
            expect(Math.abs(a[0] - b[0]) >= 40 || Math.abs(a[1] - b[1]) >= 12).toBe(true);
      }),
    );
  });

  it('are shortened by words that sailors shorten', () => {
    expect(abbreviated('Hanging locker, starboard')).toBe('Hanging lkr, stbd');
  });
});

describe('a row of balloons', () => {
  it('keeps its spacing and its order, inside its ends', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 600 }), { minLength: 1, maxLength: 20 }), (wishes) => {
        const places = spread(wishes, 24, 0, 600);
        const order = wishes.map((_, i) => i).sort((a, b) => (wishes[a] as number) - (wishes[b] as number) || a - b);
        for (let k = 0; k + 1 < order.length; k++)
          expect((places[order[k + 1] as number] as number) - (places[order[k] as number] as number)).toBeGreaterThan(
            24 - 1e-6,
          );
      }),
    );
  });

  it('leaves a lone balloon where it wants to be', () => {
    expect(spread([120], 24, 0, 600)).toEqual([120]);
    expect(spread([100, 300], 24, 0, 600)).toEqual([100, 300]);
    // derived: two that want the same place stand half a spacing to either side
    expect(spread([100, 100], 24, 0, 600)).toEqual([88, 112]);
  });
});

describe('letters of a run', () => {
  it('stand in the longest stretch and again every 240 px', () => {
    // derived: middle of 600 px, then 240 px on and 240 px back
    expect(
      letterPlaces([
        [0, 0],
        [600, 0],
      ]),
    ).toEqual([
      [300, 0],
      [540, 0],
      [60, 0],
    ]);
    expect(
      letterPlaces([
        [0, 0],
        [20, 0],
      ]),
    ).toEqual([]);
  });
});

describe('leaders of a row of balloons', () => {
  it('lead to every end once, and no two cross', () => {
    const ends = fc.uniqueArray(
      fc.record({ x: fc.integer({ min: 0, max: 600 }), y: fc.integer({ min: 0, max: 200 }) }),
      {
        minLength: 2,
        maxLength: 15,
        selector: ({ x, y }) => `${x} ${y}`,
      },
    );
    fc.assert(
      fc.property(ends, (found) => {
        const to = found.map(({ x, y }) => [x, y] as const);
        const from = to.map((_, i) => [40 + 24 * i, 260] as const);
        const leads = uncrossed(from, to);
        expect([...leads].sort((a, b) => a - b)).toEqual(to.map((_, i) => i));
        const meet = (i: number, j: number): boolean => {
          const [a, b, c, d] = [from[i], to[leads[i] ?? -1], from[j], to[leads[j] ?? -1]];
          if (!a || !b || !c || !d) throw new Error('expected both ends');
          // Both leave the same level: they cross inside where the order of their places at the nearer end's level is the other.
          const level = Math.max(b[1], d[1]);
          const at = (p: readonly [number, number], q: readonly [number, number]) =>
            p[0] + ((q[0] - p[0]) * (level - p[1])) / (q[1] - p[1]);
          return (a[0] - c[0]) * (at(a, b) - at(c, d)) < -1;
        };
        for (let i = 0; i < from.length; i++)
          for (let j = i + 1; j < from.length; j++) {
            expect(meet(i, j)).toBe(false);
          }
      }),
    );
  });
});
