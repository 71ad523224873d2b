import type { Obstruction } from '@core/assess/access/reach/types';
import { type Withdrawal, type WithdrawalOptions, withdrawalOf } from '@core/assess/access/withdrawal';
import type { Vec3 } from '@core/base/vec';
import type { Solid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { convexGap, middleOf, movedSolid, pointGap } from '../../../support/convex-gap';
import { dice } from '../../../support/dice';
import { normalised, type P3, plus, times } from '../../../support/geometry-oracle';
import { box, capsule, cylinder, flip, mirroredSolid, vHull } from '../../shape/space/scenes';

const DOWN: Vec3 = [0, 0, -1];
const around = (...solids: Solid[]): Obstruction[] =>
  solids.map((solid) => ({ owner: solid.owner, label: solid.label, solid }));
/** A bowl of 130 mm and 180 mm under its head, its upper face at z = 0. */
const bowl = cylinder('bowl', [0, 0, 0], [0, 0, -0.18], 0.065);
const take = (lengthM: number, obstructions: Obstruction[], options: Partial<WithdrawalOptions> = {}): Withdrawal =>
  withdrawalOf(bowl, DOWN, lengthM, obstructions, { tiltOk: false, ...options });

describe('straight withdrawal, derived', () => {
  it('goes as far as the floor lets it', () => {
    const floor = box('sole', [0, 0, -0.35], [1, 1, 0.1]);
    // floor at -0.30, bottom of the bowl at -0.18
    expect(take(0.12 - 1e-6, around(floor))).toMatchObject({ isOut: true, how: 'straight', blocker: null });
    const short = take(0.15, around(floor));
    expect(short.isOut).toBe(false);
    expect(short.freeM).toBeCloseTo(0.12, 5);
    expect(short.blocker?.owner).toBe('sole');
  });
  it('is stopped by the hose that crosses, not by the one beside it', () => {
    const hose = (y: number) => capsule('h1', [-0.5, y, -0.25], [0.5, y, -0.25], 0.02);
    // across the middle of the bottom: 0.25 - 0.02 - 0.18
    expect(take(0.2, around(hose(0))).freeM).toBeCloseTo(0.05, 5);
    expect(take(0.2, around(hose(0))).blocker?.owner).toBe('h1');
    expect(take(0.2, around(hose(0.086))).isOut).toBe(true);
    expect(take(0.2, around(hose(0.084))).isOut).toBe(false);
  });
  it('names what is met first', () => {
    const found = take(
      0.4,
      around(box('far', [0, 0, -0.5], [0.1, 0.1, 0.1]), capsule('near', [-1, 0, -0.3], [1, 0, -0.3], 0.01)),
    );
    expect(found.blocker?.owner).toBe('near');
    expect(found.blocker?.at[2]).toBeCloseTo(-0.29, 4);
  });
  it('sweeps one long solid along itself', () => {
    const [swept, ...more] = take(0.2, []).swept;
    expect(more).toEqual([]);
    expect(swept).toMatchObject({ type: 'cylinder', from: [0, 0, 0], to: [0, 0, -0.38] });
  });
  it('leaves room in the hull', () => {
    const element = box('element', [4, 0, 0.5], [0.4, 0.4, 0.4]);
    const found = withdrawalOf(element, DOWN, 2, [], { tiltOk: false, hull: vHull() });
    // its lower outer edges at y = 0.2 meet z = |y| - 0.5
    expect(Math.abs(found.freeM - 0.6)).toBeLessThan(1e-3);
    expect(found.blocker?.owner).toBe('hull');
  });
  it('takes a fitting out of the skin that it is let into, inboard alone', () => {
    // at y = 0.2 the skin is at z = -0.3: half of the fitting is outside
    const fitting = cylinder('log', [4, 0.2, -0.37], [4, 0.2, -0.23], 0.0275);
    const options = { tiltOk: false, hull: vHull() };
    expect(withdrawalOf(fitting, [0, 0, 1], 0.3, [], options)).toMatchObject({ isOut: true, blocker: null });
    for (const way of [[0, 1, 0] as const, DOWN])
      expect(withdrawalOf(fitting, way, 0.3, [], options)).toMatchObject({ isOut: false, freeM: 0 });
  });
});

describe('tilted withdrawal', () => {
  const floor = box('sole', [0, 0, -0.37], [2, 2, 0.1]);
  const wall = (id: string, at: Vec3, size: Vec3) => box(id, at, size);
  it('takes a bowl out sideways from over a floor that is too near', () => {
    const found = take(0.18, around(floor), { tiltOk: true, dropM: 0.03 });
    expect(found).toMatchObject({ isOut: true, how: 'tilted' });
    // drop of at most the 0.14 m to the floor
    expect(found.tilted?.dropM).toBeLessThanOrEqual(0.14 + 1e-6);
    expect(found.tilted?.sidewaysM).toBeCloseTo(0.13, 6);
    expect(take(0.18, around(floor), { tiltOk: false })).toMatchObject({ isOut: false, how: null, tilted: null });
  });
  it('does not where walls stand all round', () => {
    const pit = around(
      floor,
      wall('fore', [0.12, 0, -0.2], [0.1, 1, 0.6]),
      wall('aft', [-0.12, 0, -0.2], [0.1, 1, 0.6]),
      wall('port', [0, 0.12, -0.2], [1, 0.1, 0.6]),
      wall('starboard', [0, -0.12, -0.2], [1, 0.1, 0.6]),
    );
    const stuck = take(0.18, pit, { tiltOk: true, dropM: 0.03 });
    expect(stuck).toMatchObject({ isOut: false, tilted: null });
    expect(stuck.beside.map(({ owner }) => owner).sort()).toEqual(['aft', 'fore', 'port', 'starboard']);
    // and does again where one of them is away
    const open = pit.filter(({ owner }) => owner !== 'fore');
    expect(take(0.18, open, { tiltOk: true, dropM: 0.03 })).toMatchObject({ isOut: true, how: 'tilted' });
  });
  it('does not where it cannot come out of its head', () => {
    const high = box('shelf', [0, 0, -0.25], [2, 2, 0.1]);
    expect(take(0.18, around(high), { tiltOk: true, dropM: 0.03 })).toMatchObject({ isOut: false, tilted: null });
  });
  it('finds ways whose every place is free, and the same in the mirror', () => {
    const roll = dice(15);
    let ways = 0;
    let none = 0;
    for (let n = 0; n < 40; n += 1) {
      const things = Array.from({ length: 4 }, (_, k) => {
        const at: Vec3 = [roll.from(-0.3, 0.3), roll.from(-0.3, 0.3), roll.from(-0.35, -0.05)];
        const side = (): number => roll.from(0.05, 0.2);
        return box(`b${k}`, at, [side(), side(), side()], { yawDeg: roll.from(0, 90) });
      }).filter((thing) => convexGap(thing, bowl, [0, 0, -0.1]) > 0.002);
      const all = [...things, floor];
      const found = take(0.2, around(...all), { tiltOk: true, dropM: 0.03 });
      const mirrored = withdrawalOf(mirroredSolid(bowl), flip(DOWN), 0.2, around(...all.map(mirroredSolid)), {
        tiltOk: true,
        dropM: 0.03,
      });
      expect({ out: mirrored.isOut, how: mirrored.how, tilt: mirrored.tilted?.tiltDeg }).toEqual({
        out: found.isOut,
        how: found.how,
        tilt: found.tilted?.tiltDeg,
      });
      if (!found.isOut) none += 1;
      if (found.how !== 'tilted') continue;
      ways += 1;
      for (const place of found.swept)
        for (const thing of all) {
          // Derived: at every place that is drawn nothing is overlapped by more than a touch.
          const shrunk = place.type === 'box' ? place : { ...place, radius: place.radius - 5e-4 };
          const ends: P3[] = place.type === 'box' ? [place.centre] : [place.from, place.to];
          expect(Math.min(...ends.map((p) => pointGap(thing, p)))).toBeGreaterThan(0);
          expect(convexGap(shrunk, thing, middleOf(thing))).toBeGreaterThan(0);
        }
    }
    expect(ways).toBeGreaterThan(8);
    expect(none).toBeGreaterThan(3);
  });
});

describe('free distance against steps of half a millimetre', () => {
  it('is that of an independent walk for boxes, cylinders and hoses', () => {
    const roll = dice(9);
    let blocked = 0;
    let clear = 0;
    for (let n = 0; n < 60; n += 1) {
      const body: Solid =
        roll.next() < 0.5
          ? box('p', [0, 0, 0], [roll.from(0.05, 0.2), roll.from(0.05, 0.2), roll.from(0.05, 0.3)], {
              yawDeg: roll.from(0, 90),
            })
          : cylinder('p', [0, 0, 0], [0, 0, -roll.from(0.1, 0.3)], roll.from(0.03, 0.1));
      const direction = normalised([roll.from(-0.3, 0.3), roll.from(-0.3, 0.3), -1]);
      const things = Array.from({ length: 3 }, (_, k): Solid => {
        const at: Vec3 = [roll.from(-0.25, 0.25), roll.from(-0.25, 0.25), roll.from(-0.7, -0.45)];
        if (k === 0) return box('a', at, [0.2, 0.1, 0.15], { yawDeg: roll.from(0, 90), rollDeg: roll.from(0, 90) });
        const to = plus(at, [roll.from(-0.3, 0.3), roll.from(-0.3, 0.3), 0.05]);
        return k === 1 ? cylinder('b', at, to, 0.06) : capsule('c', at, to, 0.015);
      });
      const found = withdrawalOf(body, direction, 0.4, around(...things), { tiltOk: false });
      const met = (t: number): boolean =>
        things.some((thing) => convexGap(movedSolid(body, times(direction, t)), thing, middleOf(thing)) === 0);
      let t = 0;
      while (t < 0.4 && !met(t)) t += 2e-3;
      let free = Math.max(0, t - 2e-3);
      while (free < Math.min(t, 0.4) && !met(free)) free += 5e-5;
      if (t >= 0.4) clear += 1;
      else blocked += 1;
      if (t >= 0.4) expect(found.freeM).toBeGreaterThan(0.4 - 1e-3);
      else expect(Math.abs(found.freeM - free)).toBeLessThan(2e-4);
    }
    expect(blocked).toBeGreaterThan(20);
    expect(clear).toBeGreaterThan(15);
  });
});
