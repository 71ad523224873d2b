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

/** How high over their knees the shoulder of somebody who kneels can be, bent down and upright, metres. From memory. */
const LOW_M = 0.2;
const HIGH_M = 0.7;
/** Places are tried this far from one another, metres. */
const STEP_M = 0.1;
/** Points are looked at this far inside the room, so that what stands on the floor of a compartment is in it. */
const WITHIN_M = 0.005;
/** Half the thickness of a trunk. */
const TRUNK_M = 0.2;

/**
 * How far a point is at least from where the shoulder of somebody can be who kneels in the compartment, metres; null where nobody can kneel
 * within `reachM` of it. The room keeps within compartment and hull, and the trunk clear of the things in the pack.
 */
export function fromKneeling(
  point: Vec3,
  compartment: string,
  room: KneelingRoom,
  reachM: number,
  { layout, hull, things }: { readonly layout: Layout; readonly hull: HullSurface | null; readonly things: SolidPack },
): number | null {
  const cells = cellsIn(layout, compartment);
  if (cells.length === 0) return null;
  const lowM = Math.min(...cells.map(({ low }) => low[2]));
  const highM = Math.max(...cells.map(({ high }) => high[2])) - room.highM;
  const isFree = (at: Vec3): boolean => layout.compartmentAt(at) === compartment && (hull?.contains(at) ?? true);
  const fits = (x: number, y: number, z: number, halfX: number, halfY: number): boolean =>
    [0, -1, 1].every((i) =>
      (i === 0 ? [0] : [-1, 1]).every((j) =>
        [WITHIN_M, room.highM - WITHIN_M].every((up) => isFree([x + i * halfX, y + j * halfY, z + up])),
      ),
    );
  const isClear = (x: number, y: number, z: number): boolean => {
    for (let k = 0; k < things.size; k += 1)
      if (things.distance(k, x, y, z + LOW_M + TRUNK_M / 4, x, y, z + room.highM - TRUNK_M, TRUNK_M) < TRUNK_M)
        return false;
    return true;
  };
  const [halfWide, halfLong] = [room.wideM / 2 - WITHIN_M, room.longM / 2 - WITHIN_M];
  let best: number | null = null;
  const steps = Math.floor(reachM / STEP_M);
  for (let i = -steps; i <= steps; i += 1)
    for (let j = -steps; j <= steps; j += 1) {
      const [x, y] = [point[0] + i * STEP_M, point[1] + j * STEP_M];
      // From the floor up: the first height at which the room fits is where one kneels.
      for (let z = lowM; z <= highM + 1e-9; z += STEP_M) {
        if (!fits(x, y, z, halfLong, halfWide) && !fits(x, y, z, halfWide, halfLong)) continue;
        const shoulder = Math.max(z + LOW_M, Math.min(z + HIGH_M, point[2]));
        const awayM = distance(point, [x, y, shoulder]);
        if (awayM <= reachM && (best === null || awayM < best) && isClear(x, y, z)) best = awayM;
        break;
      }
    }
  return best;
}
