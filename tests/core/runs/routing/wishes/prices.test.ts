import { readBoat } from '@core/boat/read';
import { layout } from '@core/engine/shape-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { Prim, RoutingView } from '@core/runs/routing/types';
import { COST_FIELDS, NO_WISHES, type RunWishes } from '@core/runs/routing/wishes/wishes';
import { zonesOfRooms, zonesOfThing } from '@core/runs/routing/wishes/zones';
import { World } from '@core/runs/routing/world';
import type { CapsuleSolid } from '@core/shape/space/solids';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../../../support/boats';
import { plainBox, plainLead, plainLine } from '../../../../support/plain-hose';

/** A hold of 6 x 4 x 4 m about the origin, nothing in it. */
const read = readBoat(
  JSON.stringify({
    ...emptyBoat(),
    compartments: {
      hold: {
        name: 'Hold',
        view: 'plan',
        outline: [
          [-3, -2],
          [3, -2],
          [3, 2],
          [-3, 2],
        ],
        rangeM: [-2, 2],
      },
    },
  }),
);
if (!read.ok) throw new Error('no hold');
const hold = new Store(sourceOf(read.boat)).read(layout);

const R = 0.01;
const lead = plainLead([0, 0, 0], [1, 0, 0], R, { thing: '', port: '' });
const straight = (from: readonly [number, number, number], to: readonly [number, number, number]): Prim => ({
  kind: 'line',
  from,
  to,
});

/** What a straight hose pays in the hold, by term. */
function bill(
  prims: readonly Prim[],
  wishes: Partial<RunWishes>,
  view: Partial<RoutingView> = {},
): Readonly<Record<string, number>> {
  const line = plainLine(lead, lead, { radiusM: R, bendRadiusM: 0.1 }, { wishes: { ...NO_WISHES, ...wishes } });
  const all: RoutingView = {
    layout: hold,
    hull: null,
    up: [0, 0, 1],
    thingsIn: () => [],
    runsIn: () => [],
    ...view,
  };
  return { ...new World(all, line).prices.bill(prims, 0) };
}

