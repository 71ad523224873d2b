import { distance, dot, subtract, type Vec3 } from '@core/base/vec';
import { PLAN, PROFILE, SECTION } from '@core/output/views/drawing';
import { edgeLeft, holeLeft, inPanel, slidTo } from '@renderer/tools/hole-slide';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

/** A bulkhead at x = 1, a metre wide and half a metre high, with one hole of 40 mm in it. */
const corners: readonly Vec3[] = [
  [1, -0.5, 0],
  [1, 0.5, 0],
  [1, 0.5, 0.5],
  [1, -0.5, 0.5],
];
const bulkhead = {
  normal: [1, 0, 0] as Vec3,
  pieces: [corners],
  edges: corners.map((p, k) => [p, corners[(k + 1) % 4] as Vec3] as const),
  edgeM: 0.015,
  holes: [{ id: 'loom', at: [1, 0.2, 0.25] as Vec3, diameterM: 0.04, carries: [] }],
};
const OWN: Vec3 = [1, -0.2, 0.25];
const HOLE_M = 0.03;

describe('a hole that is slid in its panel', () => {
  it('goes where it is wished as long as there is wood around it', () => {
    const slid = slidTo(bulkhead, [1, -0.1, 0.3], HOLE_M, OWN);
    expect(slid).toEqual({ at: [1, -0.1, 0.3], stoppedBy: null });
  });

  it('stops at the edge by what the panel asks', () => {
    const slid = slidTo(bulkhead, [1, -0.1, 0.9], HOLE_M, OWN);
    // derived: 0.5 m less 15 mm of wood and half the hole
    expect(slid?.at[2]).toBeCloseTo(0.47, 4);
    expect(slid?.at[1]).toBeCloseTo(-0.1, 6);
    expect(slid?.stoppedBy).toBe('edge');
  });

  it('keeps off another hole', () => {
    const slid = slidTo(bulkhead, [1, 0.19, 0.25], HOLE_M, OWN);
    // derived: half of both holes and 4 mm of wood between them
    expect(slid && distance(slid.at, [1, 0.2, 0.25])).toBeCloseTo(0.039, 4);
    expect(slid?.stoppedBy).toBe('hole');
  });

  it('has no place in a panel that is too small for it', () => {
    expect(slidTo(bulkhead, [1, 0, 0.25], 0.5, OWN)).toBeNull();
  });

  it('stays in the plane, inside the edges and off other holes wherever it is wished', () => {
    const wish = fc.tuple(fc.double({ min: -2, max: 2, noNaN: true }), fc.double({ min: -2, max: 2, noNaN: true }));
    fc.assert(
      fc.property(wish, ([y, z]) => {
        const slid = slidTo(bulkhead, [1.3, y, z], HOLE_M, OWN);
        if (!slid) return;
        expect(slid.at[0]).toBeCloseTo(1, 9);
        expect(edgeLeft(bulkhead, slid.at, HOLE_M)).toBeGreaterThan(0.015 - 1e-4);
        expect(holeLeft(bulkhead, slid.at, HOLE_M, OWN)).toBeGreaterThan(0.004 - 1e-4);
      }),
    );
  });

  it('follows the pointer within the panel: seen edge on one way only, seen from the front both', () => {
    const move = (frame: typeof PLAN): Vec3 => inPanel(bulkhead, frame, [0.1, 0.2]);
    // derived: plan shows the bulkhead edge on, along y; the profile along z; the section, looking forward, from behind
    expect(move(PLAN)[1]).toBeCloseTo(0.2, 4);
    expect(Math.abs(move(PLAN)[2])).toBeLessThan(1e-6);
    expect(move(PROFILE)[2]).toBeCloseTo(0.2, 4);
    const [x, y, z] = move(SECTION);
    expect(x).toBeCloseTo(0, 9);
    expect(dot(subtract([0, y, 0], [0, 0, 0]), SECTION.right)).toBeCloseTo(0.1, 4);
    expect(z).toBeCloseTo(0.2, 4);
  });
});
