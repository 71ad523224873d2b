import type { Region } from '@core/assess/access/reach/posture-region';
import type { Obstruction } from '@core/assess/access/reach/types';
import { type SightAnswer, type SightLimits, sightOf } from '@core/assess/access/sight';
import { UNIT_AXES, type Vec3 } from '@core/base/vec';
import type { Solid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { gap, inner, minus, normalised, outer, type P3, plus, times } from '../../../support/geometry-oracle';
import { box, capsule, cylinder, flip, isInside, mirroredSolid, vHull } from '../../shape/space/scenes';

const around = (...solids: Solid[]): Obstruction[] =>
  solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid }));
/** An oil glass of 20 mm that looks aft, seen within 0.7 m and 45 degrees (NUREG-0700 11.1.2-5 of a display's face; 0.7 m from memory). */
const glass = { at: [0, 0, 0] as Vec3, normal: [-1, 0, 0] as Vec3, radiusM: 0.01 };
const limits: SightLimits = { distanceM: 0.7, angleDeg: 45, mirrorOk: false };
const boxAt = (centre: Vec3, half: Vec3): Region => ({ centre, half, axes: UNIT_AXES });
const ahead = [boxAt([-0.5, 0, 0], [0.05, 0.05, 0.05])];
const look = (solids: Solid[], regions: readonly Region[] = ahead, more: Partial<SightLimits> = {}): SightAnswer =>
  sightOf(glass, regions, around(...solids), { ...limits, ...more });

describe('the eye', () => {
  it('sees what is before it', () => {
    const found = look([]);
    expect(found).toMatchObject({ isSeen: true, share: 1, placesShare: 1, lacks: null, mirror: null, blockers: [] });
    expect(found.distanceM).toBeGreaterThanOrEqual(0.45);
    expect(found.distanceM).toBeLessThanOrEqual(0.56);
    expect(found.rays).toHaveLength(12);
    expect(found.rays.every(({ isFree, stop, by }) => isFree && stop === null && by === null)).toBe(true);
  });
  it('does not see from too far, nor too much aslant, and says which', () => {
    const from = (x: number, y: number) => look([], [boxAt([x, y, 0], [0.001, 0.001, 0.001])]);
    expect(from(-0.69, 0).isSeen).toBe(true);
    expect(from(-0.71, 0)).toMatchObject({ isSeen: false, lacks: 'distance' });
    expect(from(-0.1, 0)).toMatchObject({ isSeen: false, lacks: 'distance' });
    // tan 44 = 0.966, tan 46 = 1.036
    expect(from(-0.4, 0.386).isSeen).toBe(true);
    const aslant = from(-0.4, 0.414);
    expect(aslant).toMatchObject({ isSeen: false, lacks: 'angle' });
    expect(aslant.angleDeg).toBeCloseTo(46, 0);
    expect(look([], [])).toMatchObject({ isSeen: false, lacks: 'place', eye: null });
    // nobody has said which way it looks: no angle is asked for
    expect(sightOf({ ...glass, normal: null }, [boxAt([0.4, 0, 0], [0.01, 0.01, 0.01])], [], limits)).toMatchObject({
      isSeen: true,
      angleDeg: null,
    });
  });
  it('is stopped by a hose before the glass, which is named with where it stops the rays', () => {
    const hose = capsule('h7', [-0.05, -0.5, 0], [-0.05, 0.5, 0], 0.02);
    const found = look([hose]);
    expect(found).toMatchObject({ isSeen: false, lacks: 'blocked' });
    expect(found.blockers[0]?.owner).toBe('h7');
    const stopped = found.rays.filter(({ isFree }) => !isFree);
    expect(stopped.length).toBeGreaterThan(2);
    for (const { stop, by } of stopped) {
      expect(by).toBe('h7');
      expect(Math.abs(gap([stop?.[0] ?? 0, 0, stop?.[2] ?? 0], [-0.05, 0, 0]) - 0.02)).toBeLessThan(2e-4);
    }
    // 50 mm lower it is only in the way of those who look up
    expect(look([capsule('h7', [-0.05, -0.5, -0.06], [-0.05, 0.5, -0.06], 0.02)]).isSeen).toBe(true);
  });
  it('moves to where it sees enough', () => {
    // A board before all but the upper strip of the region: the glass is seen over its edge from the strip alone.
    const board = box('board', [-0.25, 0, -0.24], [0.01, 1, 0.5]);
    const found = look([board], [boxAt([-0.5, 0, 0], [0.05, 0.05, 0.08])]);
    expect(found.isSeen).toBe(true);
    // the edge at z = 0.01 and x = -0.25 hides all below the line from the top of the glass over it
    expect(found.eye?.[2]).toBeGreaterThan(0.015);
    expect(found.placesShare).toBeLessThan(0.5);
    expect(found.placesShare).toBeGreaterThan(0.1);
  });
  it('counts the arm that works, the hull and not the own thing at the glass', () => {
    const arm = around(capsule('arm', [-0.6, 0, 0.01], [-0.06, 0, 0], 0.045));
    expect(look([], ahead, { arms: arm }).isSeen).toBe(false);
    expect(look([], ahead, { arms: arm }).blockers[0]?.owner).toBe('arm');
    const own = box('pump', [0.09, 0, 0], [0.2, 0.2, 0.2]);
    const inset = (id?: string) =>
      sightOf({ ...glass, ...(id === undefined ? {} : { own: id }) }, ahead, around(own), limits).isSeen;
    expect(inset()).toBe(false);
    expect(inset('pump')).toBe(true);
    const out = sightOf(
      { ...glass, at: [4, 0.3, 0], normal: [0, 1, 0] },
      [boxAt([4, 0.7, 0], [0.01, 0.01, 0.01])],
      [],
      {
        ...limits,
        hull: vHull(),
      },
    );
    expect(out.blockers[0]?.owner).toBe('hull');
  });
});

