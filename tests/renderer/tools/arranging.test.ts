import { FRAMES, paperAxes, type ViewName } from '@core/output/views/drawing';
import { type Block, linedUp, type Side, spacedOut } from '@renderer/tools/arranging';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const block = (id: string, low: readonly [number, number, number], size: readonly [number, number, number]): Block => ({
  ids: [id],
  box: { low, high: [low[0] + size[0], low[1] + size[1], low[2] + size[2]] },
});
/** Two boxes of 300 x 200 x 100 mm and 100 x 100 x 100 mm. */
const A = block('a', [1, 0.5, 0], [0.3, 0.2, 0.1]);
const B = block('b', [2, -0.5, 0.4], [0.1, 0.1, 0.1]);

describe('lining up', () => {
  it.each<[ViewName, 0 | 1, Side, readonly [number, number, number]]>([
    // In the plan right is forward and up is to port: by hand from the corners above.
    ['plan', 0, 'before', [-1, 0, 0]],
    ['plan', 0, 'after', [-0.8, 0, 0]],
    ['plan', 0, 'middle', [-0.9, 0, 0]],
    ['plan', 1, 'after', [0, 1.1, 0]],
    ['plan', 1, 'before', [0, 1, 0]],
    ['profile', 1, 'before', [0, 0, -0.4]],
    // In a section right is to starboard: the left side is the one to port, the greater y.
    ['section', 0, 'before', [0, 1.1, 0]],
    ['section', 0, 'after', [0, 1, 0]],
  ])('in the %s, way %i, %s', (view, way, side, by) => {
    const shifts = linedUp([A, B], 'a', FRAMES[view], way, side);
    expect(shifts.a).toEqual([0, 0, 0]);
    for (const k of [0, 1, 2]) expect(shifts.b?.[k]).toBeCloseTo(by[k] ?? 0, 12);
  });

  it('moves a block as one', () => {
    const pair: Block = { ids: ['b', 'c'], box: B.box };
    const shifts = linedUp([A, pair], 'a', FRAMES.plan, 0, 'before');
    expect(shifts.c).toEqual(shifts.b);
  });
});

describe('spacing out', () => {
  it('leaves the outermost and makes the gaps between neighbours equal, in whatever order they come', () => {
    const length = fc.integer({ min: 1, max: 800 }).map((mm) => mm / 1000);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(length, length), { minLength: 3, maxLength: 7 }),
        fc.constantFrom<ViewName>('plan', 'profile'),
        (drawn, view) => {
          const axis = paperAxes(FRAMES[view])[0];
          // Each begins after the one before has ended.
          let at = 0;
          const blocks = drawn.map(([gap, size], i) => {
            at += gap;
            const own = block(`t${i}`, [at, 0, 0], [size, 0.1, 0.1]);
            at += size;
            return own;
          });
          const shifts = spacedOut([...blocks].reverse(), axis);
          const moved = blocks.map(({ ids, box }) => {
            const by = shifts[ids[0] ?? '']?.[axis] ?? Number.NaN;
            return [box.low[axis] + by, box.high[axis] + by] as const;
          });
          const gaps = moved.slice(1).map(([low], i) => low - (moved[i]?.[1] ?? 0));
          for (const gap of gaps) expect(gap).toBeCloseTo(gaps[0] ?? 0, 9);
          expect(moved[0]?.[0]).toBeCloseTo(blocks[0]?.box.low[axis] ?? 0, 12);
          expect(moved.at(-1)?.[1]).toBeCloseTo(blocks.at(-1)?.box.high[axis] ?? 0, 12);
        },
      ),
    );
  });

  it('does nothing with two', () => {
    expect(spacedOut([A, B], 0)).toEqual({});
  });
});
