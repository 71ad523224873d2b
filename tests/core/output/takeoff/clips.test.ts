import { type ClipSpot, clipsAlong } from '@core/output/takeoff/clips';
import { describe, expect, it } from 'vitest';

/** A spot every 10 mm along a run. */
const spots = (lengthM: number, more: (alongM: number) => Partial<ClipSpot> = () => ({})): ClipSpot[] =>
  Array.from({ length: Math.round(lengthM / 0.01) }, (_, k) => {
    const alongM = (k + 0.5) * 0.01;
    return { alongM, canHold: true, isBent: false, ...more(alongM) };
  });
const placed = (all: readonly ClipSpot[], lengthM: number, fixedM: readonly number[] = []) =>
  clipsAlong(all, lengthM, 0.45, fixedM).map(({ spot, isFar }) => [Math.round((all[spot]?.alongM ?? 0) * 1000), isFar]);

describe('clips along a run', () => {
  it('are as few as the spacing allows: 0.9 m needs one of 450 mm, 1.2 m two, 0.4 m none (derived)', () => {
    expect(placed(spots(0.4), 0.4)).toEqual([]);
    // The spot nearest below 450 mm is at 445; the rest of 455 mm is 5 mm too long for none.
    expect(placed(spots(0.89), 0.89)).toEqual([[445, false]]);
    expect(placed(spots(1.2), 1.2)).toEqual([
      [445, false],
      [895, false],
    ]);
  });

  it('keep every span within the spacing where all of the run can be held', () => {
    for (const lengthM of [0.7, 1.31, 2.77, 5]) {
      const all = spots(lengthM);
      const at = [0, ...clipsAlong(all, lengthM, 0.45, []).map(({ spot }) => all[spot]?.alongM ?? 0), lengthM];
      for (let k = 1; k < at.length; k += 1) expect((at[k] ?? 0) - (at[k - 1] ?? 0)).toBeLessThanOrEqual(0.45 + 1e-6);
    }
  });

  it('go where something can hold them, on a straight before a bend', () => {
    const free = spots(0.8, (at) => ({ canHold: at < 0.3 || at > 0.6 }));
    // Derived: 295 is the last that holds before 450; 295 + 450 = 745.
    expect(placed(free, 0.8)).toEqual([
      [295, false],
      [745, false],
    ]);
    const bent = spots(0.8, (at) => ({ isBent: at > 0.38 && at < 0.7 }));
    expect(placed(bent, 0.8)).toEqual([[375, false]]);
  });

  it('leave a long span where nothing nearer holds, and say so', () => {
    const free = spots(1.4, (at) => ({ canHold: at > 0.8 }));
    // Derived: 805 is the first that holds; 805 + 450 = 1255.
    expect(placed(free, 1.4)).toEqual([
      [805, true],
      [1255, false],
    ]);
  });

  it('stand where the owner has pinned the run', () => {
    expect(placed(spots(0.8), 0.8, [0.6])).toEqual([
      [445, false],
      [595, false],
    ]);
  });
});
