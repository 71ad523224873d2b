import type { Vec3 } from '../../base/vec';
import { FIXTURE_TEMPLATES } from '../../boat/catalogue/fixture-templates';
import { boxOf, partOf } from '../../boat/catalogue/templates';
import type { Thing } from '../../boat/schema/boat';
import type { Dimensions } from '../../shape/form/dimensions';
import type { Interior } from '../../shape/form/interior';
import type { Arranger, Wish } from './arrange';
import { type Fixtures, lead, roomsFor } from './rooms-and-leads';

export const USUAL_FIXTURES = ['engine', 'intake', 'battery', 'waterTank', 'sink', 'freshPump'] as const;
export type UsualFixture = (typeof USUAL_FIXTURES)[number];

/** Handles are kept this near to an opening: less than an arm, so that a guess about either does not put them out of reach. */
export const REACH_M = 0.48;

const aboard = (id: string, tag: string, more: Partial<Thing> = {}): Thing => {
  const template = FIXTURE_TEMPLATES.find((one) => one.id === id);
  if (!template) throw new Error(`first boat: expected a template ${id}`);
  return { ...partOf(template), tag, grade: 'guessed', ...more } as Thing;
};

/** Its tail turns level over the ball: there is seldom room for a hose that goes straight up. */
const intakeOf = (): Thing =>
  aboard('seacock-19', 'SC1', {
    name: 'Spare intake with seacock',
    ports: {
      out: {
        at: [-0.065, 0, 0.05],
        direction: [-1, 0, 0],
        medium: 'seaWater',
        role: 'both',
        boreM: 0.019,
        straightM: 0,
      },
    },
  });

/** Length, width, height in millimetres and litres of the tanks that are tried, largest first. */
const TANKS = [
  [1100, 500, 420, 200],
  [800, 400, 350, 100],
  [600, 350, 300, 55],
  [450, 300, 250, 30],
] as const;

/** Puts what is usually aboard where it usually stands; what finds no room is left out. */
export function putFixtures(
  arranger: Arranger,
  wanted: Readonly<Record<UsualFixture, boolean>>,
  d: Dimensions,
  interior: Interior,
  bendRoom: number,
): Fixtures {
  const L = d.lengthM;
  const side = d.form === 'catamaran' ? -(d.beamM - d.hullBeamM) / 2 : 0;
  const fixtures: Fixtures = {};
  const put = (id: string, thing: Thing, wish: Wish): boolean => {
    const pose = arranger.place(id, thing, wish);
    if (pose) fixtures[id] = { ...thing, pose };
    return pose !== null;
  };
  if (wanted.engine) {
    const engine = aboard('engine-30hp', 'EN1');
    const small = {
      ...engine,
      name: 'Diesel engine, small',
      shape: boxOf(600, 420, 480),
      massKg: 95,
      services: {},
      ports: {},
    } as Thing;
    const wish: Wish = {
      rooms: roomsFor(interior, d, { engineSpace: 0 }),
      near: [{ at: [0.28 * L, side, -0.2], weight: 1 }],
      stand: 'bottom',
      yaws: [0],
    };
    if (!put('engine', engine, wish)) put('engine', small, wish);
  }
  if (wanted.sink) {
    const sink = aboard('galley-sink', 'SK1');
    const small = { ...sink, shape: boxOf(300, 240, 150) };
    const wish: Wish = {
      rooms: named(interior, [
        'galley-locker',
        'stbd-outer-aft',
        'stbd-outer-fwd',
        'settee-port-fwd',
        'settee-port-all',
      ]),
      near: [{ at: [0.38 * L, side + (side === 0 ? 0.12 * d.beamM : 0), 0.5], weight: 1 }],
      stand: 'top',
    };
    if (!put('sink', sink, wish)) put('sink', small, wish);
  }
  if (wanted.intake)
    put('intake', intakeOf(), {
      rooms: roomsFor(interior, d, { locker: 0, void: 0.2, bilge: 0.6, cockpitLocker: 0.6, engineSpace: 0.8 }),
      near: [{ at: [0.42 * L, side - (side === 0 ? 0.2 * d.beamM : 0), -0.4], weight: 1 }],
      height: { z: -0.45, weight: 1 },
      stand: 'seabed',
      leads: { out: lead('hose-suction-19', 's1', bendRoom) },
      reachM: REACH_M,
    });
  if (wanted.waterTank) {
    const tank = aboard('tank-water-200', 'WT1');
    for (const [length, width, height, litres] of TANKS) {
      const scaled = sizedTank(tank, [length, width, height], litres);
      const done = put('water-tank', scaled, {
        rooms: roomsFor(interior, d, { locker: 0, void: 0 }),
        near: [{ at: [0.6 * L, side + (side === 0 ? 0.2 * d.beamM : 0), interior.soleZ], weight: 1 }],
        height: { z: interior.soleZ, weight: 0.5 },
        leads: { fill: lead('tube-product-6', 'w2', bendRoom) },
        yaws: [0, 180],
        least: 1,
      });
      if (done) break;
    }
  }
  if (wanted.battery)
    put('house-bank', aboard('battery-lithium', 'BA1'), {
      rooms: roomsFor(interior, d, { locker: 0, void: 0.2 }),
      near: [{ at: [0.5 * L, side - (side === 0 ? 0.15 * d.beamM : 0), interior.soleZ], weight: 1 }],
      height: { z: interior.soleZ, weight: 1 },
      leads: { posts: lead('cable-pair-25', 'l1', bendRoom) },
    });
  if (wanted.freshPump)
    put('fresh-pump', aboard('fresh-pump', 'FP1'), {
      rooms: roomsFor(interior, d, { locker: 0, void: 0.2 }),
      near: [{ at: fixtures['water-tank']?.pose.at ?? [0.45 * L, side, 0], weight: 1 }],
      leads: { out: lead('hose-fresh-13', 'f1', bendRoom) },
    });
  return fixtures;
}

const named = (interior: Interior, ids: readonly string[]): Record<string, number> =>
  Object.fromEntries(ids.filter((id) => Object.hasOwn(interior.compartments, id)).map((id, i) => [id, i]));

function sizedTank(tank: Thing, [length, width, height]: readonly [number, number, number], litres: number): Thing {
  const share: Vec3 = [length / 1100, width / 500, height / 420];
  const moved = (at: Vec3): [number, number, number] =>
    at.map((value, k) => Math.round(value * (share[k] ?? 1) * 1000) / 1000) as [number, number, number];
  return {
    ...tank,
    name: `Water tank ${litres} L`,
    shape: boxOf(length, width, height),
    massKg: litres + 8 + Math.round(litres * 0.06),
    liquidL: litres,
    ports: Object.fromEntries(Object.entries(tank.ports).map(([id, port]) => [id, { ...port, at: moved(port.at) }])),
    services: Object.fromEntries(Object.entries(tank.services).map(([id, one]) => [id, { ...one, at: moved(one.at) }])),
  } as Thing;
}
