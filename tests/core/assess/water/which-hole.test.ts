import { heelingWaters, immersionOf } from '@core/assess/water/immersion';
import { type Hole, type HoleQuestion, type RunningWater, rankHoles } from '@core/assess/water/which-hole';
import type { Vec3 } from '@core/base/vec';
import { heeled } from '@core/shape/hull/attitude';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { dice } from '../../../support/dice';
import { boxHull } from './hulls';

const LEVEL = { up: [0, 0, 1] as Vec3, levelM: 0 };
const BARE = heelingWaters(LEVEL, null);
const rad = (deg: number): number => (deg * Math.PI) / 180;

const hole = (id: string, at: Vec3, more: Partial<Hole> = {}): Hole => ({
  id,
  at,
  boreM: 0.025,
  use: 'intake',
  isLog: false,
  material: 'bronze',
  valve: 'ball',
  sharedBy: [],
  feedsEngine: false,
  discharges: [],
  reach: { kind: 'reach', distanceM: 0.3, limitM: 0.56, gradeM: 0.02 },
  depthGradeM: 0,
  ...more,
});

const running = (
  ...states: readonly (readonly [number, RunningWater['down'], RunningWater['use']?])[]
): readonly RunningWater[] =>
  states.map(([heelDeg, down, use = 'sailing']) => ({
    name: 'State',
    use,
    heelDeg,
    down,
    water: down === 'upright' ? LEVEL : heeled(LEVEL, heelDeg, down, null),
  }));
const BOTH = (heelDeg: number) => running([0, 'upright'], [heelDeg, 'port'], [heelDeg, 'starboard']);

const asked = (holes: readonly Hole[], more: Partial<HoleQuestion> = {}): HoleQuestion => ({
  holes,
  otherOutlets: [],
  running: running([0, 'upright', 'anchored']),
  heeling: BARE,
  boreM: { intake: 0.019, outlet: 0.013 },
  noHaulOut: false,
  year: null,
  ...more,
});

describe('immersion of a hole about the centreline', () => {
  // Published in the facts of the trade: intake y 1.0, z -0.3; hand arithmetic: 0.3 cos + 1.0 sin, and 0.3 cos - 1.0 sin.
  it.each([
    [0, 0.3, 0.3],
    [10, 0.469, 0.122],
    [20, 0.624, -0.06],
    [30, 0.76, -0.24],
  ])('1.0 m off and 0.3 m deep, at %i degrees: %d m to leeward, %d m to windward (derived)', (deg, lee, wind) => {
    const { curve } = immersionOf([4, 1, -0.3], BARE);
    const at = (heelDeg: number) => curve.find(([heel]) => heel === heelDeg)?.[1];
    expect(at(-deg)).toBeCloseTo(lee, 3);
    expect(at(deg)).toBeCloseTo(wind, 3);
  });

  it('leaves the water at 16.70 degrees: atan(0.3 / 1.0) (derived)', () => {
    const { crossesDeg, uprightM } = immersionOf([4, 1, -0.3], BARE);
    expect(crossesDeg.starboard).toBeCloseTo(16.7, 2);
    expect(crossesDeg.port).toBeNull();
    expect(uprightM).toBeCloseTo(0.3, 12);
  });

  it('0.30 deep and 0.90 off: +.14, +.06, -.03 m at 10, 15 and 20 degrees on the wrong tack (derived)', () => {
    for (const [deg, depth] of [
      [10, 0.139],
      [15, 0.057],
      [20, -0.026],
    ] as const)
      expect(0.3 * Math.cos(rad(deg)) - 0.9 * Math.sin(rad(deg))).toBeCloseTo(depth, 3);
    const { curve } = immersionOf([4, 0.9, -0.3], BARE);
    for (const deg of [10, 15, 20])
      expect(curve.find(([heel]) => heel === deg)?.[1]).toBeCloseTo(
        0.3 * Math.cos(rad(deg)) - 0.9 * Math.sin(rad(deg)),
        9,
      );
  });

  it('between the floated angles a hull is within 0.2 mm of floating it there, a chine that comes out included', () => {
    const surface = hullSurface(boxHull());
    const waters = heelingWaters(LEVEL, surface);
    for (const deg of [1, 7.5, 12.3, 21, 33.3, 44])
      for (const tack of ['port', 'starboard'] as const) {
        const floated = heeled(LEVEL, deg, tack, surface);
        const between = waters.at(tack === 'port' ? -deg : deg);
        expect(Math.abs(between.levelM - floated.levelM)).toBeLessThan(2e-4);
      }
  });
});

