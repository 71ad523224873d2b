import { directionInBoat, type Pose, unit, type Vec3 } from '../../base/vec';
import { FIXTURE_TEMPLATES } from '../../boat/catalogue/fixture-templates';
import { genericSet, type LineDraft, type SetSize } from '../../boat/catalogue/generic-set';
import { LINE_KINDS } from '../../boat/catalogue/line-kinds';
import { boxOf, partOf } from '../../boat/catalogue/templates';
import { SET_PUMPS } from '../../boat/kinds';
import type { Problem } from '../../boat/problem';
import { problem } from '../../boat/problem';
import { checkBoat } from '../../boat/read';
import { type Boat, boatSchema, FORMAT, type Hull, SCHEMA_VERSION, type Thing } from '../../boat/schema/boat';
import type { Dimensions, FormInput } from '../../shape/form/dimensions';
import { hullOfForm } from '../../shape/form/hull-of-form';
import {
  type Interior,
  interiorOf,
  type MeasuredLocker,
  siteOf,
  soleRange,
  usualSoleZ,
} from '../../shape/form/interior';
import { hullSurface } from '../../shape/hull/surface';
import type { HullSurface } from '../../shape/hull/types';
import { deriveLayout } from '../../shape/layout/derive';
import { run } from '../run-stages';
import { sourceOf } from '../source';
import { Store } from '../store';
import { Arranger, type Lead, leadEnd, type Near, type Wish, type Yard } from './arrange';

/** Everything that the ten-minute door asks. What is left out is guessed. */
export interface FirstBoatInput extends FormInput {
  readonly name?: string | undefined;
  /** Height of the cabin sole over the water, metres; negative below it. */
  readonly soleZ?: number | undefined;
  readonly setSize: SetSize;
  readonly lockers: readonly MeasuredLocker[];
  /** Which of the usual fixtures are aboard. */
  readonly fixtures: Readonly<Record<UsualFixture, boolean>>;
}

export const USUAL_FIXTURES = ['engine', 'intake', 'battery', 'waterTank', 'sink', 'freshPump'] as const;
export type UsualFixture = (typeof USUAL_FIXTURES)[number];

