import { type SnapField, snapPoint, stepFor } from '@renderer/tools/point-snap';
import { describe, expect, it } from 'vitest';

/** A neighbour's upright and level side, which meet at (1, 1); a hull that slopes from (0, 0) to (4, -2). */
const FIELD: SnapField = {
  lines: [
    { a: [1, 0], b: [1, 1], solid: [-1, 0], subject: 'next' },
    { a: [0, 1], b: [1, 1], solid: [0, 1], subject: 'next' },
  ],
  curves: [
    [
      [0, 0],
      [4, -2],
      [4, 5],
    ],
  ],
};
const PULL = { pullM: 0.1, stepM: 0.01 };

describe('a drawn point', () => {
  it('goes to a corner before a face', () => {
    const { at, on } = snapPoint([1.05, 0.96], FIELD, PULL);
    expect(at).toEqual([1, 1]);
    expect(on.map(({ kind }) => kind)).toEqual(['corner', 'corner']);
  });
  it('goes to a face and is free along it, to a round value', () => {
    const { at, on } = snapPoint([1.06, 0.513], FIELD, PULL);
    expect(at).toEqual([1, 0.51]);
    expect(on).toEqual([{ kind: 'face', a: [1, 0], b: [1, 1], solid: [-1, 0] }]);
  });
  it('lines up with a face beyond its end', () => {
    expect(snapPoint([1.04, 1.8], FIELD, PULL).at).toEqual([1, 1.8]);
  });
  it('goes to the hull, and along a face to where that meets it', () => {
    // derived: the hull is at v = -u / 2
    const near = snapPoint([2.02, -1.05], FIELD, PULL);
    expect(near.on[0]?.kind).toBe('hull');
    expect(near.at[1]).toBeCloseTo(-near.at[0] / 2, 9);
    const both = snapPoint([1.05, -0.45], FIELD, PULL);
    expect(both.at).toEqual([1, -0.5]);
    expect(both.on.map(({ kind }) => kind)).toEqual(['face', 'hull']);
  });
  it('is only rounded where nothing pulls, or with the pull off', () => {
    expect(snapPoint([2.344, 2.346], FIELD, PULL)).toEqual({ at: [2.34, 2.35], on: [] });
    expect(snapPoint([1.0213, 0.4996], FIELD, { pullM: 0, stepM: 0.001 }).at).toEqual([1.021, 0.5]);
  });
});

it('rounds to what a pixel can tell apart', () => {
  // derived: 20 mm are 1.1 px at 55 px/m, 5 mm 1.1 px at 220, 1 mm 1.5 px at 1500
  expect([55, 220, 1500, 3].map(stepFor)).toEqual([0.02, 0.005, 0.001, 0.05]);
});
