import { analyze } from '@core/analyze';
import { distance } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import { lengthOf } from '@core/runs/routing/prims';
import { bulge, coil } from '@core/runs/spare/shapes';
import { Walk } from '@core/runs/spare/walk';
import { describe, expect, it } from 'vitest';
import { threeLockers } from '../../../support/boats';
import { countSpare } from './spare';

const X = [1, 0, 0] as const;
const Y = [0, 1, 0] as const;

describe('a bulge', () => {
  it.each([0.01, 0.05, 0.2, 0.6, 1.4])(
    'of %s m is exactly as much longer than the straight that it stands beside',
    (excess) => {
      for (const count of [1, 2, 3]) {
        const shape = bulge(excess, 0.12, count);
        const walk = new Walk([0, 0, 0], X);
        shape.lay(walk, X, Y);
        expect(lengthOf(walk.prims)).toBeCloseTo(shape.spanM + excess, 9);
        expect(distance(walk.position, [shape.spanM, 0, 0])).toBeLessThan(1e-9);
        expect(Math.min(...walk.prims.map((prim) => (prim.kind === 'arc' ? prim.radius : 1)))).toBeGreaterThan(0.1199);
      }
    },
  );

  it('that is shallow is as high as the sine of that excess and span', () => {
    // derived: a sine of height h over a span s is h2 pi2 / (4 s) longer, so h = (2 / pi) sqrt(excess s); circular arcs of the
    // same span stand sqrt(6) pi / 8 = 0.96 as high
    const shape = bulge(0.001, 0.5, 1);
    const sine = (2 / Math.PI) * Math.sqrt(0.001 * shape.spanM);
    expect(shape.heightM / sine).toBeCloseTo((Math.sqrt(6) * Math.PI) / 8, 2);
  });
});

describe('a coil', () => {
  it.each([1, 1.7, 2.6, 5])('of %s m comes out on the line and in the direction that it went in', (excess) => {
    const shape = coil(excess, 0.12, 0.012, 0.026);
    if (!shape) throw new Error('expected a coil');
    const walk = new Walk([0, 0, 0], X);
    shape.lay(walk, X, Y);
    expect(lengthOf(walk.prims)).toBeCloseTo(shape.spanM + excess, 9);
    expect(distance(walk.position, [shape.spanM, 0, 0])).toBeLessThan(1e-9);
    for (const prim of walk.prims) if (prim.kind === 'arc') expect(prim.radius).toBeGreaterThan(0.12 - 1e-12);
    // derived: no more turns than the least circumference goes into the excess
    expect(shape.count).toBeLessThanOrEqual(excess / (2 * Math.PI * 0.12));
    expect(shape.count).toBeGreaterThanOrEqual(1);
  });

  it('is none where the excess makes no turn', () => {
    expect(coil(0.7, 0.12, 0.012, 0.026)).toBeNull();
  });
});

describe('spare length in a boat', () => {
  const lockers = (supplied: object) => {
    const draft = threeLockers();
    const read = readBoat(
      JSON.stringify({ ...draft, lines: { ...draft.lines, 'raw-1': { ...draft.lines?.['raw-1'], supplied } } }),
    );
    if (!read.ok) throw new Error(read.problems[0]?.message ?? '');
    return analyze(read.boat).runs.find(({ lineId }) => lineId === 'raw-1');
  };

  it('is cut off where it may be cut, but for the reserve', () => {
    const run = lockers({ lengthM: 6, spareM: 0.08, mayCut: true });
    // derived: what is left is the run and its reserve
    expect(run?.spare).toMatchObject({ kind: 'cut' });
    if (run?.spare?.kind === 'cut') expect(run.spare.toM).toBeCloseTo((run.lengthM ?? 0) + 0.08, 9);
  });

  it('is nothing to speak of below a centimetre', () => {
    const length = lockers({ lengthM: 6, mayCut: true })?.lengthM ?? 0;
    expect(lockers({ lengthM: length + 0.009, spareM: 0.001 })?.spare).toEqual({ kind: 'none' });
  });

  it('has no place where it is more than the lockers hold', () => {
    expect(lockers({ lengthM: 60 })?.spare).toMatchObject({ kind: 'noPlace' });
  });

  // Thirty scenes are in spare.deep.ts.
  it.each([2])(
    'of every line of scene %i is as long as the hose and clears all, as an independent judge sees it',
    (seed) => {
      const count = countSpare(seed);
      expect(count.violations).toEqual([]);
      expect(count.worstM).toBeLessThan(2e-6);
      expect(count.asked).toBeGreaterThan(5);
      expect(count.laid).toBeGreaterThan(count.asked / 3);
    },
  );
});
