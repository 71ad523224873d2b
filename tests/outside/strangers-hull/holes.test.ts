import type { HoleRanking } from '@core/assess/water/which-hole';
import { readBoat } from '@core/boat/read';
import { Session } from '@core/engine/session';
import { describe, expect, it } from 'vitest';
import { wigley } from '../../support/hull-shapes';

/*
 * Seven equal through-hulls, by hand. A point y to port and z over the water line lies, with the boat heeled by h about that line,
 * z cos h - y sin h over the water where its own side goes down (derived: rotation), less the lift of the line by which the
 * hull keeps its displacement. Lifts of Wigley's hull 9 x 3 x 0.6 m with upright sides: -4.493 mm at 10 and -29.054 mm at 20
 * degrees along the boat's own upright (derived: two independent integrations of the closed form).
 */
const HOLES: Readonly<Record<string, readonly [x: number, y: number, z: number]>> = {
  keelside: [4.2, 0.2, -0.5],
  log: [5.6, -0.35, -0.42],
  galley: [3.6, 0.9, -0.3],
  head: [6.2, -0.7, -0.25],
  quarter: [2.4, -1.0, -0.12],
  engine: [3.0, 0.55, -0.36],
  drain: [2.6, 1.15, -0.05],
};
const LIFT_M: Readonly<Record<number, number>> = { 0: 0, 10: -0.004493, 20: -0.029054 };
const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Metres under water with `heelDeg` to starboard; negative: to port. */
function depthByHand(y: number, z: number, heelDeg: number, floats: boolean): number {
  const h = rad(heelDeg);
  const lift = floats ? (LIFT_M[Math.abs(heelDeg)] ?? Number.NaN) : 0;
  // Starboard down lifts the port side: y counts up.
  return -((z - lift) * Math.cos(h) + y * Math.sin(h));
}

function ranked(floats: boolean, mirrored = false, demands: object = {}): HoleRanking {
  const fixtures = Object.fromEntries(
    Object.entries(HOLES).map(([id, [x, y, z]]) => [
      id,
      {
        name: id,
        kind: 'skinFitting',
        shape: { type: 'box', sizeM: [0.05, 0.05, 0.05] },
        pose: { at: [x, mirrored ? -y : y, z] },
        opensToSea: { at: [0, 0, 0], boreM: 0.025, use: 'spare', material: 'bronze' },
      },
    ]),
  );
  const read = readBoat(
    JSON.stringify({
      format: 'underberth-boat',
      schemaVersion: 1,
      name: 'Seven holes',
      ...(floats ? { hull: wigley(9, 3, 0.6, 21, 15, 1.5) } : {}),
      fixtures,
      demands,
      runStates: { sailing: { name: 'Sailing', use: 'sailing', heelDeg: 20 } },
    }),
  );
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return new Session(read.boat).holes(2026);
}

describe('seven through-hulls', () => {
  it.each([false, true])('lie as deep as by hand at 0, 10 and 20 degrees on both tacks (with a hull: %s)', (floats) => {
    const { asIntake, asOutlet } = ranked(floats);
    expect(asIntake).toHaveLength(7);
    expect(asOutlet).toHaveLength(7);
    for (const { id, immersion } of asIntake) {
      const [, y, z] = HOLES[id] ?? [0, 0, 0];
      for (const heelDeg of [-20, -10, 0, 10, 20]) {
        const depthM = immersion.curve.find(([heel]) => heel === heelDeg)?.[1];
        const byHandM = depthByHand(y, z, heelDeg, floats);
        expect(Math.abs((depthM ?? Number.NaN) - byHandM), `${id} at ${heelDeg}`).toBeLessThan(2e-4);
      }
    }
  });

  it.each([false, true])('are in order of the least depth as intakes, all else equal (with a hull: %s)', (floats) => {
    const least = ([, y, z]: readonly [number, number, number]): number =>
      Math.min(...[-20, 0, 20].map((heelDeg) => depthByHand(y, z, heelDeg, floats)));
    const usable = ranked(floats).asIntake.filter(({ isUsable }) => isUsable);
    const byHand = Object.entries(HOLES)
      .map(([id, at]) => [id, least(at)] as const)
      .filter(([, depthM]) => depthM > 0)
      .sort((a, b) => b[1] - a[1]);
    expect(usable.map(({ id }) => id)).toEqual(byHand.map(([id]) => id));
    for (const { id, least: told } of usable) {
      expect(Math.abs(told.depthM - (byHand.find(([other]) => other === id)?.[1] ?? Number.NaN))).toBeLessThan(2e-4);
    }
  });

  it('keep their order on a mirrored boat', () => {
    const order = (mirrored: boolean, role: 'asIntake' | 'asOutlet') =>
      ranked(true, mirrored)[role].map(({ id }) => id);
    for (const role of ['asIntake', 'asOutlet'] as const) expect(order(true, role)).toEqual(order(false, role));
  });

  it('need a seacock each, which is a haul-out: a remark, until the owner will have none', () => {
    // derived: no valve shuts any of the seven, and each is under water upright, where no seacock is fitted afloat
    const withKey = ({ asIntake }: HoleRanking, key: string) =>
      asIntake.flatMap(({ id, reasons }) => (reasons.some((reason) => reason.key === key) ? [id] : [])).sort();
    const all = Object.keys(HOLES).sort();
    const free = ranked(true);
    const demanded = ranked(true, false, { stay: { kind: 'noHaulOut' } });
    expect(withKey(free, 'haulOut')).toEqual(all);
    expect(free.asIntake.some(({ isUsable }) => isUsable)).toBe(true);
    expect(withKey(demanded, 'needsHaulOut')).toEqual(all);
    expect(demanded.asIntake.filter(({ isUsable }) => isUsable)).toEqual([]);
  });
});