describe('a mirror', () => {
  // The glass looks at a bulkhead 0.2 m away and the eye is above it: nothing is seen but in a mirror.
  const bulkhead = box('bulkhead', [-0.25, 0, 0], [0.1, 1, 1]);
  const above = [boxAt([-0.1, 0, 0.35], [0.03, 0.1, 0.03])];
  it('is its own answer', () => {
    expect(look([bulkhead], above)).toMatchObject({ isSeen: false, mirror: null });
    const found = look([bulkhead], above, { mirrorOk: true });
    expect(found.isSeen).toBe(false);
    const { mirror } = found;
    if (!mirror) throw new Error('no mirror');
    expect(mirror.share).toBeGreaterThanOrEqual(0.8);
    expect(mirror.pathM).toBeLessThanOrEqual(0.7);
    expect(mirror.angleDeg).toBeLessThanOrEqual(45);
    // Law of reflection at its middle; held clear of the bulkhead.
    const [to, from] = [normalised(minus(mirror.eye, mirror.mirror)), normalised(minus(glass.at, mirror.mirror))];
    expect(inner(to, mirror.normal)).toBeCloseTo(inner(from, mirror.normal), 9);
    expect(mirror.mirror[0]).toBeGreaterThan(-0.2 + 0.04 - 1e-9);
    expect(mirror.rays.length % 2).toBe(0);
  });
  it('is not asked for where the eye sees, and not found where no path is short enough', () => {
    expect(look([], ahead, { mirrorOk: true }).mirror).toBeNull();
    expect(look([bulkhead], [boxAt([-0.1, 0, 0.8], [0.03, 0.1, 0.03])], { mirrorOk: true }).mirror).toBeNull();
  });
});

describe('many lockers', () => {
  const roll = dice(21);
  const scene = () => ({
    solids: Array.from({ length: 8 + roll.whole(14) }, (_, k): Solid => {
      const at: Vec3 = [roll.from(-0.45, -0.03), roll.from(-0.25, 0.25), roll.from(-0.25, 0.25)];
      const to: Vec3 = [at[0] + roll.from(-0.2, 0.2), at[1] + roll.from(-0.3, 0.3), at[2] + 0.15];
      const side = (): number => roll.from(0.03, 0.2);
      if (k % 3 === 0) return box(`t${k}`, at, [side(), side(), side()], { yawDeg: roll.from(0, 90) });
      return k % 3 === 1 ? cylinder(`t${k}`, at, to, roll.from(0.02, 0.08)) : capsule(`t${k}`, at, to, 0.02);
    }).filter((solid) => !isInside(solid, [0, 0, 0]) && !isInside(solid, [-0.01, 0, 0])),
    region: boxAt([-0.5, roll.from(-0.1, 0.1), roll.from(-0.1, 0.1)], [0.04, 0.05, 0.05]),
  });
  const scenes = Array.from({ length: 80 }, scene);
  /** Derived: share of 200 rays to the disc that are free, each by points 1 mm apart that are in no solid. */
  const seenShare = (eye: P3, solids: readonly Solid[]): number => {
    const [u, v] = [outer(glass.normal, [0, 0, 1]), [0, 0, 1] as P3];
    let free = 0;
    for (let n = 0; n < 200; n += 1) {
      const r = glass.radiusM * Math.sqrt((n + 0.5) / 200);
      const angle = 2.399963 * n;
      const to = plus(glass.at, plus(times(u, r * Math.cos(angle)), times(v, r * Math.sin(angle))));
      const count = Math.ceil(gap(eye, to) / 1e-3);
      let isFree = true;
      for (let k = 1; k < count - 1 && isFree; k += 1) {
        const p = plus(eye, times(minus(to, eye), k / count));
        isFree = !solids.some((solid) => isInside(solid, p));
      }
      if (isFree) free += 1;
    }
    return free / 200;
  };
  it('tell the share that is seen from the best place to three hundredths', () => {
    let seen = 0;
    for (const { solids, region } of scenes) {
      const found = look(solids, [region]);
      if (!found.isSeen || !found.eye) continue;
      seen += 1;
      if (seen <= 15) expect(Math.abs(found.share - seenShare(found.eye, solids))).toBeLessThan(0.035);
    }
    expect(seen).toBeGreaterThan(25);
    expect(scenes.length - seen).toBeGreaterThan(10);
  });
  it('are seen alike in the mirror and elsewhere', () => {
    for (const { solids, region } of scenes.slice(0, 25)) {
      const found = look(solids, [region], { mirrorOk: true });
      const mirrored = sightOf(
        { ...glass, normal: flip(glass.normal) },
        [{ ...region, centre: flip(region.centre) }],
        around(...solids.map(mirroredSolid)),
        { ...limits, mirrorOk: true },
      );
      expect(mirrored.isSeen).toBe(found.isSeen);
      expect(mirrored.share).toBeCloseTo(found.share, 9);
      expect(mirrored.placesShare).toBeCloseTo(found.placesShare, 9);
      expect(mirrored.blockers).toEqual(found.blockers);
      expect(mirrored.mirror?.share).toEqual(found.mirror?.share);
      const shuffled = sightOf(glass, [region], around(...[...solids].reverse()), { ...limits, mirrorOk: true });
      expect({ ...shuffled, tried: 0 }).toEqual({ ...found, tried: 0 });
    }
  });
});
