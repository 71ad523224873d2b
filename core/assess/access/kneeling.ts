import { distance, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { cellsIn } from '../../shape/layout/room';
import type { Layout } from '../../shape/layout/types';
import type { SolidPack } from '../../shape/space/kernel';

/** Room that somebody who kneels takes, metres. */
export interface KneelingRoom {
  readonly wideM: number;
  readonly longM: number;
  readonly highM: number;
}

/** Room to kneel. Common practice, no source. */
export const KNEELING_ROOM: KneelingRoom = { wideM: 0.45, longM: 0.6, highM: 0.8 };

/** How high over their knees the shoulder of somebody who kneels can be, bent down and upright, metres. From memory. */
const LOW_M = 0.2;
const HIGH_M = 0.7;
/** Places are tried this far from one another, metres. */
export const KNEELING_STEP_M = 0.1;
/** Points are looked at this far inside the room, so that what stands on the floor of a compartment is in it. */
const WITHIN_M = 0.005;
/** Half the thickness of a trunk. */
const TRUNK_M = 0.2;

/** What bounds the room of somebody who kneels. */
export interface KneelingBounds {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
}

/**
 * Places of knees in a compartment, a step apart about a middle: the lowest height at each at which the room keeps within compartment and
 * hull, one way round or the other.
 */
export function kneelingPlaces(
  middle: Vec3,
  aroundM: number,
  compartment: string,
  room: KneelingRoom,
  { layout, hull }: KneelingBounds,
): readonly Vec3[] {
  const cells = cellsIn(layout, compartment);
  if (cells.length === 0) return [];
  const lowM = Math.min(...cells.map(({ low }) => low[2]));
  const highM = Math.max(...cells.map(({ high }) => high[2])) - room.highM;
  const isFree = (at: Vec3): boolean => layout.compartmentAt(at) === compartment && (hull?.contains(at) ?? true);
  const fits = (x: number, y: number, z: number, halfX: number, halfY: number): boolean =>
    [0, -1, 1].every((i) =>
      (i === 0 ? [0] : [-1, 1]).every((j) =>
        [WITHIN_M, room.highM - WITHIN_M].every((up) => isFree([x + i * halfX, y + j * halfY, z + up])),
      ),
    );
  const [halfWide, halfLong] = [room.wideM / 2 - WITHIN_M, room.longM / 2 - WITHIN_M];
  const places: Vec3[] = [];
  const steps = Math.floor(aroundM / KNEELING_STEP_M);
  for (let i = -steps; i <= steps; i += 1)
    for (let j = -steps; j <= steps; j += 1) {
      const [x, y] = [middle[0] + i * KNEELING_STEP_M, middle[1] + j * KNEELING_STEP_M];
      // From the floor up: the first height at which the room fits is where one kneels.
      for (let z = lowM; z <= highM + 1e-9; z += KNEELING_STEP_M) {
        if (!fits(x, y, z, halfLong, halfWide) && !fits(x, y, z, halfWide, halfLong)) continue;
        places.push([x, y, z]);
        break;
      }
    }
  return places;
}

/** Whether the trunk of somebody who kneels there is clear of things. */
export function isKneelingClear([x, y, z]: Vec3, room: KneelingRoom, things: SolidPack): boolean {
  const [lowM, highM] = [z + LOW_M + TRUNK_M / 4, z + room.highM - TRUNK_M];
  for (let k = 0; k < things.size; k += 1)
    if (things.distance(k, x, y, lowM, x, y, highM, TRUNK_M) < TRUNK_M) return false;
  return true;
}

/**
 * How far a point is at least from where the shoulder of somebody can be who kneels in the compartment, metres; null where nobody can kneel
 * within `reachM` of it. The room keeps within compartment and hull, and the trunk clear of the things in the pack.
 */
export function fromKneeling(
  point: Vec3,
  compartment: string,
  room: KneelingRoom,
  reachM: number,
  { things, ...bounds }: KneelingBounds & { readonly things: SolidPack },
): number | null {
  let best: number | null = null;
  for (const place of kneelingPlaces(point, reachM, compartment, room, bounds)) {
    const shoulder = Math.max(place[2] + LOW_M, Math.min(place[2] + HIGH_M, point[2]));
    const awayM = distance(point, [place[0], place[1], shoulder]);
    if (awayM <= reachM && (best === null || awayM < best) && isKneelingClear(place, room, things)) best = awayM;
  }
  return best;
}