const thing = (kind: string, more: object = {}) => ({
  name: kind,
  kind,
  shape: { type: 'box', sizeM: [0.4, 0.4, 0.4] },
  massKg: 0,
  ports: {},
  services: {},
  sweeps: {},
  ...more,
});
const pose = { at: [0, 0, 0] as const, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
const zonesAbout = (kind: string, more: object = {}) =>
  zonesOfThing('t', thing(kind, more) as unknown as Parameters<typeof zonesOfThing>[1], pose, hold);

// All expected values are derived: a price times what stands beside it.
describe('what a straight hose pays', () => {
  it('for hanging free: nothing within 50 mm of a wall, all beyond 200, half of it half way', () => {
    const over = (m: number) => bill([straight([-1, 0, -2 + R + m], [1, 0, -2 + R + m])], { surface: 0.3 }).surfaceM;
    expect(over(0.04)).toBe(0);
    expect(over(0.125)).toBeCloseTo(2 * 0.3 * 0.5, 4);
    expect(over(0.3)).toBeCloseTo(2 * 0.3, 4);
    expect(over(1)).toBeCloseTo(2 * 0.3, 9);
  });

  it('for hanging free: nothing along a run that lies there, nor along a face of 400 mm', () => {
    const beside: CapsuleSolid = {
      type: 'capsule',
      id: 'o/000',
      owner: 'o',
      label: 'o',
      layer: 'run',
      from: [-2, 0, 0.05],
      to: [2, 0, 0.05],
      radius: 0.01,
    };
    const hose = [straight([-1, 0, 0], [1, 0, 0])];
    expect(bill(hose, { surface: 0.3 }, { runsIn: () => [beside] }).surfaceM).toBeCloseTo(0, 9);
    const tank = plainBox('s', [0, 0, -0.24], [1.5, 0.2, 0.2]);
    expect(bill(hose, { surface: 0.3 }, { thingsIn: () => [tank] }).surfaceM).toBeCloseTo(0, 9);
  });

  it('over open electrics: their length, and the drip line of 300 mm that fades on both sides', () => {
    const zones = zonesAbout('battery');
    const pays = (z: number) =>
      bill([straight([-2, 0, z], [2, 0, z])], { zones: { electrics: 2 } }, { zonesIn: () => zones }).electricsM;
    expect(pays(1)).toBeCloseTo(2 * (0.4 + 2 * R + 0.3), 3);
    expect(pays(0)).toBeCloseTo(2 * (0.4 + 2 * R + 0.3), 3);
    expect(pays(-0.25)).toBe(0);
    const sealed = zonesAbout('battery', { electric: { dripProof: 'sealed' } });
    expect(sealed).toEqual([]);
  });

  it('near heat and near a compass: by how much of the distance is missing; of heat 20 mm more is kept', () => {
    for (const [kind, zone, field, endsM] of [
      ['engine', 'heat', 'heatM', 0.52],
      ['compass', 'compass', 'compassM', 0.5],
    ] as const) {
      const about = zone === 'heat' ? 'hot' : 'magnetic';
      const zones = zonesAbout(kind, {
        shape: { type: 'box', sizeM: [4, 0.4, 0.4] },
        zones: { z: { kind: about, radiusM: 0.5 } },
      });
      const pays = (away: number, standsC = 20) =>
        bill(
          [straight([-1, 0, 0.2 + R + away], [1, 0, 0.2 + R + away])],
          { zones: { [zone]: 1.5 }, standsC },
          { zonesIn: () => zones },
        )[field];
      expect(pays(0.1)).toBeCloseTo(2 * 1.5 * (1 - 0.1 / endsM), 6);
      expect(pays(0.4)).toBeCloseTo(2 * 1.5 * (1 - 0.4 / endsM), 6);
      expect(pays(endsM)).toBeCloseTo(0, 9);
      if (zone === 'heat') expect(pays(0.1, 90)).toBe(0);
    }
  });

  it('nothing for the zones of the things that it ends on', () => {
    const zones = zonesAbout('engine');
    const hose = [straight([-2, 0, 0.25], [2, 0, 0.25])];
    const wish = { zones: { heat: 1 } };
    expect(bill(hose, wish, { zonesIn: () => zones }).heatM).toBeGreaterThan(0.3);
    expect(bill(hose, { ...wish, ownThings: ['t'] }, { zonesIn: () => zones }).heatM).toBe(0);
  });

  it('in stowage for every metre, under feet for 400 mm and what fades about them', () => {
    const rooms = read.ok ? read.boat.compartments : {};
    const stowage = zonesOfRooms(
      { hold: { ...(rooms.hold as NonNullable<typeof rooms.hold>), stowage: true } },
      {},
      hold,
    );
    const hose = [straight([-2, 0, 0], [2, 0, 0])];
    expect(bill(hose, { zones: { stowage: 0.3 } }, { zonesIn: () => stowage }).stowageM).toBeCloseTo(4 * 0.3, 9);
    const step = { name: 'Step', at: [0, 0, -0.1] as [number, number, number], posture: 'stand' as const };
    const feet = zonesOfRooms({}, { step }, hold);
    expect(bill(hose, { zones: { feet: 1 } }, { zonesIn: () => feet }).feetM).toBeCloseTo(0.4 + 2 * R + 0.1, 3);
  });

  it('in room for service: half a metre for a metre that lies 100 mm deep or more', () => {
    const room = { ...plainBox('s', [0, 0, 0], [0.5, 0.5, 0.5]), layer: 'serviceKeepOut' as const };
    const pays = bill([straight([-2, 0, 0], [2, 0, 0])], { service: 0.5 }, { thingsIn: () => [room] }).serviceM;
    expect(pays).toBeCloseTo(0.5 * (1 + 2 * R - 0.1), 3);
  });

  it('beside a cable of the other kind by how near it is, and not beside its own kind', () => {
    const cable = (carries: 'power' | 'signal'): CapsuleSolid => ({
      type: 'capsule',
      id: 'o/000',
      owner: 'o',
      label: 'o',
      layer: 'run',
      from: [-2, 0, 0],
      to: [2, 0, 0],
      radius: 0.01,
      carries,
    });
    const beside = (carries: 'power' | 'signal', gap: number) =>
      bill(
        [straight([-1, 0.01 + R + gap, 0], [1, 0.01 + R + gap, 0])],
        { apart: 0.4, carries: 'signal' },
        { runsIn: () => [cable(carries)] },
      ).apartM;
    // Nothing but 20 mm farther off than the 100 that are judged.
    expect(beside('power', 0.025)).toBeCloseTo(2 * 0.4 * (1 - 0.025 / 0.12), 6);
    expect(beside('power', 0.12)).toBeCloseTo(0, 9);
    expect(beside('signal', 0.025)).toBe(0);
  });

  it('for a drain that does not fall 2 in 100, and for what a loop lacks in height', () => {
    const fall = (rise: number) => bill([straight([-1, 0, 0], [1, 0, rise])], { fall: 3 }).fallM;
    expect(fall(0)).toBeCloseTo(3 * 0.04, 9);
    expect(fall(-0.04)).toBeCloseTo(0, 9);
    expect(fall(0.1)).toBeCloseTo(3 * 0.14, 9);
    const rise = (toM: number) => bill([straight([-1, 0, 0], [1, 0, 0.3])], { rise: { toM, price: 5 } }).riseM;
    expect(rise(0.5)).toBeCloseTo(5 * 0.2, 9);
    expect(rise(0.3)).toBeCloseTo(0, 9);
  });

  it('nothing without wishes', () => {
    const zones = [...zonesAbout('battery'), ...zonesAbout('engine')];
    const found = bill([straight([-2, 0, 0.3], [2, 0, 0.3])], {}, { zonesIn: () => zones });
    expect(COST_FIELDS.filter((field) => (found[field] ?? 0) !== 0)).toEqual([]);
  });
});
