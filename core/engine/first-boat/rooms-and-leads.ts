import type { Pose } from '../../base/vec';
import { LINE_KINDS } from '../../boat/catalogue/line-kinds';
import type { Thing } from '../../boat/schema/boat';
import type { Dimensions } from '../../shape/form/dimensions';
import type { Interior } from '../../shape/form/interior';
import type { Lead } from './arrange';

export type Fixtures = Record<string, Thing & { pose: Pose }>;

/** Kinds of compartments that take equipment, with what it costs (metres of hose) to be there. */
const ROOM_COST: Readonly<Partial<Record<string, number>>> = {
  locker: 0,
  void: 0.2,
  cockpitLocker: 0.5,
  lazarette: 1,
  engineSpace: 2,
};

/** Rooms of the given kinds; of a catamaran those of the starboard hull, where the set is: no line leaves a hull. */
export function roomsFor(
  interior: Pick<Interior, 'compartments'>,
  d: Pick<Dimensions, 'form'>,
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

/** Straight length and outside diameter that a line of the catalogue needs before a port: its rigid end and one bend. */
export function lead(kind: string, line: string, bendRoom: number): Lead {
  const found = LINE_KINDS[kind];
  if (!found) throw new Error(`first boat: expected a line kind ${kind}`);
  const radius = found.bendRadiusM + (found.radiusTo === 'inside' ? found.outsideM / 2 : 0);
  return {
    line,
    lengthM: (found.end?.rigidM ?? 0) + (found.straightM ?? 0) + bendRoom * radius,
    outsideM: Math.max(found.outsideM, found.end?.diameterM ?? 0),
    isWet: found.what !== 'cable',
  };
}