export type Shell =
  | {
      readonly ok: true;
      readonly hull: Hull;
      readonly surface: HullSurface;
      readonly dimensions: Dimensions;
      readonly interior: Interior;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type FirstBoat =
  | { readonly ok: true; readonly boat: Boat; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Hull and divided interior: quick enough to be drawn while numbers are typed. */
export function shellOf(input: FirstBoatInput): Shell {
  const made = hullOfForm(input);
  if (!made.ok) return made;
  const surface = hullSurface(made.hull);
  const [least, most] = soleRange(surface, made.dimensions);
  const soleZ = input.soleZ ?? Math.min(most, Math.max(least, usualSoleZ(surface, made.dimensions)));
  if (!(soleZ >= least && soleZ <= most))
    return {
      ok: false,
      problems: [problem(['soleZ'], soleZ, `in this hull it must be from ${least} to ${most} m above the water`)],
    };
  const divided = interiorOf(siteOf(made.hull, surface, made.dimensions, soleZ), input.lockers);
  if (!divided.ok) return divided;
  return {
    ok: true,
    hull: made.hull,
    surface,
    dimensions: made.dimensions,
    interior: divided.interior,
    notes: made.notes,
  };
}

const ARRANGEMENT = 'first';
/** Room for a bend beyond its least radius, in the order in which it is tried: too little blocks hoses, too much scatters the set. */
const BEND_ROOMS = [1.35, 1.8, 1.1] as const;
/** Share of blocked lines with which an arrangement is good enough. */
const FEW_BLOCKED = 0.06;
/** Handles are kept this near to an opening: less than an arm, so that a guess about either does not put them out of reach. */
const REACH_M = 0.48;

/**
 * A whole boat from a few numbers: hull, interior, the usual fixtures and a generic set in a first arrangement. Everything that
 * was not measured is graded guessed, so that hardly a verdict is clean before something is measured.
 */
export function firstBoat(input: FirstBoatInput): FirstBoat {
  const shell = shellOf(input);
  if (!shell.ok) return shell;
  const { hull, surface, interior, dimensions: d } = shell;
  const drafted = boatSchema.parse({
    format: FORMAT,
    schemaVersion: SCHEMA_VERSION,
    name: input.name?.trim() || FORM_NAMES[d.form],
    notes: 'Made from main dimensions. What is graded guessed was not measured.',
    hull,
    weights: { displacementKg: d.displacementKg },
    compartments: interior.compartments,
    openings: interior.openings,
    panels: interior.panels,
    standingPlaces: interior.standingPlaces,
    runStates: {
      anchored: { name: 'At anchor', use: 'anchored', heelDeg: 3 },
      motoring: { name: 'Motoring', use: 'motoring', heelDeg: 5 },
    },
  });
  const layout = deriveLayout({
    compartments: drafted.compartments,
    panels: drafted.panels,
    newHoles: {},
    newHoleCostM: drafted.newHoleCostM,
  });
  const yard = { layout, hull: surface, openings: drafted.openings, rooms: interior.rooms };
  let best: { readonly boat: Boat; readonly blocked: number } | null = null;
  for (const bendRoom of BEND_ROOMS) {
    const checked = checkBoat(JSON.parse(JSON.stringify(arranged(drafted, shell, input, yard, bendRoom))));
    if (!checked.ok) return { ok: false, problems: checked.problems };
    const blocked = blockedLines(checked.boat);
    if (!best || blocked < best.blocked) best = { boat: checked.boat, blocked };
    if (blocked <= FEW_BLOCKED * Object.keys(checked.boat.lines).length) break;
  }
  if (!best) throw new Error('first boat: expected an arrangement to be tried');
  return { ok: true, boat: best.boat, notes: shell.notes };
}

/** The boat with its fixtures and a set in a first arrangement that leaves so much room for bends. */
function arranged(
  drafted: Boat,
  { dimensions: d, interior }: Extract<Shell, { ok: true }>,
  input: FirstBoatInput,
  yard: Yard,
  bendRoom: number,
): unknown {
  const arranger = new Arranger(yard);
  const fixtures = putFixtures(arranger, input, d, interior, bendRoom);
  const has = (id: string): string | null => (Object.hasOwn(fixtures, id) ? id : null);
  const set = genericSet(input.setSize, {
    intake: has('intake'),
    bank: has('house-bank'),
    tank: has('water-tank'),
    freshPump: has('fresh-pump'),
  });
  putSet(arranger, set, fixtures, d, interior, bendRoom);
  const places = Object.fromEntries(
    Object.keys(set.parts).flatMap((id) => (arranger.places[id] ? [[id, { ...arranger.places[id] }]] : [])),
  );
  return {
    ...drafted,
    fixtures,
    parts: set.parts,
    lines: set.lines,
    arrangements: { [ARRANGEMENT]: { name: 'First guess', places } },
    currentArrangement: ARRANGEMENT,
    operatingStates: {
      making: {
        name: 'Making water',
        valves: { 'service-valve': 'sea', 'brine-out': 'open', ...(has('intake') ? { intake: 'open' } : {}) },
        running: Object.keys(set.parts).filter((id) => SET_PUMPS.has(set.parts[id]?.kind ?? '')),
      },
    },
  };
}

/** Lines that find no way in an arrangement. */
function blockedLines(boat: Boat): number {
  const store = new Store(sourceOf(boat));
  return Object.keys(boat.lines).filter((id) => store.read(run, id).status === 'blocked').length;
}

const FORM_NAMES: Readonly<Record<Dimensions['form'], string>> = {
  longKeel: 'Long-keeled boat',
  finKeel: 'Fin-keeled boat',
  lightDisplacement: 'Light-displacement boat',
  motorHull: 'Motor boat',
  catamaran: 'Catamaran',
};

type Fixtures = Record<string, Thing & { pose: Pose }>;

/** Kinds of compartments that take equipment, with what it costs (metres of hose) to be there. */
const ROOM_COST: Readonly<Partial<Record<string, number>>> = {
  locker: 0,
  void: 0.2,
  cockpitLocker: 0.5,
  lazarette: 1,
  engineSpace: 2,
};

/** Rooms of the given kinds; of a catamaran those of the starboard hull, where the set is: no line leaves a hull. */
function roomsFor(
  interior: Interior,
  d: Dimensions,
  costs: Readonly<Partial<Record<string, number>>> = ROOM_COST,
): Record<string, number> {
  const rooms: Record<string, number> = {};
  for (const [id, { kind }] of Object.entries(interior.compartments)) {
    const cost = costs[kind];
    if (cost === undefined || (d.form === 'catamaran' && !id.startsWith('stbd-'))) continue;
    rooms[id] = cost;
  }
  return rooms;
}

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

function putFixtures(
  arranger: Arranger,
  input: FirstBoatInput,
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
  const { fixtures: wanted } = input;
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

/** Straight length and outside diameter that a line of the catalogue needs before a port: its rigid end and one bend. */
function lead(kind: string, line: string, bendRoom: number): Lead {
  const found = LINE_KINDS[kind];
  if (!found) throw new Error(`first boat: expected a line kind ${kind}`);
  const radius = found.bendRadiusM + (found.radiusTo === 'inside' ? found.outsideM / 2 : 0);
  return {
    line,
    lengthM: (found.end?.rigidM ?? 0) + bendRoom * radius,
    outsideM: Math.max(found.outsideM, found.end?.diameterM ?? 0),
  };
}

/** Order in which parts are placed: large before small, each near what it is joined to. */
const ORDER = [
  'membrane',
  'membrane-2',
  'pump',
  'coarse',
  'fine',
  'strainer',
  'service-valve',
  'station',
  'brine-out',
  'carbon',
  'flush-valve',
  'fuse',
  'breaker',
  'tap',
] as const;

/** Weight of nearness by what flows: hoses of raw water and heavy cables should be short. */
const MEDIUM_WEIGHT: Readonly<Partial<Record<LineDraft['medium'], number>>> = {
  seaWater: 1,
  brine: 0.6,
  dcPower: 0.5,
  freshWater: 0.4,
  product: 0.25,
  signal: 0.1,
};

function putSet(
  arranger: Arranger,
  { parts, lines }: ReturnType<typeof genericSet>,
  fixtures: Fixtures,
  d: Dimensions,
  interior: Interior,
  bendRoom: number,
): void {
  const rooms = roomsFor(interior, d);
  const inSight = sightRooms(interior, rooms);
  const intakeAt = fixtures.intake?.pose.at ?? [0.42 * d.lengthM, 0, -0.3];
  for (const id of ORDER) {
    const part = parts[id];
    if (!part) continue;
    const near: Near[] = [];
    const leads: Record<string, Lead> = {};
    for (const [lineId, line] of Object.entries(lines)) {
      for (const [own, other] of [
        [line.from, line.to],
        [line.to, line.from],
      ] as const) {
        if (own.thing !== id) continue;
        const straight = lead(line.kind, lineId, bendRoom);
        leads[own.port] = straight;
        const thing = fixtures[other.thing] ?? parts[other.thing];
        const pose = fixtures[other.thing]?.pose ?? arranger.places[other.thing];
        if (!pose || !thing) continue;
        const at = leadEnd(thing, pose, other.port, { leads: { [other.port]: straight } });
        const way = directionInBoat(pose, unit(thing.ports[other.port]?.direction ?? [1, 0, 0]));
        near.push({ at, weight: MEDIUM_WEIGHT[line.medium] ?? 0.3, port: own.port, way });
      }
    }
    // Until its neighbours stand, a raw-water part keeps by the intake.
    if (near.length === 0 || id === 'membrane' || id === 'pump') near.push({ at: intakeAt, weight: 0.8 });
    arranger.place(id, part, { rooms, near, leads, ...ROLES[id]?.({ d, interior, rooms, inSight }) });
  }
}

interface Role {
  readonly d: Dimensions;
  readonly interior: Interior;
  readonly rooms: Record<string, number>;
  readonly inSight: Record<string, number>;
}

const ROLES: Readonly<Record<string, (role: Role) => Partial<Wish>>> = {
  pump: ({ interior }) => ({ height: { z: interior.soleZ, weight: 0.6 } }),
  strainer: ({ interior }) => ({ height: { z: interior.soleZ, weight: 0.3 } }),
  station: ({ inSight }) => ({ rooms: inSight }),
  tap: ({ inSight }) => ({ rooms: inSight }),
  'brine-out': ({ d, rooms }) => ({
    rooms,
    stand: 'skin',
    yaws: [0, 180],
    height: { z: 0.4 * d.midFreeboardM, weight: 3 },
    reachM: REACH_M,
  }),
};

/** Lockers whose front opens into a cabin: a panel there is seen and reached. */
function sightRooms(interior: Interior, rooms: Record<string, number>): Record<string, number> {
  const fronts = new Set(
    Object.values(interior.openings)
      .filter(({ normal, to }) => Math.abs(normal[2]) < 0.5 && interior.compartments[to ?? '']?.kind === 'cabin')
      .map(({ compartment }) => compartment),
  );
  return Object.fromEntries(Object.entries(rooms).map(([id, cost]) => [id, fronts.has(id) ? cost : cost + 3]));
}
