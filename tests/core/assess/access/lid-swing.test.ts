import { lidSwing } from '@core/assess/access/lid-swing';
import type { Obstruction } from '@core/assess/access/reach/types';
import type { Vec3 } from '@core/base/vec';
import type { Opening } from '@core/boat/schema/boat';
import { leafOf, openedWalls } from '@core/shape/space/opened-walls';
import type { BoxSolid, Solid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { convexGap, middleOf } from '../../../support/convex-gap';
import { dice } from '../../../support/dice';
import { boxIn, layoutOf } from '../../shape/layout/boats';
import { box, capsule, cylinder, flip, mirroredSolid, vHull } from '../../shape/space/scenes';

const around = (...solids: Solid[]): Obstruction[] =>
  solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid }));
/** A flat lid of 0.6 x 0.4 m at z = 0 that opens upwards; height along x, hinge at its forward side. */
const lid: Opening = {
  name: 'Lid',
  compartment: 'a',
  to: 'outside',
  at: [0, 0, 0],
  normal: [0, 0, 1],
  widthM: 0.6,
  heightM: 0.4,
  shape: 'rectangle',
  how: 'hinged',
  swing: { hingeAlong: 'top', angleDeg: 110 },
  moveFirst: [],
  grade: 'measured',
};
const angle = (opening: Opening, ...solids: Solid[]) => lidSwing('lid', opening, around(...solids), null);
const DEGREE = 180 / Math.PI;

describe('how far a lid opens, derived', () => {
  it('opens as far as it is said to, where nothing is', () => {
    expect(angle(lid)).toMatchObject({ angleDeg: 110, wantedDeg: 110, blocker: null });
    expect(angle({ ...lid, how: 'liftOut' })).toBeNull();
    const { swing: _, ...unsaid } = lid;
    expect(angle(unsaid)).toBeNull();
  });
  it('stops at a shelf over it', () => {
    // The lid turns about x = 0.2; its free edge is 0.4 away with 12 mm of thickness over it: the outer edge is at (0.4, 0.012) about the
    // hinge and reaches 0.3 m up at asin(0.3 / r) - atan(0.012 / 0.4).
    const t = leafOf('lid', lid, { hingeAlong: 'top', angleDeg: 0 }).half[1];
    const shelf = box('shelf', [0, 0, 0.4], [2, 2, 0.2]);
    const found = angle(lid, shelf);
    const expected = DEGREE * (Math.asin(0.3 / Math.hypot(0.4, 2 * t)) - Math.atan2(2 * t, 0.4));
    expect(Math.abs((found?.angleDeg ?? 0) - expected)).toBeLessThan(0.3);
    expect(found?.blocker?.owner).toBe('shelf');
    expect(found?.standing).toMatchObject({ owner: 'lid' });
  });
  it('opens the other way where the shelf leaves room for that', () => {
    // a shelf over the aft part of the lid stops either
    const shelf = box('shelf', [-0.55, 0, 0.2], [1, 2, 0.1]);
    expect(angle(lid, shelf)?.angleDeg).toBeLessThan(110);
    const other: Opening = { ...lid, swing: { hingeAlong: 'top', angleDeg: 110 }, up: [-1, 0, 0] };
    expect(angle(other, shelf)?.angleDeg).toBeLessThan(110);
    const low = box('coaming', [0.35, 0, 0.15], [0.1, 2, 0.3]);
    // forward of the hinge: met beyond the vertical only, by a lid hinged there; never by one hinged aft
    expect(angle(lid, low)?.angleDeg).toBeGreaterThan(90);
    expect(angle(lid, low)?.blocker?.owner).toBe('coaming');
    expect(angle(other, low)).toMatchObject({ angleDeg: 110, blocker: null });
  });
  it('is not stopped by the wall it hangs on, but by the hull', () => {
    const layout = layoutOf({ a: boxIn('plan', [-1, -1, -1], [1, 1, 0]) });
    const walls = openedWalls(layout, { lid }, [-1, -1, -1], [1, 1, 1]).filter(({ owner }) => owner !== 'lid');
    expect(lidSwing('lid', lid, walls, null)).toMatchObject({ angleDeg: 110, blocker: null });
    // hinged below, its free edge would come to y = 0.65 at z = 0.1, where the skin is at 0.6
    const inHull: Opening = {
      ...lid,
      at: [4, 0.45, 0.2],
      normal: [0, 1, 0],
      up: [0, 0, 1],
      heightM: 0.2,
      widthM: 0.2,
      swing: { hingeAlong: 'bottom', angleDeg: 90 },
    };
    const found = lidSwing('lid', inHull, [], vHull());
    expect(found?.blocker?.owner).toBe('hull');
  });
});

const drawnIn = (leaf: BoxSolid): BoxSolid => ({
  ...leaf,
  half: [leaf.half[0] - 5e-4, leaf.half[1] - 5e-4, leaf.half[2] - 5e-4],
});

it('stands free at its angle and on the way there, and meets the blocker a degree on; the same in the mirror', () => {
  const roll = dice(4);
  let stopped = 0;
  let free = 0;
  for (let n = 0; n < 80; n += 1) {
    const things = Array.from({ length: 3 }, (_, k): Solid => {
      const at: Vec3 = [roll.from(-0.5, 0.6), roll.from(-0.5, 0.5), roll.from(0.15, 0.7)];
      const to: Vec3 = [at[0] + roll.from(-0.2, 0.2), at[1] + 0.2, at[2] + 0.1];
      if (k === 0) return box('a', at, [0.1, 0.15, 0.1], { yawDeg: roll.from(0, 90), rollDeg: roll.from(0, 90) });
      return k === 1 ? cylinder('b', at, to, 0.05) : capsule('c', at, to, 0.02);
    }).filter((thing) => convexGap(thing, box('shut', [0, 0, 0.02], [0.4, 0.6, 0.04]), [0, 0, 0]) > 0);
    const found = angle(lid, ...things);
    const mirrored = lidSwing(
      'lid',
      { ...lid, normal: [...flip(lid.normal)] },
      around(...things.map(mirroredSolid)),
      null,
    );
    expect(mirrored?.angleDeg).toBeCloseTo(found?.angleDeg ?? -1, 1);
    expect(mirrored?.blocker?.owner).toBe(found?.blocker?.owner);
    // Derived: drawn in by the touch of half a millimetre, the leaf is clear of everything wherever it is drawn.
    for (const leaf of found?.swept ?? [])
      for (const thing of things)
        expect(convexGap(leaf.type === 'box' ? drawnIn(leaf) : leaf, thing, middleOf(thing))).toBeGreaterThan(0);
    if (!found?.blocker) free += 1;
    else {
      stopped += 1;
      const beyond = angle({ ...lid, swing: { hingeAlong: 'top', angleDeg: found.angleDeg + 1 } });
      const leaf = beyond?.standing;
      expect(leaf && things.some((thing) => convexGap(leaf, thing, middleOf(thing)) === 0)).toBe(true);
    }
  }
  expect(stopped).toBeGreaterThan(25);
  expect(free).toBeGreaterThan(15);
});