/**
 * Seven through-hulls. Depth at heel h with starboard down: -z cos h - y sin h (y to port); with port down: -z cos h + y sin h.
 * At 20 degrees cos .9397, sin .3420; at 10 degrees cos .9848, sin .1736.
 */
const SEVEN: readonly Hole[] = [
  hole('head-intake', [4.0, 1.0, -0.3]), // 10: .122, 20: -.060
  hole('engine', [3.0, -0.6, -0.45]), // 10: .339, 20: .218
  hole('keel', [4.5, 0.1, -0.6]), // 10: .574, 20: .530
  hole('galley', [6.0, 1.1, -0.1]), // 10: -.093, 20: -.282
  hole('deck-wash', [7.5, -0.8, -0.35]), // 10: .206, 20: .055
  hole('bilge', [1.0, -1.2, 0.4]), // above: -.400; 10 lee: -.186, 20 lee: .035
  hole('cockpit', [2.0, 0.9, -0.2]), // 10: .041, 20: -.120
];
const least = (deg: number, y: number, z: number): number => -z * Math.cos(rad(deg)) - Math.abs(y) * Math.sin(rad(deg));

describe('seven through-hulls, as intake', () => {
  it.each([
    [0, ['keel', 'engine', 'deck-wash', 'head-intake', 'cockpit', 'galley', 'bilge']],
    // cockpit has 41 mm left: within the 50 of a chop, so it comes after those with more. galley and bilge are dry.
    [10, ['keel', 'engine', 'deck-wash', 'head-intake', 'cockpit', 'galley', 'bilge']],
    // head-intake -60, cockpit -120, galley -282: dry. deck-wash 55 stays.
    [20, ['keel', 'engine', 'deck-wash', 'head-intake', 'cockpit', 'galley', 'bilge']],
  ])('at %i degrees on both tacks the order follows the shallowest depth (derived)', (deg, order) => {
    const states = deg === 0 ? running([0, 'upright']) : BOTH(deg);
    const { asIntake } = rankHoles(asked(SEVEN, { running: states }));
    expect(asIntake.map(({ id }) => id)).toEqual(order);
    expect(asIntake.map(({ rank }) => rank)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    for (const ranked of asIntake) {
      const { at } = SEVEN.find(({ id }) => id === ranked.id) as Hole;
      expect([ranked.id, ranked.least.depthM.toFixed(9)]).toEqual([ranked.id, least(deg, at[1], at[2]).toFixed(9)]);
    }
  });

  it('says where it runs dry, on which side down, and who is ruled out at 20 degrees', () => {
    const { asIntake } = rankHoles(asked(SEVEN, { running: BOTH(20) }));
    const usable = asIntake.filter(({ isUsable }) => isUsable).map(({ id }) => id);
    expect(usable).toEqual(['keel', 'engine', 'deck-wash']);
    expect(asIntake.find(({ id }) => id === 'head-intake')?.reasons[0]).toMatchObject({
      key: 'dry',
      weight: 'rulesOut',
      data: { heelDeg: 20, down: 'starboard', depthM: expect.closeTo(-0.0601, 4) },
      source: { standing: 'derived' },
    });
  });

  it('asks only for the run-states that were chosen: at anchor nobody minds 20 degrees', () => {
    const { asIntake } = rankHoles(asked(SEVEN));
    expect(asIntake.filter(({ isUsable }) => !isUsable).map(({ id }) => id)).toEqual(['bilge']);
  });

  it('a depth inside its doubt is a close call with its chance', () => {
    const { asIntake } = rankHoles(asked([hole('near', [4, 0, -0.06], { depthGradeM: 0.1 })]));
    expect(asIntake[0]?.reasons.find(({ key }) => key === 'immersed')).toMatchObject({
      weight: 'note',
      closeCall: { gradeM: 0.1, passProbability: [expect.closeTo(0.8315, 3), expect.closeTo(0.9332, 3)] },
    });
  });
});

describe('seven through-hulls, as brine outlet', () => {
  it('the one above the water comes first; at 20 degrees it goes under and says so (derived: -.376 + .410)', () => {
    const upright = rankHoles(asked(SEVEN));
    expect(upright.asOutlet[0]).toMatchObject({ id: 'bilge', reasons: [{ key: 'above' }] });
    const heeledBoat = rankHoles(asked(SEVEN, { running: BOTH(20) }));
    const bilge = heeledBoat.asOutlet.find(({ id }) => id === 'bilge');
    expect(bilge?.reasons.find(({ key }) => key === 'underAtHeel')).toMatchObject({
      data: { down: 'starboard', depthM: expect.closeTo(-0.4 * Math.cos(rad(20)) + 1.2 * Math.sin(rad(20)), 9) },
    });
    expect(heeledBoat.asOutlet[0]?.id).toBe('bilge');
  });

  it('never the hole that the set draws from, and not close ahead of it on its side', () => {
    const ahead = hole('ahead', [5.2, 0.3, 0.1], { use: 'spare' });
    const astern = hole('astern', [3.8, 0.3, 0.1], { use: 'spare' });
    const { asIntake, asOutlet } = rankHoles(asked([hole('in', [4.5, 0.3, -0.4]), ahead, astern]));
    expect(asIntake[0]?.id).toBe('in');
    expect(asOutlet.map(({ id }) => id)).toEqual(['astern', 'ahead', 'in']);
    expect(asOutlet[1]?.reasons).toContainEqual(expect.objectContaining({ key: 'aheadOfIntake' }));
    expect(asOutlet[2]).toMatchObject({ isUsable: false });
  });

  it('a shared drain that goes under backs up; a taken intake is out', () => {
    const drain = hole('drain', [6, 0.9, 0.05], { use: 'outlet', sharedBy: ['sink'], discharges: ['sink'] });
    const taken = hole('taken', [3, -0.5, -0.4], { sharedBy: ['head'] });
    const { asOutlet } = rankHoles(asked([drain, taken], { running: BOTH(15) }));
    expect(asOutlet.find(({ id }) => id === 'drain')?.reasons.map(({ key }) => key)).toContain('backsUp');
    expect(asOutlet.find(({ id }) => id === 'taken')).toMatchObject({ isUsable: false });
  });
});

describe('what else counts', () => {
  const keysOf = (holes: readonly Hole[], id: string, more: Partial<HoleQuestion> = {}) =>
    rankHoles(asked(holes, more))
      .asIntake.find((ranked) => ranked.id === id)
      ?.reasons.map(({ key, weight }) => `${key} ${weight}`) ?? [];

  it('a head outlet is a danger ahead within a metre on the same side, less beside, nothing beyond or across', () => {
    const intake = hole('in', [4, 0.8, -0.4]);
    const outlet = (at: Vec3) => hole('out', at, { use: 'outlet', discharges: ['head'] });
    expect(keysOf([intake, outlet([4.6, 0.8, -0.2])], 'in')).toContain('dischargeAhead danger');
    expect(keysOf([intake, outlet([3.5, 0.8, -0.2])], 'in')).toContain('dischargeNear against');
    expect(keysOf([intake, outlet([5.2, 0.8, -0.2])], 'in').join()).not.toContain('discharge');
    expect(keysOf([intake, outlet([4.2, -0.8, -0.2])], 'in').join()).not.toContain('discharge');
  });

  it('an exhaust counts only where the set runs with the engine on', () => {
    const holes = [
      hole('in', [4, 0.8, -0.4]),
      hole('out', [4.6, 0.8, 0.1], { use: 'outlet', discharges: ['exhaust'] }),
    ];
    expect(keysOf(holes, 'in').join()).not.toContain('discharge');
    expect(keysOf(holes, 'in', { running: running([0, 'upright', 'motoring']) })).toContain('dischargeAhead danger');
  });

  it('what comes out of an outlet close by and was not entered is said not to be known', () => {
    const holes = [hole('in', [4, 0.8, -0.4]), hole('out', [4.6, 0.8, -0.2], { use: 'outlet', discharges: null })];
    expect(keysOf(holes, 'in')).toContain('dischargeUnknown unknown');
  });

  it('a shared engine intake starves the engine while motoring', () => {
    const engine = hole('engine', [3, 0, -0.5], { feedsEngine: true, sharedBy: ['engine'] });
    expect(keysOf([engine], 'engine')).toContain('engineShares against');
    expect(keysOf([engine], 'engine', { running: running([0, 'upright', 'motoring']) })).toContain(
      'engineShares danger',
    );
  });

  it('bore, gate valve, brass, age, reach: each in its own words', () => {
    const keys = (more: Partial<Hole>, question: Partial<HoleQuestion> = {}) =>
      keysOf([hole('h', [3, 0, -0.5], more)], 'h', question);
    expect(keys({ boreM: 0.016 })).toContain('narrow against');
    expect(keys({ valve: 'gate' })).toContain('gateValve against');
    expect(keys({ material: 'brass' })).toContain('brass against');
    expect(keys({ material: undefined })).toContain('materialUnknown unknown');
    expect(keys({ fittedYear: 1988 }, { year: 2026 })).toContain('old note');
    expect(keys({ fittedYear: 2010 }, { year: 2026 })).not.toContain('old note');
    expect(keys({ valve: 'none' })).toContain('noValve against');
    expect(keys({ reach: { kind: 'unknown', enterNext: 'Draw the lid' } })).toContain('reachUnknown unknown');
    expect(keys({ reach: { kind: 'reach', distanceM: 0.7, limitM: 0.56, gradeM: 0.02 } })).toContain(
      'outOfReach danger',
    );
    expect(keys({ reach: { kind: 'reach', distanceM: 0.55, limitM: 0.56, gradeM: 0.02 } })).toContain('inReach note');
  });
});

describe('no haul-out', () => {
  it('is one switch: what needs the boat out of the water falls behind what does not', () => {
    const good = hole('log', [4.2, 0.1, -0.6], { isLog: true, use: 'spare', valve: 'none' });
    const poor = hole('shared', [3, -0.7, -0.2], { sharedBy: ['head', 'deck wash'] });
    const gate = hole('gate', [5, -0.4, -0.5], { valve: 'gate' });
    const free = rankHoles(asked([good, poor, gate]));
    const bound = rankHoles(asked([good, poor, gate], { noHaulOut: true }));
    expect(free.asIntake.every(({ isUsable }) => isUsable)).toBe(true);
    expect(bound.asIntake[0]?.id).toBe('shared');
    expect(
      bound.asIntake
        .filter(({ isUsable }) => !isUsable)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(['gate', 'log']);
    expect(bound.asIntake.find(({ id }) => id === 'gate')?.reasons[0]).toMatchObject({ key: 'needsHaulOut' });
  });

  it('above the water a fitting is changed afloat', () => {
    const high = hole('high', [5, 0.9, 0.3], { valve: 'gate', use: 'spare' });
    const { asOutlet } = rankHoles(asked([high], { noHaulOut: true }));
    expect(asOutlet[0]).toMatchObject({ isUsable: true });
  });
});

describe('any boat', () => {
  const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);
  const scene = (seed: number) => {
    const d = dice(seed);
    const holes = Array.from({ length: 3 + d.whole(6) }, (_, i) =>
      hole(`h${i}`, [d.from(0.5, 9), d.from(-1.4, 1.4), d.from(-0.7, 0.3)], {
        boreM: d.pick([0.013, 0.019, 0.025, 0.038]),
        use: d.pick(['intake', 'outlet', 'spare'] as const),
        valve: d.pick(['none', 'ball', 'gate'] as const),
        material: d.pick(['bronze', 'brass', undefined] as const),
        sharedBy: d.pick([[], [], ['head']]),
        discharges: d.pick([[], ['head'], ['sink'], ['exhaust'], null] as const),
        depthGradeM: d.pick([0, 0.02, 0.1]),
      }),
    );
    const deg = d.pick([0, 10, 15, 20, 30]);
    const down = d.pick(['both', 'port', 'starboard'] as const);
    return { holes, deg, down, use: d.pick(['anchored', 'motoring', 'sailing'] as const) };
  };
  const question = ({ holes, deg, down, use }: ReturnType<typeof scene>, isMirrored = false, noHaulOut = false) => {
    const other = { port: 'starboard', starboard: 'port' } as const;
    const sides = deg === 0 ? [] : down === 'both' ? (['port', 'starboard'] as const) : [down];
    const states = sides.map((side) => [deg, isMirrored ? other[side] : side, use] as const);
    const placed = holes.map((h): Hole => (isMirrored ? { ...h, at: [h.at[0], -h.at[1], h.at[2]] } : h));
    return asked(placed, { running: running([0, 'upright', use], ...states), noHaulOut });
  };

  it.each(SEEDS)('the order is that of the mirrored boat, seed %i', (seed) => {
    const here = rankHoles(question(scene(seed)));
    const there = rankHoles(question(scene(seed), true));
    const told = (ranking: typeof here) =>
      [...ranking.asIntake, ...ranking.asOutlet].map(({ id, rank, isUsable, reasons }) => ({
        id,
        rank,
        isUsable,
        keys: reasons.map(({ key }) => key),
      }));
    expect(told(there)).toEqual(told(here));
    here.asIntake.forEach((ranked, i) => {
      const twin = there.asIntake[i];
      expect(twin?.least.depthM).toBeCloseTo(ranked.least.depthM, 9);
      expect(twin?.immersion.crossesDeg.port ?? 99).toBeCloseTo(ranked.immersion.crossesDeg.starboard ?? 99, 4);
    });
  });

  it.each(SEEDS)(
    'no usable hole stands behind one that is ruled out, and the switch never frees one, seed %i',
    (seed) => {
      const free = rankHoles(question(scene(seed)));
      const bound = rankHoles(question(scene(seed), false, true));
      for (const list of [free.asIntake, free.asOutlet, bound.asIntake, bound.asOutlet]) {
        const firstOut = list.findIndex(({ isUsable }) => !isUsable);
        if (firstOut >= 0) expect(list.slice(firstOut).some(({ isUsable }) => isUsable)).toBe(false);
        for (const { least: shallowest, greatest } of list)
          expect(shallowest.depthM).toBeLessThanOrEqual(greatest.depthM);
      }
      const usable = new Set(free.asIntake.filter(({ isUsable }) => isUsable).map(({ id }) => id));
      for (const { id, isUsable } of bound.asIntake) if (isUsable) expect(usable.has(id)).toBe(true);
    },
  );

  it.each(SEEDS)('does not depend on the order in which the holes are given, seed %i', (seed) => {
    const it = scene(seed);
    const turned = rankHoles(question({ ...it, holes: [...it.holes].reverse() }));
    expect(turned.asIntake.map(({ id }) => id)).toEqual(rankHoles(question(it)).asIntake.map(({ id }) => id));
  });
});
