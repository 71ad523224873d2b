import { directionInBoat, unit } from '../../base/vec';
import type { GenericSet, LineDraft } from '../../boat/catalogue/generic-set';
import type { Dimensions } from '../../shape/form/dimensions';
import type { Interior } from '../../shape/form/interior';
import { type Arranger, type Lead, leadEnd, type Near, type Wish } from './arrange';
import { type Fixtures, lead, roomsFor } from './rooms-and-leads';
import { REACH_M } from './usual-fixtures';

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

/** What of the boat the places of a set go by. */
export type SetHull = Pick<Dimensions, 'form' | 'lengthM' | 'midFreeboardM'>;
export type SetInterior = Pick<Interior, 'compartments' | 'openings' | 'soleZ'>;

/** Places the parts of a set one after another, each near what it is joined to. */
export function putSet(
  arranger: Arranger,
  { parts, lines }: GenericSet,
  fixtures: Fixtures,
  d: SetHull,
  interior: SetInterior,
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
  readonly d: SetHull;
  readonly interior: SetInterior;
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
function sightRooms(interior: SetInterior, rooms: Record<string, number>): Record<string, number> {
  const fronts = new Set(
    Object.values(interior.openings)
      .filter(({ normal, to }) => Math.abs(normal[2]) < 0.5 && interior.compartments[to ?? '']?.kind === 'cabin')
      .map(({ compartment }) => compartment),
  );
  return Object.fromEntries(Object.entries(rooms).map(([id, cost]) => [id, fronts.has(id) ? cost : cost + 3]));
}
