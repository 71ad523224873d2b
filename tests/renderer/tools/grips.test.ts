import type { Prismatic } from '@core/boat/interior/placing';
import { PLAN, PROFILE, SECTION } from '@core/output/views/drawing';
import { cornerGrips, faceGrips, frontFace, gripAt } from '@renderer/tools/grips';
import { describe, expect, it } from 'vitest';

/** 2 m long, 1 m wide to port of the centreline, 0.5 m high, drawn in plan. */
const BOX: Prismatic = {
  view: 'plan',
  outline: [
    [3, 0],
    [5, 0],
    [5, 1],
    [3, 1],
  ],
  rangeM: [-0.2, 0.3],
  yawDeg: 0,
};

describe('grips of a compartment', () => {
  it('are the four faces that a view shows edge on, in every view', () => {
    const keys = (frame: typeof PLAN) =>
      faceGrips(BOX, frame)
        .map(({ key }) => key)
        .sort();
    expect(keys(PLAN)).toEqual(['side0', 'side1', 'side2', 'side3']);
    expect(keys(PROFILE)).toEqual(['high', 'low', 'side1', 'side3']);
    expect(keys(SECTION)).toEqual(['high', 'low', 'side0', 'side2']);
  });
  it('have corners only where the outline is drawn', () => {
    expect(cornerGrips(BOX, PLAN).map(({ at }) => at)).toEqual([
      [3, 0],
      [5, 0],
      [5, 1],
      [3, 1],
    ]);
    expect(cornerGrips(BOX, PROFILE)).toEqual([]);
  });
  it('look outwards on paper; in a section port is on the left', () => {
    const high = faceGrips(BOX, PROFILE).find(({ key }) => key === 'high');
    expect(high?.normal).toEqual([0, 1]);
    const port = faceGrips(BOX, SECTION).find(({ key }) => key === 'side2');
    expect(port?.normal.map((v) => v + 0)).toEqual([-1, 0]);
    expect(port?.a[0]).toBe(-1);
  });
  it('of a turned one are its sides in plan, and no side but the ends of its range in profile', () => {
    const turned = { ...BOX, yawDeg: 30 };
    expect(faceGrips(turned, PLAN)).toHaveLength(4);
    expect(
      faceGrips(turned, PROFILE)
        .map(({ key }) => key)
        .sort(),
    ).toEqual(['high', 'low']);
  });
  it('are taken by what is near: a corner before its faces', () => {
    const scale = 100;
    expect(gripAt(BOX, PLAN, [5.03, 0.02], scale)).toMatchObject({ kind: 'corner', corner: 1 });
    expect(gripAt(BOX, PLAN, [5.03, 0.5], scale)).toMatchObject({ kind: 'face', key: 'side1' });
    expect(gripAt(BOX, PLAN, [4, 0.5], scale)).toBeNull();
  });
  it('the face that looks at the eye is the top in plan, starboard in profile and the after end in section', () => {
    expect([PLAN, PROFILE, SECTION].map((frame) => frontFace(BOX, frame)?.key)).toEqual(['high', 'side0', 'side3']);
  });
});
