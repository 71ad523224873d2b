import { type Pose, pointInBoat, scale } from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { heightAbove } from '../../shape/hull/attitude';
import type { WaterPlane } from '../../shape/hull/types';
import type { Solid } from '../../shape/space/solids';
import { leastAlong } from '../../shape/space/things';

/** A thing in its place; without a solid it is soft, and its middle counts. */
export interface Standing {
  readonly thing: Pick<Thing, 'crestAt'>;
  readonly pose: Pose;
  readonly solid: Solid | null;
}

/** Height of the crest of a vented loop above the water, metres: where the boat file says, else the highest point of its envelope. */
export function loopHeight({ thing, pose, solid }: Standing, water: WaterPlane): number {
  if (thing.crestAt) return heightAbove(water, pointInBoat(pose, thing.crestAt));
  return solid ? -leastAlong(solid, scale(water.up, -1)) - water.levelM : heightAbove(water, pose.at);
}
