import { canPass, type GettingIn, gettingIn } from '@core/assess/access/getting-in/getting-in';
import { carriedWay, WayRoom } from '@core/assess/access/getting-in/way-room';
import type { Pose, Vec3 } from '@core/base/vec';
import type { Opening, Shape } from '@core/boat/schema/boat';
import { opening as openingSchema } from '@core/boat/schema/interior';
import { ballMayPass } from '@core/shape/space/carrying/ball-path';
import { toFrame } from '@core/shape/space/carrying/way-frame';
import type { BoxSolid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { boxIn, layoutOf } from '../../../shape/layout/boats';
import { cluttered } from './cluttered';
import { carriedIn, emptyScene, type LockerScene, roomFor } from './lockers';
import { firstStop } from './retrace';

/** GETTING_IN_SEED: other scenes. */
const SEED = Number(process.env.GETTING_IN_SEED ?? 4000);

const box = (x: number, y: number, z: number): Shape => ({ type: 'box', sizeM: [x, y, z] });
const rod = (diameterM: number, lengthM: number): Shape => ({ type: 'cylinder', axis: 'x', diameterM, lengthM });
const pose = (at: Vec3, yawDeg = 0): Pose => ({ at, yawDeg, pitchDeg: 0, rollDeg: 0 });
const thing = (id: string, centre: Vec3, sides: Vec3): BoxSolid => ({
  type: 'box',
  id,
  owner: id,
  label: id,
  layer: 'furnishing',
  centre,
  half: [sides[0] / 2, sides[1] / 2, sides[2] / 2],
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
});
/** A locker 1 x 0.8 x 0.6 m with a door of 400 x 300 in the middle of its front, 1.2 m before what faces it. */
const locker = (more: Partial<LockerScene>): LockerScene => ({
  sizeM: [1, 0.8, 0.6],
  beforeM: 1.2,
  opening: { at: [0.5, 0.3], widthM: 0.4, heightM: 0.3 },
  shape: box(0.3, 0.2, 0.2),
  pose: pose([0.5, 0.4, 0.3]),
  clutter: [],
  ...more,
});

const outcomes = (answer: GettingIn): string =>
  answer.outcome === 'goesIn'
    ? `goesIn ${answer.how}`
    : answer.outcome === 'cannot'
      ? `cannot ${answer.proof}`
      : 'notFound';

describe('a part carried to its place', () => {
  it('goes straight in, with what the opening leaves on both sides to spare: 400 - 300 and 300 - 200 (derived)', () => {
    const found = carriedIn(locker({}), 0);
    expect(outcomes(found)).toBe('goesIn straight');
    if (found.outcome !== 'goesIn') return;
    expect(found.gate).toMatchObject({ owner: 'door', spareM: expect.closeTo(0.1, 9) });
    expect(found.moves.at(-1)).toEqual(pose([0.5, 0.4, 0.3]));
    expect(found.openings).toEqual(['door']);
  });

  it('is led before the opening from behind the side wall, off the shelf that it stands on', () => {
    const found = carriedIn(locker({ pose: pose([0.16, 0.69, 0.1]) }), 0);
    expect(outcomes(found)).toBe('goesIn straight');
    expect(found.outcome === 'goesIn' && firstStop(locker({}), found.moves, 2.5e-4)).toBe(null);
  });

  it('fits to a hair, and is proved not to when the hair is missing', () => {
    expect(outcomes(carriedIn(locker({ shape: box(0.4, 0.3, 0.3) }), 0))).toBe('goesIn straight');
    expect(carriedIn(locker({ shape: box(0.4, 0.301, 0.301) }), 0)).toMatchObject({
      outcome: 'cannot',
      proof: 'side',
      opening: 'door',
      missingM: expect.closeTo(0.001, 9),
    });
  });

  it('is turned in its locker where only turned it passes: 380 x 280 x 450 standing across (derived)', () => {
    const scene = locker({ shape: box(0.45, 0.28, 0.38), pose: pose([0.5, 0.4, 0.25]) });
    const found = carriedIn(scene, 2000);
    expect(outcomes(found)).toBe('goesIn turned');
    if (found.outcome !== 'goesIn') return;
    expect(found.tiltDeg).toBeGreaterThan(80);
    expect(firstStop(scene, found.moves, 2.5e-4)).toBe(null);
    expect(outcomes(carriedIn(scene, 0))).toBe('notFound');
  });

  it('minds what faces the opening: a vessel of 1 m end on needs a metre before it (derived)', () => {
    const vessel = (beforeM: number): LockerScene =>
      locker({
        sizeM: [0.3, 1.1, 0.3],
        opening: { at: [0.15, 0.15], widthM: 0.13, heightM: 0.13 },
        shape: rod(0.12, 1),
        pose: pose([0.15, 0.55, 0.15], 90),
        beforeM,
      });
    expect(outcomes(carriedIn(vessel(1.03), 0))).toBe('goesIn straight');
    expect(outcomes(carriedIn(vessel(0.7), 1000))).toBe('notFound');
  });

  it('goes by a round opening when its diagonal does: 120 x 90 in 151 (derived)', () => {
    const scene = (diameterM: number): LockerScene =>
      locker({
        opening: { at: [0.5, 0.3], widthM: diameterM, heightM: diameterM, isRound: true },
        shape: box(0.12, 0.3, 0.09),
      });
    expect(outcomes(carriedIn(scene(0.152), 0))).toBe('goesIn straight');
    expect(outcomes(carriedIn(scene(0.149), 0))).toBe('cannot diagonal');
  });

  it('says who stands at its place', () => {
    const taken = carriedIn(locker({ clutter: [thing('tank', [0.6, 0.4, 0.3], [0.2, 0.2, 0.2])] }), 0);
    expect(taken).toMatchObject({ outcome: 'cannot', proof: 'placeTaken', by: { owner: 'tank' } });
    expect(outcomes(carriedIn(locker({ shape: box(1.1, 0.2, 0.2) }), 0))).toBe('cannot placeTaken');
  });

  it('is proved not to pass a gap that its own ball does not pass, and passes one that is 10 mm wider than it', () => {
    // derived: two partitions from wall to wall leave a gap over the whole height; the part is a cube of 260.
    const behind = (gapM: number): LockerScene =>
      locker({
        sizeM: [1, 1.2, 0.6],
        shape: box(0.26, 0.26, 0.26),
        pose: pose([0.5, 1, 0.3]),
        clutter: [
          thing('left', [(1 - gapM) / 4, 0.6, 0.3], [(1 - gapM) / 2, 0.1, 0.6]),
          thing('right', [1 - (1 - gapM) / 4, 0.6, 0.3], [(1 - gapM) / 2, 0.1, 0.6]),
        ],
      });
    expect(outcomes(carriedIn(behind(0.27), 2000))).toBe('goesIn straight');
    const stuck = carriedIn(behind(0.16), 2000);
    expect(stuck).toMatchObject({ outcome: 'cannot', proof: 'ball' });
    // 100 mm are missing; cells of 30 mm see all but 52 of it.
    const missingM = stuck.outcome === 'cannot' ? (stuck.missingM ?? 0) : 0;
    expect(missingM).toBeGreaterThan(0.03);
    expect(missingM).toBeLessThanOrEqual(0.1);
    expect(outcomes(carriedIn(behind(0.24), 2000))).toBe('notFound');
  });

  it('tells what would help where nothing was found', () => {
    const barred = locker({
      shape: box(0.36, 0.26, 0.26),
      pose: pose([0.5, 0.6, 0.3]),
      clutter: [thing('tank', [0.5, 0.2, 0.05], [1, 0.1, 0.16]), thing('rail', [0.5, 0.2, 0.5], [1, 0.1, 0.21])],
    });
    expect(carriedIn(barred, 600, { explains: true })).toMatchObject({
      outcome: 'notFound',
      ifEmpty: true,
      ifSmaller: true,
      opening: 'door',
    });
  });

  it('keeps the room that is wanted where there is that much', () => {
    // derived: 20 mm beside a rail on the one side, 300 on the other; in the middle of the door it would pass 50 from the rail
    const railed = locker({
      shape: box(0.2, 0.2, 0.2),
      pose: pose([0.5, 0.65, 0.3]),
      clutter: [thing('rail', [0.34, 0.3, 0.3], [0.08, 0.2, 0.6])],
    });
    const plain = carriedIn(railed, 0);
    const wanted = carriedIn(railed, 0, { wantedM: 0.08 });
    expect(plain.outcome === 'goesIn' && plain.beside).toMatchObject({
      owner: 'rail',
      spareM: expect.closeTo(0.04, 6),
    });
    if (wanted.outcome !== 'goesIn') throw new Error('expected a way');
    expect(Math.min(wanted.gate.spareM, wanted.beside?.spareM ?? 1)).toBeGreaterThanOrEqual(0.08 - 1e-6);
  });
});

describe('through several openings', () => {
  const compartments = {
    cabin: boxIn('plan', [0, -1.5, 0], [1.2, 0, 2], { kind: 'cabin' }),
    bench: boxIn('plan', [0, 0, 0], [1.2, 0.6, 0.6], { kind: 'locker' }),
    void: boxIn('plan', [0, 0.6, 0], [1.2, 1.2, 0.6], { kind: 'void' }),
  };
  const layout = layoutOf(compartments);
  const kindOf = (id: string): string => (id === 'cabin' ? 'cabin' : 'locker');
  const hole = (more: Record<string, unknown>): Opening =>
    openingSchema.parse({ name: 'hole', normal: [0, -1, 0], widthM: 0.4, heightM: 0.4, ...more });
  const openings = {
    front: hole({ compartment: 'bench', to: 'cabin', at: [0.4, 0, 0.3] }),
    // drawn from the other side: it opens the bench towards the void
    board: hole({ compartment: 'bench', to: 'void', at: [0.8, 0.6, 0.3], normal: [0, 1, 0], widthM: 0.35 }),
  };
  const way = carriedWay(layout, openings, ['front', 'board'], 'void');

  it('turns the openings as they are met', () => {
    expect(way?.passed.map(({ id, into, from }) => [id, into, from])).toEqual([
      ['front', 'bench', 'cabin'],
      ['board', 'void', 'bench'],
    ]);
    expect(way?.passed[1]?.opening.normal).toEqual([0, -1, 0]);
    expect(carriedWay(layout, openings, ['board'], 'bench')?.passed[0]?.from).toBe('void');
    expect(carriedWay(layout, openings, ['board', 'front'], 'void')).toBe(null);
  });

  it('goes through one after the other, the tightest named', () => {
    if (!way) throw new Error('expected a way');
    const room = new WayRoom(way, { layout, hull: null, kindOf }, []);
    const found = gettingIn({ shape: box(0.3, 0.3, 0.2), pose: pose([0.6, 0.9, 0.2]) }, room, { looks: 0, seed: 's' });
    expect(found).toMatchObject({
      outcome: 'goesIn',
      openings: ['front', 'board'],
      gate: { owner: 'board', spareM: expect.closeTo(0.05, 9) },
    });
    // Outside first, the place last; somewhere between it stands in the bench.
    const moves = found.outcome === 'goesIn' ? found.moves : [];
    expect(moves[0]?.at[1]).toBeLessThan(-0.15);
    expect(moves.some(({ at }) => at[1] > 0.15 && at[1] < 0.45)).toBe(true);
    const long = gettingIn({ shape: box(0.3, 0.3, 0.7), pose: pose([0.6, 0.9, 0.3]) }, room, { looks: 0, seed: 's' });
    expect(long).toMatchObject({ outcome: 'cannot', proof: 'placeTaken' });
  });

  it('tells by sizes alone which opening decides', () => {
    if (!way) throw new Error('expected a way');
    expect(canPass(box(0.3, 0.3, 0.5), way.passed)).toMatchObject({ opening: 'board', passage: { outcome: 'passes' } });
    expect(canPass(box(0.38, 0.38, 0.38), way.passed)).toMatchObject({
      opening: 'board',
      passage: { outcome: 'cannot' },
    });
    expect(canPass(box(0.45, 0.45, 0.45), way.passed)).toMatchObject({ passage: { outcome: 'cannot' } });
  });
});

/** Scenes for which a way is known: found in the empty locker, which is then filled beside it. */
function builtScenes(
  from: number,
  wanted: number,
): { seed: number; scene: LockerScene; moves: readonly Pose[]; isTurned: boolean }[] {
  const found: { seed: number; scene: LockerScene; moves: readonly Pose[]; isTurned: boolean }[] = [];
  for (let seed = from; seed < from + 10 * wanted && found.length < wanted; seed += 1) {
    const scene = emptyScene(seed);
    const straight = carriedIn(scene, 0);
    const empty = straight.outcome === 'notFound' ? carriedIn(scene, 1500) : straight;
    if (empty.outcome !== 'goesIn') continue;
    found.push({
      seed,
      scene: cluttered(scene, empty.moves, seed),
      moves: empty.moves,
      isTurned: empty.how === 'turned',
    });
  }
  return found;
}

describe('scenes with a way that is known', () => {
  const scenes = builtScenes(SEED, 14);

  it('are of both kinds, and hold what stands in the way', () => {
    expect(scenes.length).toBe(14);
    expect(scenes.filter(({ isTurned }) => isTurned).length).toBeGreaterThan(2);
    expect(scenes.reduce((sum, { scene }) => sum + scene.clutter.length, 0)).toBeGreaterThan(50);
  });

  it('were found ways that hold when gone over again half a millimetre at a time', () => {
    expect(scenes.flatMap(({ scene, moves }) => firstStop(scene, moves, 2.5e-4) ?? [])).toEqual([]);
  });

  it('are found again among what stands there: nine of ten, every one gone over again, none proved impossible', () => {
    const found = scenes.map(({ scene, seed }) => ({ seed, scene, answer: carriedIn(scene, 4000) }));
    expect(found.filter(({ answer }) => answer.outcome === 'cannot')).toEqual([]);
    expect(found.filter(({ answer }) => answer.outcome === 'goesIn').length).toBeGreaterThanOrEqual(13);
    const slips = found.flatMap(({ seed, scene, answer }) => {
      const stop = answer.outcome === 'goesIn' ? firstStop(scene, answer.moves, 2.5e-4) : null;
      return stop ? [`${seed}: ${stop}`] : [];
    });
    expect(slips).toEqual([]);
  });

  it('have room for the ball, so that nothing is proved against them', () => {
    const against = scenes.filter(({ scene }) => {
      const stage = roomFor(scene).forProof(scene.pose.at);
      const sides = scene.shape.type === 'box' ? scene.shape.sizeM : [scene.shape.diameterM, scene.shape.lengthM];
      return !ballMayPass(stage.room, Math.min(...sides) / 2, toFrame(stage.frame, scene.pose.at), stage);
    });
    expect(against).toEqual([]);
  });

  it('give the same answer in a mirror, farther forward, and whatever order the things are in', () => {
    const said = (answer: GettingIn): unknown =>
      answer.outcome === 'goesIn'
        ? [
            outcomes(answer),
            answer.moves.length,
            Math.round(answer.gate.spareM * 1e6),
            Math.round(answer.tiltDeg * 1e3),
          ]
        : answer;
    for (const { scene } of scenes.slice(0, 8)) {
      const plain = said(carriedIn(scene, 1500));
      expect(said(carriedIn(scene, 1500, { seen: { isMirrored: true } }))).toEqual(plain);
      expect(said(carriedIn(scene, 1500, { seen: { shiftM: 3.2 } }))).toEqual(plain);
      expect(said(carriedIn({ ...scene, clutter: [...scene.clutter].reverse() }, 1500))).toEqual(plain);
    }
  });
});
