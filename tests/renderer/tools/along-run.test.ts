import { distance, type Vec3 } from '@core/base/vec';
import { PLAN, PROFILE } from '@core/output/views/drawing';
import { orderAt, placeAlong, placeNearest, placeUnder } from '@renderer/tools/along-run';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** Two metres forward, then one up. */
const ELBOW: readonly Vec3[] = [
  [0, 0, 0],
  [2, 0, 0],
  [2, 0, 1],
];

describe('a place on a run', () => {
  it('is where its picture is nearest to the pointer', () => {
    // derived: foot of (0.5, 0.3) on the first leg; of (2.4, 0.25) on the second, 2.25 m along
    expect(placeUnder(ELBOW, PROFILE, [0.5, 0.3])).toEqual({ at: [0.5, 0, 0], alongM: 0.5 });
    expect(placeUnder(ELBOW, PROFILE, [2.4, 0.25])).toEqual({ at: [2, 0, 0.25], alongM: 2.25 });
  });

  it('counts only what a cut shows', () => {
    const above = (p: Vec3): boolean => p[2] > 0.1;
    expect(placeUnder(ELBOW, PROFILE, [0.5, 0.3], above)?.at).toEqual([2, 0, 0.3]);
  });

  it('on a leg that the view shows as a point is its start', () => {
    expect(placeUnder(ELBOW.slice(1), PLAN, [2, 0])?.at).toEqual([2, 0, 0]);
  });

  it('so many metres along is found again from its point', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3, noNaN: true }), (alongM) => {
        const place = placeAlong(ELBOW, alongM);
        if (!place) throw new Error('expected a place');
        const found = placeNearest(ELBOW, place.at);
        expect(found?.offM).toBeLessThan(1e-9);
        expect(found?.alongM).toBeCloseTo(alongM, 9);
      }),
    );
  });

  it('beyond its ends is its end', () => {
    expect(placeAlong(ELBOW, 9)?.at).toEqual([2, 0, 1]);
    expect(placeAlong(ELBOW, -1)?.at).toEqual([0, 0, 0]);
  });
});

describe('a new clip point', () => {
  const clips = [
    { order: 1, at: [0.5, 0, 0] as const },
    { order: 2, at: [2, 0, 0.5] as const },
  ];

  it('comes in the order in which the run passes it', () => {
    // derived: before the first, between the two, after the last
    expect(orderAt(ELBOW, clips, 0.2)).toBe(0);
    expect(orderAt(ELBOW, clips, 1.5)).toBe(1.5);
    expect(orderAt(ELBOW, clips, 2.9)).toBe(3);
    expect(orderAt(ELBOW, [], 1)).toBe(1);
  });

  it('never takes the order of another', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3, noNaN: true }), (alongM) => {
        expect(clips.map(({ order }) => order)).not.toContain(orderAt(ELBOW, clips, alongM));
      }),
    );
  });

  it('is measured where the run bends as elsewhere', () => {
    expect(distance(placeNearest(ELBOW, [2.1, 0, -0.1])?.at ?? [9, 9, 9], [2, 0, 0])).toBe(0);
  });
});
